package witness

import "slices"

// learn makes a clause of a dead end: what of the choices before the last one
// forces the opposite of something after it. It goes back and sets that.
func (s *solver) learn(bad int32) {
	learnt := []lit{0}
	depth, count := int32(len(s.choices)), 0
	var clear []int32
	at := len(s.trail) - 1
	for x := lit(-1); ; {
		for _, y := range s.clauses[bad].lits {
			v := y.of()
			if y == x || s.seen[v] || s.depth[v] == 0 {
				continue
			}
			s.seen[v] = true
			clear = append(clear, v)
			s.rank.raise(v)
			if s.depth[v] == depth {
				count++
			} else {
				learnt = append(learnt, y)
			}
		}
		for !s.seen[s.trail[at].of()] {
			at--
		}
		x, bad = s.trail[at], s.cause[s.trail[at].of()]
		at--
		if count--; count == 0 {
			learnt[0] = x.not()
			break
		}
	}
	learnt = s.shorten(learnt)
	for _, v := range clear {
		s.seen[v] = false
	}
	s.rank.decay()
	s.apply(learnt)
}

// shorten leaves out what the rest of a clause forces.
func (s *solver) shorten(c []lit) []lit {
	return append(c[:1], slices.DeleteFunc(c[1:], func(x lit) bool {
		cause := s.cause[x.of()]
		return cause >= 0 && !slices.ContainsFunc(s.clauses[cause].lits, func(y lit) bool {
			return !s.seen[y.of()] && s.depth[y.of()] > 0
		})
	})...)
}

func (s *solver) apply(c []lit) {
	if len(c) == 1 {
		s.back(0)
		s.set(c[0], -1)
		return
	}
	deepest := 1
	for i := range c {
		if i > 0 && s.depth[c[i].of()] > s.depth[c[deepest].of()] {
			deepest = i
		}
	}
	c[1], c[deepest] = c[deepest], c[1]
	s.back(int(s.depth[c[1].of()]))
	s.learnt++
	s.set(c[0], s.attach(c, true))
}

// forget drops the longer half of what was learnt when it is too much. No choice
// is made then.
func (s *solver) forget() {
	s.keep = max(s.keep, 5000)
	if s.learnt <= s.keep {
		return
	}
	var sizes []int
	for _, c := range s.clauses {
		if c.learnt {
			sizes = append(sizes, len(c.lits))
		}
	}
	slices.Sort(sizes)
	longest := sizes[len(sizes)/2]
	s.clauses = slices.DeleteFunc(s.clauses, func(c clause) bool { return c.learnt && len(c.lits) > max(longest, 2) })
	s.learnt = 0
	for i := range s.watch {
		s.watch[i] = s.watch[i][:0]
	}
	for i, c := range s.clauses {
		s.look(int32(i))
		if c.learnt {
			s.learnt++
		}
	}
	for i := range s.cause {
		s.cause[i] = -1
	}
	s.keep = max(s.keep, s.learnt*2)
}
