package dispatch

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/ledger"
	"knockon/say"
)

// Break is a place where a deferral breaks the principle that the next failure must
// be survivable.
type Break struct {
	Step     int    // of the check, see docs/dispatch.md
	Severity string // of what it comes to
	Says     string // a sentence
	Function *book.Function
	Failures []book.FailureRef // beside what is inoperative
	In       []int             // moments, by number; nil where it is so whenever
	Crew     string            // what a crew by the book make of it; "" where none was flown
}

// mostHazardousDays is how long something may stay inoperative that leaves a
// hazardous loss one failure away: as long as category B lets it (an assumption of
// this check).
const mostHazardousDays = 3

// alone is step 1: what is inoperative takes away more than something minor by
// itself.
func (s *survey) alone() (list []Break) {
	for _, x := range s.Already {
		if atLeast(x.Function.Severity, "major") {
			list = append(list, Break{Step: 1, Severity: x.Function.Severity, Function: x.Function,
				Says: fmt.Sprintf("%s is lost with nothing more failed (%s).", say.Quoted(x.Function.Title), x.Function.Severity)})
		}
	}
	return list
}

// next is step 2: one failure more is catastrophic; or hazardous, and the item may
// stay so for longer than three days.
func (s *survey) next() (list []Break) {
	days, by := s.Relief.Days()
	for _, a := range s.Away {
		if b := s.nextTo(a, "catastrophic"); len(b.Failures) > 0 {
			b.Says = fmt.Sprintf("One failure is catastrophic: %s is lost with %s %s.", say.Quoted(a.Function.Title), s.either(b.Failures), s.when(b.In))
			list = append(list, b)
		}
		if b := s.nextTo(a, "hazardous"); len(b.Failures) > 0 && days > mostHazardousDays {
			b.Says = fmt.Sprintf("One failure is hazardous, and by %s it may stay so for %s, where %s would be the most: %s is lost with %s %s.", say.Quoted(by.Title),
				say.Counted(days, "day"), say.Whole(mostHazardousDays), say.Quoted(a.Function.Title), s.either(b.Failures), s.when(b.In))
			list = append(list, b)
		}
	}
	return list
}

// stated says why the book has a loss likelier than its severity allows, where it does:
// with something inoperative that is no reason, and a reader has to see it.
func stated(f *book.Function) string {
	if f == nil || f.OverOnPurpose == "" {
		return ""
	}
	return " The book states that its loss is likelier than its severity allows: " + strings.TrimSuffix(f.OverOnPurpose, ".") + "."
}

// short is the rest of step 2: one failure more, and the flight does not arrive that
// does with everything working.
func (s *survey) short() (list []Break) {
	for _, f := range s.after.Failures() {
		b, why := Break{Step: 2, Severity: "catastrophic", Failures: []book.FailureRef{f}}, ""
		for m := range s.Moments {
			is, short := s.has[m].Short[f.String()]
			if _, was := s.had[m].Short[f.String()]; short && !was {
				b.In, why = append(b.In, m), cmp.Or(why, is)
			}
		}
		if len(b.In) > 0 {
			b.Says = fmt.Sprintf("One failure, and the flight does not arrive that does with everything working: %s %s: %s.", s.either(b.Failures), s.when(b.In), why)
			list = append(list, b)
		}
	}
	return list
}

// nextTo gathers the failures that make a loss as severe as that.
func (s *survey) nextTo(a Away, severity string) Break {
	b := Break{Step: 2, Severity: severity, Function: a.Function}
	for _, x := range a.By {
		if x.Severity == severity {
			b.Failures, b.In = append(b.Failures, x.Failure), append(b.In, x.In...)
		}
	}
	slices.Sort(b.In)
	b.In = slices.Compact(b.In)
	return b
}

// either names failures of which one is enough.
func (s *survey) either(list []book.FailureRef) string {
	return strings.Join(s.titlesOf(say.Texts(list)), ", or ")
}

// suspect is a loss that a failure brings in any case, at a moment.
type suspect struct{ function, failure, moment int }

