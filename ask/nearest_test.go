package ask_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/circuit"
	"knockon/costs"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/flight/roll"
	"knockon/internal/corvane"
	"knockon/region"
	"knockon/run"
	"knockon/scenario"
)

// visited is a field as somebody finds it who asks for it in a plan of its own.
type visited struct {
	ident string
	away  float64 // from where the flight turns, in minutes or in metres
	comes run.Comes
	off   float64
}

// TestLand_TheNearestAsFlown: where a list sends the crew to the nearest field, it is
// the one that is found by asking for each field in turn, as a plan at that moment.
func TestLand_TheNearestAsFlown(t *testing.T) {
	g := islands(t)
	desk := ask.NewDesk(corvane.Book(t)).Over(g)
	for _, x := range []struct {
		fail, out []string
		at        string
		comes     run.Comes
	}{
		{[]string{"gen_left", "gen_right", "apu_gen", "ram_gen"}, []string{"battery_main.weak"}, "cruise + 60 s", run.RunsOff},
		{[]string{"engine_left"}, nil, "climb + 120 s", run.AsItShould},
		{[]string{"engine_left", "engine_right"}, nil, "cruise + 600 s", run.AsItShould},
		{[]string{"engine_left", "engine_right"}, nil, "climb + 30 s", run.NotThere},
	} {
		q := ask.Question{Crew: scenario.ByTheBook, Fail: []scenario.Strike{{What: x.fail, At: x.at}}, Out: x.out}
		a, err := desk.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(a.Here.Turns, func(t run.Turned) bool { return t.Leg.Do == run.Land })
		if i < 0 || a.Here.Turns[i].Route.Comes != x.comes {
			t.Errorf("%v at %s: turns %+v", x.fail, x.at, a.Here.Turns)
			continue
		}
		leg := a.Here.Turns[i]
		want := best(visits(t, desk, q, leg))
		if want.comes != x.comes || x.comes != run.NotThere && want.ident != leg.Route.Field {
			t.Errorf("%v at %s: to %s, which comes %d; asked in turn: %+v", x.fail, x.at, leg.Route.Field, leg.Route.Comes, want)
		}
	}
}

// visits asks for every field.
func visits(t *testing.T, desk *ask.Desk, q ask.Question, leg run.Turned) (list []visited) {
	t.Helper()
	planned := q.Plan
	for f := range islands(t).Airfields.All() {
		if len(f.Runways) == 0 {
			continue
		}
		v := visited{ident: f.Ident}
		q.Plan = append(slices.Clip(planned), fmt.Sprintf("divert %s @ %.6f s", f.Ident, leg.At.Seconds()))
		a, err := desk.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		v.away = minutesTo(t, a.Here, leg, f.Place)
		switch r, down := a.Here.Rolled(); {
		case !down || a.Here.Bound() != f.Name:
		case r.TookM == 0:
			v.comes, v.off = run.RunsOff, math.Inf(1)
		case r.TookM > r.HasM:
			v.comes, v.off = run.RunsOff, r.TookM-r.HasM
		case r.Across():
			v.comes, v.off = run.Stops, r.TookM/r.HasM
		case roll.AtArrival(max(r.TookM, byManual(t, desk, q, a.Here))) > r.HasM:
			v.comes, v.off = run.Short, r.TookM/r.HasM
		case hot(a.Here):
			v.comes = run.HotBrakes
		default:
			v.comes = run.AsItShould
		}
		list = append(list, v)
	}
	return list
}

// minutesTo are those of the way to a place: at 280 kt or Mach 0.74, as the first flight
// of the book comes down, at 250 kt low down, and with the wind at that height.
func minutesTo(t *testing.T, r *run.Record, leg run.Turned, to geo.Place) float64 {
	t.Helper()
	g, f := islands(t), r.Course.Flight
	ft := r.Path().Value(slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "altitude_ft" }), leg.At)
	from, line := leg.Route.Track.From, geo.Between(leg.Route.Track.From, to)
	start, end, _ := g.Ends(f)
	head := region.Along(g.Winds(f, start.Place, end.Place), region.Direction(line, from))(ft)
	kt, air := 280.0, energy.PlanOf(f).Air
	if ft < 10000 {
		kt = 250
	}
	return line.Metres / 1852 / (min(air.TASOfCAS(kt, ft), air.TASOfMach(0.74, ft)) - head) * 60
}

