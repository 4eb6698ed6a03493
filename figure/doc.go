// Package figure turns ledgers and explanations into pictures as SVG text: the
// line (a flight with its failure, what is lost and what is said) and the
// chain (why a thing is lost).
//
// Invariant: a picture is a pure function of its input: the same input gives
// the same bytes. It stands alone (no style sheet, font file or script), reads
// without colour, and uses red and amber for warnings and cautions and for
// nothing else.
//
// Start reading at Line.SVG (line.go) and Chain.SVG (chain.go). LineOf and
// ChainOf make them from an answer; a caller that has other data fills the
// structs itself. The pictures of what a failure costs are in figure/landing,
// figure/region and figure/price; all are drawn with figure/sheet.
package figure
