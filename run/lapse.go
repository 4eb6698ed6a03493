package run

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/say"
)

// Uncontrolled is why a run ends at which the aircraft can no longer be flown:
// the book's flyable has been no for flyable_again_s (docs/meaning.md, section 11).
type Uncontrolled struct {
	Lost []string // titles of what flyable names and does not work
}

func (u *Uncontrolled) Error() string {
	if len(u.Lost) == 0 {
		return "the aircraft can no longer be flown"
	}
	return "the aircraft can no longer be flown, without " + say.And(u.Lost)
}

// lapse watches whether the aircraft can be flown.
type lapse struct {
	flyable circuit.Node // None: the book does not say, or nobody asks
	most    book.Time    // how long it may not be
	since   book.Time    // since when it is not; Never: it is
}

func lapseOf(c *Course, s Scenario) lapse {
	l := lapse{flyable: circuit.None, since: book.Never}
	a := c.Build.Aircraft
	if a == nil || s.FliesOn {
		return l
	}
	if n, ok := c.circuit.Node(circuit.Value{Item: a.ID, Aspect: circuit.Flyable}); ok {
		l.flyable, l.most = n, book.AtSeconds(a.FlyableAgainS)
	}
	return l
}

// lost is when the run ends if nothing changes; Never while it can be flown.
func (l *lapse) lost() book.Time {
	if l.since == book.Never {
		return book.Never
	}
	return l.since + l.most
}

// judge looks when an instant is over. The error ends the run.
func (p *pilot) judge(m *circuit.Machine, again bool) error {
	switch {
	case p.flyable == circuit.None || again:
		return nil
	case m.Value(p.flyable) != 0:
		p.since = book.Never
		return nil
	case p.since == book.Never:
		p.since = m.Now()
	}
	if m.Now() < p.lost() {
		return nil
	}
	return &Uncontrolled{p.missing(m)}
}

// missing names what flyable names and does not work.
func (p *pilot) missing(m *circuit.Machine) (titles []string) {
	p.course.Build.Aircraft.Flyable.Walk(func(e *book.Expr) {
		item, _ := p.course.Build.Item(e.ID)
		if _, ok := item.(*book.Function); e.Op != book.OpRef || !ok {
			return
		}
		n, _ := m.Circuit().Node(circuit.Value{Item: e.ID})
		if title := say.Lower(p.course.Build.Title(e.ID)); m.Value(n) == 0 && !slices.Contains(titles, title) {
			titles = append(titles, title)
		}
	})
	return titles
}
