package layout

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ParsePlain reads the graph library's "plain" output for g: one line each for
// the graph, its nodes and its edges, lengths in inches from the lower left
// corner. Edges between the same two boxes come in the order of the graph.
func ParsePlain(g Graph, text string) (Plan, error) {
	r := plainReader{graph: g, free: map[Arrow][]int{}, placed: make([]bool, len(g.Boxes))}
	r.plan = Plan{Centres: make([]Point, len(g.Boxes)), Curves: make([][]Point, len(g.Arrows))}
	for i, a := range g.Arrows {
		r.free[a] = append(r.free[a], i)
	}
	for line := range strings.Lines(text) {
		if err := r.line(strings.Fields(line)); err != nil {
			return Plan{}, fmt.Errorf("layout: %q: %w", strings.TrimSpace(line), err)
		}
	}
	return r.plan, r.complete()
}

type plainReader struct {
	graph  Graph
	plan   Plan
	free   map[Arrow][]int // arrows that have no curve yet
	placed []bool
}

func (r *plainReader) line(f []string) error {
	switch {
	case len(f) == 0 || f[0] == "stop":
		return nil
	case f[0] == "graph" && len(f) == 4:
		return r.size(f[2:])
	case f[0] == "node" && len(f) >= 4:
		return r.node(f[1:4])
	case f[0] == "edge" && len(f) >= 4:
		return r.edge(f[1:])
	}
	return fmt.Errorf("not a line of a plan")
}

func (r *plainReader) size(f []string) error {
	n, err := inches(f)
	if err != nil {
		return err
	}
	r.plan.Width, r.plan.Height = n[0], n[1]
	return nil
}

func (r *plainReader) node(f []string) error {
	i, err := r.box(f[0])
	if err != nil {
		return err
	}
	at, err := inches(f[1:])
	if err != nil {
		return err
	}
	r.plan.Centres[i], r.placed[i] = r.point(at), true
	return nil
}

func (r *plainReader) edge(f []string) error {
	from, err := r.box(f[0])
	if err != nil {
		return err
	}
	to, err := r.box(f[1])
	if err != nil {
		return err
	}
	n, err := strconv.Atoi(f[2])
	free := r.free[Arrow{from, to}]
	if err != nil || n < 4 || n > len(f) || len(f) < 3+2*n || len(free) == 0 {
		return fmt.Errorf("not an edge of this graph")
	}
	at, err := inches(f[3 : 3+2*n])
	if err != nil {
		return err
	}
	curve := make([]Point, n)
	for i := range curve {
		curve[i] = r.point(at[2*i:])
	}
	r.plan.Curves[free[0]], r.free[Arrow{from, to}] = curve, free[1:]
	return nil
}

// point turns the library's corner, lower left, into ours.
func (r *plainReader) point(at []float64) Point { return Point{at[0], r.plan.Height - at[1]} }

func (r *plainReader) box(name string) (int, error) {
	i, err := strconv.Atoi(strings.TrimPrefix(name, "n"))
	if err != nil || i < 0 || i >= len(r.graph.Boxes) {
		return 0, fmt.Errorf("%s is no box of this graph", name)
	}
	return i, nil
}

func (r *plainReader) complete() error {
	for i, placed := range r.placed {
		if !placed {
			return fmt.Errorf("layout: box %d was not placed", i)
		}
	}
	for i, curve := range r.plan.Curves {
		if curve == nil {
			a := r.graph.Arrows[i]
			return fmt.Errorf("layout: the arrow from box %d to box %d was not placed", a.From, a.To)
		}
	}
	return nil
}

// inches reads lengths and gives them in points.
func inches(f []string) ([]float64, error) {
	n := make([]float64, len(f))
	for i, s := range f {
		v, err := strconv.ParseFloat(s, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, fmt.Errorf("%q is no length", s)
		}
		n[i] = v * pointsPerInch
	}
	return n, nil
}
