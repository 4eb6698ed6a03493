package worth

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
)

// Caller finds failures that call for procedures on one build and flight.
type Caller struct {
	team    *crew.Team
	healthy *run.Record
	moments []book.Moment // the middles of the phases, the longest first
}

// NewCaller makes a finder for a team.
func NewCaller(ctx context.Context, t *crew.Team) (*Caller, error) {
	r, err := t.Course().Healthy(ctx, run.Scenario{})
	if err != nil {
		return nil, err
	}
	c := &Caller{team: t, healthy: r}
	phases := r.Phases()
	slices.SortStableFunc(phases, func(a, b run.PhaseSpan) int { return int(b.Length() - a.Length()) })
	for _, p := range phases {
		c.moments = append(c.moments, book.Moment{Phase: p.ID, Offset: p.Length() / 2})
	}
	return c, nil
}

// closest and phases bound what is tried: so many failures that are nearest to
// the alerts of a procedure, in so many phases.
const (
	closest = 40
	phases  = 4
)

// Likely lists failures that may call for a procedure, the likeliest first: in
// each of the longest phases, at its middle, the single failures and common
// causes that are nearest to its alerts in the systems, each also as one that a
// reset clears where the unit has a reset, and the pairs of units that are each
// other's mirror image; then what the book itself gives for it (see Stated), and
// slips of the hand (see slips).
func (c *Caller) Likely(p *book.Procedure) (list []run.Scenario) {
	ways := c.reach(p)
	ways = ways[:min(len(ways), closest)]
	for _, at := range c.moments[:min(len(c.moments), phases)] {
		for _, f := range ways {
			list = append(list, Failing(at, f))
			if c.resets(f) {
				s := Failing(at, f)
				s.Strikes[0].Resettable = true
				list = append(list, s)
			}
		}
	}
	for _, at := range c.moments[:min(len(c.moments), 2)] {
		for i, f := range ways {
			for _, g := range ways[i+1:] {
				if f.Fault == g.Fault && mirrored(f.Unit, g.Unit) {
					list = append(list, Failing(at, f, g))
				}
			}
		}
	}
	list = append(list, c.Stated(p)...)
	return append(list, c.slips(p, ways)...)
}

func (c *Caller) resets(f book.FailureRef) bool {
	item, _ := c.team.Build().Item(f.Unit)
	u, ok := item.(*book.Unit)
	return ok && u.ResetBy != nil
}

// Single lists the single failures, and the common causes, on which the alerts
// of a procedure hang at all, each at the middle of each phase: what may call
// for it. They are in the order of the phases by their length.
func (c *Caller) Single(p *book.Procedure) (list []run.Scenario) {
	ways := c.reach(p)
	for _, at := range c.moments {
		for _, f := range ways {
			list = append(list, Failing(at, f))
		}
	}
	return list
}

// Failing is a scenario in which failures come at one moment.
func Failing(at book.Moment, fail ...book.FailureRef) run.Scenario {
	return run.Scenario{Strikes: []run.Strike{{Fail: fail, At: at}}}
}

// Double lists pairs of these failures that come together in the longest phase.
func (c *Caller) Double(p *book.Procedure) (list []run.Scenario) {
	ways := c.reach(p)
	for i, a := range ways {
		for _, b := range ways[i+1:] {
			if a.Unit != b.Unit {
				list = append(list, Failing(c.moments[0], a, b))
			}
		}
	}
	return list
}

// Slips lists slips of the hand that may call for a procedure, some of them with
// a failure some time after (see slips).
func (c *Caller) Slips(p *book.Procedure) []run.Scenario { return c.slips(p, c.reach(p)) }

// reach lists the failures on which the alerts of a procedure can hang, those
// first that are fewest steps away.
func (c *Caller) reach(p *book.Procedure) (refs []book.FailureRef) {
	k := c.team.Course().Circuit()
	under := waysUnder(k, c.alerts(p))
	for _, w := range under {
		refs = append(refs, k.Ways()[w])
	}
	for _, e := range c.team.Build().Events {
		ways, _ := k.Expand([]book.FailureRef{{Unit: e.ID}})
		if slices.ContainsFunc(ways, func(w int) bool { return slices.Contains(under, w) }) {
			refs = append(refs, book.FailureRef{Unit: e.ID})
		}
	}
	return refs
}

// alerts gives where the alerts of a procedure are made up, and those of the
// procedures that send to it.
func (c *Caller) alerts(p *book.Procedure) (from []circuit.Node) {
	lists := c.team.Build().SendTo(p)
	for _, a := range c.team.Build().Alerts {
		if n, ok := c.team.Course().Circuit().Node(circuit.Value{Item: a.ID, Aspect: circuit.Believed}); ok && slices.Contains(lists, a.Procedure) {
			from = append(from, n)
		}
	}
	return from
}

// waysUnder lists the ways to fail from which nodes can be reached, the nearest
// first.
func waysUnder(k *circuit.Circuit, from []circuit.Node) (ways []int) {
	under(k, from, func(g circuit.Gate) {
		if g.Kind == circuit.GateWay && !slices.Contains(ways, int(g.Num)) {
			ways = append(ways, int(g.Num))
		}
	})
	return ways
}

// under visits all from which nodes are worked out, the nearest first.
func under(k *circuit.Circuit, from []circuit.Node, visit func(circuit.Gate)) {
	seen := map[circuit.Node]bool{}
	for len(from) > 0 {
		var next []circuit.Node
		for _, n := range from {
			if seen[n] {
				continue
			}
			seen[n] = true
			g := k.Gate(n)
			visit(g)
			next = append(next, g.Args...)
		}
		from = next
	}
}

// Everything lists every single failure and common cause of the build in so many
// of the longest phases, at the middle of each, each also as one that a reset
// clears where the unit has one.
func (c *Caller) Everything(phases int) (list []run.Scenario) {
	refs := c.team.Course().Circuit().Ways()
	for _, e := range c.team.Build().Events {
		refs = append(refs[:len(refs):len(refs)], book.FailureRef{Unit: e.ID})
	}
	for _, at := range c.moments[:min(len(c.moments), max(phases, 0))] {
		for _, f := range refs {
			list = append(list, Failing(at, f))
			if c.resets(f) {
				s := Failing(at, f)
				s.Strikes[0].Resettable = true
				list = append(list, s)
			}
		}
	}
	return list
}
