package layout

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"
)

// randomGraph has arrows from later to earlier boxes only, as chains have.
func randomGraph(r *rand.Rand) Graph {
	var g Graph
	for i := range 2 + r.IntN(30) {
		g.Boxes = append(g.Boxes, Box{Width: 60 + 100*r.Float64(), Height: 20 + 60*r.Float64()})
		for range 1 + r.IntN(2) {
			if i > 0 {
				g.Arrows = append(g.Arrows, Arrow{From: i, To: r.IntN(i)})
			}
		}
	}
	return g
}

func TestLayered_PlacesEveryBoxApartAndCausesOnTheLeft(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	for range 300 {
		g := randomGraph(r)
		p := Layered(g)
		for i := range g.Boxes {
			if !inside(p, p.Centres[i], g.Boxes[i]) {
				t.Fatalf("box %d at %v lies outside %.1f × %.1f", i, p.Centres[i], p.Width, p.Height)
			}
			for j := range i {
				if overlap(g, p, i, j) {
					t.Fatalf("boxes %d and %d lie upon one another: %v %v", j, i, p.Centres[j], p.Centres[i])
				}
			}
		}
		for i, a := range g.Arrows {
			checkArrow(t, g, p, a, p.Curves[i])
		}
	}
}

const slack = 1e-6

func inside(p Plan, c Point, b Box) bool {
	return c.X-b.Width/2 > -slack && c.Y-b.Height/2 > -slack && c.X+b.Width/2 < p.Width+slack && c.Y+b.Height/2 < p.Height+slack
}

func overlap(g Graph, p Plan, i, j int) bool {
	a, b := g.Boxes[i], g.Boxes[j]
	return math.Abs(p.Centres[i].X-p.Centres[j].X) < (a.Width+b.Width)/2-slack && math.Abs(p.Centres[i].Y-p.Centres[j].Y) < (a.Height+b.Height)/2-slack
}

func checkArrow(t *testing.T, g Graph, p Plan, a Arrow, curve []Point) {
	t.Helper()
	if len(curve)%3 != 1 {
		t.Fatalf("a curve of %d points", len(curve))
	}
	start, end := p.Centres[a.From].X+g.Boxes[a.From].Width/2, p.Centres[a.To].X-g.Boxes[a.To].Width/2
	if math.Abs(curve[0].X-start) > slack || math.Abs(curve[len(curve)-1].X-end) > slack || start >= end {
		t.Fatalf("the arrow %v runs from %.1f to %.1f, its boxes have their edges at %.1f and %.1f", a, curve[0].X, curve[len(curve)-1].X, start, end)
	}
}

func TestLayered_IsTheSameEachTime(t *testing.T) {
	g := randomGraph(rand.New(rand.NewPCG(1, 2)))
	if first := Layered(g); !reflect.DeepEqual(first, Layered(g)) {
		t.Error("two plans of one graph differ")
	}
}

func TestLayered_EndsForCirclesAndForNothing(t *testing.T) {
	if p := Layered(Graph{}); len(p.Centres) != 0 || p.Height != 0 {
		t.Errorf("nothing was placed as %+v", p)
	}
	box := Box{Width: 10, Height: 10}
	circle := Graph{[]Box{box, box}, []Arrow{{0, 1}, {1, 0}, {1, 1}}}
	if p := Layered(circle); overlap(circle, p, 0, 1) {
		t.Errorf("boxes of a circle lie upon one another: %v", p.Centres)
	}
}

func TestLayered_CrossesNothingInATree(t *testing.T) {
	box := Box{Width: 50, Height: 20}
	tree := Graph{Boxes: make([]Box, 7), Arrows: []Arrow{{4, 1}, {6, 2}, {1, 0}, {3, 1}, {2, 0}, {5, 2}}}
	for i := range tree.Boxes {
		tree.Boxes[i] = box
	}
	n := newNet(tree)
	n.order()
	if c := n.crossings(); c != 0 {
		t.Errorf("%d crossings", c)
	}
}

func TestGraph_CheckFindsArrowsToNowhere(t *testing.T) {
	g := Graph{Boxes: make([]Box, 2), Arrows: []Arrow{{0, 2}}}
	if g.Check() == nil {
		t.Error("an arrow to box 2 of 2 passed")
	}
	g.Arrows[0] = Arrow{1, 0}
	if err := g.Check(); err != nil {
		t.Error(err)
	}
}

func TestParsePlain_SaysWhatIsWrong(t *testing.T) {
	g := Graph{Boxes: []Box{{72, 36}, {72, 36}}, Arrows: []Arrow{{1, 0}}}
	good := "graph 1 3 1\nnode n0 2.5 0.5 1 0.5\nnode n1 0.5 0.5 1 0.5\nedge n1 n0 4 1 0.5 1.3 0.5 1.6 0.5 2 0.5 solid black\nstop\n"
	p, err := ParsePlain(g, good)
	if err != nil {
		t.Fatal(err)
	}
	want := Plan{Width: 216, Height: 72, Centres: []Point{{180, 36}, {36, 36}}}
	if p.Width != want.Width || p.Height != want.Height || !reflect.DeepEqual(p.Centres, want.Centres) || len(p.Curves[0]) != 4 {
		t.Errorf("got %+v", p)
	}
	for what, change := range map[string][2]string{
		"a box is missing":     {"node n1 0.5 0.5 1 0.5\n", ""},
		"a box too many":       {"node n1", "node n7"},
		"an arrow is missing":  {"edge n1 n0 4 1 0.5 1.3 0.5 1.6 0.5 2 0.5 solid black\n", ""},
		"an arrow too many":    {"edge n1 n0", "edge n0 n1"},
		"a length is none":     {"node n0 2.5", "node n0 NaN"},
		"points are missing":   {"edge n1 n0 4", "edge n1 n0 40"},
		"it is something else": {"graph 1 3 1", "<svg>"},
	} {
		if _, err := ParsePlain(g, strings.Replace(good, change[0], change[1], 1)); err == nil {
			t.Errorf("%s: no error", what)
		}
	}
}

func BenchmarkLayered(b *testing.B) {
	for _, n := range []int{12, 48, 150} {
		g := Graph{Boxes: make([]Box, n)}
		for i := range n {
			g.Boxes[i] = Box{Width: 178, Height: 60}
			if i > 0 {
				g.Arrows = append(g.Arrows, Arrow{From: i, To: (i - 1) / 2}, Arrow{From: i, To: (i - 1) / 3})
			}
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				Layered(g)
			}
		})
	}
}
