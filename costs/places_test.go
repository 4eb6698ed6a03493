package costs

import (
	"context"
	"testing"

	"knockon/book"
	"knockon/flight/energy"
	"knockon/flight/fuel"
	"knockon/flight/geo"
	"knockon/run"
)

// TestChoose_TheNearestFifty of those with a runway, unless somebody says how many;
// the others are counted, and the note says so.
func TestChoose_TheNearestFifty(t *testing.T) {
	from := geo.Place{Lat: 10, Lon: 20}
	g := merge(t, fields(t, 58, 500e3, from), islands(t))
	own, _ := g.Find("Vardholm")
	for most, want := range map[int]int{0: 50, -1: 50, 7: 7, 60: 60, 100: 60} {
		c := &Costs{desk: &desk{course: &run.Course{Flight: &book.Flight{}}, region: g, from: from, own: own}}
		c.choose(most)
		if len(c.Places) != want || c.Left != 60-want {
			t.Errorf("of 60, %d asked for: %d, and %d left", most, len(c.Places), c.Left)
		}
		for i := 1; i < len(c.Places); i++ {
			if c.Places[i].Line.Metres < c.Places[i-1].Line.Metres {
				t.Errorf("number %d is nearer than the one before", i)
			}
		}
		for _, p := range c.Places {
			if p.Own != (p.Airfield.Ident == own.Ident) {
				t.Errorf("%s is said to be the destination: %v", p.Airfield.Ident, p.Own)
			}
		}
		notes := c.View("").Notes
		says := map[int]string{0: "10 airfields farther away were not looked at.", 7: "53 airfields farther away were not looked at."}[most]
		if last := notes[len(notes)-1]; says != "" && last != says || want == 60 && c.Left == 0 && len(notes) != 2 {
			t.Errorf("%d asked for: %q", most, last)
		}
	}
}

