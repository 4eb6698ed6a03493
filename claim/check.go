package claim

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"

	"knockon/ask"
	"knockon/book"
	"knockon/known"
	"knockon/ledger"
	"knockon/region"
	"knockon/run"
)

// mostWorkers bounds how many scenarios are flown at once.
const mostWorkers = 2

// Watch runs claims of a book, in the order given, and tells how many of the
// scenarios are done; told may be nil, and is called by several workers. A
// scenario that cannot be flown is a claim that fails, with the reason; an error
// means that ctx is done. The ground is what flights go over that are turned or
// priced; nil where it is not known.
func Watch(ctx context.Context, b *book.Book, ground *region.Region, claims []*book.Claim, told func(done, all int64)) (*Report, error) {
	report := &Report{}
	var jobs []job
	for _, c := range claims {
		r := Result{Claim: c, Givens: make([]Outcome, len(c.Given))}
		for i, g := range c.Given {
			jobs = append(jobs, job{g, &r.Givens[i]})
		}
		report.Results = append(report.Results, r)
	}
	work(ctx, jobs, newWorld(b, ground, claims), told)
	return report, ctx.Err()
}

// job is one given and where its outcome goes.
type job struct {
	given *book.Given
	out   *Outcome
}

// work does the jobs with a few workers and returns when all have stopped.
func work(ctx context.Context, jobs []job, w *world, told func(done, all int64)) {
	var done atomic.Int64
	next := make(chan job)
	var wait sync.WaitGroup
	for range min(mostWorkers, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			for j := range next {
				*j.out = w.judge(ctx, j.given)
				if n := done.Add(1); told != nil {
					told(n, int64(len(jobs)))
				}
			}
		})
	}
	for _, j := range jobs {
		if ctx.Err() != nil {
			break
		}
		next <- j
	}
	close(next)
	wait.Wait()
}

// judge flies one given in its world and looks at what was expected of it.
func (w *world) judge(ctx context.Context, g *book.Given) Outcome {
	course, err := w.deskOf(g).Course(g.Variant, g.Flight)
	if err != nil {
		return Outcome{Given: g, Trouble: err.Error()}
	}
	if !Whole(g) {
		return Judge(ctx, g, course)
	}
	a, err := w.fly(ctx, g, course)
	if err != nil {
		return Outcome{Given: g, Trouble: err.Error()}
	}
	return found(ctx, g, a, w.ground)
}

// Judge flies one given hands off and looks at what was expected of it. The course
// must be of the given's build and flight, and observe what Observed lists; the
// given must not be a Whole one.
func Judge(ctx context.Context, g *book.Given, course *run.Course) Outcome {
	s, err := run.OfGiven(g, course.Build)
	if err != nil {
		return Outcome{Given: g, Trouble: err.Error()}
	}
	l, err := ledger.Answer(ctx, course, s)
	if err != nil {
		return Outcome{Given: g, Trouble: err.Error()}
	}
	return found(ctx, g, &ask.Answer{Course: course, Scenario: s, Here: l.Here, There: l.There, Ledger: l}, nil)
}

// found looks at what was expected of a given.
func found(ctx context.Context, g *book.Given, a *ask.Answer, ground *region.Region) Outcome {
	l := a.Ledger
	o := Outcome{Given: g, Ledger: l}
	if o.Trouble = neverCame(g, l); o.Trouble != "" {
		return o
	}
	o.BrokeOff = l.Unanswered()
	if asks(g, book.AsksKnown) {
		if err := known.Judge(ctx, l); err != nil {
			return Outcome{Given: g, Trouble: err.Error()}
		}
	}
	f := newFinder(ctx, g, a, ground)
	for _, e := range g.Expect {
		o.Findings = append(o.Findings, f.find(e))
	}
	if o.Holds() {
		o.Ledger = nil
	}
	return o
}

// neverCame says which failures of a given did not come, and whether the run
// never settles.
func neverCame(g *book.Given, l *ledger.Ledger) string {
	if l.Here.Ending().How == run.NeverSettles {
		return l.Unanswered()
	}
	for i, k := range g.Strikes {
		if len(k.Fail) > 0 && !l.Here.Struck[i].Came {
			return "the failure of " + k.Fail[0].String() + " never comes: its condition never becomes yes"
		}
	}
	return ""
}
