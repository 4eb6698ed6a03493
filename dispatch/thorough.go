package dispatch

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
	"knockon/sweep"
)

// thorough is steps 4 and 6, where they are asked for.
func (s *survey) thorough(ctx context.Context) error {
	if !s.Question.Thorough {
		return nil
	}
	for m := range s.Moments {
		if err := s.latent(ctx, m); err != nil {
			return err
		}
	}
	return s.together(ctx)
}

// latent is step 4: a failure that nobody would know of leaves one more to a
// catastrophe, and does not with everything working. Sets are looked for along the
// flight that nothing changes, and each that is found is flown on its own.
func (s *survey) latent(ctx context.Context, m int) error {
	var sets []sweep.Set
	for k := range s.after.Failures() {
		if !quiet(s.has[m].Outcomes[k]) || slices.ContainsFunc(s.has[m].Outcomes[k].Lost, s.fatal) {
			continue
		}
		for g := range s.after.Failures() {
			if set := (sweep.Set{min(k, g), max(k, g)}); g != k && !s.apart(set) && !slices.ContainsFunc(s.had[m].Outcomes[g].Lost, s.fatal) && !slices.ContainsFunc(s.has[m].Outcomes[g].Lost, s.fatal) {
				sets = append(sets, set)
			}
		}
	}
	slices.SortFunc(sets, func(a, b sweep.Set) int { return slices.Compare(a, b) })
	sets = slices.CompactFunc(sets, slices.Equal[sweep.Set])
	is, err := s.after.sweep.Outcomes(ctx, s.Moments[m].At, sets)
	if err != nil {
		return err
	}
	for n, set := range sets {
		if slices.ContainsFunc(is[n].Lost, s.fatal) {
			if err := s.latentPair(ctx, m, set); err != nil {
				return err
			}
		}
	}
	return nil
}

// apart says that two failures are ways of one item, or that one is inoperative.
func (s *survey) apart(set sweep.Set) bool {
	f, g := s.after.Failures()[set[0]], s.after.Failures()[set[1]]
	out := facts{out: s.Relief.Items}
	return f.Unit == g.Unit || out.broken(f) || out.broken(g)
}

// fatal says that a loss is catastrophic and mattered.
func (s *survey) fatal(l sweep.Lost) bool {
	return l.Mattered && s.Build.Functions[l.Function].Severity == "catastrophic"
}

// quiet says that nothing is told or shown of a failure, as far as its outcome says.
func quiet(o sweep.Outcome) bool {
	return len(o.Given)+len(o.Wrong)+len(o.Dark)+len(o.False) == 0 && !slices.ContainsFunc(o.Lost, func(l sweep.Lost) bool { return l.Class != ledger.NotTold })
}

// latentPair flies a pair that looks catastrophic: on both aircraft, and its silent
// member alone.
func (s *survey) latentPair(ctx context.Context, m int, set sweep.Set) error {
	at, pair := s.Moments[m].At, []book.FailureRef{s.after.Failures()[set[0]], s.after.Failures()[set[1]]}
	is, err := s.catastrophes(ctx, s.after, at, pair)
	if err != nil || len(is) == 0 {
		return err
	}
	was, err := s.catastrophes(ctx, s.before, at, pair)
	if err != nil {
		return err
	}
	is = slices.DeleteFunc(is, func(f *book.Function) bool { return slices.Contains(was, f) })
	for i, f := range pair {
		if len(is) == 0 {
			return nil
		}
		silent, err := s.silent(ctx, at, f)
		if err != nil {
			return err
		}
		if silent {
			s.note(4, is[0].Severity, m, is[0], []book.FailureRef{f, pair[1-i]})
			return nil
		}
	}
	return nil
}

// silent says that nothing tells of a failure alone, and that what it takes away is
// hidden.
func (s *survey) silent(ctx context.Context, at book.Time, f book.FailureRef) (bool, error) {
	l, err := s.after.Fail(ctx, at, f)
	if err != nil || !l.Silent() {
		return false, err
	}
	words, err := wordsOf(ctx, s.after, at, f)
	for _, w := range words {
		if w != ledger.Hidden {
			return false, err
		}
	}
	return true, err
}

