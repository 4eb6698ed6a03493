package crew

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// WriteText writes a view as plain text, width characters wide.
func WriteText(w io.Writer, v *View, width int) error {
	s := &sheet{width: max(width, 40)}
	s.paragraph("", v.Heading)
	s.paragraph("", v.Setting)
	s.paragraph("", "Times are minutes and seconds from the failure. PF is the pilot flying, PM the pilot monitoring; a star marks what is done from memory.")
	s.alerts(v)
	s.lines(v)
	if len(v.Findings) > 0 {
		s.head("Worth a look")
		for _, f := range v.Findings {
			s.paragraph(s.lead(f.At.Clock), f.Text+".")
		}
	}
	s.head("What comes of it")
	s.paragraph("  without them  ", v.Without)
	s.paragraph("  with the crew ", v.With)
	fmt.Fprintln(s)
	s.paragraph("", v.Caution)
	_, err := io.WriteString(w, s.String())
	return err
}

type sheet struct {
	strings.Builder
	width int
}

func (s *sheet) head(text string) { fmt.Fprintf(s, "\n%s\n", strings.ToUpper(text)) }

func (s *sheet) lead(clock string) string { return fmt.Sprintf("%9s  ", clock) }

func (s *sheet) alerts(v *View) {
	s.head("What calls")
	if len(v.Alerts) == 0 {
		s.paragraph("  ", "No alert comes.")
	}
	for _, a := range v.Alerts {
		s.paragraph(s.lead(a.Given.Clock), fmt.Sprintf("%s %s: %s.", a.Level, a.Message, a.Text))
	}
}

func (s *sheet) lines(v *View) {
	s.head("What the crew do")
	if len(v.Lines) == 0 {
		s.paragraph("  ", "Nothing: no procedure is called for.")
	}
	last := ""
	for _, l := range v.Lines {
		if l.Procedure != last {
			s.paragraph("  ", l.Title+" ("+l.From.Phase+")")
			last = l.Procedure
		}
		memory := " "
		if l.Memory {
			memory = "*"
		}
		lead := fmt.Sprintf("%s%-4s%s ", s.lead(l.From.Clock), l.By, memory)
		s.paragraph(lead, s.what(l))
		if l.Because != "" {
			s.paragraph(strings.Repeat(" ", utf8.RuneCountInString(lead)), "because: "+l.Because)
		}
	}
}

func (s *sheet) what(l Spoken) string {
	text := l.Says
	if l.Number != "" {
		text = l.Number + "  " + text
	}
	if l.Moves != "" {
		text += "  [" + l.Moves + " at " + l.To.Clock + "]"
	}
	if l.Answer != None {
		text += "  " + string(l.Answer)
	}
	return text
}

// paragraph breaks text into lines, the first behind a lead, the others as far in.
func (s *sheet) paragraph(lead, text string) {
	in := utf8.RuneCountInString(lead)
	line, length := lead, in
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case length == in:
			line, length = line+word, length+n
		case length+1+n > s.width:
			fmt.Fprintln(s, line)
			line, length = strings.Repeat(" ", in)+word, in+n
		default:
			line, length = line+" "+word, length+1+n
		}
	}
	fmt.Fprintln(s, strings.TrimRight(line, " "))
}
