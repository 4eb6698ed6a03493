package witness

import "slices"

// lit is a variable, or its opposite: twice its number, plus one.
type lit int32

func (x lit) not() lit  { return x ^ 1 }
func (x lit) of() int32 { return int32(x >> 1) }

// truth is what is known of a variable.
type truth int8

const (
	open truth = 0
	yes  truth = 1
	no   truth = -1
)

// solver searches values for variables that keep all clauses: each clause has a
// literal that is true. It learns a clause from every dead end, and goes back as
// far as that clause says.
type solver struct {
	clauses []clause
	watch   [][]watcher // by literal: the clauses that look at its becoming false
	value   []truth     // by variable
	model   []truth     // the values of the set that was found last
	depth   []int32     // by variable: how many choices were made when it got its value
	cause   []int32     // by variable: the clause that forced it, or -1
	chosen  []truth     // by variable: the value that it had last
	from    [][]int32   // by variable: those that decide it
	trail   []lit       // what is true, in the order in which it became so
	choices []int       // where in the trail each choice stands
	ahead   int         // how much of the trail has been followed
	broken  bool        // the clauses cannot be kept at all
	rank
	seen   []bool // by variable, while a clause is learnt
	learnt int    // clauses that were learnt and are kept
	keep   int    // how many of these may be
}

type clause struct {
	lits   []lit
	learnt bool
}

type watcher struct {
	clause int32
	other  lit // true often: then the clause need not be looked at
}

// variable makes a new variable that stands for an event, or for none: -1.
func (f *Finder) variable(event int) lit {
	v := lit(len(f.value) << 1)
	f.value, f.depth, f.cause = append(f.value, open), append(f.depth, 0), append(f.cause, -1)
	f.chosen, f.from, f.seen = append(f.chosen, no), append(f.from, nil), append(f.seen, false)
	f.watch = append(f.watch, nil, nil)
	f.event = append(f.event, event)
	f.rank.grow()
	return v
}

func (s *solver) truthOf(x lit) truth {
	if x&1 == 1 {
		return -s.value[x>>1]
	}
	return s.value[x>>1]
}

// add adds a clause while no choice is made.
func (s *solver) add(lits ...lit) {
	kept := make([]lit, 0, len(lits))
	slices.Sort(lits)
	for i, x := range lits {
		switch {
		case s.truthOf(x) == yes, i > 0 && lits[i-1] == x.not():
			return
		case s.truthOf(x) == no, i > 0 && lits[i-1] == x:
		default:
			kept = append(kept, x)
		}
	}
	switch len(kept) {
	case 0:
		s.broken = true
	case 1:
		s.set(kept[0], -1)
		s.broken = s.follow() >= 0 || s.broken
	default:
		s.attach(kept, false)
	}
}

func (s *solver) attach(lits []lit, learnt bool) int32 {
	i := int32(len(s.clauses))
	s.clauses = append(s.clauses, clause{lits, learnt})
	s.look(i)
	return i
}

func (s *solver) look(i int32) {
	c := s.clauses[i].lits
	s.watch[c[0]] = append(s.watch[c[0]], watcher{i, c[1]})
	s.watch[c[1]] = append(s.watch[c[1]], watcher{i, c[0]})
}

func (s *solver) set(x lit, cause int32) {
	v := x.of()
	s.value[v] = yes
	if x&1 == 1 {
		s.value[v] = no
	}
	s.depth[v], s.cause[v] = int32(len(s.choices)), cause
	s.trail = append(s.trail, x)
}

// follow sets what the clauses force. It returns a clause that cannot be kept,
// or -1.
func (s *solver) follow() int32 {
	for s.ahead < len(s.trail) {
		x := s.trail[s.ahead].not() // is false now
		s.ahead++
		list := s.watch[x]
		kept := list[:0]
		for i, w := range list {
			if s.truthOf(w.other) == yes {
				kept = append(kept, w)
				continue
			}
			stays, w := s.visit(w.clause, x)
			if stays {
				kept = append(kept, w)
			}
			if stays && s.truthOf(w.other) == no {
				s.watch[x] = append(kept, list[i+1:]...)
				s.ahead = len(s.trail)
				return w.clause
			}
			if stays && s.truthOf(w.other) == open {
				s.set(w.other, w.clause)
			}
		}
		s.watch[x] = kept
	}
	return -1
}

// visit looks for another literal of a clause to watch in place of x. Where it
// stays with x, the other one is true, forced, or false too.
func (s *solver) visit(i int32, x lit) (stays bool, w watcher) {
	c := s.clauses[i].lits
	if c[0] == x {
		c[0], c[1] = c[1], c[0]
	}
	w = watcher{i, c[0]}
	if s.truthOf(c[0]) == yes {
		return true, w
	}
	for k := 2; k < len(c); k++ {
		if s.truthOf(c[k]) != no {
			c[1], c[k] = c[k], c[1]
			s.watch[c[1]] = append(s.watch[c[1]], w)
			return false, w
		}
	}
	return true, w
}

// back takes back all choices beyond a depth.
func (s *solver) back(depth int) {
	if len(s.choices) <= depth {
		return
	}
	for i := len(s.trail) - 1; i >= s.choices[depth]; i-- {
		v := s.trail[i].of()
		s.chosen[v], s.value[v] = s.value[v], open
		s.rank.push(v)
	}
	s.trail = s.trail[:s.choices[depth]]
	s.choices = s.choices[:depth]
	s.ahead = len(s.trail)
}

// search looks for values with which all that is wanted is true.
func (s *solver) search(wanted []lit, most int) Answer {
	if s.broken {
		return None
	}
	defer s.back(0)
	s.forget()
	s.gather(wanted)
	for ends, pause, tries := 0, 100, 0; ; tries++ {
		bad := s.follow()
		switch {
		case tries >= most:
			return Unknown
		case bad >= 0 && len(s.choices) == 0:
			s.broken = true
			return None
		case bad >= 0:
			s.learn(bad)
			ends++
		case ends >= pause:
			pause += ends/2 + 100
			s.back(0)
		default:
			if found := s.choose(wanted); found != Unknown {
				return found
			}
		}
	}
}

// choose takes the next of what is wanted for true, or a variable as it was
// last. It answers when there is nothing left to choose.
func (s *solver) choose(wanted []lit) Answer {
	for len(s.choices) < len(wanted) {
		x := wanted[len(s.choices)]
		switch s.truthOf(x) {
		case no:
			return None
		case yes:
			s.choices = append(s.choices, len(s.trail))
			continue
		}
		s.choices = append(s.choices, len(s.trail))
		s.set(x, -1)
		return Unknown
	}
	for {
		v, ok := s.rank.pop()
		if !ok {
			s.model = append(s.model[:0], s.value...)
			return Some
		}
		if s.value[v] == open {
			x := lit(v << 1)
			if s.chosen[v] == no {
				x = x.not()
			}
			s.choices = append(s.choices, len(s.trail))
			s.set(x, -1)
			return Unknown
		}
	}
}

// gather puts the variables that decide what is wanted up for choice.
func (s *solver) gather(wanted []lit) {
	s.rank.clear()
	var list []int32
	visit := func(v int32) {
		if s.rank.admit(v) {
			list = append(list, v)
		}
	}
	for _, x := range wanted {
		visit(x.of())
	}
	for i := 0; i < len(list); i++ {
		for _, v := range s.from[list[i]] {
			visit(v)
		}
	}
	for _, v := range list {
		s.rank.push(v)
	}
}
