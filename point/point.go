// Package point turns a judged ledger into points: the few sentences that are worth
// teaching about what failed (docs/meaning.md, section 6b).
//
// Invariant: a point is true of the two records alone, and covers losses of theirs that
// were wanted; every point chosen covers weight that those before it leave.
//
// Start reading at Of.
package point

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/known"
	"knockon/ledger"
	"knockon/wave"
)

// Kind of a point.
type Kind string

// Kinds of point.
const (
	Wave     Kind = "wave"
	Denial   Kind = "denial"   // an indication that denies losses
	Late     Kind = "late"     // an alert that comes late
	TooSoon  Kind = "too_soon" // an alert that goes out while what it told is still so
	Standing Kind = "standing" // an alert that stood already because of what is inoperative
	Silent   Kind = "silent"   // an alert that would tell and is not given
	Single   Kind = "single"   // one loss
)

// Point is a sentence worth teaching.
type Point struct {
	Kind   Kind
	At     book.Time
	Covers []*ledger.Loss
	Wave   *wave.Wave
	By     book.Item // the alert or indication of it; nil for a wave or a loss
	Why    Reason    // Silent: why it is not given
	weight float64   // as it was chosen: what it newly covered
}

// Points are those of an answer, in the order in which they were chosen.
type Points struct {
	List  []Point
	Share float64 // of the weight of all losses that the points cover; 1 where there is none
	Waves []wave.Wave
	Grave *ledger.Loss // the gravest loss, where nothing has weight that is worth teaching
}

// most is how many points there are at most; enough is the share at which three do.
const (
	most   = 7
	few    = 3
	enough = 0.8
	least  = 0.05 // of all weight, that a point behind the first must add if all it covers is told, noticed or follows
)

// Of chooses the points of a ledger that was judged (package known).
func Of(l *ledger.Ledger) *Points {
	c := &chooser{l: l, weights: map[*ledger.Loss]float64{}, covered: map[*ledger.Loss]float64{}}
	c.weigh()
	waves := wave.Of(l)
	p := &Points{Waves: waves, List: c.choose(c.candidates(waves))}
	p.Share = c.share()
	if !worth(p.List) {
		p.List, p.Grave = nil, c.gravest()
	}
	return p
}

// worth says that something of what was chosen is not simply told.
func worth(list []Point) bool {
	return slices.ContainsFunc(list, func(p Point) bool {
		return p.By != nil || slices.ContainsFunc(p.Covers, func(l *ledger.Loss) bool { return l.Word() != ledger.IsTold && l.Word() != ledger.AtOnce })
	})
}

// chooser weighs and chooses.
type chooser struct {
	l       *ledger.Ledger
	weights map[*ledger.Loss]float64
	covered map[*ledger.Loss]float64 // how much of it points cover already
	nodes   map[*book.Expr]circuit.Node
}

// weigh gives each loss that was wanted its weight: how grave it is, how little people
// know of it, and whether it lies in another chapter than all that failed.
func (c *chooser) weigh() {
	failed := c.chapters()
	for i := range c.l.Losses {
		x := &c.l.Losses[i]
		if !x.Mattered {
			continue
		}
		w := graveness(x.Function) * knowing(x)
		if ch := x.Function.Chapter; ch != 0 && !slices.Contains(failed, ch) {
			w *= 2
		}
		c.weights[x] = w
	}
}

// knowing is the weight of the heaviest stretch of a loss that mattered.
func knowing(x *ledger.Loss) (w float64) {
	for _, s := range x.Spans {
		if s.Mattered && s.Known.Word == x.Known {
			w = max(w, known.Weight(s.Known))
		}
	}
	return w
}

// graveness is 1, 2, 4, 8 from minor to catastrophic; 1 where the book says nothing.
func graveness(f *book.Function) float64 {
	return float64(int(1) << max(0, slices.Index(book.Severities, f.Severity)))
}

// chapters of what failed and of what is inoperative.
func (c *chooser) chapters() (list []int) {
	s := c.l.Here.Scenario
	refs := slices.Clone(s.Inoperative)
	for _, k := range s.Strikes {
		refs = append(refs, k.Fail...)
	}
	for _, r := range refs {
		if item, ok := c.l.Here.Course.Build.Item(r.Unit); ok {
			list = append(list, item.Named().Chapter)
		}
	}
	return list
}

// share is how much of all weight the chosen points cover: a loss that one of them
// names counts whole.
func (c *chooser) share() float64 {
	part := 0.0
	for _, x := range c.order() {
		part += min(c.covered[x], c.weights[x])
	}
	if c.all() == 0 {
		return 1
	}
	return part / c.all()
}

// all is the weight of all losses.
func (c *chooser) all() (sum float64) {
	for _, x := range c.order() {
		sum += c.weights[x]
	}
	return sum
}

// order lists the losses as the ledger has them, so that sums do not hang on a map.
func (c *chooser) order() (list []*ledger.Loss) {
	for i := range c.l.Losses {
		list = append(list, &c.l.Losses[i])
	}
	return list
}

// gravest is the gravest loss that was wanted.
func (c *chooser) gravest() (worst *ledger.Loss) {
	for _, x := range c.order() {
		if x.Mattered && (worst == nil || graveness(x.Function) > graveness(worst.Function)) {
			worst = x
		}
	}
	return worst
}

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

// choose takes, again and again, the point that covers most that is not covered.
func (c *chooser) choose(all []Point) (list []Point) {
	if slices.ContainsFunc(all, func(p Point) bool { return !trivial(p) && c.gain(p) > 0 }) {
		all = slices.DeleteFunc(all, trivial)
	}
	for len(list) < most && (len(list) < few || c.share() < enough) {
		best, gain := -1, 0.0
		for i, p := range all {
			if g := c.gain(p); g > gain && (len(list) == 0 || telling(p) || g >= least*c.all()) && (len(list) == 0 || !trivial(p)) && !within(p, list) && causes(p, list) < 2 {
				best, gain = i, g
			}
		}
		if best < 0 {
			return list
		}
		p := all[best]
		p.weight = gain
		for _, x := range p.Covers {
			c.covered[x] = max(c.covered[x], c.reach(p, x))
		}
		list = append(list, p)
		all = slices.Delete(all, best, best+1)
	}
	return list
}

// trivial says that a point is of one minor loss that people are told, notice at once or
// can work out.
func trivial(p Point) bool {
	return p.Kind == Single && !telling(p) && graveness(p.Covers[0].Function) == 1
}

// telling says that a point is about what nobody is told in time, or of an alert or
// indication at fault.
func telling(p Point) bool {
	return p.By != nil || slices.ContainsFunc(p.Covers, func(x *ledger.Loss) bool {
		return x.Word() == ledger.Hidden || x.Word() == ledger.Denied || x.Word() == ledger.InUse || x.Word() == ledger.Late
	})
}

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
