package dispatch

import (
	"fmt"
	"io"
	"strings"

	"knockon/book"
	"knockon/say"
)

// WriteText prints a view, a paragraph a line; whoever prints it folds it.
func WriteText(w io.Writer, v *View) error {
	t := &text{w: w}
	t.line("%s: %s", v.Title, v.Verdict)
	t.line("%s", v.Setting)
	for _, r := range v.Reasons {
		t.item("%s", r)
	}
	if !v.Goes {
		t.gap("%s %s", v.Looked, v.Command)
	}
	t.deferrals(v)
	t.breaks(v)
	t.away(v)
	if v.Goes {
		t.gap("%s", v.Looked)
	}
	for _, n := range v.NotKnown {
		t.gap("%s", n)
	}
	t.gap("%s", book.Caution)
	return t.err
}

// text prints lines until one cannot be written.
type text struct {
	w   io.Writer
	err error
}

func (t *text) line(format string, a ...any) {
	if t.err == nil && strings.TrimSpace(fmt.Sprintf(format, a...)) != "" {
		_, t.err = fmt.Fprintf(t.w, format+"\n", a...)
	}
}

func (t *text) item(format string, a ...any) { t.line("  "+format, a...) }

// gap prints a paragraph after an empty line.
func (t *text) gap(format string, a ...any) {
	if s := fmt.Sprintf(format, a...); s != "" && t.err == nil {
		_, t.err = fmt.Fprintf(t.w, "\n%s\n", s)
	}
}

func (t *text) deferrals(v *View) {
	if !v.Goes {
		return
	}
	t.gap("%s", v.Until)
	for _, c := range v.Conditions {
		t.item("%s", c)
	}
	for _, d := range v.Deferrals {
		t.gap("%s (category %s, %s)", d.Title, d.Category, d.Where)
		for _, x := range [][2]string{{"Crew: ", d.Crew}, {"Maintenance: ", d.Maintenance}, {"Only if: ", d.OnlyIf}, {"Source: ", d.Source}} {
			if x[1] != "" {
				t.item("%s%s", x[0], x[1])
			}
		}
	}
}

func (t *text) breaks(v *View) {
	t.gap("%s", v.Sound)
	if len(v.Breaks) > 0 {
		t.gap("Where the deferral breaks the principle that the next failure must be survivable")
	}
	for _, b := range v.Breaks {
		t.item("%s", strings.TrimSpace(b.Says+" "+b.Crew)+fmt.Sprintf(" (step %d)", b.Step))
	}
}

func (t *text) away(v *View) {
	if len(v.Already) > 0 {
		t.gap("Lost with nothing more failed")
	}
	for _, l := range v.Already {
		t.item("%s (%s): %s", l.Title, strings.ToLower(Head(l.Severity)), l.Says)
	}
	t.gap("%s", v.AwayLead)
	for _, s := range v.Severities() {
		t.line("%s", Head(s))
		for _, a := range v.Of(s) {
			t.item("%s: %s%s", a.Title, a.Says, say.Ahead(". ", a.Crew))
		}
	}
}
