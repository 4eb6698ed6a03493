package module

import (
	"knockon/ways/logic"
)

// Part is an event, or a net that stands for one.
type Part struct {
	Event int  // of the logic; only if Net is nil
	Net   *Net // its leaves are other parts
}

// Parts is a term taken apart.
type Parts struct {
	List []Part
	// Top is the part that the term is, or the opposite of which it is.
	// It is -1 if the term was seen to be constant: then Opposite is its value.
	Top      int
	Opposite bool
}

// Split takes a term apart quickly.
func Split(l *logic.Logic, t logic.Term) *Parts { return split(l, t, (*Net).flatten) }

// SplitTidy takes a term apart and on the way rewrites gates that say the same
// thing at greater length than they need. That takes longer and pays where the
// nets are hard to solve.
func SplitTidy(l *logic.Logic, t logic.Term) *Parts {
	return split(l, t, func(n *Net) *Net { return n.flatten().tidy().flatten() })
}

func split(l *logic.Logic, t logic.Term, simpler func(*Net) *Net) *Parts {
	s := &splitter{parts: &Parts{}, simpler: simpler}
	net := s.load(l, t)
	top := s.part(net)
	s.parts.Top, s.parts.Opposite = int(top>>1)-1, top&1 == 1
	return s.parts
}

type splitter struct {
	parts   *Parts
	simpler func(*Net) *Net
}

// load copies a term into a net over its events.
func (s *splitter) load(l *logic.Logic, t logic.Term) *Net {
	net := newNet()
	image := map[logic.Term]Ref{}
	terms, arguments := inOrder(l, t)
	for _, x := range terms {
		old := arguments[x]
		args := make([]Ref, len(old))
		for i, a := range old {
			args[i] = image[a.Plain()] ^ Ref(a&1)
		}
		switch l.Op(x) {
		case logic.Basic:
			s.parts.List = append(s.parts.List, Part{Event: l.K(x)})
			image[x] = net.leaf(len(s.parts.List) - 1)
		case logic.And:
			image[x] = net.and(args)
		case logic.Or:
			image[x] = net.or(args)
		case logic.AtLeast:
			image[x] = net.atLeast(l.K(x), args)
		case logic.Xor:
			image[x] = net.odd(args)
		}
	}
	net.Top = image[t.Plain()] ^ Ref(t&1)
	return net
}

// part makes a net a part, once there is nothing left in it to take apart. The
// result is twice the part's index plus two, plus one for the opposite of it;
// 0 and 1 are the constants.
func (s *splitter) part(net *Net) Ref { return s.finish(s.reduce(net)) }

func (s *splitter) finish(net *Net) Ref {
	mark := net.Top & 1
	switch node := net.Nodes[net.Top>>1]; node.Op {
	case Const:
		return mark
	case Leaf:
		return Ref(node.K+1)<<1 | mark
	}
	mark = 0
	if net.atRest()[net.Top>>1] != (net.Top&1 == 1) {
		mark = 1
	}
	net.Top ^= mark
	net.index = nil
	s.parts.List = append(s.parts.List, Part{Net: net})
	return Ref(len(s.parts.List))<<1 | mark
}

// inside returns a part, given as part does, as a leaf of a net.
func inside(net *Net, part Ref) Ref {
	if part <= yes {
		return part
	}
	return net.leaf(int(part>>1)-1) ^ part&1
}

// reduce takes out of a net what can stand as a part of its own, as often as
// that uncovers more.
func (s *splitter) reduce(net *Net) *Net {
	for size := net.size() + 1; net.size() < size; {
		size = net.size()
		net = s.simpler(net)
		net = s.gather(net)
		net = s.extract(net)
	}
	return net
}

// gather puts a part in place of each group of leaves.
func (s *splitter) gather(net *Net) *Net {
	member := map[Ref]Ref{} // of net, to the part of its group
	for _, group := range net.groups() {
		small := newNet()
		args := make([]Ref, len(group))
		for i, a := range group {
			args[i] = small.leaf(net.Nodes[a>>1].K) ^ a&1
		}
		small.Top = small.and(args)
		part := s.finish(small)
		for _, a := range group {
			member[a] = part
		}
	}
	if len(member) == 0 {
		return net
	}
	return net.rebuild(func(to *Net, i int, args []Ref) Ref {
		node := &net.Nodes[i]
		if node.Op == And {
			for j, a := range node.Args {
				if part, ok := member[a]; ok {
					args[j] = inside(to, part)
				}
			}
		}
		return to.make(node.Op, node.K, args)
	})
}

// extract puts a part in place of each module.
func (s *splitter) extract(net *Net) *Net {
	found := net.modules()
	to := newNet()
	to.Top = s.copy(net, found, to, map[Ref]Ref{}, net.Top)
	return to
}

// copy copies a value of from to another net, with modules made parts.
func (s *splitter) copy(from *Net, module []bool, to *Net, image map[Ref]Ref, r Ref) Ref {
	if known, ok := image[r&^1]; ok {
		return known ^ r&1
	}
	node := &from.Nodes[r>>1]
	args := make([]Ref, len(node.Args))
	for i, a := range node.Args {
		if module[a>>1] {
			args[i] = s.copyModule(from, module, to, image, a)
		} else {
			args[i] = s.copy(from, module, to, image, a)
		}
	}
	made := to.make(node.Op, node.K, args)
	image[r&^1] = made
	return made ^ r&1
}

func (s *splitter) copyModule(from *Net, module []bool, to *Net, image map[Ref]Ref, r Ref) Ref {
	if known, ok := image[r&^1]; ok {
		return known ^ r&1
	}
	inner := newNet()
	inner.Top = s.copy(from, module, inner, map[Ref]Ref{}, r&^1)
	made := inside(to, s.part(inner))
	image[r&^1] = made
	return made ^ r&1
}
