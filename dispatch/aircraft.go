package dispatch

import (
	"context"
	"fmt"
	"runtime"
	"slices"

	"knockon/book"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
	"knockon/say"
	"knockon/sweep"
)

// Aircraft is one as it goes: on a flight, with what is inoperative, set as it is.
type Aircraft struct {
	Course *run.Course
	There  *run.Record // the flight with nothing failed in it

	quiet run.Scenario
	sweep *sweep.Sweep
}

// NewAircraft flies an aircraft with nothing failed; of the scenario only what is
// inoperative and the set-up count. The error is that of a flight that cannot be
// held against others.
func NewAircraft(ctx context.Context, c *run.Course, s run.Scenario) (*Aircraft, error) {
	a := &Aircraft{Course: c, quiet: run.Scenario{Inoperative: s.Inoperative, SetUp: s.SetUp}}
	var err error
	if a.There, err = c.Healthy(ctx, a.quiet); err != nil {
		return nil, err
	}
	if e := a.There.Ending(); !e.Arrived() {
		return nil, fmt.Errorf("the flight with nothing failed in it breaks off %s into it: %s", say.Clock(e.At), e.Why)
	}
	a.sweep, err = sweep.New(c.Along(a.There.Path()), sweep.Setting{Inoperative: s.Inoperative, SetUp: s.SetUp, Felt: true})
	return a, err
}

// Failures lists what can fail: units, faults and common causes.
func (a *Aircraft) Failures() []book.FailureRef { return a.sweep.Failures() }

// Singles is what each failure takes away alone, from a moment on.
type Singles struct {
	At       book.Time
	Outcomes []sweep.Outcome // by failure
	Broken   []string        // failures whose run breaks off in a loop: of what comes after nothing is known
	// Short is why the flight does not arrive, by failure that it feels: of what would
	// come after nothing is known either.
	Short map[string]string
}

// Singles flies every failure alone from a moment to the end of the flight. Those
// that the flight does not feel are flown together along the flight without them,
// the others one by one.
func (a *Aircraft) Singles(ctx context.Context, at book.Time) (*Singles, error) {
	sheet, err := a.sweep.RunAt(ctx, at, 1, nil)
	if err != nil {
		return nil, err
	}
	x := &Singles{At: at, Outcomes: make([]sweep.Outcome, len(a.Failures())), Short: map[string]string{}}
	var felt []int
	for i := range a.Failures() {
		if x.Outcomes[i] = sheet.Outcome(sweep.Set{i}); sheet.Felt != nil && sheet.Felt[i] {
			felt = append(felt, i)
		}
	}
	for _, k := range sheet.Broken {
		x.Broken = append(x.Broken, a.Failures()[sweep.SetOf(k)[0]].String())
	}
	return x, a.feel(ctx, x, felt)
}

// feel flies failures that the flight feels, each on the flight that it makes.
func (a *Aircraft) feel(ctx context.Context, x *Singles, felt []int) error {
	ends := make([]run.Ending, len(felt))
	err := many(ctx, len(felt), func(ctx context.Context, k int) error {
		l, err := a.Fail(ctx, x.At, a.Failures()[felt[k]])
		if err != nil {
			return err
		}
		if err := known.Judge(ctx, l); err != nil {
			return err
		}
		x.Outcomes[felt[k]], ends[k] = sweep.OutcomeOf(l), l.Here.Ending()
		return nil
	})
	if err != nil {
		return err
	}
	for k, e := range ends {
		switch name := a.Failures()[felt[k]].String(); {
		case e.How == run.NeverSettles:
			x.Broken = append(x.Broken, name)
		case !e.Arrived():
			x.Short[name] = e.Why
		}
	}
	slices.Sort(x.Broken)
	x.Broken = slices.Compact(x.Broken)
	return nil
}

// many does n pieces of work, as many at a time as there are processors.
func many(ctx context.Context, n int, work func(ctx context.Context, i int) error) error {
	return run.Many(ctx, n, runtime.GOMAXPROCS(0), nil, work)
}

// Fail flies failures that strike together at a moment, on the flight that feels
// them.
func (a *Aircraft) Fail(ctx context.Context, at book.Time, fail ...book.FailureRef) (*ledger.Ledger, error) {
	k := run.Strike{At: book.Moment{Offset: at}, Fail: fail}
	return ledger.Answer(ctx, a.Course, run.Scenario{Strikes: []run.Strike{k}, Inoperative: a.quiet.Inoperative, SetUp: a.quiet.SetUp, FliesOn: true})
}

// Beside compares the aircraft with another that goes along the same flight, nothing
// failing in either: what its inoperative units and its set-up take away alone.
func (a *Aircraft) Beside(ctx context.Context, s run.Scenario) (*ledger.Ledger, error) {
	whole, err := a.Course.Along(a.There.Path()).Healthy(ctx, s)
	if err != nil {
		return nil, err
	}
	return ledger.Of(a.There, whole), nil
}
