package circuit

// Smooth says that a node is a number that may change between instants.
func (c *Circuit) Smooth(n Node) bool { return c.smooth[n] }

// Lags says of a node of kind GateBefore that its change asks for no further
// instant at the same moment.
func (c *Circuit) Lags(n Node) bool { return c.ops[n].code == cStood }

// PhaseGates returns for each phase the node that is yes in it, and the node
// whose yes begins it (None for the first).
func (c *Circuit) PhaseGates() (in, begins []Node) {
	for _, p := range c.phases {
		in, begins = append(in, p.node), append(begins, p.begins)
	}
	return in, begins
}
