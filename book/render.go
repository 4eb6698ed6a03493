package book

import (
	"fmt"
	"io"
	"strings"
)

// Write prints diagnostics for a person: for each one severity and summary,
// place, the line with a mark under the fault, and what to do.
func (d Diagnostics) Write(w io.Writer) error {
	for i := range d {
		if i > 0 {
			if _, err := io.WriteString(w, "\n"); err != nil {
				return err
			}
		}
		if _, err := io.WriteString(w, d[i].String()); err != nil {
			return err
		}
	}
	return nil
}

// String gives one diagnostic as Write prints it.
func (d Diagnostic) String() string {
	var s strings.Builder
	fmt.Fprintf(&s, "%s: %s [%s]\n", d.Severity, d.Summary, d.Code)
	if d.Subject.Line > 0 {
		fmt.Fprintf(&s, "  %s\n", d.Subject.place())
		s.WriteString(d.snippet())
	}
	for _, o := range d.Others {
		fmt.Fprintf(&s, "  %s: %s\n", o.Note, o.Range.place())
	}
	if d.Detail != "" {
		fmt.Fprintf(&s, "  %s\n", d.Detail)
	}
	return s.String()
}

// place is file:line:column, without a file name for a typed text.
func (r Range) place() string {
	if r.File == "" {
		return fmt.Sprintf("%d:%d", r.Line, r.Column)
	}
	return r.String()
}

// snippet shows the line with carets under the subject.
func (d Diagnostic) snippet() string {
	if d.Line == "" {
		return ""
	}
	r := d.Subject
	before, marked := cutColumns(d.Line, r.Column-1)
	width := len([]rune(marked))
	if r.EndLine == r.Line {
		width = min(width, r.EndCol-r.Column)
	}
	number := fmt.Sprint(r.Line)
	return fmt.Sprintf("  %s | %s\n  %s | %s%s\n", number, d.Line, strings.Repeat(" ", len(number)), blanks(before), strings.Repeat("^", max(width, 1)))
}

// cutColumns splits a line after so many characters.
func cutColumns(line string, n int) (before, after string) {
	runes := []rune(line)
	n = min(max(n, 0), len(runes))
	return string(runes[:n]), string(runes[n:])
}

// blanks keeps tabs, so that the carets stand under what they mark.
func blanks(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\t' {
			return r
		}
		return ' '
	}, s)
}
