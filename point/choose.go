package point

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/ledger"
)

// most is how many points there are at most; enough is the share at which three do.
const (
	most   = 7
	few    = 3
	enough = 0.8
	least  = 0.05 // of all weight, that a point behind the first must add if all it covers is told, noticed or follows
)

// of what a wave tells of its losses: three quarters, so that the worst may still be
// said alone.
const ofAWave = 0.75

// gain is what a point covers newly.
func (c *chooser) gain(p Point) (sum float64) {
	for _, x := range p.Covers {
		sum += max(0, c.reach(p, x)-c.covered[x])
	}
	return sum
}

func (c *chooser) reach(p Point, x *ledger.Loss) float64 {
	if p.Kind == Wave {
		return ofAWave * c.weights[x]
	}
	return c.weights[x]
}

// choose takes first what is grave, whatever else weighs more, then, again and again, the
// point that covers most that is not covered; and puts them in the order of their
// graveness.
func (c *chooser) choose(all []Point) (list []Point) {
	if slices.ContainsFunc(all, func(p Point) bool { return !trivial(p) && c.gain(p) > 0 }) {
		all = slices.DeleteFunc(all, trivial)
	}
	c.all = all
	c.open()
	for _, p := range c.facts() {
		if len(c.list) < most {
			c.take(p)
		}
	}
	for len(c.list) < most && (len(c.list) < few || c.share() < enough) && c.next(c.worthy) {
	}
	return c.ordered()
}

// next takes the point of the greatest worth above 0 that may be taken; it says whether
// there is one.
func (c *chooser) next(worth func(Point) float64) bool {
	best, top := -1, 0.0
	for i, p := range c.all {
		if w := worth(p); w > top && !within(p, c.list) && causes(p, c.list) < 2 {
			best, top = i, w
		}
	}
	if best < 0 {
		return false
	}
	c.take(c.all[best])
	c.all = slices.Delete(c.all, best, best+1)
	return true
}

func (c *chooser) take(p Point) {
	for _, x := range p.Covers {
		c.covered[x] = max(c.covered[x], c.reach(p, x))
	}
	c.list = append(c.list, p)
}

// worthy is what a point adds; 0 where that is too little to be said behind others.
func (c *chooser) worthy(p Point) float64 {
	g := c.gain(p)
	if len(c.list) > 0 && (trivial(p) || !telling(p) && (g < least*c.whole() || p.Kind == Single && c.named(p.Covers[0]))) {
		return 0
	}
	return g
}

// open takes points until each loss that is hazardous or worse is named: the catastrophic
// first, and of each class first what nobody knows of in time. Of what people know three
// points are enough.
func (c *chooser) open() {
	for rank := slices.Index(book.Severities, "catastrophic"); rank >= hazardous; rank-- {
		for _, unknown := range []bool{true, false} {
			for len(c.list) < most && (unknown || len(c.list) < few) && c.next(c.naming(rank, unknown)) {
			}
		}
	}
}

// naming counts, for a point, the losses of a class that it names and nothing chosen does.
func (c *chooser) naming(rank int, unknown bool) func(Point) float64 {
	return func(p Point) (n float64) {
		for _, x := range p.Covers {
			if dire(x) == rank-hazardous+1 && untold(x) == unknown && !c.named(x) && names(p, x) {
				n += c.reach(p, x) / c.weights[x]
			}
		}
		return n
	}
}

// named says that a chosen point names a loss.
func (c *chooser) named(x *ledger.Loss) bool {
	return slices.ContainsFunc(c.list, func(p Point) bool { return names(p, x) })
}

// names says that a point's sentence names a loss, and does not only count it.
func names(p Point, x *ledger.Loss) bool {
	list := heaviestFirst(p.Covers)
	return slices.Contains(list[:min(mostNamed, len(list))], x)
}

