package ledger

import (
	"fmt"
	"io"
	"strings"

	"knockon/say"
)

// MostLines is how long the text is that an answer opens with: a screen.
const MostLines = 40

// leastPoints are shown whatever room they take.
const leastPoints = 3

// WriteLead writes what a page of text opens with: what happened, the points and the
// waves as far as a screen goes, how much there is, and how the rest is had.
func (v *View) WriteLead(w io.Writer, width int, rest string) error {
	head, foot := v.set(width), v.set(width)
	v.happened(head)
	foot.Gap()
	foot.Paragraph("", strings.Join(strings.SplitN(v.Setting, "; ", 3)[:2], "; ")+".")
	if v.Found != "" {
		foot.Paragraph("", v.Found)
	}
	if n := len(v.Deceived) + len(v.Unheard); n > 0 {
		foot.Paragraph("", say.Capital(say.Counted(n, "time"))+" the crew saw something wrong or dark, or were not heard.")
	}
	foot.Paragraph("", rest)
	foot.Paragraph("", v.Caution)
	room := MostLines - lines(head) - lines(foot)
	if v.Worth != nil {
		room = v.pointed(head, width, room)
		v.waves(head, width, room)
		head.others(v.Worth)
	}
	_, err := io.WriteString(w, head.String()+foot.String())
	return err
}

func (v *View) set(width int) page { return page{say.NewPage(width), v.clockWidth() + 4} }

func lines(p page) int { return strings.Count(p.String(), "\n") }

// Came says where and when the flight ends, what is wrong with that, and why there is no
// full answer: what every view opens with.
func (v *View) Came() string { return join(v.Ends, v.Landing, v.Unanswered) }

// happened is what was asked, and the point of the answer.
func (v *View) happened(p page) {
	p.Paragraph("", v.Heading)
	if v.Forbidden != "" {
		p.Paragraph("", v.Forbidden)
	}
	if came := v.Came(); came != "" {
		p.Paragraph("", came)
	}
	p.Paragraph("", join(v.Silent, v.Lead))
}

// pointed sets the points for which there is room, and gives what is left of it.
func (v *View) pointed(p page, width, room int) int {
	from := lines(p)
	head := "Worth teaching"
	if len(v.Worth.Points) > 0 {
		head += ": " + say.Whole(100*v.Worth.Share) + " percent of the weight of all that is lost"
	}
	p.Head(head)
	if v.Worth.Nothing != "" {
		p.Paragraph("", v.Worth.Nothing)
	}
	for i, x := range v.Worth.Points {
		one := v.set(width)
		one.Paragraph(fmt.Sprintf("%d  ", i+1), x.Text)
		if left := len(v.Worth.Points) - i; i >= leastPoints && lines(p)-from+lines(one)+1 > room {
			p.Paragraph("", say.Capital(say.Counted(left, "more point"))+".")
			break
		}
		p.WriteString(one.String())
	}
	return room - lines(p) + from
}

// waves sets the waves for which there is room: when, how many functions, and why.
func (v *View) waves(p page, width, room int) {
	const heads = 3 // a gap, the heading, and how many more there are
	if len(v.Worth.Waves) == 0 || room <= heads {
		return
	}
	p.Head("What goes together")
	room -= heads
	for i, w := range v.Worth.Waves {
		one := v.set(width)
		one.Paragraph(fmt.Sprintf("%8s  %-13s  ", w.Clock, say.Counted(len(w.Losses), "function")), say.Capital(w.Cause))
		if room -= lines(one); room < 0 {
			p.Paragraph("", say.Capital(say.Counted(len(v.Worth.Waves)-i, "more wave"))+".")
			return
		}
		p.WriteString(one.String())
	}
}
