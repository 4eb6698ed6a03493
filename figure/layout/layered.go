package layout

import (
	"cmp"
	"slices"
)

// The layered way, after Sugiyama, Tagawa and Toda (1981): every box gets a
// column, an arrow over several columns gets a bend in each that it passes,
// columns are put in an order with few crossings, and then boxes move up and
// down towards what they are joined with.
//
//	column 2     column 1     column 0
//	[cause] ───► [step] ────► [effect]
//	[cause] ───── bend ─────►

// Layered places a graph by a way of our own, which needs no library. An arrow
// that closes a circle is drawn, but does not count for the columns. The graph
// must pass Check.
func Layered(g Graph) Plan {
	n := newNet(g)
	n.order()
	n.settle()
	return n.plan()
}

// spot is a box, or a bend of an arrow; box is -1 for a bend.
type spot struct {
	box         int
	column      int
	height, y   float64 // y: of the centre
	left, right []int   // spots joined with in the columns beside it
	width       float64
}

type net struct {
	graph   Graph
	spots   []spot
	columns [][]int // spots from top to bottom; column 0 is the rightmost
	chains  [][]int // arrow -> the spots that it runs through
}

func newNet(g Graph) *net {
	n := &net{graph: g, chains: make([][]int, len(g.Arrows))}
	column := columns(g)
	for i, b := range g.Boxes {
		n.add(spot{box: i, column: column[i], height: b.Height, width: b.Width})
	}
	for i, a := range g.Arrows {
		n.chains[i] = n.thread(a)
	}
	return n
}

func (n *net) add(s spot) int {
	for len(n.columns) <= s.column {
		n.columns = append(n.columns, nil)
	}
	n.spots = append(n.spots, s)
	n.columns[s.column] = append(n.columns[s.column], len(n.spots)-1)
	return len(n.spots) - 1
}

// thread lays an arrow through the columns between its ends.
func (n *net) thread(a Arrow) []int {
	chain := []int{a.From}
	for c := n.spots[a.From].column - 1; c > n.spots[a.To].column; c-- {
		chain = append(chain, n.add(spot{box: -1, column: c}))
	}
	chain = append(chain, a.To)
	if n.spots[a.From].column <= n.spots[a.To].column {
		return chain // closes a circle: drawn only
	}
	for i := range chain[1:] {
		l, r := chain[i], chain[i+1]
		n.spots[l].right = append(n.spots[l].right, r)
		n.spots[r].left = append(n.spots[r].left, l)
	}
	return chain
}

// columns counts, for each box, the longest way of arrows to a box that
// causes nothing, leaving out arrows that close a circle.
func columns(g Graph) []int {
	out := make([][]int, len(g.Boxes))
	for _, a := range g.Arrows {
		out[a.From] = append(out[a.From], a.To)
	}
	column, state := make([]int, len(g.Boxes)), make([]uint8, len(g.Boxes))
	var visit func(int)
	visit = func(i int) {
		state[i] = 1
		for _, to := range out[i] {
			if state[to] == 0 {
				visit(to)
			}
			if state[to] == 2 {
				column[i] = max(column[i], column[to]+1)
			}
		}
		state[i] = 2
	}
	for i := range g.Boxes {
		if state[i] == 0 {
			visit(i)
		}
	}
	return column
}

// sweeps is how often the columns are put in order; more changes little.
const sweeps = 8

// order puts the columns in an order with few crossings and keeps the best.
func (n *net) order() {
	best, fewest := n.snapshot(), n.crossings()
	for i := 0; i < sweeps && fewest > 0; i++ {
		n.sweep(i%2 == 0)
		if c := n.crossings(); c < fewest {
			best, fewest = n.snapshot(), c
		}
	}
	n.columns = best
}

func (n *net) snapshot() [][]int {
	s := make([][]int, len(n.columns))
	for i := range s {
		s[i] = slices.Clone(n.columns[i])
	}
	return s
}

// sweep sorts each column by the middle of what it is joined with on the side
// that was sorted before it.
func (n *net) sweep(fromRight bool) {
	place := n.places()
	for i := range n.columns {
		c := i
		if !fromRight {
			c = len(n.columns) - 1 - i
		}
		middle := map[int]float64{}
		for _, s := range n.columns[c] {
			middle[s] = n.middle(s, fromRight, place)
		}
		slices.SortStableFunc(n.columns[c], func(a, b int) int { return cmp.Compare(middle[a], middle[b]) })
		for at, s := range n.columns[c] {
			place[s] = float64(at)
		}
	}
}

func (n *net) places() []float64 {
	place := make([]float64, len(n.spots))
	for _, column := range n.columns {
		for at, s := range column {
			place[s] = float64(at)
		}
	}
	return place
}

// middle is the mean of where a spot's neighbours of one side are; its own
// place if it has none.
func (n *net) middle(s int, right bool, of []float64) float64 {
	beside := n.spots[s].left
	if right {
		beside = n.spots[s].right
	}
	if len(beside) == 0 {
		return of[s]
	}
	sum := 0.0
	for _, b := range beside {
		sum += of[b]
	}
	return sum / float64(len(beside))
}

// crossings counts pairs of pieces of arrows that cross.
func (n *net) crossings() (count int) {
	place := n.places()
	for _, column := range n.columns {
		var pieces [][2]float64
		for _, s := range column {
			for _, r := range n.spots[s].right {
				pieces = append(pieces, [2]float64{place[s], place[r]})
			}
		}
		for i, a := range pieces {
			for _, b := range pieces[:i] {
				if (a[0]-b[0])*(a[1]-b[1]) < 0 {
					count++
				}
			}
		}
	}
	return count
}
