package worth

import (
	"slices"
	"strings"

	"knockon/book"
)

// wrong is a switch that the hand takes for another, and where it puts it.
type wrong struct{ control, position string }

// beside lists the switches that the hand may take instead of that of a step:
// its mirror image on the other side or system, and the one that the book has
// next to it in the same place. Nothing in the book says where in a place a
// control is, so the order of the book stands for it.
func beside(b *book.Build, s *book.Step) (list []wrong) {
	at := slices.IndexFunc(b.Controls, func(c *book.Control) bool { return c.ID == s.Set })
	if at < 0 {
		return nil
	}
	right := b.Controls[at]
	add := func(c *book.Control) bool {
		position, ok := taken(c, s.To)
		w := wrong{c.ID, position}
		if !ok || slices.Contains(list, w) {
			return false
		}
		list = append(list, w)
		return true
	}
	for _, c := range b.Controls {
		if c.ID != right.ID && mirrored(c.ID, right.ID) {
			add(c)
		}
	}
	for _, i := range nearest(at, len(b.Controls)) {
		if c := b.Controls[i]; c.Place == right.Place && c.Place != "" && add(c) {
			break
		}
	}
	return list
}

// nearest lists places by their distance from at, those after it first.
func nearest(at, n int) (list []int) {
	for d := 1; d < n; d++ {
		for _, i := range []int{at + d, at - d} {
			if i >= 0 && i < n {
				list = append(list, i)
			}
		}
	}
	return list
}

// taken is the position into which a hand puts a control that it takes for
// another: the same word, or of a control with two positions the other one.
func taken(c *book.Control, to string) (position string, ok bool) {
	if slices.Contains(c.Positions, to) {
		return to, true
	}
	if len(c.Positions) != 2 {
		return "", false
	}
	for _, p := range c.Positions {
		if p != c.Initial {
			return p, true
		}
	}
	return "", false
}

// sides are words in ids that stand for one side or the other.
var sides = [][2]string{{"left", "right"}, {"1", "2"}}

// mirrored says that two ids differ in a word that names a side only.
func mirrored(a, b string) bool {
	x, y := strings.Split(a, "_"), strings.Split(b, "_")
	if len(x) != len(y) {
		return false
	}
	turned := false
	for i := range x {
		switch {
		case x[i] == y[i]:
		case slices.ContainsFunc(sides, func(s [2]string) bool { return x[i] == s[0] && y[i] == s[1] || x[i] == s[1] && y[i] == s[0] }):
			turned = true
		default:
			return false
		}
	}
	return turned
}