// catastrophes lists the catastrophic functions that failures take away on an
// aircraft while they are wanted.
func (s *survey) catastrophes(ctx context.Context, a *Aircraft, at book.Time, fail []book.FailureRef) (list []*book.Function, err error) {
	l, err := a.Fail(ctx, at, fail...)
	if err != nil {
		return nil, err
	}
	if l.Here.Ending().How == run.NeverSettles {
		s.broken = append(s.broken, strings.Join(say.Texts(fail), " + "))
	}
	for _, x := range l.Losses {
		if x.Mattered && x.Function.Severity == "catastrophic" {
			list = append(list, x.Function)
		}
	}
	return list, nil
}

// together is step 6: with another item inoperative for which the book has a
// deferral too, one failure is catastrophic, and is with neither alone.
func (s *survey) together(ctx context.Context) error {
	for _, x := range s.Build.Deferrals {
		for _, item := range x.Items {
			both := append(slices.Clone(s.Relief.Items), item)
			if (facts{out: s.Relief.Items}).broken(item) || slices.ContainsFunc(s.Relief.Items, func(r book.FailureRef) bool { return r.Unit == item.Unit }) {
				continue
			}
			if r := Decide(s.Build, s.Planned, both); r.Goes() {
				if err := s.with(ctx, r, item); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// with looks at another item inoperative as well, under the conditions of both.
func (s *survey) with(ctx context.Context, r *Relief, item book.FailureRef) error {
	both, alone, err := s.two(ctx, r, item)
	if ctx.Err() != nil {
		return ctx.Err()
	}
	if err != nil {
		s.NotKnown = append(s.NotKnown, fmt.Sprintf("With %s inoperative as well: %s.", s.Build.FailureTitle(item.String()), err))
		return nil
	}
	for m := range s.Moments {
		if err := s.fatalWith(ctx, m, item, both, alone); err != nil {
			return err
		}
	}
	return nil
}

// two flies the aircraft with all of a relief inoperative, and with one of its items
// alone, under the conditions of all.
func (s *survey) two(ctx context.Context, r *Relief, item book.FailureRef) (both, alone *Aircraft, err error) {
	c, course := r.Conditions(), s.course
	if id := c.Flown(s.Planned); id != course.Flight.ID {
		if course, err = s.courses.Of(s.Build.Variant, id); err != nil {
			return nil, nil, err
		}
	}
	if both, err = NewAircraft(ctx, course, goes(r.Items, c)); err != nil {
		return nil, nil, err
	}
	alone, err = NewAircraft(ctx, course, goes([]book.FailureRef{item}, c))
	return both, alone, err
}

// fatalWith looks for failures that are catastrophic with both items inoperative, and
// not with one of them.
func (s *survey) fatalWith(ctx context.Context, m int, item book.FailureRef, both, other *Aircraft) error {
	at := s.Moments[m].At
	sheet, err := both.sweep.RunAt(ctx, at, 1, nil)
	if err != nil {
		return err
	}
	for _, key := range sheet.Broken {
		if name := both.Failures()[sweep.SetOf(key)[0]].String(); !slices.Contains(s.broken, name) {
			s.broken = append(s.broken, item.String()+" + "+name)
		}
	}
	for k, f := range both.Failures() {
		if f.Unit == item.Unit || !slices.ContainsFunc(sheet.Outcome(sweep.Set{k}).Lost, s.fatal) || slices.ContainsFunc(s.has[m].Outcomes[k].Lost, s.fatal) {
			continue
		}
		is, err := s.catastrophes(ctx, both, at, []book.FailureRef{f})
		if err != nil {
			return err
		}
		for _, a := range []*Aircraft{other, s.after} {
			was, err := s.catastrophes(ctx, a, at, []book.FailureRef{f})
			if err != nil {
				return err
			}
			is = slices.DeleteFunc(is, func(f *book.Function) bool { return slices.Contains(was, f) })
		}
		if len(is) > 0 {
			s.note(6, is[0].Severity, m, is[0], []book.FailureRef{item, f})
		}
	}
	return nil
}
