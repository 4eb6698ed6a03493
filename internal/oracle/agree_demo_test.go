package oracle_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/internal/oracle"
	"knockon/run"
)

// demoSteps are the steps at which a scenario of the demonstration book is
// flown until the two evaluators agree.
var demoSteps = []book.Time{book.Second / 10, book.Second / 50, book.Second / 200, book.Second / 500}

// TestAgreeOnDemo flies the demonstration book's short flight on every build,
// with each single failure and with random scenarios.
func TestAgreeOnDemo(t *testing.T) {
	b := corvane.Book(t)
	var sum tally
	t.Cleanup(func() { t.Log(sum.String()) })
	for i, v := range b.Variants {
		build, _ := b.Build(v.ID)
		f := build.Flights[len(build.Flights)-1]
		d := &demoFlight{run: course(t, build, f, nil), build: build, sum: &sum}
		for _, c := range d.cases(asked(t), i, len(b.Variants)) {
			t.Run(v.ID+"/"+c.name, func(t *testing.T) {
				t.Parallel()
				d.agree(t, c.scenario)
			})
		}
	}
}

type demoFlight struct {
	run   *run.Course
	build *book.Build
	sum   *tally
}

// tally adds up what was compared, over tests that run side by side.
type tally struct {
	sync.Mutex
	flights, again, changes, samples int
}

func (s *tally) add(trace *oracle.Trace, try int) {
	if s == nil {
		return
	}
	s.Lock()
	defer s.Unlock()
	s.flights++
	s.again += min(try, 1)
	for _, h := range trace.Histories {
		if h.IsNumber() {
			s.samples += len(h.Changes)
		} else {
			s.changes += len(h.Changes)
		}
	}
}

func (s *tally) String() string {
	return fmt.Sprintf("%d flights agree, %d of them at a finer step than %g s; %d values of yes/no and words with their times, %d samples of numbers",
		s.flights, s.again, demoSteps[0].Seconds(), s.changes, s.samples)
}

type demoCase struct {
	name     string
	scenario oracle.Scenario
}

// cases are n random scenarios, dealt out to the builds, and as many of the
// single failures; from 2,000 on, all of those.
func (d *demoFlight) cases(n, build, builds int) (all []demoCase) {
	singles := d.singles()
	for i, s := range singles {
		if n >= 2000 || i*n/builds/len(singles) != (i+1)*n/builds/len(singles) {
			all = append(all, s)
		}
	}
	for seed := build; seed < n; seed += builds {
		m := &maker{Rand: rand.New(rand.NewPCG(uint64(seed), 2)), smooth: true}
		all = append(all, demoCase{fmt.Sprintf("random_%d", seed), d.random(m)})
	}
	return all
}

// singles are the failures of every unit, fault and event, each at another time.
func (d *demoFlight) singles() (all []demoCase) {
	m := &maker{Rand: rand.New(rand.NewPCG(0, 3)), smooth: true}
	add := func(ref book.FailureRef) {
		f := oracle.Failure{Ref: ref, At: d.time(m)}
		all = append(all, demoCase{ref.String(), oracle.Scenario{Failures: []oracle.Failure{f}}})
	}
	for _, u := range d.build.Units {
		add(book.FailureRef{Unit: u.ID})
		for _, f := range u.Faults {
			add(book.FailureRef{Unit: u.ID, Fault: f.ID})
		}
	}
	for _, e := range d.build.Events {
		add(book.FailureRef{Unit: e.ID})
	}
	return all
}

func (d *demoFlight) time(m *maker) book.Time {
	return book.Time(m.Int64N(int64(d.run.Path.End()/book.Second))) * book.Second
}

// random is a scenario of one to four failures, up to three actions and now
// and then a unit inoperative from the start.
func (d *demoFlight) random(m *maker) (s oracle.Scenario) {
	for range 1 + m.IntN(4) {
		f := oracle.Failure{Ref: m.failure(d.build), At: d.time(m), Resettable: m.one(3)}
		if m.one(3) {
			f.Lasts = book.Time(1+m.IntN(120)) * book.Second
		}
		if m.one(6) {
			f.When = m.condition(d.build)
		}
		s.Failures = append(s.Failures, f)
	}
	for range m.IntN(4) {
		c := d.build.Controls[m.IntN(len(d.build.Controls))]
		s.Actions = append(s.Actions, oracle.Action{At: d.time(m), Control: c.ID, Position: c.Positions[m.IntN(len(c.Positions))], Held: m.one(2)})
	}
	if m.one(3) {
		s.Inoperative = append(s.Inoperative, m.failure(d.build))
	}
	return s
}

func (d *demoFlight) agree(t *testing.T, s oracle.Scenario) {
	t.Helper()
	got, fault := ask(t, d.run, s)
	d.compare(t, s, got, fault)
}

// compare flies a scenario with the oracle, along the path of the answer, at finer
// and finer steps until the two agree.
func (d *demoFlight) compare(t *testing.T, s oracle.Scenario, got answer, fault error) {
	t.Helper()
	path := d.run.Path
	if got.Record != nil { // a flight that feels its systems is the run's own
		path = got.Record.Path()
	}
	var all []oracle.Difference
	for i, step := range demoSteps {
		trace, err := oracle.Fly(d.build, d.run.Flight, path, s, step)
		var loop *oracle.LoopError
		if err != nil && !errors.As(err, &loop) {
			t.Fatal(err)
		}
		trace, ok := got.until(trace, loop, fault, within.Time)
		if all = []oracle.Difference{{Want: fmt.Sprint(loop), Got: fmt.Sprint(fault)}}; ok {
			all = got.compare(trace, within)
		}
		if len(all) == 0 {
			d.sum.add(trace, i)
			return
		}
	}
	t.Errorf("%+v\n%v", s, all)
}

// chatters tells whether something that the circuit says never settles keeps
// changing from step to step, within a second of that moment: the circuit
// counts what moves on by a microsecond each time as a loop, too. Of a number
// there are too few samples to tell.
func chatters(trace *oracle.Trace, u *circuit.Unsettled) bool {
	for _, h := range trace.Histories {
		if h.IsNumber() && slices.Contains(u.Items, h.Item) {
			return true
		}
		changes := 0
		for _, c := range h.Changes {
			if !h.IsNumber() && c.At >= u.At-book.Second && c.At <= u.At+book.Second {
				changes++
			}
		}
		if changes > 15 {
			return true
		}
	}
	return false
}
