package point

import (
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
)

// seen knows which failures can stand behind what people see.
type seen struct {
	l      *ledger.Ledger
	paths  *circuit.Paths
	due    map[string]bool              // alerts that are due here and not there: what keeps one silent bites already
	nodes  map[string][]circuit.Node    // of each item
	behind map[string][]book.FailureRef // of each item that was asked for
}

func newSeen(l *ledger.Ledger) *seen {
	s := &seen{l: l, due: map[string]bool{}, nodes: map[string][]circuit.Node{}, behind: map[string][]book.FailureRef{}}
	for _, v := range l.Here.Circuit().Values() {
		s.nodes[v.Value.Item] = append(s.nodes[v.Value.Item], v.Node)
		if v.Value.Aspect == circuit.Believed && s.differs(v.Node) {
			s.due[v.Value.Item] = true
		}
	}
	s.paths = l.Here.Circuit().NewPaths(s.through)
	return s
}

// differs says that a node is not in all as in the run without the failures. A number
// that moves with time is taken to be.
func (s *seen) differs(n circuit.Node) bool {
	here, there := s.l.Here, s.l.There
	if here.Circuit() != there.Circuit() || !here.Steady(n) || here.Initial(n) != there.Initial(n) {
		return true
	}
	return !slices.EqualFunc(here.History(n), there.History(n), func(a, b circuit.Change) bool { return a.At == b.At && a.To == b.To })
}

// through says that a difference may run through a node: it differs, or belongs to an
// alert that is due and may be kept silent.
func (s *seen) through(n circuit.Node) bool {
	item, _, _ := s.l.Here.Circuit().Source(n)
	return s.due[item] || s.differs(n)
}

// causes are the failures that came and that may stand behind some nodes: without one of
// these they are as they would be without any.
func (s *seen) causes(nodes ...circuit.Node) (list []book.FailureRef) {
	behind := s.paths.Behind(nodes...)
	for i, w := range s.l.Here.Circuit().Ways() {
		if n := s.l.Here.Circuit().WayNode(i); n != circuit.None && behind[n] {
			list = append(list, w)
		}
	}
	return list
}

// of are the failures behind all values of an item.
func (s *seen) of(id string) []book.FailureRef {
	if _, ok := s.behind[id]; !ok {
		s.behind[id] = s.causes(s.nodes[id]...)
	}
	return s.behind[id]
}

// related says that a failure may stand behind both of two items.
func (s *seen) related(a, b string) bool {
	of := s.of(a)
	return slices.ContainsFunc(s.of(b), func(r book.FailureRef) bool { return contains(of, r) })
}

func contains(list []book.FailureRef, r book.FailureRef) bool {
	return slices.ContainsFunc(list, func(o book.FailureRef) bool { return o.Unit == r.Unit && o.Fault == r.Fault })
}

// unseen are the failures that came, that last, and of which nothing on this flight tells
// even by a shadow: no alert, readout or effect on the flight, and no loss that is called
// for, has one of them behind it.
func (s *seen) unseen() (list []book.FailureRef) {
	known := s.causes(s.signs()...)
	for _, w := range s.struck() {
		if !contains(known, w) {
			list = append(list, w)
		}
	}
	return list
}

// struck are the failures that came and last to the end.
func (s *seen) struck() (list []book.FailureRef) {
	c := s.l.Here.Circuit()
	for i, k := range s.l.Here.Scenario.Strikes {
		ways, _ := c.Expand(k.Fail) // the run has had them all
		for _, w := range ways {
			if s.l.Here.Struck[i].Came && s.l.Here.At(c.WayNode(w), s.l.Here.End) != 0 {
				list = append(list, c.Ways()[w])
			}
		}
	}
	return list
}

// signs are the values by which people may come to know that something is not as it
// should be.
func (s *seen) signs() (list []circuit.Node) {
	b := s.l.Here.Course.Build
	for _, v := range s.l.Here.Circuit().Values() {
		item, _ := b.Item(v.Value.Item)
		switch x := item.(type) {
		case *book.Alert:
			if v.Value.Aspect == circuit.Main || s.due[x.ID] {
				list = append(list, v.Node)
			}
		case *book.Indication:
			if v.Value.Aspect == circuit.Main || v.Value.Aspect == circuit.Lit {
				list = append(list, v.Node)
			}
		case *book.Function:
			if lost := s.l.Loss(x.ID); lost != nil && lost.Mattered {
				list = append(list, v.Node)
			}
		default:
			if strings.HasPrefix(v.Value.Item, book.EffectID("")) {
				list = append(list, v.Node)
			}
		}
	}
	return list
}
