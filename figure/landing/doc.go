// Package landing turns one landing, healthy and failed, into a picture as SVG
// text: the roll, which is speed against distance from the threshold, with what
// happens on the way, the runway's end and the margin.
//
// Invariant: a picture is a pure function of its input, and any input gives a
// sound picture: valid XML, no number that is not finite, no two texts over
// each other. A number that the input does not have is said to be missing.
//
// Start reading at Roll (input.go) and Roll.Wide (roll.go).
package landing
