package figure

import (
	"fmt"
	"strings"

	"knockon/book"
	"knockon/circuit"
)

// mostSteps is how many boxes a picture of a chain has at most.
const mostSteps = 48

// ChainOf makes the chain of an explanation; when says a moment in words. The
// caller gives it its id, title and foot.
func ChainOf(root *circuit.Step, when func(book.Time) string) Chain {
	c := Chain{Description: inWords(root)}
	number := map[*circuit.Step]int{root: 0}
	queue := []*circuit.Step{root}
	for i := 0; i < len(queue); i++ {
		s := stepOf(queue[i], when)
		for _, b := range queue[i].Because {
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
	c.Left = countSteps(root, map[*circuit.Step]bool{}) - len(c.Steps)
	return c
}

func countSteps(s *circuit.Step, seen map[*circuit.Step]bool) int {
	if seen[s] {
		return 0
	}
	seen[s] = true
	n := 1
	for _, b := range s.Because {
		n += countSteps(b, seen)
	}
	return n
}

func stepOf(s *circuit.Step, when func(book.Time) string) Step {
	step := Step{Kind: kinds[s.Kind], Label: s.Label, Says: s.Says, Note: StepNote(s, when)}
	if s.Where.Line > 0 {
		step.Source = fmt.Sprintf("%s:%d", s.Where.File, s.Where.Line)
	}
	return step
}

var kinds = map[circuit.Kind]Kind{
	circuit.Derived: KindStep, circuit.Fails: KindFailure, circuit.Acted: KindAction,
	circuit.Flown: KindFlight, circuit.Condition: KindCondition, circuit.FromStart: KindStart,
}

// StepNote says what a step is beside its value: since when, and of what kind.
func StepNote(s *circuit.Step, when func(book.Time) string) string {
	switch {
	case s.Kind == circuit.Condition:
		return "as without the failure"
	case s.Kind == circuit.FromStart:
		return "as at the start"
	case s.Since > 0:
		return "since " + when(s.Since)
	case s.Kind == circuit.Fails && s.Yes:
		return "inoperative from the start"
	}
	return ""
}

// inWords says an explanation in one sentence: what is so, and the leaves.
func inWords(root *circuit.Step) string {
	var leaves []string
	seen := map[*circuit.Step]bool{}
	var walk func(*circuit.Step)
	walk = func(s *circuit.Step) {
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
