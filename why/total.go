package why

import (
	"slices"

	"knockon/circuit"
)

// flowed is the stage up to which a total's rate has counted: what the rate has
// become at this very moment adds nothing yet.
func flowed(s *side, st stage) stage {
	i := st.instant
	for i > 0 && s.Instants()[i] == st.at {
		i--
	}
	if i == st.instant {
		return s.earlier(st)
	}
	return s.after(i)
}

// total: by its rate, at the last moment before this at which that differs.
func (w *walker) total(p pair, rate circuit.Node) *reason {
	if w.c.Smooth(rate) {
		return w.all(w.flows(p, rate))
	}
	before := pair{rate, flowed(w.here, p.here), flowed(w.there, p.there)}
	now := pair{rate, w.here.earlier(p.here), w.there.earlier(p.there)}
	return first(func() *reason { return w.lately(before) }, func() *reason { return w.lately(now) })
}

// flows is what a total's smooth rate reads, the rate itself but where it follows the
// total, at the last moment before this at which any of it differs.
func (w *walker) flows(p pair, rate circuit.Node) []pair {
	reads := []circuit.Node{rate}
	if w.c.Follows(p.n) {
		reads = w.beside(p.n, rate)
	}
	for i, j := p.here.instant, p.there.instant; ; {
		q := pair{rate, w.here.after(i), w.there.after(j)}
		if i == p.here.instant && j == p.there.instant {
			q = pair{rate, w.here.earlier(p.here), w.there.earlier(p.there)}
		}
		if slices.ContainsFunc(w.at(q, reads...), w.differs) {
			return w.at(q, reads...)
		}
		switch {
		case i == 0 && j == 0:
			return nil
		case j == 0 || i > 0 && q.here.at >= q.there.at:
			i--
		default:
			j--
		}
	}
}

// beside lists what the rate of a total that follows itself reads beside the total: all
// that the values which follow it read and that do not.
func (w *walker) beside(total, rate circuit.Node) (list []circuit.Node) {
	under, follows := w.smoothUnder(rate, total), map[circuit.Node]bool{total: true}
	for grown := true; grown; {
		grown = false
		for _, n := range under {
			if !follows[n] && slices.ContainsFunc(w.c.Gate(n).Args, func(a circuit.Node) bool { return follows[a] }) {
				follows[n], grown = true, true
			}
		}
	}
	for n := range follows {
		if n == total {
			continue
		}
		for _, a := range w.c.Gate(n).Args {
			if !follows[a] {
				list = append(list, a)
			}
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// smoothUnder lists the smooth numbers from which one is worked out, down to a total:
// another total there may follow itself.
func (w *walker) smoothUnder(rate, total circuit.Node) (list []circuit.Node) {
	list = []circuit.Node{rate}
	for i := 0; i < len(list); i++ {
		for _, a := range w.c.Gate(list[i]).Args {
			if a != total && w.c.Smooth(a) && !slices.Contains(list, a) {
				list = append(list, a)
			}
		}
	}
	return list
}
