package ledger

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// support finds out what a value rests on, from the text of the book and the
// values of this run.
type support struct {
	*comparison
	*wiring
	*places
	gone map[string]bool // units that do not work at the moment asked about
	at   book.Time
	memo map[string][]string
	open map[string]bool
}

func newSupport(c *comparison) *support {
	return &support{comparison: c, wiring: newWiring(c.build), places: placesOf(c.here.Course), at: -1}
}

// places is where a circuit has the expressions of the text.
type places struct {
	exprs map[*book.Expr]circuit.Node // of expressions that are no bare reference
	reals map[string]circuit.Node     // of real.* values, which all uses share
}

type placesKey struct{}

func placesOf(c *run.Course) *places {
	return c.Once(placesKey{}, func() any {
		ct := c.Circuit()
		p := &places{make(map[*book.Expr]circuit.Node, ct.Size()), map[string]circuit.Node{}}
		for n := range circuit.Node(ct.Size()) {
			if _, _, e := ct.Source(n); e != nil {
				p.exprs[e] = n
				if e.Op == book.OpReal {
					p.reals[e.ID] = n
				}
			}
		}
		return p
	}).(*places)
}

// of gives the ids that keep a function working at the moment at which most
// of its units are gone. A unit that is gone keeps nothing working, even where
// a value is what it is because of that.
func (s *support) of(k Kept, gone map[string]outage) []string {
	if k.At != s.at {
		s.at, s.gone = k.At, map[string]bool{}
		s.memo, s.open = map[string][]string{}, map[string]bool{}
		for u, o := range gone {
			s.gone[u] = o.out.Has(k.At)
		}
	}
	return slices.DeleteFunc(slices.Clone(s.why(k.Function.Works)), func(id string) bool { return s.gone[id] })
}

// node of an expression; ok is false for what the circuit shares or folds.
func (s *support) node(e *book.Expr) (circuit.Node, bool) {
	c := s.here.Circuit()
	switch e.Op {
	case book.OpRef:
		return c.Node(circuit.Value{Item: e.ID})
	case book.OpFailed:
		return c.Node(circuit.Value{Item: e.ID, Aspect: circuit.Failed})
	case book.OpFault:
		return c.Node(circuit.Value{Item: e.ID, Aspect: circuit.Aspect(e.Word)})
	}
	if e.Op == book.OpReal {
		n, ok := s.reals[e.ID]
		return n, ok
	}
	n, ok := s.exprs[e]
	return n, ok
}

func (s *support) yes(e *book.Expr) bool {
	n, ok := s.node(e)
	return ok && s.here.At(n, s.at) != 0
}

// why lists the ids that make a yes/no what it is: all operands where all are
// needed, and the fewest where some are enough.
func (s *support) why(e *book.Expr) []string {
	switch e.Op {
	case book.OpRef:
		return s.item(e.ID)
	case book.OpReal:
		return []string{"real." + e.ID}
	case book.OpFailed, book.OpFault:
		return []string{e.ID}
	case book.OpNot:
		return s.why(e.Args[0])
	case book.OpAnd, book.OpAll:
		if s.yes(e) {
			return s.all(e.Args)
		}
		return s.fewest(e.Args, false, 1)
	case book.OpOr, book.OpAny:
		if s.yes(e) {
			return s.fewest(e.Args, true, 1)
		}
		return s.all(e.Args)
	case book.OpAtLeast:
		if s.yes(e) {
			return s.fewest(e.Args, true, int(e.Num))
		}
		return s.fewest(e.Args, false, len(e.Args)-int(e.Num)+1)
	case book.OpIf:
		chosen := e.Args[2]
		if s.yes(e.Args[0]) {
			chosen = e.Args[1]
		}
		return union(s.why(e.Args[0]), s.why(chosen))
	}
	return s.all(e.Args)
}

// item gives what an item's value rests on: what is under it, if that is a
// yes/no without a memory of its own and something under it is gone; else the
// item itself.
func (s *support) item(id string) []string {
	if ids, ok := s.memo[id]; ok {
		return ids
	}
	ids := []string{id}
	it, _ := s.build.Item(id)
	if under := s.transparent(it); under != nil && !s.open[id] {
		s.open[id] = true
		ids = s.why(under)
		delete(s.open, id)
	}
	s.memo[id] = ids
	return ids
}

func (s *support) transparent(it book.Item) *book.Expr {
	switch it := it.(type) {
	case *book.Unit:
		if it.Needs != nil && !s.gone[it.ID] && s.overGone(it.ID) {
			return it.Needs
		}
	case *book.Signal:
		if it.Value != nil && it.Type == book.YesNo {
			return it.Value
		}
	case *book.Function:
		return it.Works
	}
	return nil
}

func (s *support) overGone(id string) bool {
	return slices.ContainsFunc(s.unitsUnder(id), func(u string) bool { return s.gone[u] && u != id })
}

func (s *support) all(list []*book.Expr) []string {
	var ids []string
	for _, e := range list {
		ids = union(ids, s.why(e))
	}
	return ids
}

// fewest gives what k of the operands that are want rest on, those with the
// shortest reasons first, then in the order of the text.
func (s *support) fewest(list []*book.Expr, want bool, k int) []string {
	var reasons [][]string
	for _, e := range list {
		if s.yes(e) == want {
			reasons = append(reasons, s.why(e))
		}
	}
	slices.SortStableFunc(reasons, func(a, b []string) int { return len(a) - len(b) })
	var ids []string
	for _, r := range reasons[:min(k, len(reasons))] {
		ids = union(ids, r)
	}
	return ids
}

func union(a, b []string) []string {
	for _, id := range b {
		if !slices.Contains(a, id) {
			a = append(slices.Clip(a), id)
		}
	}
	return a
}
