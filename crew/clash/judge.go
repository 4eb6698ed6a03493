package clash

import (
	"context"
	"fmt"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
	"knockon/say"
)

// judge turns what all flights have in common into conflicts.
func (s *survey) judge() {
	for _, a := range s.team.Build().Alerts {
		k := s.called[a]
		if k == nil || k.stayed < k.done {
			continue
		}
		p := procedure(s.team.Build(), a.Procedure)
		kind, how := Stands, "no step of it moves anything that the alert reads"
		if canEnd(s.team.Course().Circuit(), a, p) {
			kind, how = Uncleared, "what it moves is not enough"
		}
		s.report.Conflicts = append(s.report.Conflicts, &Conflict{Kind: kind, Procedure: p, Alert: a, Seen: k.stayed, Of: k.done,
			Says: fmt.Sprintf("%s stands to the end of the flight in %s in which %s was done: %s.", say.Quoted(a.Title), every(k.done), say.Quoted(p.Title), how)})
	}
	for _, p := range s.team.Build().Procedures {
		crew.Walk(p.Steps, func(step *book.Step, number string) { s.oneWay(p, step, number) })
	}
}

// every says in how many flights something is so without exception.
func every(n int) string {
	return say.Plural(n, "the one flight", "all "+say.Counted(n, "flight"))
}

// fewestAnswers is how often a decision must have been met before it is said
// that it always goes one way.
const fewestAnswers = 5

func (s *survey) oneWay(p *book.Procedure, step *book.Step, number string) {
	a := s.asked[step]
	if a == nil {
		return
	}
	met, word := a.yes+a.no+a.unseen, "is answered yes"
	switch {
	case met < fewestAnswers || max(a.yes, a.no, a.unseen) < met:
		return
	case a.no > 0:
		word = "is answered no"
	case a.unseen > 0:
		word = "asks what cannot be seen"
	}
	s.report.Conflicts = append(s.report.Conflicts, &Conflict{Kind: OneWay, Procedure: p, Step: step, Seen: met, Of: met,
		Says: fmt.Sprintf("Step %s of %s %s in %s in which somebody comes to it.", number, say.Quoted(p.Title), word, every(met))})
}

func (s *survey) uncalled(p *book.Procedure, single, double, slips, broken int) {
	s.report.Conflicts = append(s.report.Conflicts, &Conflict{Kind: Uncalled, Procedure: p, Of: single + double + slips,
		Says: fmt.Sprintf("None of %s, %s and %s on which its alerts hang calls for %s%s.", say.Counted(single, "single failure"), say.Counted(double, "pair"),
			say.Counted(slips, "slip of the hand", "slips of the hand"), say.Quoted(p.Title), brokenOff(broken, ", as far as they went: "))})
}

// brokenOff says that some flights did not arrive; "" where all did.
func brokenOff(n int, before string) string {
	if n == 0 {
		return ""
	}
	return before + say.Counted(n, "of the flights breaks", "of the flights break") + " off, and what would come after is not known"
}

// hollow finds steps that nothing follows in any flight, and that something
// would follow on an aircraft with nothing failed: the failure that calls for the
// step has taken what it works through.
func (s *survey) hollow(ctx context.Context) error {
	for _, p := range s.team.Build().Procedures {
		var steps []*book.Step
		crew.Walk(p.Steps, func(step *book.Step, _ string) { steps = append(steps, step) })
		for _, step := range steps {
			f := s.moved[step]
			if f == nil || f.anything {
				continue
			}
			what, err := s.without(ctx, f)
			if err != nil {
				return err
			}
			if what != "" {
				s.report.Conflicts = append(s.report.Conflicts, &Conflict{Kind: Taken, Procedure: p, Step: step, Fail: names(&f.first), AtS: f.line.To.Seconds(), Seen: f.flights, Of: f.flights,
					Says: fmt.Sprintf("Step %s of %s moves %s, and nothing follows in %s in which it is done; with nothing failed it would reach %s.", f.line.Number, say.Quoted(p.Title),
						s.team.Build().Title(f.line.Control), every(f.flights), what)})
			}
		}
	}
	return nil
}

// without says what a move would reach with nothing failed, when leaving it out
// changes nothing with the failure; "" where it does, or would not.
func (s *survey) without(ctx context.Context, f *followed) (string, error) {
	right, err := s.team.Fly(ctx, f.first)
	if err != nil || !right.Record.Ending().Arrived() {
		return "", err
	}
	left, err := s.team.Fly(ctx, f.first, crew.Change{Kind: crew.Omit, Step: f.line.Step})
	if err != nil || s.differs(right.Record, left.Record, f.line.Control) != "" {
		return "", err
	}
	s.report.Flights += 2
	healthy, err := s.team.Course().Healthy(ctx, run.Scenario{})
	if err != nil {
		return "", err
	}
	moved, err := s.team.Course().Fly(ctx, run.Scenario{Actions: []run.Action{{Control: f.line.Control, Position: f.line.Position, At: book.Moment{Offset: f.line.To}}}})
	if err != nil {
		return "", err
	}
	return s.differs(moved, healthy, f.line.Control), nil
}

// differs names the first function or unit that is not the same in two flights;
// "" where none is.
func (s *survey) differs(a, b *run.Record, control string) string {
	found := ""
	for _, v := range a.Circuit().Values() {
		if v.Value.Item == control || !a.Steady(v.Node) || same(a.History(v.Node), b.History(v.Node)) {
			continue
		}
		item, ok := s.team.Build().Item(v.Value.Item)
		if _, function := item.(*book.Function); ok && function {
			return item.Named().Title
		}
		if ok && found == "" {
			found = item.Named().Title
		}
	}
	return found
}

func same(a, b []circuit.Change) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].At != b[i].At || a[i].To != b[i].To {
			return false
		}
	}
	return true
}
