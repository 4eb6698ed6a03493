package circuit

import (
	"fmt"
	"sort"
	"strings"

	"knockon/book"
)

// Unsettled reports a loop that never settles.
type Unsettled struct {
	At    book.Time
	Items []string
}

func (u *Unsettled) Error() string {
	return fmt.Sprintf("at %.3f s these keep changing each other and never settle: %s; put a latch or a timer between them", u.At.Seconds(), strings.Join(u.Items, ", "))
}

func (m *Machine) unsettled() error {
	before := append([]float64(nil), m.val...)
	seen := m.restless
	for range 50 {
		m.evaluate()
		if !m.follow() {
			m.latch()
		}
		for n := range m.val {
			if m.val[n] != before[n] && m.c.ops[n].item != "" {
				seen[m.c.ops[n].item] = true
			}
		}
	}
	return &Unsettled{m.now, m.c.members(seen)}
}

// noteRestless takes down what still changes when a moment is close to having
// had too many instants: the members of a loop that never settles.
func (m *Machine) noteRestless(n Node) {
	if item := m.c.ops[n].item; item != "" && (m.passes > mostPasses-50 || m.crowd > mostCrowd-50) {
		m.restless[item] = true
	}
}

// members lists the items among those given whose values depend on themselves
// through others of them: the loop itself, without what merely follows it.
func (c *Circuit) members(restless map[string]bool) []string {
	s := &sccs{c: c, in: restless, index: make([]int32, len(c.ops)), low: make([]int32, len(c.ops)), on: make([]bool, len(c.ops)), found: map[string]bool{}}
	for i := range c.ops {
		if s.index[i] == 0 {
			s.visit(Node(i))
		}
	}
	if len(s.found) == 0 {
		s.found = restless
	}
	var items []string
	for id := range s.found {
		items = append(items, id)
	}
	sort.Strings(items)
	return items
}

// sccs finds strongly connected components (Tarjan 1972, doi 10.1137/0201010)
// over all operands, those behind memories included.
type sccs struct {
	c          *Circuit
	in         map[string]bool
	index, low []int32
	on         []bool
	stack      []Node
	next       int32
	found      map[string]bool
}

func (s *sccs) visit(n Node) {
	s.next++
	s.index[n], s.low[n] = s.next, s.next
	s.stack, s.on[n] = append(s.stack, n), true
	for _, a := range s.c.operands(n) {
		if s.index[a] == 0 {
			s.visit(a)
			s.low[n] = min(s.low[n], s.low[a])
		} else if s.on[a] {
			s.low[n] = min(s.low[n], s.index[a])
		}
	}
	if s.low[n] == s.index[n] {
		s.pop(n)
	}
}

func (s *sccs) pop(root Node) {
	i := len(s.stack)
	for s.stack[i-1] != root {
		i--
	}
	component := s.stack[i-1:]
	for _, n := range component {
		s.on[n] = false
		if item := s.c.ops[n].item; len(component) > 1 && s.in[item] {
			s.found[item] = true
		}
	}
	s.stack = s.stack[:i-1]
}
