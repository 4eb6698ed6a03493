package why

import (
	"sort"

	"knockon/book"
	"knockon/circuit"
)

// stage is a place in a run: a moment as an instant left it or, where pass is
// not 0, that evaluation inside the instant.
type stage struct {
	at      book.Time
	instant int
	pass    int
}

// side is one run, with the evaluations inside instants that were asked for.
type side struct {
	*circuit.Trace
	passes map[[2]int]*circuit.Pass
	places map[circuit.Node]circuit.Node // of nodes that stand elsewhere in this run's circuit
}

// newSide makes a side whose nodes go by the numbers that they have in another
// circuit: the conditions of two scenarios stand behind the same circuit.
func newSide(t *circuit.Trace, as *circuit.Circuit) *side {
	s := &side{Trace: t, passes: map[[2]int]*circuit.Pass{}}
	if c := t.Circuit(); c != as {
		s.places = map[circuit.Node]circuit.Node{}
		at := map[*book.Expr]circuit.Node{}
		for n := range circuit.Node(c.Size()) {
			_, _, e := c.Source(n)
			at[e] = n
		}
		for n := range circuit.Node(as.Size()) {
			_, _, e := as.Source(n)
			if place, ok := at[e]; e != nil && ok && e != sourceOf(c, n) {
				s.places[n] = place
			}
		}
	}
	return s
}

func sourceOf(c *circuit.Circuit, n circuit.Node) *book.Expr {
	if int(n) >= c.Size() {
		return nil
	}
	_, _, e := c.Source(n)
	return e
}

// own is the number here of a node of another side's circuit.
func (s *side) own(n circuit.Node, of *side) circuit.Node {
	for mine, theirs := range of.places {
		if theirs == n {
			return mine
		}
	}
	return n
}

// place is where a node stands in this run's circuit.
func (s *side) place(n circuit.Node) circuit.Node {
	if p, ok := s.places[n]; ok {
		return p
	}
	return n
}

// settled is the stage of a moment when all that happened at it is over.
func (s *side) settled(at book.Time) stage {
	at = min(at, s.End)
	return stage{at, s.InstantAt(at), 0}
}

// after is the stage of an instant when it is over.
func (s *side) after(instant int) stage {
	instant = max(instant, 0)
	return stage{s.Instants()[instant], instant, 0}
}

// in is the stage of an evaluation; behind the last one of its instant nothing
// changes any more.
func (s *side) in(instant, pass int) stage {
	st := s.after(instant)
	moves := s.MovesIn(instant)
	if pass = max(pass, 1); len(moves) > 0 && pass <= int(moves[len(moves)-1].Pass) {
		st.pass = pass
	}
	return st
}

// earlier is the stage that a following memory was worked out from: the settled
// values themselves, or the evaluation before.
func (s *side) earlier(st stage) stage {
	switch {
	case st.pass == 0:
		return st
	case st.pass > 1:
		return s.in(st.instant, st.pass-1)
	}
	return s.after(st.instant - 1)
}

func (s *side) pass(st stage) *circuit.Pass {
	key := [2]int{st.instant, st.pass}
	p, ok := s.passes[key]
	if !ok {
		p = s.Pass(st.instant, st.pass)
		s.passes[key] = p
	}
	return p
}

// LastMove and LastChange take a node by its number in the other circuit.
func (s *side) LastMove(n circuit.Node, instant, pass int) (circuit.Move, bool) {
	return s.Trace.LastMove(s.place(n), instant, pass)
}

func (s *side) LastChange(n circuit.Node, instant int) (circuit.Change, bool) {
	return s.Trace.LastChange(s.place(n), instant)
}

func (s *side) value(n circuit.Node, st stage) float64 {
	n = s.place(n)
	if int(n) >= s.Circuit().Size() {
		return 0 // a condition of the scenario, which the other run does not observe
	}
	if st.pass != 0 {
		return s.pass(st).Value(n)
	}
	return s.In(n, st.at, st.instant)
}

// lasting says that a node still has its value when all at the moment is over.
func (s *side) lasting(n circuit.Node, st stage) bool {
	return alike(s.value(n, st), s.value(n, s.settled(st.at)))
}

// quiet says that no later move of the instant can change the node.
func (s *side) quiet(n circuit.Node, st stage) bool {
	n = s.place(n)
	return st.pass == 0 || int(n) >= s.Circuit().Size() || s.pass(st).Settled(n)
}

// instantsAt is the first of the instants at a moment and how many there are.
func (s *side) instantsAt(at book.Time) (first, count int) {
	all := s.Instants()
	first = sort.Search(len(all), func(i int) bool { return all[i] >= at })
	for first+count < len(all) && all[first+count] == at {
		count++
	}
	return first, count
}

// align finds the stage of one run that a stage of another is held against: the
// same evaluation of as many instants at the same moment, where there is one.
func align(from *side, st stage, to *side) stage {
	if st.pass == 0 && from.InstantAt(st.at) == st.instant {
		return to.settled(st.at)
	}
	first, _ := from.instantsAt(st.at)
	k, count := to.instantsAt(st.at)
	switch nth := st.instant - first; {
	case count == 0 || nth >= count:
		return to.settled(st.at)
	case st.pass == 0:
		return to.after(k + nth)
	default:
		return to.in(k+nth, st.pass)
	}
}

// later says that a stage comes after another of another run.
func later(a *side, x stage, b *side, y stage) bool {
	if x.at != y.at {
		return x.at > y.at
	}
	i, _ := a.instantsAt(x.at)
	j, _ := b.instantsAt(y.at)
	if x.instant-i != y.instant-j {
		return x.instant-i > y.instant-j
	}
	return x.pass > y.pass
}
