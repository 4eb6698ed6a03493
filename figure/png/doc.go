// Package png turns a picture of this program, as SVG text, into a PNG file. It
// draws the part of SVG that the pictures use, and says so when a picture asks
// for more.
//
// Invariant: nothing is left out silently, and the file does not depend on the
// machine's fonts: texts are set in the letters of package face. The same text and scale give the same
// bytes on one kind of processor; on another a shade may differ by its last bit.
//
// Start reading at Write (png.go). Elements are drawn in paint.go, lines get
// their width in stroke.go, letters become outlines in text.go. Shapes and
// transforms are read by package outline.
package png
