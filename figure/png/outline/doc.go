// Package outline turns the shapes of SVG (paths, rectangles, ellipses, lists of
// points) into lines and cubic curves, and its transforms into maps of the
// plane. Every number in an outline that it reads is finite and within bounds.
//
// Start reading at Outline (outline.go) and Parse (path.go); Map is in map.go.
package outline
