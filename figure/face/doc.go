// Package face is the typeface of everything that the program shows: it turns
// the font files inside the program into letters, widths and web fonts, so that
// a page or a picture is the same on every machine.
//
// Invariant: what is measured here is what is served to browsers, set into
// pictures that stand alone, and drawn into PNG files: one file for each face.
// The fonts are a part of Source Serif 4 under the name Knockon Serif (licence
// in OFL.txt; make.py makes them).
//
// Start reading at Of; woff.go unpacks a file, embed.go gives it to pictures.
package face
