package book

import "fmt"

// Range is a place in a book's text. Lines and columns count from 1; columns
// count characters as a person sees them (grapheme clusters).
type Range struct {
	File              string
	Line, Column      int
	EndLine, EndCol   int
	Offset, EndOffset int // bytes from the start of the file
}

// String gives file:line:column.
func (r Range) String() string { return fmt.Sprintf("%s:%d:%d", r.File, r.Line, r.Column) }
