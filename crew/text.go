package crew

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"knockon/say"
)

// WriteText writes a view as plain text, width characters wide.
func WriteText(w io.Writer, v *View, width int) error {
	s := sheet{say.NewPage(width)}
	s.Paragraph("", v.Heading)
	if v.Unanswered != "" {
		s.Paragraph("", v.Unanswered)
	}
	s.Paragraph("", v.Setting)
	s.Paragraph("", "Times are minutes and seconds from the failure. PF is the pilot flying, PM the pilot monitoring; a star marks what is done from memory.")
	s.alerts(v)
	s.lines(v)
	if len(v.Findings) > 0 {
		s.Head("Worth a look")
		for _, f := range v.Findings {
			s.Paragraph(s.lead(f.At.Clock), f.Text+".")
		}
	}
	s.Head("What comes of it")
	s.Paragraph("  without them  ", v.Without)
	s.Paragraph("  with the crew ", v.With)
	s.Gap()
	s.Paragraph("", v.Caution)
	_, err := io.WriteString(w, s.String())
	return err
}

type sheet struct{ *say.Page }

func (s sheet) lead(clock string) string { return fmt.Sprintf("%9s  ", clock) }

func (s sheet) alerts(v *View) {
	s.Head("What calls")
	if len(v.Alerts) == 0 {
		s.Paragraph("  ", "No alert comes.")
	}
	for _, a := range v.Alerts {
		s.Paragraph(s.lead(a.Given.Clock), fmt.Sprintf("%s %s: %s.", a.Level, say.Quoted(a.Message), a.Text))
	}
}

func (s sheet) lines(v *View) {
	s.Head("What the crew do")
	if len(v.Lines) == 0 {
		s.Paragraph("  ", "Nothing: no procedure is called for.")
	}
	last := ""
	for _, l := range v.Lines {
		if l.Procedure != last {
			s.Paragraph("  ", l.Title+" ("+l.From.Phase+")")
			last = l.Procedure
		}
		memory := " "
		if l.Memory {
			memory = "*"
		}
		lead := fmt.Sprintf("%s%-4s%s ", s.lead(l.From.Clock), l.By, memory)
		s.Paragraph(lead, s.what(l))
		if l.Because != "" {
			s.Paragraph(strings.Repeat(" ", utf8.RuneCountInString(lead)), "because: "+l.Because)
		}
	}
}

var whom = map[string]string{"cabin": "the cabin", "control": "air traffic control", "company": "the company"}

// Said is what a line says, and to whom.
func (l Spoken) Said() string {
	if l.Whom != "" {
		return "Tells " + whom[l.Whom] + ": " + l.Says
	}
	return l.Says
}

func (s sheet) what(l Spoken) string {
	text := l.Said()
	if l.Number != "" {
		text = l.Number + "  " + text
	}
	if l.Moves != "" {
		text += "  [" + l.Moves + " at " + l.To.Clock + "]"
	}
	if l.Found != "" {
		text += "  [" + l.Found + "]"
	}
	return text
}
