package point

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/wave"
)

// Facts are what a ledger does not know: what the crew did on an alert.
type Facts struct{ Lists []List }

// List is a list that the crew began for an alert, and what they moved by it.
type List struct {
	Alert *book.Alert
	Title string
	Given book.Time // the alert
	At    book.Time // when it was begun
	Moves []Move
}

// Move is a control put somewhere.
type Move struct {
	Control  *book.Control
	Position string
	At       book.Time
}

// mostFacts is how many points there are at most that cover no weight of their own.
const mostFacts = 3

// facts are points that stand whatever their losses weigh, those that press most first:
// false alerts, readouts that differ or are wrong, failures that nobody sees.
func (c *chooser) facts() (list []Point) {
	list = slices.Concat(c.untrue(), c.instruments(), c.latent())
	slices.SortStableFunc(list, func(a, b Point) int { return cmp.Compare(b.press, a.press) })
	return list[:min(mostFacts, len(list))]
}

// levels is how much a false alert presses.
var levels = map[string]float64{"warning": 5, "caution": 2, "advisory": 1}

// untrue are alerts that say what is not so; what was lost by the list that was done for
// one is covered.
func (c *chooser) untrue() (list []Point) {
	for i := range c.l.False {
		x := &c.l.False[i]
		if len(x.Spans) == 0 {
			continue
		}
		p := Point{Kind: False, At: x.Spans[0].From, By: x.Alert, False: x, press: levels[x.Alert.Level]}
		if k := slices.IndexFunc(c.crew.Lists, func(d List) bool { return d.Alert == x.Alert && obeyed(x, d) }); k >= 0 {
			p.List = &c.crew.Lists[k]
			p.press *= 2
			if p.Covers = c.byHand(p.List); len(p.Covers) > 0 {
				p.press *= 2
			}
		}
		list = append(list, p)
	}
	return list
}

// obeyed says that a list was done for an alert that was false when it called for it, and
// that something was moved by it.
func obeyed(x *ledger.Announcement, d List) bool {
	return len(d.Moves) > 0 && slices.ContainsFunc(x.Spans, func(s circuit.Span) bool { return s.From <= d.Given && d.Given < s.To })
}

// byHand are the losses that hang on what a list moved.
func (c *chooser) byHand(d *List) (list []*ledger.Loss) {
	hands := wave.Hands(c.l)
	for _, x := range c.order() {
		moved := func(m Move) bool { return m.At <= wave.Start(x) && slices.Contains(hands[x], m.Control.ID) }
		if x.Mattered && slices.ContainsFunc(d.Moves, moved) {
			list = append(list, x)
		}
	}
	return list
}

// latent is the point of the failures that nobody sees; none where the flight breaks off,
// since nobody knows what the rest of it would show.
func (c *chooser) latent() []Point {
	list := c.seen.unseen()
	if len(list) == 0 || c.l.Unanswered() != "" {
		return nil
	}
	return []Point{{Kind: Unseen, At: c.l.Strike, Failed: list, press: 1.5}}
}
