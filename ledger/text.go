package ledger

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// leastWidth is the least width that the text form is set in.
const leastWidth = 40

// mostSpans is how many stretches of one row the text form says; the view has all.
const mostSpans = 3

// WriteText writes the ledger as a page of plain text, width characters wide.
func WriteText(w io.Writer, l *Ledger, width int) error {
	v := l.View()
	p := page{width: max(width, leastWidth), margin: v.clockWidth() + 4}
	p.paragraph("", v.Heading)
	p.paragraph("", v.Setting)
	p.gap()
	p.paragraph("", v.Summary)
	if v.Broken != "" {
		p.paragraph("", v.Broken)
	}
	p.paragraph("", "Times are minutes and seconds from the failure. What has no end given lasts to the end of the flight.")
	for _, g := range v.Groups {
		p.group(g)
	}
	p.gap()
	p.paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

// clockWidth is the width of the widest clock at the head of a row.
func (v *View) clockWidth() int {
	widest := 0
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			for _, s := range r.Spans {
				widest = max(widest, utf8.RuneCountInString(s.From.Clock))
			}
		}
	}
	return widest
}

// page is text that is being set. Clocks stand in the margin.
type page struct {
	strings.Builder
	width, margin int
}

func (p *page) gap() { p.WriteByte('\n') }

// lead is the margin with a clock in it.
func (p *page) lead(clock string) string {
	return strings.Repeat(" ", p.margin-2-utf8.RuneCountInString(clock)) + clock + "  "
}

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
		p.paragraph(p.lead(""), g.None)
	}
	for _, rows := range alike(g.Rows) {
		if len(rows) > 1 {
			p.together(rows)
		} else {
			p.row(rows[0])
		}
	}
}

// alike puts the rows together that differ in nothing but their titles and say
// nothing else, each lot where its first row stands.
func alike(rows []Row) [][]Row {
	var lots [][]Row
	place := map[[2]Moment]int{}
	for _, r := range rows {
		if !plain(r) {
			lots = append(lots, []Row{r})
			continue
		}
		key := [2]Moment{r.Spans[0].From, r.Spans[0].Until}
		i, ok := place[key]
		if !ok {
			i = len(lots)
			place[key] = i
			lots = append(lots, nil)
		}
		lots[i] = append(lots[i], r)
	}
	return lots
}

func plain(r Row) bool {
	return len(r.Spans) == 1 && r.Spans[0].Text == "" && r.Text == "" && r.Rank == ""
}

// together sets rows that are alike as one paragraph.
func (p *page) together(rows []Row) {
	var titles []string
	for _, r := range rows {
		titles = append(titles, r.Title)
	}
	s := rows[0].Spans[0]
	p.paragraph(p.lead(s.From.Clock), fmt.Sprintf("%s: %s.", when(s), strings.Join(titles, "; ")))
}

// when says in which phase a stretch begins, and its end if it has one.
func when(s RowSpan) string {
	if s.ToEnd {
		return s.From.PhaseIs
	}
	return s.From.PhaseIs + ", " + s.Lasts
}

// row sets a title with its clock on the left and its rank on the right, and
// under it what there is to say.
func (p *page) row(r Row) {
	if len(r.Spans) == 0 {
		p.headed(p.lead(""), r.Title, r.Rank)
		p.paragraph(p.lead(""), r.Text)
		return
	}
	p.headed(p.lead(r.Spans[0].From.Clock), r.Title+" ("+r.Spans[0].From.PhaseIs+")", r.Rank)
	p.say(r.Text)
	if r.Text == "" || len(r.Spans) > 1 {
		p.say(ending(r.Spans[0]) + r.Spans[0].Text)
	}
	for i, s := range r.Spans[1:] {
		if i == mostSpans-1 {
			p.say(counted(len(r.Spans)-mostSpans, "time", "times") + " more.")
			break
		}
		p.paragraph(p.lead(s.From.Clock), when(s)+". "+s.Text)
	}
}

// say sets a text under a title.
func (p *page) say(text string) {
	if text != "" {
		p.paragraph(p.lead(""), text)
	}
}

// ending says when a stretch ends, if it does.
func ending(s RowSpan) string {
	if s.ToEnd {
		return ""
	}
	return sentence(s.Lasts) + " "
}

// headed sets a title with something at the right edge of its line.
func (p *page) headed(lead, title, right string) {
	room := p.width - utf8.RuneCountInString(lead) - utf8.RuneCountInString(title) - utf8.RuneCountInString(right)
	if right == "" || room < 2 {
		p.paragraph(lead, strings.TrimSpace(title+" "+ahead("– ", right)))
		return
	}
	fmt.Fprintln(p, lead+title+strings.Repeat(" ", room)+right)
}
