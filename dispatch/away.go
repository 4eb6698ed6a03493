package dispatch

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
)

// Already is a function that the deferral takes away with nothing more failed.
type Already struct {
	Function *book.Function
	From     book.Time
}

// Away is a function for which one failure is enough as the aircraft goes, and is
// not with everything working; it was wanted while it is lost.
type Away struct {
	Function *book.Function
	By       []By
	Severity string // the gravest that it comes to, hidden or not; "" where the book says none
	Crew     string // what a crew by the book make of it; "" where none was flown
}

// By is a failure that is enough, and when.
type By struct {
	Failure  book.FailureRef
	In       []int       // moments, by number
	Known    ledger.Word // how people would know, at the worst of the moments looked at
	At       int         // that moment
	Severity string      // with that
}

// already finds what the aircraft lacks as it goes.
func (s *survey) already(ctx context.Context) error {
	l, err := s.after.Beside(ctx, run.Scenario{})
	if err != nil {
		return err
	}
	for _, x := range l.Losses {
		if x.Mattered {
			s.Already = append(s.Already, Already{x.Function, first(x)})
		}
	}
	slices.SortStableFunc(s.Already, func(a, b Already) int { return severityOf(b.Function) - severityOf(a.Function) })
	return nil
}

// first is when a loss first matters.
func first(x ledger.Loss) book.Time {
	i := slices.IndexFunc(x.Spans, func(p ledger.LossSpan) bool { return p.Mattered })
	return x.Spans[i].From
}

func severityOf(f *book.Function) int     { return severityIndex(f.Severity) }
func severityIndex(severity string) int   { return slices.Index(book.Severities, severity) }
func atLeast(severity, least string) bool { return severityIndex(severity) >= severityIndex(least) }

// graded is how bad a loss is, known in some way.
func graded(f *book.Function, w ledger.Word) string {
	return f.Graded(w.Unknown())
}

// worst is how bad the loss of a function can be, whatever is known of it.
func worst(f *book.Function) int { return max(severityOf(f), severityIndex(f.SeverityIfHidden)) }

// fresh says that a failure takes a function away as the aircraft goes, at a moment,
// and does not with everything working; it is wanted meanwhile.
func (s *survey) fresh(m, failure, function int) bool {
	is, ok := s.has[m].Outcomes[failure].Loss(int32(function))
	if !ok || !is.Mattered {
		return false
	}
	was, ok := s.had[m].Outcomes[failure].Loss(int32(function))
	return !ok || !was.Mattered
}

// away puts together what is one failure away, and how people would know of it.
func (s *survey) away(ctx context.Context) error {
	rows := map[int][]By{} // by function
	for k, ref := range s.after.Failures() {
		for i := range s.Build.Functions {
			by := By{Failure: ref}
			for m := range s.Moments {
				if s.fresh(m, k, i) {
					by.In = append(by.In, m)
				}
			}
			if len(by.In) > 0 {
				rows[i] = append(rows[i], by)
			}
		}
	}
	j := newJudging(s)
	for i, f := range s.Build.Functions {
		for _, by := range rows[i] {
			j.want(f, by)
		}
	}
	if err := j.fly(ctx); err != nil {
		return err
	}
	s.step()
	for i, f := range s.Build.Functions {
		if len(rows[i]) > 0 {
			s.Away = append(s.Away, j.away(f, rows[i]))
		}
	}
	slices.SortStableFunc(s.Away, func(a, b Away) int { return severityIndex(b.Severity) - severityIndex(a.Severity) })
	return nil
}

// judging works out how people would know of losses: at each moment of those whose
// loss can be hazardous, at the first of the others.
type judging struct {
	s     *survey
	asked []flown
	words map[flown]map[string]ledger.Word // by function
}

type flown struct {
	failure string
	moment  int
}

func newJudging(s *survey) *judging {
	return &judging{s: s, words: map[flown]map[string]ledger.Word{}}
}

func (j *judging) moments(f *book.Function, by By) []int {
	if worst(f) >= severityIndex("hazardous") {
		return by.In
	}
	return by.In[:1]
}

func (j *judging) want(f *book.Function, by By) {
	for _, m := range j.moments(f, by) {
		x := flown{by.Failure.String(), m}
		if _, had := j.words[x]; !had {
			j.words[x] = nil
			j.asked = append(j.asked, x)
		}
	}
}

// fly flies what is wanted.
func (j *judging) fly(ctx context.Context) error {
	words := make([]map[string]ledger.Word, len(j.asked))
	err := many(ctx, len(j.asked), func(ctx context.Context, n int) error {
		ref, err := book.ParseFailure(j.asked[n].failure, j.s.Build)
		if err != nil {
			return err
		}
		words[n], err = wordsOf(ctx, j.s.after, j.s.Moments[j.asked[n].moment].At, ref)
		return err
	})
	for n, x := range j.asked {
		j.words[x] = words[n]
	}
	return err
}

// wordsOf is how people can know of each loss that failures bring.
func wordsOf(ctx context.Context, a *Aircraft, at book.Time, fail ...book.FailureRef) (map[string]ledger.Word, error) {
	l, err := a.Fail(ctx, at, fail...)
	if err != nil {
		return nil, err
	}
	if err := known.Judge(ctx, l); err != nil {
		return nil, err
	}
	words := map[string]ledger.Word{}
	for _, x := range l.Losses {
		words[x.Function.ID] = x.Known
	}
	return words, nil
}

// away is the row of a function.
func (j *judging) away(f *book.Function, list []By) Away {
	a := Away{Function: f, Severity: f.Severity}
	for _, by := range list {
		heaviest := len(ledger.Words)
		for _, m := range j.moments(f, by) {
			w := j.words[flown{by.Failure.String(), m}][f.ID]
			if n := slices.Index(ledger.Words, w); n >= 0 && n < heaviest {
				heaviest, by.Known, by.At = n, w, m
			}
		}
		if by.Severity = graded(f, by.Known); severityIndex(by.Severity) > severityIndex(a.Severity) {
			a.Severity = by.Severity
		}
		a.By = append(a.By, by)
	}
	slices.SortStableFunc(a.By, func(x, y By) int { return slices.Index(ledger.Words, x.Known) - slices.Index(ledger.Words, y.Known) })
	return a
}
