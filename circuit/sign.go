package circuit

import "math"

// Touched lists the nodes that had another value at some point of the last
// instant, those that came back to what they were included.
func (m *Machine) Touched() []Node { return m.touched }

// Sign has the machine sign, from the next instant on, how each node comes to its
// value. Two runs in which a node has the same signature at an instant have given
// it the same values in the same evaluations there.
func (m *Machine) Sign() { m.signs = make([]uint64, len(m.val)) }

// Signature is that of a node that the last instant touched.
func (m *Machine) Signature(n Node) uint64 { return m.signs[n] }

func (m *Machine) sign(n Node, v float64) {
	x := (m.signs[n]^math.Float64bits(v))*0x9E3779B97F4A7C15 + uint64(m.pass) + 1
	x ^= x >> 29
	m.signs[n] = x * 0xBF58476D1CE4E5B9
}

// unsigned wipes the signatures of the last instant.
func (m *Machine) unsigned() {
	for _, n := range m.touched {
		m.signs[n] = 0
	}
}
