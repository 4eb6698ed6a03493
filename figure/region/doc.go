// Package region turns a present position and the airfields around it into a
// map as SVG text: what can be reached and landed on with the aircraft healthy
// and failed.
//
// Invariant: distance and bearing from the present position are true at every
// latitude (azimuthal equidistant projection of the WGS84 ellipsoid), north is up at the
// present position, and what an airfield is, is told by shape, not by colour.
//
// Start reading at Map (input.go) and Map.Wide (draw.go).
package region
