package drill

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/known"
	"knockon/ledger"
	"knockon/point"
	"knockon/say"
)

// Programme is what an instructor has before them of a script: what comes when, what of
// it is worth watching for, and what a crew by the book do. It speaks of the flight as
// it goes if nobody turns it.
type Programme struct {
	Comes   []Cue  `json:"comes"`
	Watch   []Cue  `json:"watch"`             // the points of the answer, if nobody does anything (docs/meaning.md, section 6b)
	Nothing string `json:"nothing,omitempty"` // why there is nothing to watch for
	Crew    []Cue  `json:"crew"`              // what a crew by the book move
	Ends    Moment `json:"ends"`              // the flight, if nobody does anything
}

// Cue is something of a programme and its moment in the flight.
type Cue struct {
	At   Moment `json:"at"`
	Text string `json:"text"`
}

// Programme works the programme of a script out.
func (d *Deck) Programme(ctx context.Context, s Script) (*Programme, error) {
	sc, err := d.read(s)
	if err != nil {
		return nil, err
	}
	l, err := ledger.Answer(ctx, d.Course(), sc)
	if err != nil {
		return nil, err
	}
	if err := known.Judge(ctx, l); err != nil {
		return nil, err
	}
	best, err := d.team.Fly(ctx, sc)
	if err != nil {
		return nil, err
	}
	p := &Programme{Comes: d.comes(l), Ends: momentOf(l.Here.End)}
	for _, x := range best.Lines {
		if x.Control != "" {
			p.Crew = append(p.Crew, Cue{momentOf(x.To), fmt.Sprintf("%s to %s (%s)", d.Build().Title(x.Control), spaced(x.Position), x.Procedure.Title)})
		}
	}
	w := point.Of(l).View(l)
	p.Nothing = w.Nothing
	for _, x := range w.Points {
		p.Watch = append(p.Watch, Cue{momentOf(l.Strike + book.AtSeconds(x.AfterS)), x.Text})
	}
	slices.SortStableFunc(p.Watch, func(a, b Cue) int { return cmp.Compare(a.At.TimeS, b.At.TimeS) })
	return p, nil
}

// comes lists the failures that come, in their order in the script.
func (d *Deck) comes(l *ledger.Ledger) (list []Cue) {
	for i, k := range l.Here.Scenario.Strikes {
		at := l.Here.Struck[i]
		for _, f := range k.Fail {
			if at.Came {
				list = append(list, Cue{momentOf(at.At), d.Build().FailureTitle(f.String()) + " fails" + lasting(k.Lasts)})
			}
		}
	}
	return list
}

// lasting says how long a failure lasts; "" for good.
func lasting(t book.Time) string {
	if t == 0 {
		return ""
	}
	return " for " + say.Lasts(t)
}

// momentOf is a moment in words.
func momentOf(at book.Time) Moment { return Moment{at.Seconds(), say.Clock(at)} }
