package assess

import (
	"cmp"
	"context"
	"fmt"

	"knockon/ask"
	"knockon/book"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
	"knockon/sweep"
)

// Crewed is a set flown on the flight that feels it, with the crew by the book.
type Crewed struct {
	Phase int             // it struck 5 s after this one began
	Ended string          // why the flight did not arrive; "" if it did
	lost  map[string]gone // functions that were lost while wanted
}

// gone is a loss with the crew.
type gone struct {
	unknown bool      // nobody knew of it
	times   int       // so often it was lost while wanted,
	total   book.Time // for so long together
	back    bool      // and each time it worked again
}

// says tells how it was lost: for good, or how long until it was regained.
func (g gone) says() string {
	switch {
	case !g.back:
		return "lost all the same"
	case g.times == 1:
		return "lost for " + say.Lasts(g.total) + ", then regained"
	}
	return fmt.Sprintf("lost %d times, for %s in all, and each time regained", g.times, say.Lasts(g.total))
}

// soon is the same beside a name, where it was regained.
func (g gone) soon() string {
	if !g.back {
		return ""
	}
	return " (" + g.says() + ")"
}

// Lost says that the loss came about all the same.
func (c *Crewed) Lost(l *Loss) bool {
	g, lost := c.lost[l.Function.ID]
	return lost && (g.unknown || !l.Hidden)
}

// counts says that a set takes the loss with the crew, as it was flown, or was not flown.
func (c Cut) counts(l *Loss) bool {
	return c.Crewed == nil || c.Crewed.Lost(l) || c.Crewed.Ended != ""
}

// Fly flies the likeliest sets of each hazardous or catastrophic loss again, so
// many of each and all single failures, every one in the phase in which it is likeliest. Told is called
// as they are done; it may be nil.
func (a *Assessment) Fly(ctx context.Context, desk *ask.Desk, course *run.Course, most, workers int, told func(done, of int)) error {
	flown := map[flight]*Crewed{}
	var order []flight
	for _, l := range a.Losses {
		if !l.grave() {
			continue
		}
		for j, c := range l.Sets {
			if j >= most && len(c.Set) > 1 {
				continue
			}
			f := flight{c.Set.Key(), a.likeliest(c)}
			if flown[f] == nil {
				flown[f], order = &Crewed{Phase: f.phase}, append(order, f)
			}
		}
	}
	err := run.Many(ctx, len(order), workers, told, func(ctx context.Context, i int) error {
		return a.fly(ctx, desk, course, a.strike(order[i]), flown[order[i]])
	})
	if err != nil {
		return err
	}
	for _, l := range a.Losses {
		for j := range l.Sets {
			if c := &l.Sets[j]; l.grave() && (j < most || len(c.Set) == 1) {
				c.Crewed = flown[flight{c.Set.Key(), a.likeliest(*c)}]
			}
		}
	}
	return nil
}

// flight is a set that strikes in a phase.
type flight struct {
	set   uint64
	phase int
}

// likeliest is the phase in which a set is likeliest to arise; of one without a
// rate the longest of its phases.
func (a *Assessment) likeliest(c Cut) int {
	weight := func(i int) float64 {
		if c.Rated() {
			return c.in[i]
		}
		return a.Hours.Phases[c.Phases[i]].hours()
	}
	best := 0
	for i := range c.Phases {
		if cmp.Compare(weight(i), weight(best)) > 0 {
			best = i
		}
	}
	return c.Phases[best]
}

// strike is the failures of a set, 5 s after its phase begins.
func (a *Assessment) strike(f flight) (k run.Strike) {
	k.At = a.Phases[f.phase].Moment
	for _, n := range sweep.SetOf(f.set) {
		k.Fail = append(k.Fail, a.Failures[n])
	}
	return k
}

func (a *Assessment) fly(ctx context.Context, desk *ask.Desk, course *run.Course, k run.Strike, into *Crewed) error {
	answer, err := desk.Fly(ctx, course, ask.Question{}, run.Scenario{Strikes: []run.Strike{k}})
	if err != nil {
		return err
	}
	if e := answer.Here.Ending(); !e.Arrived() {
		into.Ended = e.Why
	}
	into.lost = map[string]gone{}
	for _, row := range answer.Ledger.Losses {
		if row.Mattered {
			into.lost[row.Function.ID] = goneOf(answer.Ledger, row)
		}
	}
	return nil
}

// goneOf looks at what mattered of a loss, and whether it is regained.
func goneOf(l *ledger.Ledger, row ledger.Loss) gone {
	g := gone{unknown: row.Word().Unknown(), back: l.Regained(&row)}
	for _, s := range row.Spans {
		if s.Mattered {
			g.times, g.total = g.times+1, g.total+s.To-s.From
		}
	}
	return g
}
