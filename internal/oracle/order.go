package oracle

import (
	"fmt"
	"strings"
)

// sorter puts the parts of a machine in an order in which each comes after
// those that it reads.
type sorter struct {
	m     *machine
	state map[*part]int // 1: under way, 2: done
	path  []string
}

// sort readies the parts and roots for evaluation. It reports the first loop
// of values that no memory breaks.
func (m *machine) sort() error {
	s := &sorter{m: m, state: map[*part]int{}}
	for _, p := range m.parts {
		if err := s.part(p); err != nil {
			return err
		}
	}
	for _, n := range m.roots {
		if err := s.node(n); err != nil {
			return err
		}
	}
	return nil
}

func (s *sorter) part(p *part) error {
	s.path = append(s.path, p.String())
	defer func() { s.path = s.path[:len(s.path)-1] }()
	switch s.state[p] {
	case 1:
		return fmt.Errorf("a loop without a memory: %s", strings.Join(s.path, ", "))
	case 2:
		return nil
	}
	s.state[p] = 1
	if err := s.node(p.root); err != nil {
		return err
	}
	s.state[p] = 2
	return nil
}

// node goes through a node and all below it, and gives each that reads a part
// the slot of that part; each flows after what is below it.
func (s *sorter) node(n *node) error {
	if n.op == opPart {
		if err := s.part(n.part); err != nil {
			return err
		}
		n.slot = n.read().slot
	}
	for _, a := range n.args {
		if err := s.node(a); err != nil {
			return err
		}
		n.in = append(n.in, a.slot)
	}
	if !n.still() {
		s.m.flow = append(s.m.flow, step{op: n.op, logic: isLogic(n.op), slot: n.slot, num: n.num, in: n.in, node: n})
	}
	return nil
}
