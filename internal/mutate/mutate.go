// Package mutate breaks a book in small ways, one line at a time, to see that
// its claims notice: a check that no broken line can fail checks nothing.
//
// Invariant: every verdict depends on the book alone; the books that are broken
// are loaded here and nobody else sees them.
//
// Start reading at Claims. A book's own test calls it like this:
//
//	verdicts, err := mutate.Claims(ctx, demo.Book(), 1)
//	if err != nil {
//		t.Fatal(err)
//	}
//	for _, v := range verdicts {
//		if v.Killer == "" {
//			t.Errorf("%s: no broken line makes this claim fail", v.Claim.ID)
//		}
//		for _, c := range v.Weak() { // may be right, as where it states what the crew does
//			t.Logf("%s: nothing makes %s fail", v.Claim.ID, c.Expect)
//		}
//		t.Logf("%s: %s", v.Claim.ID, v.Killer)
//	}
package mutate

import (
	"context"
	"fmt"
	"io/fs"
	"runtime"
	"slices"
	"sync"

	"knockon/book"
	"knockon/claim"
	"knockon/flight"
	"knockon/run"
)

// Verdict is what breaking the book did to one claim.
type Verdict struct {
	Claim  *book.Claim
	Holds  bool    // it holds on the book as it is; nothing is tried otherwise
	Killer string  // the first broken line that made it fail: place, item, change; "" if none did
	Checks []Check // one for each expectation of each given
	Tried  int     // broken books that were flown
}

// Check is one expectation of one given.
type Check struct {
	Given  *book.Given
	Expect *book.Expr
	Killer string // the first broken line that made it untrue; "" if none did
}

// Weak lists the checks that no broken line made untrue.
func (v Verdict) Weak() []Check {
	var weak []Check
	for _, c := range v.Checks {
		if c.Killer == "" {
			weak = append(weak, c)
		}
	}
	return weak
}

// mostWorkers bounds how many claims are worked on at once.
const mostWorkers = 2

// mostTries bounds how many broken books are flown for one expectation.
const mostTries = 40

// step of the search for crossings, which no result depends on: a broken book
// is flown once or twice, so that a long one is faster.
const step = 30 * book.Second

// Claims loads a book and tries, for every expectation of every claim, to
// break a line that it depends on so that it is no longer true. The verdicts
// are in the order of the book; with each above 1 only every each-th claim is
// tried. Claims that ask for more than failures on the book's flight (claim.Whole)
// are left to tests of their own, since each of their runs takes long. It fails on a book that does not load, and when ctx is done.
func Claims(ctx context.Context, files fs.FS, each int) ([]Verdict, error) {
	var benches []*bench
	for range min(mostWorkers, runtime.GOMAXPROCS(0)) {
		b, diags := book.Load(ctx, files)
		if b == nil {
			return nil, fmt.Errorf("the book does not load: %s", diags[0])
		}
		benches = append(benches, &bench{book: b, claims: handsOff(claim.All(b)), paths: map[string]flight.Path{}})
	}
	each = max(each, 1)
	verdicts := make([]Verdict, (len(benches[0].claims)+each-1)/each)
	next := make(chan int)
	var wait sync.WaitGroup
	for _, b := range benches {
		wait.Go(func() {
			for i := range next {
				verdicts[i] = b.verdict(ctx, b.claims[i*each])
			}
		})
	}
	for i := range verdicts {
		if ctx.Err() == nil {
			next <- i
		}
	}
	close(next)
	wait.Wait()
	return verdicts, ctx.Err()
}

// handsOff lists the claims of failures on the book's flight alone.
func handsOff(all []*book.Claim) []*book.Claim {
	return slices.DeleteFunc(all, func(c *book.Claim) bool { return slices.ContainsFunc(c.Given, claim.Whole) })
}

// bench is a worker with a book of its own to break.
type bench struct {
	book   *book.Book
	claims []*book.Claim
	paths  map[string]flight.Path // planned flights, which no mutation changes
}

func (b *bench) verdict(ctx context.Context, c *book.Claim) Verdict {
	v := Verdict{Claim: c, Holds: true}
	for _, g := range c.Given {
		v.Holds = v.Holds && b.judge(ctx, g).Holds()
	}
	for _, g := range c.Given {
		first := len(v.Checks)
		for _, e := range g.Expect {
			v.Checks = append(v.Checks, Check{Given: g, Expect: e})
		}
		if v.Holds {
			v.Tried += b.attack(ctx, g, v.Checks[first:])
		}
	}
	for _, c := range v.Checks {
		if v.Killer == "" {
			v.Killer = c.Killer
		}
	}
	return v
}

// attack tries to make every check of a given untrue, and counts the tries.
func (b *bench) attack(ctx context.Context, g *book.Given, checks []Check) (tried int) {
	build, ok := b.book.Build(g.Variant)
	if !ok {
		return 0
	}
	for i := range checks {
		if checks[i].Killer != "" {
			continue
		}
		for n, m := range candidates(build, g, checks[i].Expect) {
			if n == mostTries || checks[i].Killer != "" || ctx.Err() != nil {
				break
			}
			tried++
			b.strike(ctx, g, m, checks)
		}
	}
	return tried
}

// strike breaks one line, judges the given, and mends the line. A scenario
// that can no longer be judged proves nothing.
func (b *bench) strike(ctx context.Context, g *book.Given, m mutation, checks []Check) {
	mend := m.apply()
	o := b.judge(ctx, g)
	mend()
	for i, f := range o.Findings {
		if o.Trouble == "" && !f.Holds && checks[i].Killer == "" {
			checks[i].Killer = m.String()
		}
	}
}

// judge flies a given on the book as it is now.
func (b *bench) judge(ctx context.Context, g *book.Given) claim.Outcome {
	course, err := b.course(g)
	if err != nil {
		return claim.Outcome{Given: g, Trouble: err.Error()}
	}
	return claim.Judge(ctx, g, course)
}

func (b *bench) course(g *book.Given) (*run.Course, error) {
	build, _ := b.book.Build(g.Variant)
	f, err := build.FlightNamed(g.Flight)
	if err != nil {
		return nil, err
	}
	key := build.Variant + " " + f.ID
	c, err := run.NewCourse(build, f, run.Setting{Watch: claim.Observed(g), Path: b.paths[key], Step: step})
	if err == nil {
		b.paths[key] = c.Path
	}
	return c, err
}