// silenced is the first half of step 5: a hazardous or catastrophic loss that a
// failure brings in any case is known of with everything working, and hidden or
// denied as the aircraft goes.
func (s *survey) silenced(ctx context.Context) error {
	suspects := s.suspects()
	found := make([]ledger.Word, len(suspects))
	err := many(ctx, len(suspects), func(ctx context.Context, n int) (err error) {
		found[n], err = s.unknowing(ctx, suspects[n])
		return err
	})
	if err != nil {
		return err
	}
	for n, x := range suspects {
		if found[n] != "" {
			s.note(5, graded(s.Build.Functions[x.function], found[n]), x.moment, s.Build.Functions[x.function], []book.FailureRef{s.after.Failures()[x.failure]})
		}
	}
	return nil
}

// suspects are the losses that look quieter with what is inoperative.
func (s *survey) suspects() (list []suspect) {
	for i, f := range s.Build.Functions {
		if worst(f) < severityIndex("hazardous") {
			continue
		}
		for k := range s.after.Failures() {
			for m := range s.Moments {
				if s.quieter(m, k, i) {
					list = append(list, suspect{i, k, m})
				}
			}
		}
	}
	return list
}

// unknowing gives the word of a loss that people know of with everything working, and
// do not as the aircraft goes; "" of any other.
func (s *survey) unknowing(ctx context.Context, x suspect) (ledger.Word, error) {
	id, ref, at := s.Build.Functions[x.function].ID, s.after.Failures()[x.failure], s.Moments[x.moment].At
	was, err := wordsOf(ctx, s.before, at, ref)
	if err != nil || unknown(was[id]) || was[id] == "" {
		return "", err
	}
	is, err := wordsOf(ctx, s.after, at, ref)
	if !unknown(is[id]) {
		return "", err
	}
	return is[id], err
}

// quieter says that a failure takes a function away on both aircraft, and is told or
// shown on the whole one only, as far as the classes say.
func (s *survey) quieter(m, failure, function int) bool {
	was, ok1 := s.had[m].Outcomes[failure].Loss(int32(function))
	is, ok2 := s.has[m].Outcomes[failure].Loss(int32(function))
	silent := func(c ledger.Class) bool { return c == ledger.NotTold || c == ledger.ToldWrong }
	return ok1 && ok2 && was.Mattered && is.Mattered && silent(is.Class) && !silent(was.Class)
}

func unknown(w ledger.Word) bool { return w == ledger.Hidden || w == ledger.Denied }

// lists is the second half of step 5: a list that a warning calls for cannot be done
// with what is inoperative.
func (s *survey) lists(ctx context.Context) error {
	l, err := s.after.Beside(ctx, s.before.quiet)
	if err != nil {
		return err
	}
	dark := map[string]bool{}
	for _, d := range l.Dark {
		dark[d.Indication.ID] = true
	}
	for _, p := range s.Build.Procedures {
		if !s.emergency(p) {
			continue
		}
		lines := s.lines(p.Steps, dark)
		slices.Sort(lines)
		for _, says := range slices.Compact(lines) {
			s.Breaks = append(s.Breaks, Break{Step: 5, Severity: "hazardous", Says: fmt.Sprintf("A list for an emergency needs it: %s in %s.", says, say.Quoted(p.Title))})
		}
	}
	return nil
}

// emergency says that a warning that names a hazardous or catastrophic loss calls for
// a list.
func (s *survey) emergency(p *book.Procedure) bool {
	return slices.ContainsFunc(s.Build.Alerts, func(a *book.Alert) bool {
		return a.Procedure == p.ID && a.Level == "warning" && slices.ContainsFunc(a.Tells, func(id string) bool {
			f, ok := s.Build.Item(id)
			return ok && worst(f.(*book.Function)) >= severityIndex("hazardous")
		})
	})
}

// lines lists the lines that move what only inoperative units answer to, or look at
// what is dark.
func (s *survey) lines(steps []*book.Step, dark map[string]bool) (list []string) {
	for _, x := range steps {
		if x.Set != "" && s.answersNot(x.Set) {
			list = append(list, fmt.Sprintf("nothing answers to %s = %s", s.Build.Title(x.Set), x.To))
		}
		x.That.Walk(func(e *book.Expr) {
			if e.Op == book.OpRef && dark[e.ID] {
				list = append(list, fmt.Sprintf("%s is dark and has to be looked at", say.Quoted(s.Build.Title(e.ID))))
			}
		})
		list = append(list, s.lines(slices.Concat(x.Then, x.Else, x.Unknown), dark)...)
	}
	return list
}
