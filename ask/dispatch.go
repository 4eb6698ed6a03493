package ask

import (
	"context"
	"slices"
	"strings"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
	"knockon/sweep"
)

// Deferral is what inoperative units leave one failure away at a moment.
type Deferral struct {
	*Standing
	Units  []string // inoperative
	Away   []Away   // the severest losses first
	Broken []string // failures whose run breaks off: of what comes after that nothing is known
}

// Away is a function for which one failure is enough now that a unit is deferred,
// and was not before.
type Away struct {
	Function *book.Function
	Lost     bool     // it does not work at the moment, with nothing else failed, and would without the deferral
	Later    bool     // the same at some later moment of the flight only
	By       []string // the failures that are enough now
}

// Lead says what the list is of.
func (x *Deferral) Lead() string {
	with := "With " + x.Out + " inoperative, "
	if len(x.Away) == 0 {
		return with + "no single failure that strikes " + x.Moment + " takes away more by the end of the flight than it does with that working."
	}
	return with + "what one failure that strikes " + x.Moment + " takes away there or by the end of the flight, beyond what it does with that working."
}

// BrokenOff says of which failures not everything is known; "" if of none.
func (x *Deferral) BrokenOff() string {
	if len(x.Broken) == 0 {
		return ""
	}
	return "Runs with these failures broke off in a loop that never settles, and what comes after that is not known: " + strings.Join(x.Broken, ", ") + "."
}

// Head is the heading of a function's severity.
func (a Away) Head() string {
	if s := a.Function.Severity; s != "" {
		return say.Capital(s)
	}
	return "Of no stated severity"
}

// Already says that a function is lost with nothing more failed; "" if it is not.
func (a Away) Already() string {
	switch {
	case a.Lost:
		return "lost already"
	case a.Later:
		return "lost later with nothing more failed"
	}
	return ""
}

// Dispatch says what the inoperative units of a question leave one failure away:
// for each function the failures that take it away at the moment of the question
// or later on that flight, and do not on the aircraft without the deferral. It
// says what the ledgers of all these flights say (docs/meaning.md, section 9).
func (d *Desk) Dispatch(ctx context.Context, q Sought) (*Deferral, error) {
	if len(q.Out) == 0 {
		return nil, trouble("out", "say what is inoperative at dispatch")
	}
	after, err := d.Stand(ctx, q)
	if err != nil {
		return nil, err
	}
	units, before := q.Out, *after
	if before.there, err = after.Course.Healthy(ctx, run.Scenario{}); err != nil {
		return nil, blame("flight", ctx, err)
	}
	had, err := before.alone(ctx)
	if err != nil {
		return nil, blame("out", ctx, err)
	}
	has, err := after.alone(ctx)
	if err != nil {
		return nil, blame("out", ctx, err)
	}
	gone, err := after.gone(ctx)
	if err != nil {
		return nil, blame("out", ctx, err)
	}
	x := after.deferral(had, has, gone)
	x.Units = units
	return x, nil
}

// deferral puts together what each failure takes without and with the deferral,
// and what the deferral takes alone.
func (s *Standing) deferral(had, has *singles, gone map[*book.Function]book.Time) *Deferral {
	x := &Deferral{Standing: s, Broken: union(had.broken, has.broken)}
	for i, f := range s.Course.Build.Functions {
		a := Away{Function: f}
		if from, ok := gone[f]; ok {
			a.Lost, a.Later = from <= s.At, from > s.At
		}
		for k, name := range has.names {
			if has.lost[k][i] && !had.lost[k][i] {
				a.By = append(a.By, name)
			}
		}
		if a.Lost || a.Later || len(a.By) > 0 {
			x.Away = append(x.Away, a)
		}
	}
	slices.SortStableFunc(x.Away, func(a, b Away) int { return severity(b) - severity(a) })
	return x
}

func union(a, b []string) []string {
	both := slices.Concat(a, b)
	slices.Sort(both)
	return slices.Compact(both)
}

// severity is how bad the loss of a function is.
func severity(a Away) int { return slices.Index(book.Severities, a.Function.Severity) }

// singles is what each failure takes away alone.
type singles struct {
	names  []string
	lost   [][]bool // by failure and function
	broken []string
}

// alone flies every failure alone from the moment on. Those that the flight does
// not feel are flown together along the flight without them, the others one by
// one.
func (s *Standing) alone(ctx context.Context) (*singles, error) {
	w, err := s.sweep(true)
	if err != nil {
		return nil, err
	}
	sheet, err := w.RunAt(ctx, s.strike(), 1, nil)
	if err != nil {
		return nil, err
	}
	x := &singles{names: say.Texts(w.Failures()), lost: make([][]bool, len(w.Failures()))}
	for i, f := range w.Failures() {
		o := sheet.Outcome(sweep.Set{i})
		if sheet.Felt != nil && sheet.Felt[i] {
			l, err := s.failing(ctx, f)
			if err != nil {
				return nil, err
			}
			if o = sweep.OutcomeOf(l); l.Here.Fault != nil {
				x.broken = append(x.broken, f.String())
			}
		}
		x.lost[i] = make([]bool, len(s.Course.Build.Functions))
		for _, l := range o.Lost {
			x.lost[i][l.Function] = true
		}
	}
	for _, k := range sheet.Broken {
		x.broken = union(x.broken, []string{x.names[sweep.SetOf(k)[0]]})
	}
	return x, nil
}

// failing flies one failure on the flight that feels it.
func (s *Standing) failing(ctx context.Context, f book.FailureRef) (*ledger.Ledger, error) {
	k := run.Strike{At: book.Moment{Offset: s.strike()}, Fail: []book.FailureRef{f}}
	return ledger.Answer(ctx, s.Course, run.Scenario{Strikes: []run.Strike{k}, Inoperative: s.there.Scenario.Inoperative, FliesOn: true})
}

// gone says which functions the deferral alone takes away, and from when on:
// they would work at that moment of the same flight without it.
func (s *Standing) gone(ctx context.Context) (map[*book.Function]book.Time, error) {
	whole, err := s.Course.Along(s.there.Path()).Healthy(ctx, run.Scenario{})
	if err != nil {
		return nil, err
	}
	from := map[*book.Function]book.Time{}
	for _, l := range ledger.Of(s.there, whole).Losses {
		for _, span := range l.Spans {
			if _, had := from[l.Function]; !had && span.To > s.At {
				from[l.Function] = span.From
			}
		}
	}
	return from, nil
}
