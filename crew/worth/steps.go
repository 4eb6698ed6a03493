package worth

import (
	"knockon/book"
	"knockon/crew"
)

// numbered is a step with its number and the step that follows it in its list.
type numbered struct {
	step, next *book.Step
	number     string
}

// stepsOf lists all steps of a procedure as a crew have them, with what bulletins
// change, in order, those within others included.
func stepsOf(t *crew.Team, p *book.Procedure) (all []numbered) {
	next := map[*book.Step]*book.Step{}
	follow(t.Steps(p), next)
	crew.Walk(t.Steps(p), func(s *book.Step, _ string) {
		all = append(all, numbered{s, next[s], t.Number(s)})
	})
	return all
}

func follow(list []*book.Step, next map[*book.Step]*book.Step) {
	for i, s := range list {
		if i+1 < len(list) {
			next[s] = list[i+1]
		}
		follow(s.Then, next)
		follow(s.Else, next)
		follow(s.Unknown, next)
	}
}

// moves says that a step, or one within it, moves a control or sends to a list.
func moves(s *book.Step) (found bool) {
	if s == nil {
		return false
	}
	crew.Walk([]*book.Step{s}, func(s *book.Step, _ string) { found = found || moved(s) || s.GoTo != "" })
	return found
}

func moved(s *book.Step) bool { return s.Kind == "do" && s.Set != "" }

// delays are how late a step is tried: 10 s, 30 s, 1, 2 and 5 minutes.
var delays = []book.Time{10 * book.Second, 30 * book.Second, 60 * book.Second, 120 * book.Second, 300 * book.Second}

// changes lists the wrong ways to do a step.
func changes(n numbered, b *book.Build) []crew.Change {
	list := []crew.Change{{Kind: crew.Omit, Step: n.step}}
	if moved(n.step) {
		for _, d := range delays {
			list = append(list, crew.Change{Kind: crew.Late, Step: n.step, By: d})
		}
		for _, w := range beside(b, n.step) {
			list = append(list, crew.Change{Kind: crew.Wrong, Step: n.step, Control: w.control, Position: w.position})
		}
	}
	if n.step.Kind == "decide" && n.step.That != nil {
		list = append(list, crew.Change{Kind: crew.Otherwise, Step: n.step})
	}
	if n.next != nil && n.step.Kind != "later" && n.next.Kind != "later" {
		list = append(list, crew.Change{Kind: crew.Swap, Step: n.step})
	}
	return list
}

// idle says that a change cannot move anything: a line that moves no control, sends
// to no list and opens no way is left out, and its time passes all the same.
func idle(c crew.Change) bool {
	return c.Kind == crew.Omit && !moved(c.Step) && c.Step.GoTo == "" && c.Step.Kind != "decide" && c.Step.Kind != "later"
}
