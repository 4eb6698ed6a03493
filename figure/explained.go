package figure

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/why"
)

// mostSteps is how many boxes a picture of a chain has at most.
const mostSteps = 48

// ChainOf makes the chain of an explanation; when says a moment in words. The
// caller gives it its id, title and foot.
func ChainOf(root *why.Step, when func(book.Time) string) Chain {
	c := Chain{Description: inWords(root)}
	number := map[*why.Step]int{root: 0}
	queue := []*why.Step{root}
	for i := 0; i < len(queue); i++ {
		s := stepOf(queue[i], root, when)
		for _, b := range slices.Concat(queue[i].Because, queue[i].While) {
			if _, ok := number[b]; !ok && len(queue) < mostSteps {
				number[b] = len(queue)
				queue = append(queue, b)
			}
			if n, ok := number[b]; ok {
				s.Causes = append(s.Causes, n)
			}
		}
		c.Steps = append(c.Steps, s)
	}
	c.Left = countSteps(root, map[*why.Step]bool{}) - len(c.Steps)
	return c
}

func countSteps(s *why.Step, seen map[*why.Step]bool) int {
	if seen[s] {
		return 0
	}
	seen[s] = true
	n := 1
	for _, b := range slices.Concat(s.Because, s.While) {
		n += countSteps(b, seen)
	}
	return n
}

func stepOf(s, root *why.Step, when func(book.Time) string) Step {
	step := Step{Kind: kinds[s.Kind], Label: s.Label, Says: s.Says, Note: s.Note(root, when)}
	if s.Where.Line > 0 {
		step.Source = fmt.Sprintf("%s:%d", s.Where.File, s.Where.Line)
	}
	return step
}

var kinds = map[why.Kind]Kind{
	why.Derived: KindStep, why.Fails: KindFailure, why.Acted: KindAction, why.Intact: KindCondition,
	why.Flown: KindFlight, why.Condition: KindCondition, why.FromStart: KindStart,
}

// inWords says an explanation in one sentence: what is so, and the leaves.
func inWords(root *why.Step) string {
	var leaves []string
	seen := map[*why.Step]bool{}
	var walk func(*why.Step)
	walk = func(s *why.Step) {
		if seen[s] {
			return
		}
		seen[s] = true
		if len(s.Because) == 0 && s != root {
			leaves = append(leaves, s.Label+" "+s.Says)
		}
		for _, b := range s.Because {
			walk(b)
		}
	}
	walk(root)
	if len(leaves) == 0 {
		return root.Label + " " + root.Says + "."
	}
	return root.Label + " " + root.Says + ", because: " + strings.Join(leaves, "; ") + "."
}
