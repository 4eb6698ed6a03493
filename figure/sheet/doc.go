// Package sheet is what all pictures are drawn with: SVG text, the look (inks,
// sizes, hatchings), the width of words, and places for labels.
//
// Invariant: what it writes is valid XML without a number that is not finite,
// and the same calls give the same bytes.
//
// Start reading at Drawing (drawing.go).
package sheet
