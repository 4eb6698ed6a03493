// Package module turns one term of a logic into small nets that share no
// event, each standing in the next as if it were one event.
//
// The one invariant: putting the nets back into one another gives the term
// that came in, for every case. And every net is no when nothing has failed, so
// that what holds for an event holds for a net in its place.
//
// Start reading at Split.
package module

import (
	"encoding/binary"
	"slices"
)

// Ref is a yes/no value in a Net: twice the index of a node, plus one for its
// opposite. Node 0 is the constant no.
type Ref uint32

const (
	no  Ref = 0
	yes Ref = 1
)

// Op says what a Node does.
type Op uint8

// The operations. There is no "or": it is the opposite of an And of opposites.
const (
	Const Op = iota
	Leaf
	And
	AtLeast
	Odd
)

// Node is one operation of a Net.
type Node struct {
	Op   Op
	K    int // Leaf: the index of its Part. AtLeast: the threshold
	Args []Ref
}

// Net is a yes/no function of leaves. Every node stands after its arguments.
type Net struct {
	Nodes []Node
	Top   Ref

	index map[string]Ref
	key   []byte // space for one key
}

func newNet() *Net { return &Net{Nodes: make([]Node, 1), index: map[string]Ref{}} }

func (n *Net) leaf(part int) Ref { return n.add(Node{Op: Leaf, K: part}) }

// add returns the node's value, making it only if there is none like it. The
// order of the arguments makes no difference to which nodes are alike.
func (n *Net) add(node Node) Ref { return n.addSorted(node, newProduct(node.Args)) }

func (n *Net) addSorted(node Node, sorted product) Ref {
	key := n.key[:0]
	key = append(key, byte(node.Op))
	key = binary.AppendUvarint(key, uint64(node.K))
	for _, a := range sorted {
		key = binary.LittleEndian.AppendUint32(key, uint32(a))
	}
	n.key = key
	if r, ok := n.index[string(key)]; ok {
		return r
	}
	r := Ref(len(n.Nodes)) << 1
	n.Nodes = append(n.Nodes, node)
	n.index[string(key)] = r
	return r
}

// and makes an And of its arguments after what can be seen at a glance: twice
// the same, opposites, and an argument that another one decides.
func (n *Net) and(args []Ref) Ref {
	sorted := newProduct(args)
	args, sorted = plain(args, sorted)
	if sorted.never() {
		return no
	}
	rest := make([]Ref, 0, len(args))
	changed := false
	for _, a := range args {
		b, keep := n.given(a, sorted)
		if b == no {
			return no
		}
		if keep {
			rest = append(rest, b)
		}
		changed = changed || b != a || !keep
	}
	if changed {
		return n.and(rest)
	}
	switch len(rest) {
	case 0:
		return yes
	case 1:
		return rest[0]
	}
	return n.addSorted(Node{Op: And, Args: rest}, sorted)
}

// plain drops the constant yes and repetitions from a list and its sorted copy.
func plain(args []Ref, sorted product) ([]Ref, product) {
	twice := false
	for i, a := range sorted {
		twice = twice || a == yes || i > 0 && a == sorted[i-1]
	}
	if !twice {
		return args, sorted
	}
	var rest []Ref
	for _, a := range args {
		if a != yes && !slices.Contains(rest, a) {
			rest = append(rest, a)
		}
	}
	return rest, newProduct(rest)
}

// given returns what is left of an argument of an And when all others are yes;
// keep is false if nothing is.
func (n *Net) given(a Ref, all product) (left Ref, keep bool) {
	node := &n.Nodes[a>>1]
	if node.Op != And {
		return a, true
	}
	known := 0
	for _, b := range node.Args {
		switch {
		case all.has(b^1) && a&1 == 1:
			return a, false // an "or" with an argument that is yes anyway
		case all.has(b ^ 1):
			return no, true
		case all.has(b):
			known++
		}
	}
	if known == 0 {
		return a, true
	}
	rest := make([]Ref, 0, len(node.Args))
	for _, b := range node.Args {
		if !all.has(b) {
			rest = append(rest, b)
		}
	}
	return n.and(rest) ^ a&1, true
}

// atLeast makes an AtLeast; constants and small thresholds are worked out.
func (n *Net) atLeast(k int, args []Ref) Ref {
	var rest []Ref
	for _, a := range args {
		switch a {
		case yes:
			k--
		case no:
		default:
			rest = append(rest, a)
		}
	}
	switch {
	case k <= 0:
		return yes
	case k > len(rest):
		return no
	case k == len(rest):
		return n.and(rest)
	case k == 1:
		return n.or(rest)
	}
	return n.add(Node{Op: AtLeast, K: k, Args: rest})
}

func (n *Net) or(args []Ref) Ref {
	opposite := make([]Ref, len(args))
	for i, a := range args {
		opposite[i] = a ^ 1
	}
	return n.and(opposite) ^ 1
}

// odd makes an Odd of unmarked arguments, none twice.
func (n *Net) odd(args []Ref) Ref {
	mark := no
	var rest []Ref
	for _, a := range args {
		mark ^= a & 1
		a &^= 1
		if i := slices.Index(rest, a); i >= 0 {
			rest = slices.Delete(rest, i, i+1)
		} else if a != no {
			rest = append(rest, a)
		}
	}
	switch len(rest) {
	case 0:
		return mark
	case 1:
		return rest[0] ^ mark
	}
	return n.add(Node{Op: Odd, Args: rest}) ^ mark
}

func (n *Net) make(op Op, k int, args []Ref) Ref {
	switch op {
	case And:
		return n.and(args)
	case AtLeast:
		return n.atLeast(k, args)
	case Odd:
		return n.odd(args)
	case Leaf:
		return n.leaf(k)
	}
	return no
}

// atRest returns, by node, its value when every leaf is no.
func (n *Net) atRest() []bool {
	value := make([]bool, len(n.Nodes))
	for i, node := range n.Nodes {
		count := 0
		for _, a := range node.Args {
			if value[a>>1] != (a&1 == 1) {
				count++
			}
		}
		switch node.Op {
		case And:
			value[i] = count == len(node.Args)
		case AtLeast:
			value[i] = count >= node.K
		case Odd:
			value[i] = count%2 == 1
		}
	}
	return value
}

// uses returns, by node, how many arguments refer to it, the top once more.
// Nodes that the top does not need count nothing.
func (n *Net) uses() []int {
	uses := make([]int, len(n.Nodes))
	uses[n.Top>>1]++
	for i := len(n.Nodes) - 1; i > 0; i-- {
		if uses[i] > 0 {
			for _, a := range n.Nodes[i].Args {
				uses[a>>1]++
			}
		}
	}
	return uses
}

// Leaves returns the parts that the net needs, in the order of its nodes.
func (n *Net) Leaves() []int {
	var parts []int
	for i, u := range n.uses() {
		if u > 0 && n.Nodes[i].Op == Leaf {
			parts = append(parts, n.Nodes[i].K)
		}
	}
	return parts
}