// ordered puts what was chosen in the order of its graveness: each time comes what says
// the gravest that nothing before it says. What adds nothing to that is left out.
func (c *chooser) ordered() (list []Point) {
	left := c.list
	c.list = nil
	clear(c.covered)
	for len(left) > 0 {
		best := 0
		for i, p := range left {
			if c.before(p, left[best]) {
				best = i
			}
		}
		if p := left[best]; p.press > 0 || c.gain(p) > 0 {
			c.take(p)
		}
		left = slices.Delete(left, best, best+1)
	}
	return c.list
}

// before says that a point comes before another: its gravest loss that is hazardous or
// worse first, of those what is said in few words; then what presses most, then the larger.
func (c *chooser) before(a, b Point) bool {
	x, y := c.news(a), c.news(b)
	order := cmp.Compare(direst(y), direst(x))
	if direst(x) > 0 {
		order = cmp.Or(order, cmp.Compare(wide(a), wide(b)))
	}
	return cmp.Or(order, cmp.Compare(max(b.press, urgent(y)), max(a.press, urgent(x))), cmp.Compare(len(y), len(x)), cmp.Compare(a.At, b.At)) < 0
}

// news are the losses of a point that no point before it names.
func (c *chooser) news(p Point) (list []*ledger.Loss) {
	for _, x := range p.Covers {
		if !c.named(x) {
			list = append(list, x)
		}
	}
	return list
}

// wide is 1 for a wave, which says much beside the gravest.
func wide(p Point) int {
	if p.Kind == Wave {
		return 1
	}
	return 0
}

// direst is the class of the gravest of some losses that is hazardous or worse; 0: none.
func direst(list []*ledger.Loss) (rank int) {
	for _, x := range list {
		rank = max(rank, dire(x))
	}
	return rank
}

// urgent is how much the first of some losses presses: how grave it is, and more where
// people do not know of it in time.
func urgent(list []*ledger.Loss) (most float64) {
	for _, x := range list {
		known := 1.0
		if untold(x) {
			known = max(1, knowing(x))
		}
		most = max(most, graveness(x)*known)
	}
	return most
}

// trivial says that a point is of one minor loss that people are told, notice at once or
// can work out.
func trivial(p Point) bool {
	return p.Kind == Single && !telling(p) && graveness(p.Covers[0]) == 1
}

// telling says that a point is about what nobody is told in time, or of an alert or
// indication at fault.
func telling(p Point) bool {
	return p.By != nil || slices.ContainsFunc(p.Covers, untold)
}

// untold says that nobody knows of a loss in time.
func untold(x *ledger.Loss) bool {
	return x.Word() == ledger.Hidden || x.Word() == ledger.Denied || x.Word() == ledger.InUse || x.Word() == ledger.Late
}

// hazardous is its place among the classes.
var hazardous = slices.Index(book.Severities, "hazardous")

// rankOf is the place of a loss's class among them; -1 where the book gives none.
func rankOf(x *ledger.Loss) int { return slices.Index(book.Severities, x.Severity()) }

// within says that all losses of a point lie in one that was chosen and is not a wave.
func within(p Point, list []Point) bool {
	return slices.ContainsFunc(list, func(o Point) bool {
		return o.Kind != Wave && !slices.ContainsFunc(p.Covers, func(x *ledger.Loss) bool { return !slices.Contains(o.Covers, x) })
	})
}

// causes counts the chosen waves of a point's cause; the failures are no cause.
func causes(p Point, list []Point) (n int) {
	if p.Kind != Wave || p.Wave.Cause == nil {
		return 0
	}
	for _, o := range list {
		if o.Kind == Wave && o.Wave.Cause != nil && o.Wave.Cause.Node == p.Wave.Cause.Node {
			n++
		}
	}
	return n
}

// passing is how long a loss that people know of may last and not be what an answer opens
// with, however grave it would be.
const passing = 60 * book.Second

// dire is how grave a loss is that is hazardous or worse; 0 for any other, and for one
// that people know of and that is soon over.
func dire(x *ledger.Loss) int {
	long := func(s ledger.LossSpan) bool { return s.Mattered && (s.ToEnd || s.Length() > passing) }
	if !untold(x) && !slices.ContainsFunc(x.Spans, long) {
		return 0
	}
	return max(0, rankOf(x)-hazardous+1)
}
