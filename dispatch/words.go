package dispatch

import (
	"fmt"
	"slices"

	"knockon/book"
	"knockon/say"
)

// when says at which moments something is so, as phases: "in any phase", "in Climb",
// "from Climb to Descent".
func (a *Answer) when(in []int) string {
	if a.Question.In != "" {
		return "at " + say.Clock(a.Moments[0].At)
	}
	if len(in) == len(a.Moments) {
		return "in any phase"
	}
	var parts []string
	for from := 0; from < len(in); {
		to := from
		for to+1 < len(in) && in[to+1] == in[to]+1 {
			to++
		}
		parts = append(parts, a.stretch(in[from:to+1])...)
		from = to + 1
	}
	return "in " + say.And(parts)
}

// stretch is a row of phases: two are named, of more the first and the last.
func (a *Answer) stretch(in []int) (parts []string) {
	title := func(m int) string { return a.phase(a.Moments[m]) }
	if len(in) > 2 {
		return []string{title(in[0]) + " to " + title(in[len(in)-1])}
	}
	for _, m := range in {
		parts = append(parts, title(m))
	}
	return slices.Compact(parts)
}

// note keeps a finding, or adds a moment to one that is there.
func (s *survey) note(step int, severity string, m int, f *book.Function, failures []book.FailureRef) {
	for i := range s.Breaks {
		if b := &s.Breaks[i]; b.Step == step && b.Function == f && slices.Equal(say.Texts(b.Failures), say.Texts(failures)) {
			b.In = append(b.In, m)
			return
		}
	}
	s.Breaks = append(s.Breaks, Break{Step: step, Severity: severity, Function: f, Failures: failures, In: []int{m}})
}

// spell gives the findings that were noted moment by moment their sentences.
func (s *survey) spell() {
	for i := range s.Breaks {
		if b := &s.Breaks[i]; b.Says == "" {
			b.Says = s.sentence(b)
		}
	}
}

func (s *survey) sentence(b *Break) string {
	title := func(i int) string { return s.Build.FailureTitle(b.Failures[i].String()) }
	function, when := say.Quoted(b.Function.Title), s.when(b.In)
	switch b.Step {
	case 4:
		return fmt.Sprintf("A failure that nobody would know of leaves one more to a catastrophe: %s, with %s, takes away %s %s.", title(0), title(1), function, when)
	case 5:
		return fmt.Sprintf("What would tell of a loss is gone: %s takes away %s %s, and people would know of it with everything working.", title(0), function, when)
	}
	return fmt.Sprintf("The book lets it go with %s inoperative as well, and then one failure is catastrophic: %s takes away %s %s. The two should exclude each other.", title(0), title(1), function, when)
}
