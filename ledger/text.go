package ledger

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// Widths of the text form: the least it is set in, and the margin that holds
// the clock.
const (
	leastWidth = 40
	margin     = 10
)

// mostSpans is how many stretches of one row the text form says; the view has all.
const mostSpans = 3

// WriteText writes the ledger as a page of plain text, width characters wide.
func WriteText(w io.Writer, l *Ledger, width int) error {
	p := page{width: max(width, leastWidth)}
	v := l.View()
	p.paragraph("", v.Heading)
	p.paragraph("", v.Setting)
	p.gap()
	p.paragraph("", v.Summary)
	if v.Broken != "" {
		p.paragraph("", v.Broken)
	}
	for _, g := range v.Groups {
		p.group(g)
	}
	p.gap()
	p.paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

// page is text that is being set.
type page struct {
	strings.Builder
	width int
}

func (p *page) gap() { p.WriteByte('\n') }

// paragraph breaks text into lines, the first behind a lead, the others as far in.
func (p *page) paragraph(lead, text string) {
	in := utf8.RuneCountInString(lead)
	line := lead
	length := in
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case length == in:
			line += word
			length += n
		case length+1+n > p.width:
			fmt.Fprintln(p, line)
			line, length = strings.Repeat(" ", in)+word, in+n
		default:
			line += " " + word
			length += 1 + n
		}
	}
	fmt.Fprintln(p, strings.TrimRight(line, " "))
}

func (p *page) group(g Group) {
	if len(g.Rows) == 0 && g.ID != GroupNotTold {
		return
	}
	p.gap()
	fmt.Fprintln(p, strings.ToUpper(g.Title))
	if len(g.Rows) == 0 {
		p.paragraph(strings.Repeat(" ", margin), g.None)
	}
	for _, r := range g.Rows {
		p.row(r)
	}
}

// row sets a title with its clock on the left and its rank on the right, and
// under it what there is to say.
func (p *page) row(r Row) {
	clock := ""
	if len(r.Spans) > 0 {
		clock = r.Spans[0].From.Clock
	}
	p.headed(lead(clock), r.Title, r.Rank)
	if r.Text != "" {
		p.paragraph(lead(""), r.Text)
	}
	for i, s := range r.Spans {
		if i == mostSpans {
			p.paragraph(lead(""), fmt.Sprintf("And %d more times.", len(r.Spans)-i))
			break
		}
		p.span(i, s)
	}
}

func (p *page) span(i int, s RowSpan) {
	text := s.Text
	if i == 0 {
		p.paragraph(lead(""), phrase(s.From.PhaseIs, text))
		return
	}
	p.paragraph(lead(s.From.Clock), phrase(s.From.PhaseIs, text))
}

// phrase puts the phase before what happens in it.
func phrase(phase, text string) string {
	if phase == "" {
		return text
	}
	return phase + ". " + text
}

// lead is the left margin with a clock in it.
func lead(clock string) string {
	return strings.Repeat(" ", max(0, margin-2-utf8.RuneCountInString(clock))) + clock + "  "
}

// headed sets a title with something at the right edge of its line.
func (p *page) headed(lead, title, right string) {
	room := p.width - utf8.RuneCountInString(lead) - utf8.RuneCountInString(title) - utf8.RuneCountInString(right)
	if right == "" || room < 2 {
		p.paragraph(lead, title)
		if right != "" {
			p.paragraph(strings.Repeat(" ", margin), right)
		}
		return
	}
	fmt.Fprintln(p, lead+title+strings.Repeat(" ", room)+right)
}
