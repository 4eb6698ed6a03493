package book

// components gives the strongly connected components of a graph with nodes 0 to
// n-1, each after those it has edges to, its members ascending by discovery.
// This is Tarjan's algorithm (SIAM J. Comput. 1, 1972) with a stack of its own,
// so that a chain of any length is no danger.
func components(n int, edges func(int) []int) [][]int {
	t := &tarjan{index: make([]int, n), low: make([]int, n), onStack: make([]bool, n), edges: edges}
	for v := range n {
		if t.index[v] == 0 {
			t.visit(v)
		}
	}
	return t.found
}

type tarjan struct {
	index, low []int // 0: not seen yet
	onStack    []bool
	stack      []int
	calls      []frame
	count      int
	edges      func(int) []int
	found      [][]int
}

// frame is a node being visited and the edges still to follow.
type frame struct {
	node int
	rest []int
}

func (t *tarjan) visit(root int) {
	t.enter(root)
	for len(t.calls) > 0 {
		top := &t.calls[len(t.calls)-1]
		if len(top.rest) == 0 {
			t.leave(top.node)
			continue
		}
		next := top.rest[0]
		top.rest = top.rest[1:]
		switch {
		case t.index[next] == 0:
			t.enter(next)
		case t.onStack[next]:
			t.low[top.node] = min(t.low[top.node], t.index[next])
		}
	}
}

func (t *tarjan) enter(v int) {
	t.count++
	t.index[v], t.low[v], t.onStack[v] = t.count, t.count, true
	t.stack = append(t.stack, v)
	t.calls = append(t.calls, frame{v, t.edges(v)})
}

func (t *tarjan) leave(v int) {
	t.calls = t.calls[:len(t.calls)-1]
	if len(t.calls) > 0 {
		parent := t.calls[len(t.calls)-1].node
		t.low[parent] = min(t.low[parent], t.low[v])
	}
	if t.low[v] != t.index[v] {
		return
	}
	from := len(t.stack) - 1
	for t.stack[from] != v {
		from--
	}
	ring := append([]int(nil), t.stack[from:]...)
	t.stack = t.stack[:from]
	for _, w := range ring {
		t.onStack[w] = false
	}
	t.found = append(t.found, ring)
}
