package point

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/span"
	"knockon/wave"
)

// Reason is why an alert that would tell is silent, or goes out.
type Reason string

// Reasons, as the run has them at that moment.
const (
	Held Reason = "held_back" // by the phase, or by its quiet conditions
	Dead Reason = "no_giver"  // what gives it, or all by which it reaches anybody, does not work
)

// candidates lists all points that a ledger has, in a fixed order: those that say more
// than one loss first.
func (c *chooser) candidates(waves []wave.Wave) (list []Point) {
	for i := range waves {
		if p := c.wavy(&waves[i]); len(p.Covers) > 2 || len(p.Covers) == 2 && !telling(p) {
			list = append(list, p)
		}
	}
	list = append(list, c.denials()...)
	list = append(list, c.late()...)
	list = append(list, c.alerts()...)
	for _, x := range c.order() {
		if x.Mattered {
			list = append(list, Point{Kind: Single, At: wave.Start(x), Covers: []*ledger.Loss{x}})
		}
	}
	return list
}

func (c *chooser) wavy(w *wave.Wave) Point {
	p := Point{Kind: Wave, At: w.At, Wave: w}
	for _, x := range w.Losses {
		if x.Mattered {
			p.Covers = append(p.Covers, x)
		}
	}
	return p
}

// add puts a loss under the point of an item, which it makes if there is none yet.
func add(list []Point, k Kind, by book.Item, at book.Time, x *ledger.Loss) []Point {
	i := slices.IndexFunc(list, func(p Point) bool { return p.Kind == k && p.By == by })
	if i < 0 {
		return append(list, Point{Kind: k, By: by, At: at, Covers: []*ledger.Loss{x}})
	}
	list[i].At = min(list[i].At, at)
	if !slices.Contains(list[i].Covers, x) {
		list[i].Covers = append(list[i].Covers, x)
	}
	return list
}

// heaviest are the stretches of a loss that its word comes from.
func heaviest(x *ledger.Loss) (list []ledger.LossSpan) {
	for _, s := range x.Spans {
		if s.Mattered && s.Known.Word == x.Known {
			list = append(list, s)
		}
	}
	return list
}

// denials are indications that deny losses.
func (c *chooser) denials() (list []Point) {
	for _, x := range c.order() {
		if x.Known != ledger.Denied {
			continue
		}
		for _, s := range heaviest(x) {
			for _, i := range s.Lies {
				list = add(list, Denial, i, lying(c.l, i, s), x)
			}
		}
	}
	return list
}

// lying is when an indication first lies in a stretch.
func lying(l *ledger.Ledger, i *book.Indication, s ledger.LossSpan) book.Time {
	if in := ledger.Lying(l.Here, l.There, i).Within(s.Span); len(in) > 0 {
		return in[0].From
	}
	return s.From
}

// late are alerts that come late.
func (c *chooser) late() (list []Point) {
	for _, x := range c.order() {
		if x.Known != ledger.Late {
			continue
		}
		for _, s := range heaviest(x) {
			if s.Known.ByAlert && s.By != nil {
				list = add(list, Late, s.By, s.At, x)
			}
		}
	}
	return list
}

// alerts are those that stood already, that go out too soon, and that are silent.
func (c *chooser) alerts() (list []Point) {
	for _, a := range c.l.Here.Course.Build.Alerts {
		for _, x := range c.order() {
			if !x.Mattered || !slices.Contains(a.Tells, x.Function.ID) {
				continue
			}
			for _, s := range heaviest(x) {
				k, at, why := c.fault(a, x, s)
				if k != "" && (k == Standing || why != "") {
					n := len(list)
					if list = add(list, k, a, at, x); len(list) > n {
						list[n].Why = why
					}
				}
			}
		}
	}
	return list
}

// fault is what is wrong with an alert that names a loss, in one stretch of it; "" if
// nothing is.
func (c *chooser) fault(a *book.Alert, x *ledger.Loss, s ledger.LossSpan) (k Kind, at book.Time, why Reason) {
	given := c.is(a, circuit.Main).Within(s.Span)
	due := c.is(a, circuit.Believed).Within(s.Span)
	told := x.Known == ledger.IsTold
	switch {
	case !told && c.stood(a, s.From):
		return Standing, s.From, ""
	case !told && len(given) == 0 && len(due) > 0:
		return Silent, due[0].From, c.silence(a, due[0].From)
	case told && s.By == a && len(given) > 0:
		if end := given[len(given)-1].To; end < s.To && due.Has(end) {
			return TooSoon, end, c.silence(a, end)
		}
	}
	return "", 0, ""
}

func (c *chooser) is(a *book.Alert, as circuit.Aspect) span.Set {
	n, _ := c.l.Here.Circuit().Node(circuit.Value{Item: a.ID, Aspect: as})
	return span.Lasting(c.l.Here.Spans(n))
}

// stood says that an alert was given on both flights as a loss came.
func (c *chooser) stood(a *book.Alert, at book.Time) bool {
	n, _ := c.l.Here.Circuit().Node(circuit.Value{Item: a.ID})
	m, _ := c.l.There.Circuit().Node(circuit.Value{Item: a.ID})
	return c.l.Here.At(n, at) != 0 && c.l.There.At(m, at) != 0
}

// silence is why an alert that is due is not given; "" where somebody ended it, or its
// own text does.
func (c *chooser) silence(a *book.Alert, at book.Time) Reason {
	n, _ := c.l.Here.Circuit().Node(circuit.Value{Item: a.ID, Aspect: circuit.Possible})
	possible := c.l.Here.At(n, at) != 0
	switch {
	case possible && c.quiet(a, at):
		return Held
	case !c.given(a, at):
		return Dead
	}
	return ""
}

// given says that what gives an alert works, and a way by which it reaches anybody.
func (c *chooser) given(a *book.Alert, at book.Time) bool {
	by := a.GivenBy
	if by == nil {
		by = c.l.Here.Course.Build.Aircraft.AlertsGivenBy
	}
	ways, left := 0, false
	for _, e := range c.l.Here.Course.Build.Reaches(a).Each() {
		if e != nil {
			ways++
			left = left || c.yes(e, at)
		}
	}
	return (by == nil || c.yes(by, at)) && (ways == 0 || left)
}

// quiet says that a phase, or quiet conditions, hold an alert back.
func (c *chooser) quiet(a *book.Alert, at book.Time) bool {
	for _, p := range c.l.Here.Phases() {
		if p.From <= at && at < p.To && slices.Contains(a.QuietIn, p.ID) {
			return true
		}
	}
	return a.QuietWhen != nil && c.yes(a.QuietWhen, at)
}

func (c *chooser) yes(e *book.Expr, at book.Time) bool {
	n, ok := c.expressions()[e]
	return ok && c.l.Here.At(n, at) != 0
}

// expressions finds the node of an expression of the book.
func (c *chooser) expressions() map[*book.Expr]circuit.Node {
	if c.nodes == nil {
		c.nodes = map[*book.Expr]circuit.Node{}
		for n := range circuit.Node(c.l.Here.Circuit().Size()) {
			if _, _, e := c.l.Here.Circuit().Source(n); e != nil {
				c.nodes[e] = n
			}
		}
	}
	return c.nodes
}
