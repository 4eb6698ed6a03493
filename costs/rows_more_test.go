package costs

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"knockon/book"
	"knockon/flight/energy"
	"knockon/region"
	"knockon/run"
)

// TestRows_LostBeforeTheTurn: the battery is empty half an hour after the generator
// failed, ten minutes before the turn. What is grave is listed with that, and what
// is of the gravest severity counts, also where it is called for only on the way.
func TestRows_LostBeforeTheTurn(t *testing.T) {
	const more = `function "fans" {
  title    = "Fans"
  works    = generator || battery_min > 0
  severity = "hazardous"
}
function "flare" {
  title    = "Flare"
  works    = generator || battery_min > 0
  wanted   = real.height_ft < 2000 && real.vertical_speed_ft_per_min < 0
  severity = "catastrophic"
}
signal "battery_min" {
 title = "Battery"`
	c, g := heron(t, "signal \"battery_min\" {", more)
	s := failing("", 300, "generator")
	got := priceAt(t, c, g, s, 2700*book.Second, 0)
	for _, p := range got.Places {
		lapses := map[string]Lapse{}
		for _, l := range p.Failed.Lapses {
			lapses[l.Function.ID] = l
		}
		for id, fatal := range map[string]bool{"electrics": true, "flare": true, "fans": false} {
			l, ok := lapses[id]
			if !ok || math.Abs(l.Minutes+10) > 1e-3 || l.What != "Battery" || l.Fatal != fatal {
				t.Errorf("%s: %s: %+v, %v", p.Airfield.Ident, id, l, ok)
			}
		}
		down := p.Failed.Minutes
		if l := lapses["flare"]; l.Needed < down-4 || l.Needed >= down || !strings.HasPrefix(l.when(), "gone 10 min before the turn, called for after ") {
			t.Errorf("%s: touchdown after %g min, called for %g: %s", p.Airfield.Ident, down, l.Needed, l.when())
		}
	}
}

// TestRows_AStrikeOfALaterPhase comes at its moment of the flight of the book, also
// on a way that never reaches that phase.
func TestRows_AStrikeOfALaterPhase(t *testing.T) {
	c, g := heron(t, "", "")
	s := failing("climb", 10, "pack")
	s.Strikes = append(s.Strikes, run.Strike{Fail: []book.FailureRef{{Unit: "brake_pump"}}, At: book.Moment{Phase: "cruise"}})
	at, err := c.Resolve(context.Background(), s.Strikes[1].At)
	if err != nil {
		t.Fatal(err)
	}
	timed := failing("climb", 10, "pack")
	timed.Strikes = append(timed.Strikes, run.Strike{Fail: s.Strikes[1].Fail, At: book.Moment{Offset: at}})
	one, other := priceAt(t, c, g, s, 200*book.Second, 0), priceAt(t, c, g, timed, 200*book.Second, 0)
	for i := range one.Places {
		if a, b := one.Places[i].Failed.view(), other.Places[i].Failed.view(); fmt.Sprint(a) != fmt.Sprint(b) {
			t.Errorf("%s: %+v, at its moment %+v", one.Places[i].Airfield.Ident, a, b)
		}
	}
}

// TestRows_WholeOfTheEndFlownTo: distance and stop are of one landing.
func TestRows_WholeOfTheEndFlownTo(t *testing.T) {
	c, g := heron(t, "", "")
	got, p := onlyOne(t, c, g, "XASH", "brake_pump")
	x := *p
	x.Failed.Landings = []Landing{{RequiredM: 900, Stops: true}, {RequiredM: 100, Stops: false}}
	if a := got.desk.rows.whole(got.desk, x); !a.Failed.Stops || a.Failed.RequiredM != 900 {
		t.Errorf("%+v", a.Failed)
	}
}

// TestWhen_EndsWithTheApproach: no moment of the approach or on the ground is looked
// at, wherever the marks of ten minutes fall.
func TestWhen_EndsWithTheApproach(t *testing.T) {
	c, g := heron(t, "", "")
	s := failing("", 10, "brake_pump")
	end := c.Path.End()
	for _, before := range []book.Time{605, 640, 700} {
		at := end - before*book.Second
		got := priceAt(t, c, g, s, at, 0)
		list, err := got.When(context.Background(), g, Question{Scenario: s, Rule: got.Rule})
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range list {
			if l.Ever && (!l.Always || l.At != at) {
				t.Errorf("%d s before the end: %s is good until %g s before it", before, l.Airfield.Ident, (end - l.At).Seconds())
			}
		}
	}
}

// TestNarrow_HalfAMinuteIsNearEnough: nothing is looked at between two moments that
// are no farther apart.
func TestNarrow_HalfAMinuteIsNearEnough(t *testing.T) {
	l, then := Latest{}, &Side{Reasons: []Reason{{Reserve, "dry"}}}
	if err := (&watch{}).narrow(context.Background(), "X", &l, 1000*book.Second, 1030*book.Second, then); err != nil || l.At != 1000*book.Second || l.Then.Text != "dry" {
		t.Errorf("%+v, %v", l, err)
	}
}

// TestBehind_WhatTheExplanationNames: the function through which an effect came, if
// there is one; else those that are lost for the same reason.
func TestBehind_WhatTheExplanationNames(t *testing.T) {
	const fan = "function \"fan\" {\n title = \"Fan\"\n works = brake_pump\n severity = \"minor\"\n}\nsignal \"battery_min\" {"
	for value, want := range map[string]string{"brakes ? 1 : 0.5": "Wheel brakes", "brake_pump ? 1 : 0.5": "Fan, Wheel brakes"} {
		c, _ := heron(t, "signal \"battery_min\" {", fan, "brake_pump ? 1 : 0.5", value, "works    = brake_pump", "works    = brake_pump && pack")
		var records []*run.Record
		for _, s := range []run.Scenario{failing("cruise", 60, "brake_pump"), {}} {
			r, err := c.Fly(context.Background(), s)
			if err != nil {
				t.Fatal(err)
			}
			records = append(records, r)
		}
		d := &desk{course: c}
		var names []string
		for _, f := range d.behind(records, partNamed("brakes")) {
			names = append(names, f.Title)
		}
		if got := strings.Join(names, ", "); got != want {
			t.Errorf("%s: %s, want %s", value, got, want)
		}
	}
}

// TestSpare_IsAtSeaLevel: the fuel left beyond the reserve at a touchdown so far
// away, at a field at sea level where it is calm, flown by itself; from 2,000 ft up the
// wind is that aloft (docs/meaning.md, section 8).
func TestSpare_IsAtSeaLevel(t *testing.T) {
	c := price(t, courseOf(t, ""), islands(t), headline(), 1)
	d := c.desk
	got, err := d.spareKg(context.Background(), energy.Clean(), 90, 400e3)
	if err != nil {
		t.Fatal(err)
	}
	s, plan := energy.StateAt(d.path(), d.at), energy.PlanOf(d.course.Flight)
	aloft := region.Along(d.levels, 90)
	plan.Air, plan.ElevationFt = d.std, 0
	plan.Wind = func(ft float64) float64 { return aloft(max(ft, 2000)) * min(max(ft, 0)/2000, 1) }
	p, err := energy.Divert(context.Background(), d.aircraft, energy.Clean(), s, plan, 400e3)
	if err != nil {
		t.Fatal(err)
	}
	if want := s.FuelKg - p.FuelKg() - c.Places[0].Failed.ReserveKg; math.Abs(got-want) > 1e-6 || want < 1000 {
		t.Errorf("%g kg, want %g", got, want)
	}
}
