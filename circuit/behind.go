package circuit

import "slices"

// Behind marks all that some nodes hang on, themselves included: through gates and
// memories, and through what moves a control, a phase or a way to fail in every
// run. What a scenario moves on a condition of its own is not known here.
func (c *Circuit) Behind(nodes ...Node) []bool {
	return c.NewPaths(func(Node) bool { return true }).Behind(nodes...)
}

// Paths are what hangs on what through some nodes alone.
type Paths struct {
	feeds   [][]Node
	through func(Node) bool
}

// NewPaths gives the paths through the nodes for which through is yes.
func (c *Circuit) NewPaths(through func(Node) bool) *Paths { return &Paths{c.feeds(), through} }

// Behind marks what some nodes hang on by these paths; themselves where they lie on one.
func (p *Paths) Behind(nodes ...Node) []bool {
	is := make([]bool, len(p.feeds))
	for todo := append([]Node(nil), nodes...); len(todo) > 0; {
		n := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if n != None && !is[n] && p.through(n) {
			is[n] = true
			todo = append(todo, p.feeds[n]...)
		}
	}
	return is
}

// Restless lists the nodes that may keep changing each other: whatever never settles
// is among them.
func (c *Circuit) Restless() (list []Node) {
	feeds := c.feeds()
	loops(feeds, func(loop []Node) {
		if !c.latching(loop) && !c.flowsAlone(loop) {
			list = append(list, loop...)
		}
	})
	for n, from := range feeds {
		if slices.Contains(from, Node(n)) && !c.smooth[n] {
			list = append(list, Node(n))
		}
	}
	return list
}

// latching says of a loop that it settles at once: all that it remembers is one yes/no
// of just before, and nothing in it turns a yes into a no.
func (c *Circuit) latching(loop []Node) bool {
	memories := 0
	for _, n := range loop {
		switch c.ops[n].code {
		case cBefore, cStood:
			memories++
		case cAnd, cOr, cAtLeast:
		default:
			return false
		}
	}
	return memories == 1
}

// flowsAlone says of a loop that it changes with time alone: a total that follows itself.
func (c *Circuit) flowsAlone(loop []Node) bool {
	return !slices.ContainsFunc(loop, func(n Node) bool { return !c.smooth[n] })
}

// feeds lists what each node hangs on directly.
func (c *Circuit) feeds() [][]Node {
	list := c.operandsOf()
	add := func(to, from Node) {
		if to != None && from != None {
			list[to] = append(slices.Clip(list[to]), from)
		}
	}
	for _, a := range c.acts {
		add(c.controls[a.control].node, a.when)
	}
	for _, p := range c.phases {
		add(c.phaseNode, p.begins)
	}
	for _, r := range c.resets {
		for i, w := range c.ways {
			if w.Unit == r.unit {
				add(c.wayNode[i], r.when)
			}
		}
	}
	return list
}
