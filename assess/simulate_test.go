package assess_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"knockon/assess"
	"knockon/book"
	"knockon/internal/smallbook"
	"knockon/ledger"
	"knockon/run"
)

// draining is a generator with a battery that lasts 96 s, and a relay: a total
// runs out, and the relay falls back late in the flight.
const draining = `
unit "gen" {
  rate_per_hour = 2e-3
}
unit "battery" {
  rate_per_hour   = 1e-3
  checked_every_h = 50
}
unit "relay" {
  rate_per_hour = 4e-3
}
signal "charge_s" {
  value = total(gen ? 0 : -1, 96, 0, 96)
}
signal "bus" {
  value = gen || (battery && charge_s > 0)
}
alert "gen_off" {
  level   = "caution"
  message = "GEN OFF"
  when    = !gen
}
alert "relay_off" {
  level   = "caution"
  message = "RELAY OFF"
  when    = !relay
}
function "lights" {
  works    = bus
  wanted   = landing
  severity = "catastrophic"
}
function "radio" {
  works    = (bus || relay)
  wanted   = cruise || landing
  severity = "hazardous"
}
function "relays" {
  works    = gen || relay
  severity = "major"
}
`

// fate of a unit on a flight.
type fate int

const (
	sound  fate = iota
	before      // it had failed when the flight began
	during
)

// simulation flies every fate of every unit so often, at moments drawn from the
// seed, and weighs what comes by how likely the fates are.
type simulation struct {
	*rand.Rand
	course *run.Course
	a      *assess.Assessment
	units  []string
	draws  int
}

// chance of a fate, in the mean over all flights between checks.
func (s *simulation) chance(unit int, f fate) float64 {
	p, h := s.a.Parts[unit], s.a.Hours.Hours
	n, failed, fails := int(math.Round(p.IntervalH(h)/h)), 0.0, 0.0
	for i := range n {
		since := float64(i) * h
		failed += -math.Expm1(-p.Rate*since) / float64(n)
		fails += math.Exp(-p.Rate*since) * -math.Expm1(-p.Rate*h) / float64(n)
	}
	return []float64{1 - failed - fails, failed, fails}[f]
}

// run gives, for each function, how likely it is lost on a flight while it is wanted.
func (s *simulation) run(t *testing.T) map[string]float64 {
	lost := map[string]float64{}
	all := 1
	for range s.units {
		all *= 3
	}
	for number := range all {
		fates, weight := make([]fate, len(s.units)), 1.0
		moves := false
		for i, rest := 0, number; i < len(fates); i, rest = i+1, rest/3 {
			fates[i] = fate(rest % 3)
			weight *= s.chance(i, fates[i])
			moves = moves || fates[i] == during
		}
		if !moves { // nothing arises on this flight
			continue
		}
		for range s.draws {
			for _, id := range s.fly(t, fates) {
				lost[id] += weight / float64(s.draws)
			}
		}
	}
	return lost
}

func (s *simulation) fly(t *testing.T, fates []fate) (lost []string) {
	var k run.Scenario
	for i, f := range fates {
		at := book.Moment{}
		switch f {
		case sound:
			continue
		case during:
			at.Offset = book.AtSeconds(s.Float64() * s.a.Hours.Hours * 3600)
		}
		k.Strikes = append(k.Strikes, run.Strike{Fail: []book.FailureRef{{Unit: s.units[i]}}, At: at})
	}
	l, err := ledger.Answer(context.Background(), s.course, k)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range l.Losses {
		if row.Mattered {
			lost = append(lost, row.Function.ID)
		}
	}
	return lost
}

// TestOf_AgreesWithSimulation where a total runs out: failures come at any
// moment of a flight, one after the other, and a part that nobody watches may
// have failed on an earlier one. Of the radio it falls short by what
// docs/assess.md says: a battery that a first failure empties before the second
// comes, in a phase in which both together come too late to empty it.
func TestOf_AgreesWithSimulation(t *testing.T) {
	c := smallbook.Course(t, draining)
	_, data := swept(t, c, 3)
	s := &simulation{Rand: rand.New(rand.NewPCG(3, 1)), course: c, a: assess.Of(data), draws: 3000}
	for _, f := range data.Failures {
		s.units = append(s.units, f.String())
	}
	if got := fmt.Sprint(s.units, s.a.Parts[1].Latent, s.a.Parts[0].Latent, s.a.Parts[2].Latent); got != "[gen battery relay] true false false" {
		t.Fatal(got)
	}
	lost := s.run(t)
	for _, l := range s.a.Losses {
		want := 0.0
		for _, c := range l.Sets {
			for i := range c.Phases {
				want += c.OnFlight(i)
			}
		}
		more := 1.0
		if l.Function.ID == "radio" {
			more = 1.34
		}
		if got := lost[l.Function.ID]; math.Abs(got-more*want) > 0.04*more*want || want == 0 {
			t.Errorf("%s: %g on a flight, simulated %g", l.Function.ID, want, got)
		}
	}
}
