package region_test

import (
	"slices"
	"testing"

	"knockon/airfield"
	"knockon/demo"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/internal/corvane"
	"knockon/region"
	"knockon/run"
)

// above is the aircraft of the demonstration above a field, with nothing broken.
func above(t *testing.T, g *region.Region, ident string) run.Whereabouts {
	t.Helper()
	b := corvane.Build(t, "")
	a, err := energy.Decode(b.Aircraft)
	if err != nil {
		t.Fatal(err)
	}
	f, ok := g.Find(ident)
	if !ok {
		t.Fatal(ident)
	}
	return run.Whereabouts{Flight: b.Flights[0], Place: f.Place, State: energy.State{MassKg: 37000, AltitudeFt: 20000}, Aircraft: a, Left: run.Whole(), Whole: run.Whole()}
}

// TestLand_TheNearestSuitsTheAircraftAsItIs: what is broken at the turn takes fields
// away, each in its own way, and nothing else does; who has no thrust does not go on
// to a better one.
func TestLand_TheNearestSuitsTheAircraftAsItIs(t *testing.T) {
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		t.Fatal(err)
	}
	g, told := region.New(list, "METAR QSLA 250950Z 22012KT 9999 SCT028 BKN012 09/05 Q1009=", "", "")
	if len(told) > 0 {
		t.Fatal(told)
	}
	for _, c := range []struct {
		what   string
		breaks func(*run.Left)
		stays  bool
		choice run.Choice
	}{
		{"nothing", func(*run.Left) {}, true, run.AsItIs},
		{"the manual asks for 1.9 of the distance", func(l *run.Left) { l.Ratio = 1.9 }, false, run.AsItIs},
		{"the manual asks for as much", func(l *run.Left) { l.Ratio = 1 }, true, run.AsItIs},
		{"a third of the brakes", func(l *run.Left) { l.Devices.Brakes = 0.3 }, false, run.AsItIs},
		{"half the brakes", func(l *run.Left) { l.Devices.Brakes = 0.5 }, true, run.AsItIs},
		{"half the brakes, no anti-skid", func(l *run.Left) { l.Devices.Brakes, l.Devices.AntiSkid = 0.5, false }, false, run.AsItIs},
		{"an approach down to 1,100 ft", func(l *run.Left) { l.CeilingFt = 1100 }, true, run.AsItIs},
		{"an approach down to 1,300 ft", func(l *run.Left) { l.CeilingFt = 1300 }, false, run.AsItIs},
		{"20 kt from the side", func(l *run.Left) { l.CrossKt = 20 }, true, run.AsItIs},
		{"1 kt from the side", func(l *run.Left) { l.CrossKt = 1 }, false, run.AsItIs},
		{"no thrust and 1.9", func(l *run.Left) { l.Ratio, l.Devices.Engines = 1.9, [2]float64{} }, true, run.AsIfWhole},
		{"a runway that no field has", func(l *run.Left) { l.Ratio = 9 }, true, run.AsIfWhole},
	} {
		w := above(t, g, "QSLA")
		c.breaks(&w.Left)
		r, err := region.Router{Region: g}.Route(run.Leg{Do: run.Land}, w)
		if err != nil || (r.Field == "QSLA") != c.stays || r.Choice != c.choice {
			t.Errorf("%s: %s, runway %s, %v; stays %v", c.what, r.Name, r.End, r.Choice, c.stays)
		}
	}
}

// TestLand_NoFieldSuits: an aircraft that was too heavy for every field as dispatched
// goes to the nearest, and it is said that it is no more than that.
func TestLand_NoFieldSuits(t *testing.T) {
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		t.Fatal(err)
	}
	g, _ := region.New(list, "", "", "")
	w := above(t, g, "QSLA")
	w.State.MassKg = 300000
	r, err := region.Router{Region: g}.Route(run.Leg{Do: run.Land}, w)
	if err != nil || r.Field != "QSLA" || r.Choice != run.NearestOnly {
		t.Errorf("%s, %v, %v", r.Name, r.Choice, err)
	}
}

// TestFields_ByMinutes: of two fields the one comes first that takes fewer minutes with
// the wind aloft, not the one that is nearer in miles; in calm air it is the nearer.
func TestFields_ByMinutes(t *testing.T) {
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ aloft, first string }{
		{"FL200 000/0", "QSTO"},
		{"FL200 030/90", "QSGA"}, // from the north: against it to the one, with it to the other
		{"FL200 210/90", "QSTO"},
	} {
		g, _ := region.New(list, "", "", c.aloft)
		w := above(t, g, "QSTO")
		south, _ := g.Find("QSGA")
		line := geo.Between(w.Place, south.Place)
		w.Place, _ = geo.Along(w.Place, line.Start, 0.48*line.Metres)
		got, err := region.Router{Region: g}.Fields(w)
		if err != nil {
			t.Fatal(err)
		}
		got = slices.DeleteFunc(got, func(r run.Route) bool { return r.Field != "QSTO" && r.Field != "QSGA" })
		if len(got) != 2 || got[0].Field != c.first {
			t.Errorf("%s: %s comes first", c.aloft, got[0].Field)
		}
	}
}
