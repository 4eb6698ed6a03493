package circuit

import "knockon/book"

// Gauge reads values off machines between their instants. It never changes and
// may be shared by machines of one circuit.
type Gauge struct{ cones map[Node][]Node }

// NewGauge makes a gauge for some nodes of a circuit.
func NewGauge(c *Circuit, nodes []Node) *Gauge {
	g := &Gauge{cones: map[Node][]Node{}}
	for _, n := range nodes {
		g.cones[n] = c.smoothUnder(n)
	}
	return g
}

// Read gives the value of one of the gauge's nodes at a moment from the machine's
// last instant on, as long as no other instant lies between.
func (g *Gauge) Read(m *Machine, n Node, at book.Time) float64 {
	m.look(g.cones[n], at)
	return m.val[n]
}
