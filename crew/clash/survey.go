package clash

import (
	"context"
	"runtime"
	"slices"
	"sync"

	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
	"knockon/run"
)

// Bounds of a survey. The zero value flies nothing.
type Bounds struct {
	Phases int // every single failure in so many of the longest phases, at the middle of each
	More   int // and so many more failures for each procedure that none of these calls for

	Progress func(done, all int64) // is told how far the survey is; nil: nobody looks
}

// DefaultBounds fly some thousands of flights of the demonstration book.
var DefaultBounds = Bounds{Phases: 2, More: 120}

// Report is what a survey found.
type Report struct {
	Build     *book.Build
	Flight    *book.Flight
	Conflicts []*Conflict
	Flights   int
	Broken    int      // of these that broke off: what they would have shown after that is not known
	Doubles   []Caller // procedures that no single failure calls for, and two together do
	Slips     []Caller // those that only a slip of the hand calls for, perhaps with a failure after it
}

// Caller is what calls for a procedure.
type Caller struct {
	Procedure *book.Procedure
	Fail      []string
	Moved     []string // by hand before: control=position
}

// Survey flies the crew through every single failure and common cause of the
// build, each also as one that a reset clears where the unit has one, and lists
// the conflicts among the procedures. For those for which none of these calls it
// looks on: in the other phases, then for pairs of failures, then for slips of
// the hand.
func Survey(ctx context.Context, t *crew.Team, most Bounds) (*Report, error) {
	finder, err := worth.NewCaller(ctx, t)
	if err != nil {
		return nil, err
	}
	s := newSurvey(t)
	if most.Progress != nil {
		s.tell = most.Progress
	}
	if err := s.fly(ctx, finder.Everything(most.Phases), s.take); err != nil {
		return nil, err
	}
	if err := s.lookOn(ctx, finder, most.More); err != nil {
		return nil, err
	}
	if err := s.hollow(ctx); err != nil {
		return nil, err
	}
	s.report.Conflicts = append(s.report.Conflicts, Read(t.Build(), t.Course().Circuit())...)
	s.judge()
	order(s.report.Conflicts)
	return s.report, nil
}

// fly flies scenarios on all processors and hands the plans over in their order,
// a batch at a time.
func (s *survey) fly(ctx context.Context, list []run.Scenario, take func(*crew.Plan)) error {
	const batch = 64
	all := len(list)
	for len(list) > 0 {
		now := list[:min(batch, len(list))]
		list = list[len(now):]
		plans, err := together(ctx, s.team, now)
		if err != nil {
			return err
		}
		for _, p := range plans {
			s.report.Flights++
			if !p.Record.Ending().Arrived() {
				s.report.Broken++
			}
			take(p)
		}
		if !s.looksOn {
			s.tell(int64(all-len(list)), 2*int64(all)) // looking on is the other half
		}
	}
	return nil
}

func together(ctx context.Context, t *crew.Team, list []run.Scenario) ([]*crew.Plan, error) {
	plans, errs := make([]*crew.Plan, len(list)), make([]error, len(list))
	var hands sync.WaitGroup
	queue := make(chan int)
	for range min(runtime.GOMAXPROCS(0), len(list)) {
		hands.Go(func() {
			for i := range queue {
				plans[i], errs[i] = t.Fly(ctx, list[i])
			}
		})
	}
	for i := range list {
		queue <- i
	}
	close(queue)
	hands.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return plans, nil
}

// lookOn looks for failures that call for the procedures that nothing has called
// for yet.
func (s *survey) lookOn(ctx context.Context, finder *worth.Caller, most int) error {
	s.looksOn = true
	for i, p := range s.team.Build().Procedures {
		n := len(s.team.Build().Procedures)
		s.tell(int64(n+i), 2*int64(n))
		if most == 0 || s.begun[p] || !slices.ContainsFunc(s.team.Build().SendTo(p), func(id string) bool { return s.named[id] }) {
			continue
		}
		if err := s.lookFor(ctx, finder, p, most); err != nil {
			return err
		}
	}
	return nil
}

// lookFor looks for what calls for one procedure.
func (s *survey) lookFor(ctx context.Context, finder *worth.Caller, p *book.Procedure, most int) error {
	single, double, slips := finder.Single(p), finder.Double(p), finder.Slips(p)
	before := s.report.Broken
	single, double, slips = single[:min(len(single), most)], double[:min(len(double), most)], slips[:min(len(slips), most)]
	for _, look := range []struct {
		list []run.Scenario
		into *[]Caller
	}{{single, nil}, {double, &s.report.Doubles}, {slips, &s.report.Slips}} {
		found, err := s.seek(ctx, finder, p, look.list)
		if err != nil {
			return err
		}
		if found != nil {
			if look.into != nil {
				*look.into = append(*look.into, Caller{p, names(found), moves(found)})
			}
			return nil
		}
	}
	s.uncalled(p, len(single), len(double), len(slips), s.report.Broken-before)
	return nil
}

// seek flies scenarios until one calls for a procedure.
func (s *survey) seek(ctx context.Context, finder *worth.Caller, p *book.Procedure, list []run.Scenario) (found *run.Scenario, err error) {
	const batch = 16
	for len(list) > 0 && found == nil {
		now := list[:min(batch, len(list))]
		list = list[len(now):]
		err = s.fly(ctx, now, func(plan *crew.Plan) {
			s.take(plan)
			if found == nil && s.begun[p] {
				asked := plan.Asked
				found = &asked
			}
		})
		if err != nil {
			return nil, err
		}
	}
	return found, nil
}

func moves(s *run.Scenario) (list []string) {
	for _, a := range s.Actions {
		list = append(list, a.Control+"="+a.Position)
	}
	return list
}

func names(s *run.Scenario) (list []string) {
	for _, k := range s.Strikes {
		for _, f := range k.Fail {
			list = append(list, f.String())
		}
	}
	return list
}
