// Package airfield turns the two tables of the public-domain airport list
// (airports and runways, as CSV) into airfields with runways, and finds those
// near a place. A row with a senseless or missing number is left out with a
// message that names file, row and column; all other rows load. The same
// tables always give the same list and the same messages.
//
// Start reading at Read (read.go), then List.Near (near.go). Rows of cells are
// cut in rows.go.
//
// The list is for training and study, not for use in flight.
package airfield
