package main

import (
	"bytes"
	"io"
	"os"
	"strconv"

	"golang.org/x/term"

	"knockon/say"
)

// usualWidth is what paragraphs are set in where no width is known.
const usualWidth = 100

// mostWidth is the longest line that is set.
const mostWidth = 10_000

// columns is how wide what is written to w may be: COLUMNS, or the terminal's
// width; 0 where there is no end, as in a file.
func columns(w io.Writer) int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		return max(n, say.LeastWidth)
	}
	if f, ok := w.(*os.File); ok {
		if n, _, err := term.GetSize(int(f.Fd())); err == nil && n > 0 {
			return max(n, say.LeastWidth)
		}
	}
	return 0
}

// width is what paragraphs are set in: as asked, or as there is room.
func (o *out) width(asked int) int {
	switch n := columns(o.stdout); {
	case asked > 0:
		return asked
	case n > 0:
		return min(n, usualWidth)
	}
	return usualWidth
}

// lay prints a text that has lines of its own, such as a table, and breaks those
// that are wider than the terminal.
func (o *out) lay(write func(io.Writer) error) error {
	var text bytes.Buffer
	if err := write(&text); err != nil {
		return err
	}
	_, err := io.WriteString(o.stdout, say.Fold(text.String(), columns(o.stdout)))
	return err
}

// roomy refuses a width in which nothing can be set.
func roomy(width int) error {
	if width == 0 {
		return nil
	}
	if width > mostWidth {
		return wrong("width", "%d is too many: give %d or fewer, such as --width %d", width, mostWidth, usualWidth)
	}
	return atLeast("width", width, say.LeastWidth, usualWidth)
}
