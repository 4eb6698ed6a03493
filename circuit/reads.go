package circuit

import "slices"

// Reads lists the steady nodes that a number which may change between
// instants is computed from, in order, and says whether it also depends on a
// memory of its own (a total or a frozen value). Two runs of one flight in
// which all these have the same values give such a number the same value, if
// it remembers nothing. For a steady node that is the node itself.
func (c *Circuit) Reads(n Node) (steady []Node, remembers bool) {
	if !c.smooth[n] {
		return []Node{n}, false
	}
	seen := map[Node]bool{}
	for _, s := range c.smoothUnder(n) {
		code := c.ops[s].code
		remembers = remembers || code == cTotal || code == cFrozen
		for _, a := range c.operands(s) {
			if !c.smooth[a] && !seen[a] {
				seen[a] = true
				steady = append(steady, a)
			}
		}
	}
	slices.Sort(steady)
	return steady, remembers
}
