package book

import (
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"strings"
)

// Write prints diagnostics for a person: for each one severity and summary,
// place, the line with a mark under the fault, and what to do. The lines of
// further places are read from sources, the files that were loaded; nil will do
// where they are not at hand.
func (d Diagnostics) Write(w io.Writer, sources fs.FS) error {
	for i := range d {
		if i > 0 {
			if _, err := io.WriteString(w, "\n"); err != nil {
				return err
			}
		}
		if err := d[i].Write(w, sources); err != nil {
			return err
		}
	}
	return nil
}

// Write prints one diagnostic; see Diagnostics.Write.
func (d Diagnostic) Write(w io.Writer, sources fs.FS) error {
	var s strings.Builder
	fmt.Fprintf(&s, "%s: %s [%s]\n", d.Severity, d.Summary, d.Code)
	if d.Subject.Line > 0 {
		fmt.Fprintf(&s, "  %s\n", d.Subject.place())
		s.WriteString(snippet(d.Line, d.Subject))
	}
	for _, o := range d.Others {
		fmt.Fprintf(&s, "  %s: %s\n", o.Note, o.Range.place())
		s.WriteString(snippet(lineFromFile(sources, o.Range), o.Range))
	}
	if d.Detail != "" {
		fmt.Fprintf(&s, "  %s\n", d.Detail)
	}
	_, err := io.WriteString(w, s.String())
	return err
}

// diagnosticJSON is a diagnostic for a machine.
type diagnosticJSON struct {
	Severity string      `json:"severity"`
	Code     string      `json:"code"`
	Summary  string      `json:"summary"`
	Detail   string      `json:"detail"`
	File     string      `json:"file"` // "" for the whole book
	Line     int         `json:"line"`
	Column   int         `json:"column"`
	Others   []placeJSON `json:"others"`
}

type placeJSON struct {
	Note   string `json:"note"`
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
}

// MarshalJSON writes a diagnostic with stable names.
func (d Diagnostic) MarshalJSON() ([]byte, error) {
	v := diagnosticJSON{d.Severity.String(), d.Code, d.Summary, d.Detail, d.Subject.File, d.Subject.Line, d.Subject.Column, []placeJSON{}}
	for _, o := range d.Others {
		v.Others = append(v.Others, placeJSON{o.Note, o.Range.File, o.Range.Line, o.Range.Column})
	}
	return json.Marshal(v)
}

// String gives one diagnostic on one line: place, severity, summary and detail.
func (d Diagnostic) String() string {
	place := ""
	if d.Subject.Line > 0 {
		place = d.Subject.place() + ": "
	}
	return fmt.Sprintf("%s%s: %s. %s [%s]", place, d.Severity, d.Summary, d.Detail, d.Code)
}

// lineFromFile gives the line in which r begins, "" if it cannot be read.
func lineFromFile(sources fs.FS, r Range) string {
	if sources == nil || r.File == "" {
		return ""
	}
	text, err := readFile(sources, r.File)
	if err != nil {
		return ""
	}
	return lines{r.File: text}.of(r)
}

// place is file:line:column, without a file name for a typed text.
func (r Range) place() string {
	if r.File == "" {
		return fmt.Sprintf("%d:%d", r.Line, r.Column)
	}
	return r.String()
}

// mostShown is how much of a line is shown around the fault.
const mostShown = 100

// snippet shows a line with carets under a range.
func snippet(line string, r Range) string {
	if line == "" {
		return ""
	}
	before, marked := cutColumns(line, r.Column-1)
	width := len([]rune(marked))
	if r.EndLine == r.Line {
		width = min(width, r.EndCol-r.Column)
	}
	if n := len([]rune(before)); n > mostShown {
		_, before = cutColumns(before, n-mostShown/2)
		before = "…" + before
	}
	if len([]rune(marked)) > mostShown {
		marked, _ = cutColumns(marked, mostShown)
		marked += "…"
		width = min(width, mostShown)
	}
	number := fmt.Sprint(r.Line)
	return fmt.Sprintf("  %s | %s%s\n  %s | %s%s\n", number, before, marked,
		strings.Repeat(" ", len(number)), blanks(before), strings.Repeat("^", max(width, 1)))
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
