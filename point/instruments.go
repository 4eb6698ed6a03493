package point

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
)

// momentary is how long a readout may be wrong without being a point.
const momentary = 10 * book.Second

// instruments are the points of readouts that are wrong: one for each quantity that
// several show, at the moment at which one of them is farthest off, and one for all others
// that deny no loss.
func (c *chooser) instruments() (list []Point) {
	rest := Point{Kind: Wrong, press: 2}
	for i := range c.l.Wrong {
		x := &c.l.Wrong[i]
		s, long := longest(x)
		if !long || slices.ContainsFunc(list, func(p Point) bool { return peers(p.Readings[0].Indication, x.Indication) }) {
			continue
		}
		if p := c.quantity(x, s); len(p.Shown) > 1 {
			list = append(list, p)
		} else if len(c.denied(x.Indication)) == 0 {
			rest.Readings, rest.At = append(rest.Readings, x), s.From
		}
	}
	if len(rest.Readings) > 0 {
		rest.At, rest.By = rest.Readings[0].Spans[0].From, rest.Readings[0].Indication
		list = append(list, rest)
	}
	return list
}

// longest is the longest stretch in which a readout is wrong; long says that it is no
// matter of moments.
func longest(x *ledger.Reading) (s ledger.ReadingSpan, long bool) {
	for _, p := range x.Spans {
		if p.Length() > s.Length() {
			s = p
		}
	}
	return s, s.Length() > momentary
}

// peers says that two indications stand for the same number.
func peers(a, b *book.Indication) bool {
	return a.Means != nil && b.Means != nil && a.Shows.Type == book.Number && b.Shows.Type == book.Number && a.Means.String() == b.Means.String()
}

// Shown is what one of several readouts of a quantity shows at a moment.
type Shown struct {
	Indication *book.Indication
	Dark       bool
	Wrong      bool
	Value      float64
}

// quantity is the point of a quantity of which a readout is wrong: all that show it, at the
// moment at which that one is farthest off.
func (c *chooser) quantity(x *ledger.Reading, s ledger.ReadingSpan) Point {
	at := c.farthest(x.Indication, s)
	p := Point{Kind: Differ, At: at, By: x.Indication, Readings: []*ledger.Reading{x}, press: 6}
	p.Means = c.at(x.Indication, circuit.Means, at)
	for _, i := range c.l.Here.Course.Build.Indications {
		if !peers(i, x.Indication) {
			continue
		}
		y := Shown{Indication: i, Dark: c.at(i, circuit.Lit, at) == 0, Wrong: c.at(i, circuit.Wrong, at) != 0, Value: c.at(i, circuit.Main, at)}
		p.Shown = append(p.Shown, y)
		for _, lost := range c.denied(i) {
			if y.Wrong && !slices.Contains(p.Covers, lost) {
				p.Covers = append(p.Covers, lost)
			}
		}
	}
	return p
}

// farthest is a moment at which a readout is farthest from what is so, in the air if it is
// wrong there for long: of some even steps of the stretch.
func (c *chooser) farthest(i *book.Indication, s ledger.ReadingSpan) (at book.Time) {
	const steps = 40
	at, most, air := s.At, 0.0, false
	for k := range book.Time(steps) {
		t := s.From + s.Length()*k/steps
		off, up := math.Abs(c.at(i, circuit.Main, t)-c.at(i, circuit.Means, t)), c.l.Here.InAir(t)
		if up && !air || up == air && off > most {
			at, most, air = t, off, up
		}
	}
	return at
}

// at is a value of an indication; one that is always lit has none that says so.
func (c *chooser) at(i *book.Indication, as circuit.Aspect, t book.Time) float64 {
	n, ok := c.l.Here.Circuit().Node(circuit.Value{Item: i.ID, Aspect: as})
	if !ok {
		return math.NaN()
	}
	return c.l.Here.At(n, t)
}

// denied are the losses that an indication denies in the stretch that their word comes from.
func (c *chooser) denied(i *book.Indication) (list []*ledger.Loss) {
	for _, x := range c.order() {
		lies := func(s ledger.LossSpan) bool { return slices.Contains(s.Lies, i) }
		if x.Known == ledger.Denied && slices.ContainsFunc(heaviest(x), lies) {
			list = append(list, x)
		}
	}
	return list
}
