package ledger

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/span"
)

// kept lists the functions that are never lost although at least half of the
// units that they read are gone at some moment, in the order of the book.
func (c *comparison) kept(losses []Loss) []Kept {
	lost := map[string]bool{}
	for _, l := range losses {
		lost[l.Function.ID] = true
	}
	gone := c.goneUnits()
	if len(gone) == 0 {
		return nil
	}
	units := unitsOfAll(c.here.Course)
	var list []Kept
	for i, f := range c.build.Functions {
		if lost[f.ID] {
			continue
		}
		if k, ok := c.keptWithout(f, units[i], gone); ok {
			list = append(list, k)
		}
	}
	if len(list) > 0 {
		s := newSupport(c)
		for i, k := range list {
			list[i].By = s.of(k, gone)
		}
	}
	return list
}

type unitsKey struct{}

// unitsOfAll gives the units that each function of a build reads.
func unitsOfAll(c *run.Course) [][]string {
	return c.Once(unitsKey{}, func() any {
		w := newWiring(c.Build)
		list := make([][]string, len(c.Build.Functions))
		for i, f := range c.Build.Functions {
			list[i] = w.unitsOf(f.ID)
		}
		return list
	}).([][]string)
}

// outage is when a unit does not work here, and when it does not although it
// does there.
type outage struct{ out, news span.Set }

// goneUnits gives the outages of the units that stop working here and not there.
func (c *comparison) goneUnits() map[string]outage {
	gone := map[string]outage{}
	whole := span.Set{{From: 0, To: c.end}}
	for _, u := range c.build.Units {
		works := c.isHere(u.ID, circuit.Main)
		if out := whole.Minus(works); len(out) > 0 {
			gone[u.ID] = outage{out, c.isThere(u.ID, circuit.Main).Beyond(works)}
		}
	}
	return gone
}

// keptWithout looks for the moment at which most of a function's units are gone
// while it works here and there. All that matters begins at the moments tried.
func (c *comparison) keptWithout(f *book.Function, units []string, gone map[string]outage) (k Kept, ok bool) {
	var fresh, out span.Set
	ever := 0
	for _, u := range units {
		if o, ok := gone[u]; ok {
			ever++
			fresh, out = append(fresh, o.news...), append(out, o.out...)
		}
	}
	if len(fresh) == 0 || 2*ever < len(units) {
		return k, false
	}
	news := span.Set(nil).Or(fresh)
	works := c.isHere(f.ID, circuit.Main).And(c.isThere(f.ID, circuit.Main)).And(news)
	for _, p := range works {
		for _, t := range append([]book.Time{p.From}, starts(out, p)...) {
			now := goneAt(units, gone, t)
			if 2*len(now) >= len(units) && len(now) > len(k.Gone) {
				k, ok = Kept{Function: f, Gone: now, At: t}, true
			}
		}
	}
	return k, ok
}

// starts lists when stretches begin inside p, in the order of list.
func starts(list span.Set, p circuit.Span) (at []book.Time) {
	for _, s := range list {
		if s.From > p.From && s.From < p.To {
			at = append(at, s.From)
		}
	}
	return at
}

func goneAt(units []string, gone map[string]outage, t book.Time) (ids []string) {
	for _, u := range units {
		if gone[u].out.Has(t) {
			ids = append(ids, u)
		}
	}
	return ids
}
