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
	if !w.c.Smooth(rate) {
		before := pair{rate, flowed(w.here, p.here), flowed(w.there, p.there)}
		now := pair{rate, w.here.earlier(p.here), w.there.earlier(p.there)}
		return first(func() *reason { return w.lately(before) }, func() *reason { return w.lately(now) })
	}
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
			return w.all(w.at(q, reads...))
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
	follows := map[circuit.Node]bool{total: true}
	var ring func(n circuit.Node) bool
	ring = func(n circuit.Node) bool {
		is, known := follows[n]
		if !known && w.c.Smooth(n) {
			for _, a := range w.c.Gate(n).Args {
				is = ring(a) || is
			}
			follows[n] = is
		}
		return is
	}
	ring(rate)
	for n := range follows {
		if n == total || !follows[n] {
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
