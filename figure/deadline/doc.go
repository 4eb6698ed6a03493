// Package deadline turns ways to save something into a picture as SVG text: the
// flight from its failure on, a bar for each way from the first to the last moment
// at which it works, its deadline as a clock, and what it costs.
//
// Invariant: a picture is a pure function of its input, and any input gives a
// sound picture: valid XML, no number that is not finite, no two texts over each
// other.
//
// Start reading at Line (input.go) and Line.Wide (draw.go).
package deadline
