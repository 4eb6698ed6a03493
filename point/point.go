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
	False    Kind = "false"    // an alert that says what is not so
	Differ   Kind = "differ"   // readouts of one quantity of which one is wrong
	Wrong    Kind = "wrong"    // readouts that are wrong, and deny no loss
	Unseen   Kind = "unseen"   // failures that nobody sees on this flight
)

// Point is a sentence worth teaching.
type Point struct {
	Kind   Kind
	At     book.Time
	Covers []*ledger.Loss
	Wave   *wave.Wave
	By     book.Item // the alert or indication of it; nil for a wave or a loss
	Why    Reason    // Silent: why it is not given

	False    *ledger.Announcement // False: when it is
	List     *List                // False: what was done for it; nil: nothing was moved
	Shown    []Shown              // Differ: all readouts of the quantity
	Means    float64              // Differ: what is so
	Readings []*ledger.Reading    // Wrong: these; Differ: the one that is farthest off
	Failed   []book.FailureRef    // Unseen: these

	press float64 // how much a point presses that covers no weight of its own; 0: of any other
}

// Points are those of an answer, the gravest first.
type Points struct {
	List  []Point
	Share float64 // of the weight of all losses that the points cover; 1 where there is none
	Waves []wave.Wave
	Grave *ledger.Loss // the gravest loss, where nothing has weight that is worth teaching
}

// Of chooses the points of a ledger that was judged (package known).
func Of(l *ledger.Ledger) *Points { return With(l, Facts{}) }

// With is Of where what the crew did is known.
func With(l *ledger.Ledger, f Facts) *Points {
	c := &chooser{l: l, crew: f, seen: newSeen(l), weights: map[*ledger.Loss]float64{}, covered: map[*ledger.Loss]float64{}}
	c.weigh()
	waves := wave.Of(l)
	p := &Points{Waves: waves, List: c.choose(c.candidates(waves))}
	p.Share = c.share()
	if !worth(p.List) {
		p.List, p.Grave = nil, c.gravest()
	}
	return p
}

// worth says that something of what was chosen is not simply told, or is hazardous or worse.
func worth(list []Point) bool {
	return slices.ContainsFunc(list, func(p Point) bool {
		return p.By != nil || p.press > 0 || direst(p.Covers) > 0 || slices.ContainsFunc(p.Covers, func(l *ledger.Loss) bool { return l.Word() != ledger.IsTold && l.Word() != ledger.AtOnce })
	})
}

// chooser weighs and chooses.
type chooser struct {
	l       *ledger.Ledger
	weights map[*ledger.Loss]float64
	covered map[*ledger.Loss]float64 // how much of it points cover already
	nodes   map[*book.Expr]circuit.Node
	crew    Facts
	seen    *seen
	all     []Point // that may still be chosen
	list    []Point // that were chosen
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
		w := graveness(x) * knowing(x)
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

// graveness is 1, 2, 4, 8 from minor to catastrophic; 1 where the book says nothing. Where
// nobody knows of a loss that may be another class.
func graveness(x *ledger.Loss) float64 {
	return float64(int(1) << max(0, slices.Index(book.Severities, x.Severity())))
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
	if c.whole() == 0 {
		return 1
	}
	return part / c.whole()
}

// whole is the weight of all losses.
func (c *chooser) whole() (sum float64) {
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
		if x.Mattered && (worst == nil || graveness(x) > graveness(worst)) {
			worst = x
		}
	}
	return worst
}
