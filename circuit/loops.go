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
	found := map[string]bool{}
	loops(c.operandsOf(), func(loop []Node) {
		for _, n := range loop {
			if item := c.ops[n].item; restless[item] {
				found[item] = true
			}
		}
	})
	if len(found) == 0 {
		found = restless
	}
	var items []string
	for id := range found {
		items = append(items, id)
	}
	sort.Strings(items)
	return items
}

// operandsOf lists the operands of every node, those behind memories included.
func (c *Circuit) operandsOf() [][]Node {
	list := make([][]Node, len(c.ops))
	for n := range c.ops {
		list[n] = c.operands(Node(n))
	}
	return list
}

// loops calls each for all nodes that hang on each other, for every such set. The list
// is valid until each returns.
func loops(feeds [][]Node, each func([]Node)) {
	s := &sccs{feeds: feeds, each: each, index: make([]int32, len(feeds)), low: make([]int32, len(feeds)), on: make([]bool, len(feeds))}
	for i := range feeds {
		if s.index[i] == 0 {
			s.visit(Node(i))
		}
	}
}

// sccs finds strongly connected components (Tarjan 1972, doi 10.1137/0201010).
type sccs struct {
	feeds      [][]Node
	each       func([]Node)
	index, low []int32
	on         []bool
	stack      []Node
	next       int32
}

func (s *sccs) visit(n Node) {
	s.next++
	s.index[n], s.low[n] = s.next, s.next
	s.stack, s.on[n] = append(s.stack, n), true
	for _, a := range s.feeds[n] {
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
	}
	if len(component) > 1 {
		s.each(component)
	}
	s.stack = s.stack[:i-1]
}
