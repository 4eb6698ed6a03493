package circuit

// Narrowed is a smaller circuit: the nodes that are kept, with all that they hang
// on, have the values that they have in the whole one, and all else is left out. The
// controls and the phase can still be moved, but have a name only if they are kept,
// since what else moves them is not known. What a loop in the rest would have brought
// to an end goes on. Nodes have numbers of their own.
func (c *Circuit) Narrowed(keep []bool) *Circuit {
	x := &narrowing{whole: c, to: make([]Node, len(c.ops)), Circuit: &Circuit{
		Build: c.Build, holds: c.holds, words: c.words, index: map[Value]Node{}, names: map[Node]Value{}, ways: c.ways, wayOf: c.wayOf, controlOf: c.controlOf,
	}}
	x.choose(keep)
	x.copyNodes()
	x.copyLists(keep)
	k := &compiler{Circuit: x.Circuit}
	k.finish()
	return x.Circuit
}

// narrowing is a circuit being copied in part.
type narrowing struct {
	*Circuit
	whole *Circuit
	to    []Node // the new number of a node; None: left out
}

// choose gives numbers to what is kept.
func (x *narrowing) choose(keep []bool) {
	stays := append([]bool(nil), keep...)
	for _, k := range x.whole.controls {
		stays[k.node] = true
	}
	stays[x.whole.phaseNode] = true
	next := Node(0)
	for n := range x.to {
		if x.to[n] = None; stays[n] {
			x.to[n] = next
			next++
		}
	}
}

func (x *narrowing) copyNodes() {
	for i := range x.whole.ops {
		if x.to[i] == None {
			continue
		}
		o, in := x.whole.ops[i], x.whole.operands(Node(i))
		o.first = int32(len(x.args))
		for _, a := range in {
			x.args = append(x.args, x.to[a])
		}
		x.ops = append(x.ops, o)
	}
}

func (x *narrowing) copyLists(keep []bool) {
	for _, v := range x.whole.named {
		if n := x.to[v.Node]; keep[v.Node] {
			x.index[v.Value] = n
			x.named = append(x.named, Named{v.Value, n, v.Type})
			if _, ok := x.names[n]; !ok {
				x.names[n] = v.Value
			}
		}
	}
	for _, w := range x.whole.watch {
		if n := x.to[w.node]; n != None {
			x.watch = append(x.watch, watched{w.expr, n})
		}
	}
	for _, n := range x.whole.wayNode {
		x.wayNode = append(x.wayNode, x.to[n])
	}
	for _, k := range x.whole.controls {
		k.node = x.to[k.node]
		x.controls = append(x.controls, k)
	}
	x.copyEdges()
}

// copyEdges copies what moves memories, where it is left.
func (x *narrowing) copyEdges() {
	for _, a := range x.whole.acts {
		if a.when = x.to[a.when]; a.when != None {
			x.acts = append(x.acts, a)
		}
	}
	for _, p := range x.whole.phases {
		p.node, p.begins = x.moved(p.node), x.moved(p.begins)
		x.phases = append(x.phases, p)
	}
	x.phaseNode = x.to[x.whole.phaseNode]
	for _, r := range x.whole.resets {
		if r.when = x.to[r.when]; r.when != None {
			x.resets = append(x.resets, r)
		}
	}
}

func (x *narrowing) moved(n Node) Node {
	if n == None {
		return None
	}
	return x.to[n]
}

// Narrowed is the course of a narrowed circuit on the same flight.
func (k *Course) Narrowed(keep []bool) *Course {
	c := k.c.Narrowed(keep)
	if k.live {
		return NewLiveCourse(c, k.reals, k.knots, k.step)
	}
	return NewCourse(c, k.reals, k.knots, k.step)
}

// Under marks nodes and all that they hang on, with whatever moves a control, the
// phase or a failure.
func (c *Circuit) Under(nodes []Node) []bool {
	marked := make([]bool, len(c.ops))
	open := append([]Node{c.phaseNode}, nodes...)
	for _, a := range c.acts {
		open = append(open, a.when)
	}
	for _, p := range c.phases {
		open = append(open, p.begins, p.node)
	}
	for _, r := range c.resets {
		open = append(open, r.when)
	}
	for len(open) > 0 {
		n := open[len(open)-1]
		open = open[:len(open)-1]
		if n == None || marked[n] {
			continue
		}
		marked[n] = true
		open = append(open, c.operands(n)...)
	}
	return marked
}
