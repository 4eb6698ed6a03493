package oracle_test

import (
	"math/rand/v2"
	"os"
	"testing"

	"knockon/circuit"
	"knockon/internal/corvane"
	"knockon/internal/oracle"
)

// TestWhyOnDemo explains values of the demonstration book in random scenarios of
// one to four failures, on every build; package run flies what proves the leaves,
// along the flight of the run that is explained.
func TestWhyOnDemo(t *testing.T) {
	b := corvane.Book(t)
	var sum whySum
	var demos []*demoFlight
	for _, v := range b.Variants {
		build, _ := b.Build(v.ID)
		demos = append(demos, &demoFlight{run: course(t, build, build.Flights[len(build.Flights)-1], nil), build: build})
	}
	for seed := range whysOnDemo(t) {
		d := demos[seed%len(demos)]
		m := &maker{Rand: rand.New(rand.NewPCG(uint64(seed), 5)), smooth: true}
		q := d.inquire(t, &sum, d.random(m))
		sum.scenarios++
		q.explainSome(m.Rand, 2)
		if sum.bad >= 5 {
			t.FailNow()
		}
	}
	t.Log(sum)
}

// inquire flies a scenario, and the run beside it without its failures and
// without every other action.
func (d *demoFlight) inquire(t *testing.T, sum *whySum, s oracle.Scenario) *inquiry {
	s = lettingGo(s)
	q := &inquiry{t: t, sum: sum, all: s}
	q.beside = oracle.Scenario{Inoperative: s.Inoperative}
	for i, a := range s.Actions {
		if i%2 == 0 {
			q.beside.Actions = append(q.beside.Actions, a)
		}
	}
	here, err := d.run.Fly(t.Context(), scenarioOf(s))
	if err != nil {
		t.Fatal(err)
	}
	same, err := d.run.Beside(t.Context(), here) // with all actions, along the same flight
	if err != nil {
		t.Fatal(err)
	}
	if q.there, err = same.Course.Fly(t.Context(), scenarioOf(q.beside)); err != nil {
		t.Fatal(err)
	}
	q.here = here
	q.again = func(s oracle.Scenario, v circuit.Value) (valueOf, bool) { return flownBy(t, same.Course, s) }
	return q
}

// whysOnDemo is half as many scenarios as books; without KNOCKON_WHY a few.
func whysOnDemo(t *testing.T) int {
	if os.Getenv("KNOCKON_WHY") == "" {
		return 15
	}
	return whys(t) / 2
}
