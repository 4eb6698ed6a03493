package dispatch

import (
	"context"
	"fmt"
	"strings"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
)

// Acting flies a scenario with a crew by the book who act on it.
type Acting func(ctx context.Context, c *run.Course, s run.Scenario) (*ledger.Ledger, error)

// mostCrewed is how many failures of one finding are flown again with the crew.
const mostCrewed = 6

// What a crew make of a failure, the best first.
const (
	cleared = iota
	regained
	lost
	short
	never
)

// makes says so, ahead of the failures it is said of.
var makes = [...]string{
	cleared: "not lost with ", regained: "lost for a while with ", lost: "lost all the same with ", short: "the flight does not arrive with ",
	never: "not known, since the flight is over before it comes, with ",
}

// crewed says of each finding that one failure brings about, and of each hazardous or
// catastrophic loss that is one failure away, what a crew by the book make of it: the
// check itself has nobody act.
func (s *survey) crewed(ctx context.Context) (err error) {
	if s.Question.Acts == nil {
		return nil
	}
	for i := range s.Breaks {
		b := &s.Breaks[i]
		if len(b.In) == 0 || b.Step != 2 && b.Step != 5 {
			continue
		}
		if b.Crew, err = s.act(ctx, b.Function, b.Failures, func(int) int { return b.In[0] }); err != nil {
			return err
		}
	}
	for i := range s.Away {
		a := &s.Away[i]
		if !atLeast(a.Severity, "hazardous") {
			continue
		}
		var by []book.FailureRef
		for _, x := range a.By {
			by = append(by, x.Failure)
		}
		if a.Crew, err = s.act(ctx, a.Function, by, func(k int) int { return a.By[k].In[0] }); err != nil {
			return err
		}
	}
	return nil
}

// act flies failures one by one, each at its moment, and says what comes of it.
func (s *survey) act(ctx context.Context, f *book.Function, by []book.FailureRef, in func(int) int) (string, error) {
	found := make([]int, min(len(by), mostCrewed))
	err := many(ctx, len(found), func(ctx context.Context, i int) (err error) {
		x := s.after.quiet
		x.Strikes = []run.Strike{{At: book.Moment{Offset: s.Moments[in(i)].At}, Fail: by[i : i+1]}}
		l, err := s.Question.Acts(ctx, s.course, x)
		if err == nil {
			found[i] = made(l, f)
		}
		return err
	})
	return s.crewSays(found, by), err
}

// made is what came of it for a function; nil: for the arrival alone.
func made(l *ledger.Ledger, f *book.Function) int {
	if _, came := l.Here.FirstStrike(); !came {
		return never
	}
	if !l.Here.Ending().Arrived() {
		return short
	}
	if f == nil {
		return cleared
	}
	switch x := l.Loss(f.ID); {
	case x == nil || !x.Mattered:
		return cleared
	case l.Regained(x):
		return regained
	}
	return lost
}

func (s *survey) crewSays(found []int, all []book.FailureRef) string {
	var parts []string
	for kind := range makes {
		var with []string
		for i, k := range found {
			if k == kind {
				with = append(with, s.Build.FailureTitle(all[i].String()))
			}
		}
		if len(with) > 0 {
			parts = append(parts, makes[kind]+say.And(with))
		}
	}
	text := "With a crew by the book: " + strings.Join(parts, "; ") + "."
	if more := len(all) - len(found); more > 0 {
		text += fmt.Sprintf(" %s not flown with a crew.", say.Capital(say.Counted(more, "other was", "others were")))
	}
	return text
}
