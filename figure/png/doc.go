// Package png turns a picture of this program, as SVG text, into a PNG file.
//
// Invariant: the same SVG text and scale give the same bytes on every machine:
// the fonts are inside the program.
//
// Start reading at Write (png.go).
package png
