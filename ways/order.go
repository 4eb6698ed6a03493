package ways

import (
	"cmp"
	"slices"

	"knockon/ways/module"
)

// An order says in which order a diagram decides the leaves of a net. Which is
// best cannot be told beforehand and matters a hundredfold; see race.
type order func(*module.Net) []int

// orders are the orders that are tried, the most promising first.
var orders = [...]order{writtenOrder, lightFirst, heavyFirst, sharedFirst}

// writtenOrder takes leaves as a reader meets them who goes through the net
// from the top, into every gate at once.
func writtenOrder(n *module.Net) []int {
	return walkLeaves(n, func(args []module.Ref) {})
}

// lightFirst goes into the gate with the fewest nodes below it first.
func lightFirst(n *module.Net) []int {
	w := weights(n)
	return walkLeaves(n, func(args []module.Ref) {
		slices.SortStableFunc(args, func(a, b module.Ref) int { return cmp.Compare(w[a>>1], w[b>>1]) })
	})
}

// heavyFirst goes into the gate with the most nodes below it first.
func heavyFirst(n *module.Net) []int {
	w := weights(n)
	return walkLeaves(n, func(args []module.Ref) {
		slices.SortStableFunc(args, func(a, b module.Ref) int { return cmp.Compare(w[b>>1], w[a>>1]) })
	})
}

// sharedFirst goes first to what most gates use.
func sharedFirst(n *module.Net) []int {
	uses := make([]int, len(n.Nodes))
	for _, node := range n.Nodes {
		for _, a := range node.Args {
			uses[a>>1]++
		}
	}
	return walkLeaves(n, func(args []module.Ref) {
		slices.SortStableFunc(args, func(a, b module.Ref) int { return cmp.Compare(uses[b>>1], uses[a>>1]) })
	})
}

// walkLeaves lists the leaves of a net in the order of a walk from the top that
// goes into the arguments of each node in the order in which arrange puts them.
func walkLeaves(n *module.Net, arrange func([]module.Ref)) []int {
	var leaves []int
	seen := make([]bool, len(n.Nodes))
	var visit func(r module.Ref)
	visit = func(r module.Ref) {
		if seen[r>>1] {
			return
		}
		seen[r>>1] = true
		node := &n.Nodes[r>>1]
		if node.Op == module.Leaf {
			leaves = append(leaves, node.K)
			return
		}
		args := slices.Clone(node.Args)
		arrange(args)
		for _, a := range args {
			visit(a)
		}
	}
	visit(n.Top)
	return leaves
}

// weights counts, by node, the leaves below it, as often as they stand there.
func weights(n *module.Net) []float64 {
	w := make([]float64, len(n.Nodes))
	for i, node := range n.Nodes {
		if node.Op == module.Leaf {
			w[i] = 1
		}
		for _, a := range node.Args {
			w[i] += w[a>>1]
		}
	}
	return w
}
