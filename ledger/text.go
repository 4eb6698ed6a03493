package ledger

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"knockon/say"
)

// mostSpans is how many stretches of one row the text form says; the view has all.
const mostSpans = 3

// WriteText writes the ledger as a page of plain text, width characters wide.
func WriteText(w io.Writer, l *Ledger, width int) error { return l.View().Write(w, width) }

// Write writes a ledger in words as a page of plain text.
func (v *View) Write(w io.Writer, width int) error {
	p := page{say.NewPage(width), v.clockWidth() + 4}
	v.opening(p)
	p.Paragraph("", "Times are minutes and seconds from the failure. What has no end given lasts "+v.lastsOpen()+".")
	if v.Worth != nil {
		p.worth(v.Worth)
	}
	for _, g := range v.Groups {
		p.group(g)
	}
	return v.closing(p, w)
}

// WriteOnly writes the rows that were wanted, below what the whole answer opens with.
func (v *View) WriteOnly(w io.Writer, width int) error {
	p := v.set(width)
	v.happened(p)
	p.Gap()
	p.Paragraph("", v.Setting)
	p.Gap()
	p.Paragraph("", v.Shown.Text()+" What stands above, points and waves are of the whole answer.")
	if none := v.Shown.None(); none != "" {
		p.Paragraph("", none)
	}
	for _, g := range v.Groups {
		if len(g.Rows) > 0 {
			p.group(g)
		}
	}
	p.Gap()
	p.Paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

// opening is what happened, and how much there is.
func (v *View) opening(p page) {
	v.happened(p)
	p.Gap()
	p.Paragraph("", v.Setting)
	p.Gap()
	if v.Found != "" {
		p.Paragraph("", v.Found)
	}
	if v.Otherwise != "" {
		p.Paragraph("", v.Otherwise)
	}
}

// closing is what the answer leaves out, and the caution.
func (v *View) closing(p page, w io.Writer) error {
	v.crews(p)
	if len(v.NotModelled) > 0 {
		p.Head("Not worked out")
		for _, l := range v.NotModelled {
			p.Paragraph(p.lead(""), l.String())
		}
	}
	p.Gap()
	p.Paragraph("", v.Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

// crews is where what the crew saw or said did not come through.
func (v *View) crews(p page) {
	p.crew("What the crew saw wrong, or could not see", v.Deceived)
	p.crew("What the crew said, and nobody heard", v.Unheard)
}

// lastsOpen says how long what has no end given lasts.
func (v *View) lastsOpen() string {
	if v.Ended.Arrived {
		return "to the end of the flight"
	}
	return "to where the flight breaks off"
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
	*say.Page
	margin int
}

// lead is the margin with a clock in it.
func (p *page) lead(clock string) string {
	return strings.Repeat(" ", p.margin-2-utf8.RuneCountInString(clock)) + clock + "  "
}

func (p *page) group(g Group) {
	if len(g.Rows) == 0 && g.ID != GroupHidden {
		return
	}
	p.Head(g.Title)
	if len(g.Rows) == 0 {
		p.Paragraph(p.lead(""), g.None)
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
	p.Paragraph(p.lead(s.From.Clock), fmt.Sprintf("%s: %s.", when(s), strings.Join(titles, "; ")))
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
		p.Headed(p.lead(""), r.Title, r.Rank)
		p.Paragraph(p.lead(""), r.Text)
		return
	}
	p.Headed(p.lead(r.Spans[0].From.Clock), r.Title+" ("+r.Spans[0].From.PhaseIs+")", r.Rank)
	p.say(r.Text)
	if r.Text == "" || len(r.Spans) > 1 {
		p.say(ending(r.Spans[0]) + r.Spans[0].Text)
	}
	for i, s := range r.Spans[1:] {
		if i == mostSpans-1 {
			p.say(say.Counted(len(r.Spans)-mostSpans, "time") + " more.")
			break
		}
		p.Paragraph(p.lead(s.From.Clock), when(s)+". "+s.Text)
	}
}

// say sets a text under a title.
func (p *page) say(text string) {
	if text != "" {
		p.Paragraph(p.lead(""), text)
	}
}

// ending says when a stretch ends, if it does.
func ending(s RowSpan) string {
	if s.ToEnd {
		return ""
	}
	return say.Sentence(s.Lasts) + " "
}

// crew says where what the crew saw was not so, or whom they did not reach.
func (p page) crew(head string, list []string) {
	if len(list) == 0 {
		return
	}
	p.Head(head)
	for _, d := range list {
		p.Paragraph("  ", d)
	}
}
