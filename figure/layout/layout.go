// Package layout turns a graph of boxes into places on paper, from left to
// right: causes stand left of what they cause.
//
// Invariant: the same graph gives the same plan, and every box of the graph
// has a place in it, none upon another.
//
// Start reading at Layered (layered.go), which needs nothing but itself. The
// graph library's plan comes from the package child; DOT and ParsePlain are
// the two ends of its wire.
package layout

import (
	"fmt"
	"strings"
)

// Graph is what is to be placed: boxes, and arrows between them by number.
type Graph struct {
	Boxes  []Box
	Arrows []Arrow
}

// Box is the size of one box, in points.
type Box struct{ Width, Height float64 }

// Arrow leads from one box to another, from cause to effect.
type Arrow struct{ From, To int }

// Point is a place on the paper in points, from its upper left corner.
type Point struct{ X, Y float64 }

// Plan is a graph that has been placed.
type Plan struct {
	Width, Height float64
	Centres       []Point   // of the boxes, in the order of the graph
	Curves        [][]Point // of the arrows: a start and then three points for each cubic Bézier piece
}

// Gaps between boxes, in points.
const (
	gapAcross = 28 // between one column and the next: room for an arrow
	gapDown   = 12 // between boxes of a column
)

// Check tells what is wrong with a graph: an arrow to a box that is not there.
func (g Graph) Check() error {
	for _, a := range g.Arrows {
		if min(a.From, a.To) < 0 || max(a.From, a.To) >= len(g.Boxes) {
			return fmt.Errorf("an arrow from box %d to box %d, of %d boxes", a.From, a.To, len(g.Boxes))
		}
	}
	return nil
}

// DOT writes the graph in the language of the graph library. Boxes are named
// by their numbers, so no text of a book is in it.
func (g Graph) DOT() string {
	var b strings.Builder
	fmt.Fprintf(&b, "digraph g {\n rankdir=LR; nodesep=%.4f; ranksep=%.4f;\n node [shape=box, fixedsize=true, label=\"\"];\n edge [arrowhead=none];\n",
		gapDown/pointsPerInch, gapAcross/pointsPerInch)
	for i, box := range g.Boxes {
		fmt.Fprintf(&b, " n%d [width=%.4f, height=%.4f];\n", i, box.Width/pointsPerInch, box.Height/pointsPerInch)
	}
	for _, a := range g.Arrows {
		fmt.Fprintf(&b, " n%d -> n%d;\n", a.From, a.To)
	}
	b.WriteString("}\n")
	return b.String()
}

// pointsPerInch is what a point is (DTP point).
const pointsPerInch = 72.0
