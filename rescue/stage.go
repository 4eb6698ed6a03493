package rescue

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/run"
	"knockon/say"
)

// Stage is the part of the flight on which rescues are laid as bars: from a little
// before the failure to a little after the last moment that counts.
type Stage struct {
	From    Moment  `json:"from"`
	To      Moment  `json:"to"`
	Phases  []Act   `json:"phases"`
	Heights []Point `json:"heights"` // above the ground of the departure, without any move
	Lost    []Stay  `json:"lost"`    // when it is lost and wanted, or from where the flight breaks off, without any move
	Why     string  `json:"why"`     // what begins with the first of them: "is lost from +10:00", "breaks off at +3:09"
}

// Act is a phase of the flight on the stage.
type Act struct {
	Title string `json:"title"`
	From  Moment `json:"from"`
	To    Moment `json:"to"`
}

// Point is a height at a moment.
type Point struct {
	S  float64 `json:"s"`
	Ft float64 `json:"ft"`
}

// heights is how many there are on a stage.
const heights = 120

var heightFt = slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "height_ft" })

// stage of an answer; nil where there is nothing to lay on it.
func (a *Answer) stage() *Stage {
	if len(a.Moments) == 0 {
		return nil
	}
	from, to := a.horizon()
	s := &Stage{From: a.moment(from), To: a.moment(to), Phases: []Act{}, Lost: []Stay{}}
	for k := range heights + 1 {
		t := from + (to-from)*book.Time(k)/heights
		if t <= a.here.End {
			s.Heights = append(s.Heights, Point{(t - a.Strike).Seconds(), a.here.Path().Value(heightFt, t)})
		}
	}
	for _, p := range a.here.Phases() {
		if p.From < to && p.To > from {
			s.Phases = append(s.Phases, a.act(p, from, to))
		}
	}
	for _, p := range a.loss {
		if p.From < to && p.To > from {
			s.Lost = append(s.Lost, Stay{a.moment(max(p.From, from)), a.moment(min(p.To, to)), p.To > to})
		}
	}
	if len(s.Lost) > 0 {
		s.Why = "is lost from " + s.Lost[0].From.Clock
	}
	if a.f == flight {
		s.Why = "breaks off at " + a.clock(a.First)
	}
	return s
}

func (a *Answer) act(p run.PhaseSpan, from, to book.Time) Act {
	return Act{a.Course.Build.Title(p.ID), a.moment(max(p.From, from)), a.moment(min(p.To, to))}
}

// horizon is what a stage shows: all windows, and where it is first lost.
func (a *Answer) horizon() (from, to book.Time) {
	to = max(a.First, a.Moments[0])
	for _, r := range a.Rescues {
		for _, w := range r.Windows {
			to = max(to, w.To)
		}
	}
	long := to - a.Strike
	if from = max(0, a.Strike-long/20); a.f == flight { // where it breaks off there is room to say so
		return from, to + long/16
	}
	return from, min(to+long/16, max(a.here.End, to))
}

// bars are the windows of rescues as lines of a text.
func bars(p *say.Page, v *View) {
	if v.Stage == nil || len(v.Rescues) == 0 {
		return
	}
	wide := float64(max(20, p.Width-42))
	col := func(m Moment) int { return int(wide * (m.S - v.Stage.From.S) / (v.Stage.To.S - v.Stage.From.S)) }
	p.Head("Until when")
	for i, s := range v.Rescues {
		line := []byte(strings.Repeat(".", int(wide)))
		for _, w := range s.Windows {
			for k := max(col(w.From), 0); k <= min(col(w.To), len(line)-1); k++ {
				line[k] = '='
			}
		}
		if at := col(Moment{}); at < len(line) {
			line[at] = '!'
		}
		fmt.Fprintf(p, "%4d  %s %-8s %s\n", i+1, line, s.Until, s.Price)
	}
	text := fmt.Sprintf("From %s to %s; ! the failure, = in time.", v.Stage.From.Clock, v.Stage.To.Clock)
	if v.Stage.Why != "" {
		text += " Without any of it, it " + v.Stage.Why + "."
	}
	p.Paragraph("      ", text)
}