// TestApproach_WhatTheReportSays (demo/region/weather.txt): a base only where there
// is a ceiling, a visibility only where it is less than "10 km or more".
func TestApproach_WhatTheReportSays(t *testing.T) {
	c, g := heron(t, "", "")
	r, err := c.Fly(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	d := &desk{region: islands(t)}
	for ident, want := range map[string][2]Need{
		"QSOR": {{0, 300, true}, {0, 1200, true}},   // 1200 BR BKN003 OVC008
		"QSVA": {{0, 900, true}, {0, 6000, true}},   // 6000 RA BKN009 OVC020
		"QSGA": {{0, 0, false}, {0, 8000, true}},    // 8000 SCT012
		"QSBR": {{0, 2500, true}, {0, 9999, false}}, // 9999 BKN025
		"QSKE": {{0, 0, false}, {0, 9999, false}},   // 9999 FEW030
	} {
		a, ok := d.region.Airfields.Find(ident)
		s := Side{record: r}
		if s.approach(d, a, r.End); !ok || s.Ceiling.Known != want[0].Known || s.Seeing.Known != want[1].Known {
			t.Errorf("%s: %+v, %+v", ident, s.Ceiling, s.Seeing)
		}
		if want[0].Known && s.Ceiling.Has != want[0].Has || want[1].Known && s.Seeing.Has != want[1].Has {
			t.Errorf("%s: %+v, %+v", ident, s.Ceiling, s.Seeing)
		}
	}
	if a, ok := g.Airfields.Find("XASH"); ok {
		s := Side{record: r}
		if s.approach(d, a, r.End); s.Ceiling.Known || s.Seeing.Known {
			t.Errorf("a field without a report: %+v, %+v", s.Ceiling, s.Seeing)
		}
	}
}

// tooNear is the demonstration with gear that is let down only after four minutes of
// descent, so that a field under the aircraft is too near for it.
func tooNear(t *testing.T, more string) *run.Course {
	return changed(t, "06-flights.hcl", "  when = approach && real.to_go_nm < 6.5\n", "  when = held(real.vertical_speed_ft_per_min < -300, 240)"+more+"\n", "")
}

// TestCosts_AFieldTooNearToLetTheGearDown is not worked out for either side, at the
// turn and until when; gear that comes out nowhere is a reason and not nearness.
func TestCosts_AFieldTooNearToLetTheGearDown(t *testing.T) {
	g, s := islands(t), failing("climb", 120, "waste_blower")
	c := tooNear(t, "")
	at, err := c.Resolve(context.Background(), during("lift_off", 30))
	if err != nil {
		t.Fatal(err)
	}
	got := priceAt(t, c, g, s, at, 1)
	near := got.Places[0]
	for _, side := range []*Side{&near.Failed, &near.Healthy} {
		if !side.Unjudged() || len(side.Reasons) != 1 || side.Reasons[0].Kind != Near {
			t.Errorf("%s, %.0f NM away: %v", near.Airfield.Ident, near.Line.NM(), side.Reasons)
		}
	}
	w := &watch{c: &Costs{desk: got.desk}, region: g, q: Question{Scenario: s, Rule: got.Rule, Whole: got.desk.whole}, at: map[book.Time]*Costs{}}
	if side, err := w.side(context.Background(), near.Airfield.Ident, at); err != nil || !side.Unjudged() {
		t.Errorf("until when: %v, %v", side.Reasons, err)
	}
	never := priceAt(t, tooNear(t, " && real.time_s < 0"), g, s, at, 1)
	if p := never.Places[0]; has(&p.Failed, Near) || !has(&p.Failed, Gear) || !has(&p.Healthy, Gear) {
		t.Errorf("gear that never comes: %v", p.Failed.Reasons)
	}
}

func during(phase string, s float64) book.Moment {
	return book.Moment{Phase: phase, Offset: book.AtSeconds(s)}
}

// TestUnderWay_IsHalfWayToTheFarthest: an engine that fails before that has failed
// in it, one that fails after it has not.
func TestUnderWay_IsHalfWayToTheFarthest(t *testing.T) {
	course, g := courseOf(t, ""), islands(t)
	at, err := course.Resolve(context.Background(), during("climb", 300))
	if err != nil {
		t.Fatal(err)
	}
	plain := priceAt(t, course, g, failing("", at.Seconds(), "waste_blower"), at, 1)
	half := plain.Places[0].Failed.Minutes * 30
	for offset, want := range map[float64]float64{-60: 0, 60: 1} {
		c := priceAt(t, course, g, failing("", at.Seconds()+half+offset, "engine_left"), at, 1)
		if got := c.desk.underWay(&c.Places[0].Failed); got.Engines[0] != want || got.Engines[1] != 1 {
			t.Errorf("an engine that fails %g s from half way: %v", offset, got.Engines)
		}
		if h := c.desk.underWay(&c.Places[0].Healthy); h.Engines != [2]float64{1, 1} {
			t.Errorf("with nothing failed: %v", h.Engines)
		}
	}
}

// TestReserve_OfARuleThatCountsTheCruise: 45 minutes (14 CFR 121.639) of the flow
// at the level of the flight and 250 kt of airspeed, clean, at the mass at the turn.
func TestReserve_OfARuleThatCountsTheCruise(t *testing.T) {
	course, g := courseOf(t, ""), islands(t)
	rule, _ := fuel.Named("us-domestic")
	at, _ := course.Resolve(context.Background(), during("cruise", 60))
	c, err := Of(context.Background(), course, g, Question{Scenario: failing("cruise", 60, "engine_left"), At: at, Rule: rule, Most: 1})
	if err != nil {
		t.Fatal(err)
	}
	ft, _ := course.Flight.Number("cruise_altitude_ft")
	q, ok := energy.CruiseAt(c.desk.aircraft, energy.Clean(), c.State.MassKg, ft, 250, c.desk.std)
	for _, s := range []*Side{&c.Places[0].Failed, &c.Places[0].Healthy} {
		if want := 0.75 * q.KgPerH; !ok || s.ReserveKg < want-1e-6 || s.ReserveKg > want+1e-6 || want < 300 {
			t.Errorf("%g kg, want %g", s.ReserveKg, want)
		}
	}
}
