// Package sweep works out what every failure, every two and every three
// together take away in each phase of a flight, and how it is told: for all of
// them the rows that a ledger would have, without the times.
//
// Invariant: what it says of a set of failures is what run.Fly and ledger.Of
// say of it on one and the same flight, row for row (docs/meaning.md 10). Many
// scenarios are worked out at once, one to a bit; sets whose failures do not
// meet anywhere in the circuit are not worked out at all, for their outcome is
// that of their parts.
//
// Start reading at Sweep.Run, then engine.fly (instant.go).
package sweep

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
)

// Setting of a sweep. The zero value is the default.
type Setting struct {
	Workers     int               // how many blocks are worked out at once; 0: one for each processor
	Inoperative []book.FailureRef // at dispatch, in every run and in the one without failures
	SetUp       []run.Action      // controls that stand so from the start and are held, in every run
	Felt        bool              // a Sheet says which failures the flight would feel
}

// quiet is the flight with nothing failed.
func (s Setting) quiet() run.Scenario {
	return run.Scenario{Inoperative: s.Inoperative, SetUp: s.SetUp}
}

// Sweep is one build on one flight, ready to be swept.
type Sweep struct {
	p         *program
	failures  []book.FailureRef
	ways      [][]int // failure -> way numbers
	phases    []Phase
	workers   int
	engines   *pool
	listeners *pool // engines of told runs
	quiet     run.Scenario
}

// row is one row of a ledger: the item, what is said of it, and how late.
type row uint64

// lag is how long after its beginning the failures of a phase strike, unless
// the phase is shorter than twice that.
const lag = 5 * book.Second

// Of prepares a sweep of a build on a flight (nil: its first) as it is flown
// with nothing failed.
func Of(ctx context.Context, b *book.Build, f *book.Flight, set Setting) (*Sweep, error) {
	felt, err := run.NewCourse(b, f, run.Setting{})
	if err != nil {
		return nil, err
	}
	return On(ctx, felt, set)
}

// On is Of on a course that others fly too.
func On(ctx context.Context, felt *run.Course, set Setting) (*Sweep, error) {
	healthy, err := felt.Healthy(ctx, set.quiet())
	if err != nil {
		return nil, err
	}
	if e := healthy.Ending(); !e.Arrived() {
		return nil, fmt.Errorf("the flight with nothing failed breaks off %s into it: %s; without its end there is nothing to hold failures against", say.Clock(e.At), e.Why)
	}
	return New(felt.Along(healthy.Path()), set)
}

// New prepares a sweep of a course whose flight does not feel the systems.
func New(c *run.Course, set Setting) (*Sweep, error) {
	if slices.ContainsFunc(set.SetUp, func(a run.Action) bool { return !a.Held || a.At != (book.Moment{}) || a.When != nil }) {
		return nil, fmt.Errorf("a sweep takes controls that are held from the start")
	}
	there, err := c.Healthy(context.Background(), set.quiet())
	if err != nil {
		return nil, err
	}
	if there.Fault != nil {
		return nil, fmt.Errorf("the flight with nothing failed breaks off: %w", there.Fault)
	}
	if there.Path() != c.Path {
		return nil, fmt.Errorf("a sweep needs a flight that does not feel the systems")
	}
	p, err := newProgram(c, there, set.Felt)
	if err != nil {
		return nil, err
	}
	if err := p.listen(set.quiet()); err != nil {
		return nil, err
	}
	s := &Sweep{p: p, workers: set.Workers, engines: &pool{}, listeners: &pool{}, quiet: set.quiet()}
	if s.workers <= 0 {
		s.workers = runtime.NumCPU()
	}
	s.listFailures()
	s.listPhases()
	return s, nil
}

func (s *Sweep) listFailures() {
	for w, ref := range s.p.c.Ways() {
		s.failures = append(s.failures, ref)
		s.ways = append(s.ways, []int{w})
	}
	for _, e := range s.p.course.Build.Events {
		ref := book.FailureRef{Unit: e.ID}
		if ways, bad := s.p.c.Expand([]book.FailureRef{ref}); bad == nil {
			s.failures = append(s.failures, ref)
			s.ways = append(s.ways, ways)
		}
	}
}

func (s *Sweep) listPhases() {
	for _, p := range s.p.there.Phases() {
		after := max(1, min(lag, p.Length()/2))
		s.phases = append(s.phases, Phase{ID: p.ID, At: p.From + after, Moment: book.Moment{Phase: p.ID, Offset: after}})
	}
}

// Failures lists what can fail: every unit, every fault, and every event that
// brings several of these. A Set holds indices into this list.
func (s *Sweep) Failures() []book.FailureRef { return s.failures }

// Phases lists the phases of the flight and when failures strike in each.
func (s *Sweep) Phases() []Phase { return s.phases }

// Spans lists when the phases of the flight are.
func (s *Sweep) Spans() []run.PhaseSpan { return s.p.there.Phases() }

// Build returns the build that is swept.
func (s *Sweep) Build() *book.Build { return s.p.course.Build }

// Plain works out one set the plain way: a run and its ledger.
func (s *Sweep) Plain(ctx context.Context, phase int, set Set) (Outcome, error) {
	l, err := s.Ledger(ctx, phase, set)
	if err != nil {
		return Outcome{}, err
	}
	if err := known.Judge(ctx, l); err != nil {
		return Outcome{}, err
	}
	return OutcomeOf(l), nil
}

// Ledger flies one set and gives its ledger.
func (s *Sweep) Ledger(ctx context.Context, phase int, set Set) (*ledger.Ledger, error) {
	return s.ledgerOf(ctx, s.phases[phase].At, s.waysOf(set))
}

func (s *Sweep) waysOf(set Set) (ways []int) {
	for _, f := range set {
		ways = append(ways, s.ways[f]...)
	}
	return ways
}

func (s *Sweep) ledgerOf(ctx context.Context, at book.Time, ways []int) (*ledger.Ledger, error) {
	k := run.Strike{At: book.Moment{Offset: at}}
	for _, w := range ways {
		k.Fail = append(k.Fail, s.p.c.Ways()[w])
	}
	return ledger.Answer(ctx, s.p.course, run.Scenario{Strikes: []run.Strike{k}, Inoperative: s.quiet.Inoperative, SetUp: s.quiet.SetUp, FliesOn: true})
}
