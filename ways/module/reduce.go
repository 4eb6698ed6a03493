package module

import (
	"encoding/binary"
	"sort"
)

// rebuild copies the part of n that the top needs into a new net, node by node
// through change, which may return what it likes for a node whose arguments
// are already in the new net.
func (n *Net) rebuild(change func(to *Net, i int, args []Ref) Ref) *Net {
	to := newNet()
	image := make([]Ref, len(n.Nodes))
	for i, u := range n.uses() {
		if u == 0 || i == 0 {
			continue
		}
		node := &n.Nodes[i]
		args := make([]Ref, len(node.Args))
		for j, a := range node.Args {
			args[j] = image[a>>1] ^ a&1
		}
		image[i] = change(to, i, args)
	}
	to.Top = image[n.Top>>1] ^ n.Top&1
	return to
}

// flatten takes an And that only one other And uses into that one.
func (n *Net) flatten() *Net {
	uses := n.uses()
	return n.rebuild(func(to *Net, i int, args []Ref) Ref {
		node := &n.Nodes[i]
		if node.Op != And {
			return to.make(node.Op, node.K, args)
		}
		var flat []Ref
		for j, a := range args {
			inner := &to.Nodes[a>>1]
			if a&1 == 0 && inner.Op == And && uses[node.Args[j]>>1] == 1 {
				flat = append(flat, inner.Args...)
			} else {
				flat = append(flat, a)
			}
		}
		return to.and(flat)
	})
}

// inUse counts the nodes and arguments that the top needs.
func (n *Net) size() int {
	size := 0
	for i, u := range n.uses() {
		if u > 0 {
			size += 1 + len(n.Nodes[i].Args)
		}
	}
	return size
}

// group finds leaves that always stand together in the same Ands, each always
// plain or always as its opposite. Such a group can be one leaf.
func (n *Net) groups() [][]Ref {
	together := map[string][]Ref{}
	var keys []string
	for _, l := range n.literals() {
		key := string(l.ands)
		if together[key] == nil {
			keys = append(keys, key)
		}
		together[key] = append(together[key], l.ref)
	}
	var groups [][]Ref
	for _, key := range keys {
		if len(together[key]) > 1 {
			groups = append(groups, together[key])
		}
	}
	return groups
}

// literal is a leaf, or its opposite, and the Ands that it stands in.
type literal struct {
	ref  Ref
	ands []byte
}

// literals returns the leaves that stand only in Ands and always with the same
// mark, in the order of their nodes.
func (n *Net) literals() []literal {
	uses := n.uses()
	found := map[int]*literal{}
	for i, node := range n.Nodes {
		if uses[i] == 0 {
			continue
		}
		for _, a := range node.Args {
			if n.Nodes[a>>1].Op != Leaf {
				continue
			}
			l := found[int(a>>1)]
			if l == nil {
				l = &literal{ref: a}
				found[int(a>>1)] = l
			}
			if node.Op != And || l.ref != a {
				l.ref = no
			}
			l.ands = binary.AppendUvarint(l.ands, uint64(i))
		}
	}
	var literals []literal
	for i, l := range found {
		if l.ref != no && i != int(n.Top>>1) {
			literals = append(literals, *l)
		}
	}
	sort.Slice(literals, func(i, j int) bool { return literals[i].ref < literals[j].ref })
	return literals
}

// modules returns, by node, whether no path from the top reaches into it except
// through itself. Leaves and the top are left out.
//
// Y. Dutuit and A. Rauzy, A linear-time algorithm to find modules of fault
// trees, IEEE Transactions on Reliability 45 (1996) 422-425: number the visits
// of a walk; a node is a module if everything below it is visited only between
// its own first and second visit.
func (n *Net) modules() []bool {
	w := walk{
		n:     n,
		first: make([]int, len(n.Nodes)),
		last:  make([]int, len(n.Nodes)),
		done:  make([]int, len(n.Nodes)),
	}
	w.visit(int(n.Top >> 1))
	uses := n.uses()
	low, high := make([]int, len(n.Nodes)), make([]int, len(n.Nodes))
	found := make([]bool, len(n.Nodes))
	for i, node := range n.Nodes {
		if uses[i] == 0 || len(node.Args) == 0 {
			continue
		}
		low[i] = w.now + 1
		for _, a := range node.Args {
			j := a >> 1
			low[i] = min(low[i], w.first[j])
			high[i] = max(high[i], w.last[j], high[j])
			if len(n.Nodes[j].Args) > 0 {
				low[i] = min(low[i], low[j])
			}
		}
		found[i] = low[i] > w.first[i] && high[i] < w.done[i] && i != int(n.Top>>1)
	}
	return found
}

type walk struct {
	n                 *Net
	now               int
	first, last, done []int
}

func (w *walk) visit(i int) {
	w.now++
	w.last[i] = w.now
	if w.first[i] != 0 {
		return
	}
	w.first[i] = w.now
	for _, a := range w.n.Nodes[i].Args {
		w.visit(int(a >> 1))
	}
	w.now++
	w.done[i], w.last[i] = w.now, w.now
}