// byManual is the landing distance by the factor of the manual as it is at touchdown, on
// 1.07 times the distance that the flight takes there with nothing failed at the same
// mass (docs/meaning.md section 12; a distance goes with the mass, the speed squared
// does); 0 where the manual gives none.
func byManual(t *testing.T, desk *ask.Desk, q ask.Question, r *run.Record) float64 {
	t.Helper()
	n, _ := r.Circuit().Node(circuit.Value{Item: book.EffectID("manual_landing_ratio")})
	down, _ := r.Touchdown()
	ratio := r.At(n, down)
	if ratio == 0 {
		return 0
	}
	on := r.Turns[len(r.Turns)-1]
	q.Fail, q.Plan = nil, append(q.Plan[:len(q.Plan)-1:len(q.Plan)-1], fmt.Sprintf("divert %s/%s @ %.6f s", on.Route.Field, on.Route.End, on.At.Seconds()))
	a, err := desk.Answer(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	x, _ := a.Here.Rolled()
	return ratio * 1.07 * x.TookM * landsAt(r) / landsAt(a.Here)
}

// landsAt is the mass at touchdown.
func landsAt(r *run.Record) float64 {
	_, s, _ := r.Path().(*energy.Path).Touchdown()
	return s.MassKg
}

func hot(r *run.Record) bool { _, _, over := r.BrakeEnergy(); return over }

// TestLand_TheNearestAsPriced: nothing of the landing speaks against a field that was
// found good by flying on, where its price is asked for at that moment.
func TestLand_TheNearestAsPriced(t *testing.T) {
	g := islands(t)
	desk := ask.NewDesk(corvane.Book(t)).Over(g)
	priced := 0
	for _, what := range [][]string{{"engine_left"}, {"reservoir_left.leaks"}, {"dc_left", "reservoir_right.leaks"}, {"hold.smoulders"}, {"tr_right", "tr_left"}, {"cabin_wall.leaks"}} {
		for _, at := range []string{"climb + 100 s", "cruise + 60 s"} {
			q := ask.Question{Crew: scenario.ByTheBook, Fail: []scenario.Strike{{What: what, At: at}}}
			a, err := desk.Answer(context.Background(), q)
			if err != nil {
				t.Fatal(err)
			}
			i := slices.IndexFunc(a.Here.Turns, func(t run.Turned) bool { return t.Leg.Do == run.Land && t.Route.Comes == run.AsItShould })
			if i < 0 {
				continue
			}
			leg := a.Here.Turns[i]
			c, err := a.Costs(context.Background(), g, ask.Price{Turn: fmt.Sprintf("%.6f s", leg.At.Seconds()), Most: 4})
			if err != nil {
				t.Fatal(err)
			}
			for k := range c.Places {
				p := &c.Places[k]
				if p.Airfield.Ident != leg.Route.Field {
					continue
				}
				priced++
				for _, r := range p.Failed.Reasons {
					if slices.Contains([]string{costs.NoArrival, costs.Approach, costs.Surface, costs.Crosswind, costs.Tailwind, costs.Length, costs.Brakes}, r.Kind) {
						t.Errorf("%v at %s: %s was found good, and its price says: %s", what, at, p.Airfield.Name, r.Text)
					}
				}
			}
		}
	}
	if priced < 6 {
		t.Errorf("only %d were priced", priced)
	}
}

// best is what one would choose of them.
func best(list []visited) visited {
	return slices.MinFunc(list, func(a, b visited) int {
		switch {
		case a.comes != b.comes:
			return int(b.comes - a.comes)
		case a.off != b.off:
			return int(math.Copysign(1, a.off-b.off))
		}
		return int(math.Copysign(1, a.away-b.away))
	})
}
