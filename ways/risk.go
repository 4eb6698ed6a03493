package ways

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"knockon/ways/diagram"
	"knockon/ways/module"
)

// Risk says how likely a condition is, its events being independent, and which
// of them matter.
type Risk struct {
	// P is the exact probability of the condition: from its decision diagram,
	// not from its smallest sets.
	P float64
	// Events has one line for each event that the condition is written with, in
	// the order of their declaration. One that drops out of it is there if it has
	// a probability, and changes nothing.
	Events []Importance
}

// Importance says in several ways what an event does to the probability Q of
// the condition. p is the event's own probability; Q1 and Q0 are Q given that
// the event has happened, or not. Ratios to Q are NaN where Q is 0.
type Importance struct {
	Event int
	P     float64 // p

	Birnbaum        float64 // Q1 - Q0, also called marginal importance
	Criticality     float64 // p (Q1 - Q0) / Q
	Diagnostic      float64 // p Q1 / Q: how likely the event is, given the condition
	RiskAchievement float64 // Q1 / Q, a ratio ("worth")
	RiskReduction   float64 // Q / Q0, a ratio ("worth"); +Inf where Q0 is 0
}

// Risk works out the probability and the importances. It fails if an event has
// no probability, with ErrMemory, or with the context's error.
func (w *Ways) Risk(ctx context.Context) (*Risk, error) {
	if err := w.needChances(); err != nil {
		return nil, err
	}
	if w.parts.Top < 0 {
		return &Risk{P: btof(w.parts.Opposite)}, nil
	}
	c, err := w.chain(ctx)
	if err != nil {
		return nil, err
	}
	c.descend()
	r := &Risk{P: c.p[w.parts.Top]}
	if w.parts.Opposite {
		r.P = 1 - r.P
	}
	for part, p := range w.parts.List {
		if p.Net == nil && !math.IsNaN(c.p[part]) {
			r.Events = append(r.Events, c.importance(p.Event, part, r.P))
		}
	}
	slices.SortFunc(r.Events, func(a, b Importance) int { return cmp.Compare(a.Event, b.Event) })
	return r, nil
}

func btof(b bool) float64 {
	if b {
		return 1
	}
	return 0
}

func (w *Ways) needChances() error {
	for part, in := range w.reached() {
		p := w.parts.List[part]
		if p.Net != nil || !in {
			continue
		}
		if e := w.l.Events()[p.Event]; math.IsNaN(e.P) {
			return fmt.Errorf("%s has no probability", e.Name)
		}
	}
	return nil
}

// reached says, by part, whether it stands in the top part at any depth. One
// that does not was in the condition as it was written, and dropped out of it.
func (w *Ways) reached() []bool {
	in := make([]bool, len(w.found))
	if w.parts.Top >= 0 {
		in[w.parts.Top] = true
	}
	for part := len(in) - 1; part >= 0; part-- {
		if f := w.found[part]; in[part] && f.solved != nil {
			for _, leaf := range f.setsAt {
				in[leaf] = true
			}
		}
	}
	return in
}

// chain carries probabilities up from the events to the top part and their
// effect on the whole back down. Each part stands in one net at most; one that
// stands in none leaves the whole as it is.
type chain struct {
	w     *Ways
	p     []float64 // by part: its probability
	slope []float64 // by part: of the whole, given the part, less given not
	rest  []float64 // by part: of the whole, given not the part
}

func (w *Ways) chain(ctx context.Context) (*chain, error) {
	c := &chain{w: w, p: make([]float64, len(w.found))}
	for i := range w.found {
		if err := c.chance(ctx, i); err != nil {
			return nil, err
		}
	}
	return c, nil
}

func (c *chain) chance(ctx context.Context, part int) error {
	if p := c.w.parts.List[part]; p.Net == nil {
		c.p[part] = c.w.l.Events()[p.Event].P
		return nil
	}
	if err := c.w.decisions(ctx, part); err != nil {
		if errors.Is(err, diagram.ErrNodes) {
			return ErrMemory
		}
		return err
	}
	f := c.w.found[part]
	c.p[part] = f.d.Chance(f.f, byLevel(c.p, f.decideAt))
	return nil
}

func (c *chain) descend() {
	top := c.w.parts.Top
	c.slope, c.rest = make([]float64, len(c.p)), make([]float64, len(c.p))
	slope, rest, whole := 1.0, 0.0, c.p[top]
	if c.w.parts.Opposite {
		slope, rest, whole = -1, 1, 1-whole
	}
	for part := range c.rest {
		c.rest[part] = whole
	}
	c.slope[top], c.rest[top] = slope, rest
	for part := len(c.p) - 1; part >= 0; part-- {
		if c.w.found[part].solved != nil {
			c.pass(part)
		}
	}
}

// pass hands the effect of a part on the whole down to its leaves.
func (c *chain) pass(part int) {
	f := c.w.found[part]
	p := byLevel(c.p, f.decideAt)
	chance, slopes := f.d.Slopes(f.f, p)
	for level, leaf := range f.decideAt {
		without := chance - p[level]*slopes[level]
		if without < 1e-6*chance {
			// What is left of the difference is rounding; work it out itself.
			own := p[level]
			p[level] = 0
			without = f.d.Chance(f.f, p)
			p[level] = own
		}
		c.slope[leaf] = c.slope[part] * slopes[level]
		c.rest[leaf] = c.rest[part] + c.slope[part]*without
	}
}

func (c *chain) importance(event, part int, q float64) Importance {
	p, q0 := c.p[part], c.rest[part]
	q1 := q0 + c.slope[part]
	return Importance{
		Event:           event,
		P:               p,
		Birnbaum:        c.slope[part],
		Criticality:     p * c.slope[part] / q,
		Diagnostic:      p * q1 / q,
		RiskAchievement: q1 / q,
		RiskReduction:   q / q0,
	}
}

// FussellVesely returns the probability that all members of one of the sets
// that hold the event have failed, as a part of the probability of the
// condition. It fails like Bounds and like Risk. Elsewhere the same name is also
// used for Importance.Diagnostic and for Importance.Criticality.
func (w *Ways) FussellVesely(ctx context.Context, event int) (float64, error) {
	if err := w.needSums(); err != nil {
		return 0, err
	}
	part := slices.IndexFunc(w.parts.List, func(p module.Part) bool { return p.Net == nil && p.Event == event })
	if part < 0 || !w.reached()[part] {
		return 0, nil
	}
	c, err := w.chain(ctx)
	if err != nil {
		return 0, err
	}
	share := c.p[part]
	for part != w.parts.Top {
		outer := w.holder(part)
		own, err := w.holding(ctx, outer, part, c.p)
		if err != nil {
			return 0, err
		}
		share *= own
		part = outer
	}
	return share / c.p[w.parts.Top], nil
}

// holding returns the probability that the other members of one of the sets of
// the outer part that hold the inner one have failed.
func (w *Ways) holding(ctx context.Context, outer, inner int, p []float64) (float64, error) {
	f := w.found[outer]
	d := diagram.NewDecisions(ctx, w.limit)
	h, err := d.Holding(f.s, f.sets, slices.Index(f.setsAt, inner))
	if errors.Is(err, diagram.ErrNodes) {
		return 0, ErrMemory
	}
	if err != nil {
		return 0, err
	}
	return d.Chance(h, byLevel(p, f.setsAt)), nil
}

// holder returns the part whose net has this one as a leaf.
func (w *Ways) holder(part int) int {
	return slices.IndexFunc(w.found, func(f *found) bool {
		return f.solved != nil && slices.Contains(f.setsAt, part)
	})
}
