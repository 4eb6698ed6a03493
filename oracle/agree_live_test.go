package oracle_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/demo"
	"knockon/oracle"
	"knockon/run"
)

// TestAgreeOnLive flies the demonstration book's short flight with drag and
// thrust, each run on a path of its own, and gives the oracle that path.
func TestAgreeOnLive(t *testing.T) {
	b, diagnostics := book.Load(t.Context(), demo.Book())
	if diagnostics.HasErrors() {
		t.Fatalf("the demonstration book has errors, such as %v", diagnostics[0])
	}
	build, _ := b.Build("")
	f := build.Flights[len(build.Flights)-1]
	live, err := run.NewCourse(build, f, run.Setting{Live: true})
	if err != nil {
		t.Fatal(err)
	}
	d := &demoFlight{run: live, build: build}
	fail := func(at book.Time, units ...string) (s oracle.Scenario) {
		for _, u := range units {
			s.Failures = append(s.Failures, oracle.Failure{Ref: book.FailureRef{Unit: u}, At: at})
		}
		return s
	}
	cases := []demoCase{
		{"nothing", oracle.Scenario{}}, {"engine_in_climb", fail(100*book.Second, "engine_left")},
		{"hydraulics", fail(80*book.Second, "reservoir_right", "reservoir_left")}, {"side_of_the_network", fail(200*book.Second, "dc_left")},
	}
	for seed := range uint64(asked(t) / 2) {
		cases = append(cases, demoCase{fmt.Sprintf("random_%d", seed), d.random(&maker{Rand: rand.New(rand.NewPCG(seed, 77)), smooth: true})})
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { d.agreeOnOwnPath(t, c.scenario) })
	}
}

func (d *demoFlight) agreeOnOwnPath(t *testing.T, s oracle.Scenario) {
	got, fault := ask(t, d.run, s)
	var all []oracle.Difference
	for _, step := range demoSteps {
		trace, err := oracle.Fly(d.build, d.run.Flight, got.Record.Path(), s, step)
		var loop *oracle.LoopError
		if err != nil && !errors.As(err, &loop) {
			t.Fatal(err)
		}
		trace, ok := until(trace, loop, fault, within.Time)
		if all = []oracle.Difference{{Want: fmt.Sprint(loop), Got: fmt.Sprint(fault)}}; ok {
			all = got.compare(trace, within)
		}
		if len(all) == 0 {
			return
		}
	}
	t.Errorf("%+v\n%v", s, all)
}
