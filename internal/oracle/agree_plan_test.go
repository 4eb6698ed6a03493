package oracle_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"knockon/airfield"
	"knockon/book"
	"knockon/crew"
	"knockon/demo"
	"knockon/internal/corvane"
	"knockon/internal/oracle"
	"knockon/known"
	"knockon/ledger"
	"knockon/region"
	"knockon/run"
)

// TestAgreeOnPlans flies random failures with a crew by the book, who may have the
// flight turned, or on a plan that turns it, and gives the oracle the path, what the
// crew moved and the phases that the legs made current. KNOCKON_AGREE says how many.
func TestAgreeOnPlans(t *testing.T) {
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		t.Fatal(err)
	}
	over, _ := region.New(list, "", "", "300 250/85")
	build := corvane.Build(t, "")
	team, err := crew.NewTeam(build, build.Flights[len(build.Flights)-1], crew.Setting{Run: run.Setting{Router: region.Router{Region: over}}})
	if err != nil {
		t.Fatal(err)
	}
	d := &demoFlight{run: team.Course(), build: build}
	rng := rand.New(rand.NewPCG(7, 11))
	turned := 0
	for i := range asked(t) {
		s := oracle.Scenario{}
		at := book.AtSeconds(float64(60 + rng.IntN(120)))
		for range 1 + rng.IntN(2) {
			s.Failures = append(s.Failures, oracle.Failure{Ref: book.FailureRef{Unit: build.Units[rng.IntN(len(build.Units))].ID}, At: at})
		}
		flown := scenarioOf(s)
		if legs := someLegs(rng, at); i%3 > 0 {
			flown.Plan = legs
		}
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			p, err := team.Fly(t.Context(), flown)
			if err != nil {
				t.Fatal(err)
			}
			turned += d.onPath(t, s, p.Record)
			d.knownOnPath(t, s, p.Record)
		})
	}
	if turned < asked(t)/2 {
		t.Errorf("only %d legs were flown: the test shows little", turned)
	}
}

// onPath compares a record with the oracle's run of what happened in it, and counts
// the legs that it flew.
func (d *demoFlight) onPath(t *testing.T, s oracle.Scenario, r *run.Record) (turned int) {
	for _, x := range r.Turns {
		if x.Why == "" {
			turned++
		}
	}
	d.compare(t, happened(s, r), answer{Record: r}, r.Fault)
	return turned
}

// happened is a scenario with what was moved and which phases were made current.
func happened(s oracle.Scenario, r *run.Record) oracle.Scenario {
	for _, a := range r.Scenario.Actions {
		s.Actions = append(s.Actions, oracle.Action{At: a.At.Offset, Control: a.Control, Position: a.Position, Held: a.Held})
	}
	for _, x := range r.Turns {
		if x.Phase != "" {
			s.Phases = append(s.Phases, oracle.Phase{At: x.At + 1, ID: x.Phase})
		}
	}
	return s
}

// knownOnPath compares how the losses of a record are known, of which the flight may
// have been turned by hands or by a plan.
func (d *demoFlight) knownOnPath(t *testing.T, s oracle.Scenario, here *run.Record) {
	t.Helper()
	there, err := d.run.Beside(t.Context(), here)
	if err != nil {
		t.Fatal(err)
	}
	l := ledger.Of(here, there)
	if err := known.Judge(t.Context(), l); err != nil {
		t.Fatal(err)
	}
	d.agreeOnLedger(t, l, happened(s, here))
}

// someLegs are a diversion, a return, or a go-around at the end of the flight.
func someLegs(rng *rand.Rand, at book.Time) []run.Leg {
	soon := book.Moment{Offset: at + book.AtSeconds(float64(rng.IntN(60)))}
	switch rng.IntN(3) {
	case 0:
		return []run.Leg{{Do: run.Land, At: soon}}
	case 1:
		return []run.Leg{{Do: run.Descend, LevelFt: 2000, At: soon}, {Do: run.Return, At: book.Moment{Offset: soon.Offset + 30*book.Second}}}
	}
	return []run.Leg{{Do: run.GoAround, At: book.Moment{Phase: "final", Offset: 10 * book.Second}}}
}
