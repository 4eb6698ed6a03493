package sets

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/ways"
	"knockon/ways/still"
)

// Stander is an aircraft held still at a moment.
type Stander struct {
	Still  *still.Still
	Moment string // in words: "at 50:12 (Cruise)"
}

// Away is a function for which one failure is enough now that a unit is deferred,
// and was not before.
type Away struct {
	Function *book.Function
	Lost     bool     // it is lost already, with nothing else failed
	By       []string // the failures that are enough now
}

// Dispatch says what a deferral leaves one failure away: for each function of
// the build what takes it away alone on the aircraft with units inoperative, and
// does not on the one without; the severest losses first. Functions whose loss
// cannot be followed at that moment are given apart.
func Dispatch(ctx context.Context, b *book.Build, before, after Stander) (list []Away, blind []*book.Function, err error) {
	for _, f := range b.Functions {
		was, ok, err := singles(ctx, f, before.Still)
		if err != nil {
			return nil, nil, err
		}
		now, also, err := singles(ctx, f, after.Still)
		switch {
		case err != nil:
			return nil, nil, err
		case !ok || !also:
			blind = append(blind, f)
			continue
		}
		a := Away{Function: f, Lost: !works(after.Still, f) && works(before.Still, f)}
		for _, name := range now {
			if !slices.Contains(was, name) {
				a.By = append(a.By, name)
			}
		}
		if a.Lost || len(a.By) > 0 {
			list = append(list, a)
		}
	}
	slices.SortStableFunc(list, func(a, b Away) int { return rank(b) - rank(a) })
	return list, blind, nil
}

// rank is how bad the loss of a function is.
func rank(a Away) int { return slices.Index(book.Severities, a.Function.Severity) }

func works(s *still.Still, f *book.Function) bool { return s.Before(f.ID) }

// singles lists the failures that take a function away alone.
func singles(ctx context.Context, f *book.Function, s *still.Still) (names []string, ok bool, err error) {
	top, err := s.Lost(f.ID)
	if err != nil {
		return nil, false, nil // it depends on a number that cannot be followed
	}
	w, err := ways.Find(ctx, s.Logic, top, ways.Options{Order: 1})
	if err != nil {
		return nil, false, err
	}
	sets, _ := w.List(1, len(s.Logic.Events()))
	for _, set := range sets {
		names = append(names, w.Names(set)...)
	}
	return names, true, nil
}
