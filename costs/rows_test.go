package costs

import (
	"context"
	"math"
	"os"
	"strings"
	"testing"

	"knockon/airfield"
	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/flight/manual"
	"knockon/region"
	"knockon/run"
)

// heron is the small book that has a manual's numbers and no drag polars, with
// other things in it (old, new, old, new, …), and its own four airfields.
func heron(t *testing.T, changes ...string) (*run.Course, *region.Region) {
	t.Helper()
	text, err := os.ReadFile("testdata/manual/book/book.hcl")
	if err != nil {
		t.Fatal(err)
	}
	changed := string(text)
	for i := 0; i < len(changes); i += 2 {
		if !strings.Contains(changed, changes[i]) {
			t.Fatal("not there: ", changes[i])
		}
		changed = strings.Replace(changed, changes[i], changes[i+1], 1)
	}
	if n := strings.Count(string(text), "\n"); n >= 150 {
		t.Errorf("the book has %d lines: it is to show how few are enough", n)
	}
	b, problems := book.Load(context.Background(), filesOf(changed))
	if b == nil {
		t.Fatal(problems)
	}
	build, _ := b.Build("")
	c, err := run.NewCourse(build, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	list, told, err := airfield.ReadFS(os.DirFS("testdata/manual/fields"), ".")
	if err != nil || told.String() != "" {
		t.Fatal(err, told)
	}
	g, more := region.New(list, "", "XELM,,wet 2 mm\n", "")
	if len(more) > 0 {
		t.Fatal(more)
	}
	return c, g
}

// onlyOne is the failed and the healthy side of a place.
func onlyOne(t *testing.T, c *run.Course, g *region.Region, ident string, units ...string) (*Costs, *Place) {
	t.Helper()
	got := price(t, c, g, failing("cruise", 600, units...), 0)
	return got, placeNamed(t, got, ident)
}

// Each field has a full price: time, fuel, runway with factors, reserve, a verdict
// with its reason. The landing by hand: at 17 t (30 percent of the way from 14 to
// 24 t) on code 6 800 + 0.3 · 400 = 920 m, with the accumulator 1.6 · 920 + 50 = 1,522 m,
// and 15 percent: 1,750.3 m.
func TestRows_FullPrice(t *testing.T) {
	c, g := heron(t, "", "")
	got, oak := onlyOne(t, c, g, "XOAK", "brake_pump")
	if len(got.Places) != 4 || got.Landing {
		t.Fatalf("%d places", len(got.Places))
	}
	for _, p := range got.Places {
		for _, s := range []*Side{&p.Failed, &p.Healthy} {
			l := &s.Landings[0]
			base := 800 + (s.MassKg-14000)/10000*400
			if l.Code == 5 {
				base = 1000 + (s.MassKg-14000)/10000*500
			}
			if s == &p.Failed {
				base = 1.6*base + 50
			}
			if p.Airfield.Ident == "XYEW" {
				if l.Unsaid == nil || !has(s, Lacking) || !strings.Contains(s.Reasons[0].Text, "its rows have no altitude_ft") {
					t.Errorf("at 1,800 ft: %v, %v", l, s.Reasons)
				}
				continue
			}
			if !s.Arrives || s.Unsaid != nil || s.Minutes < 5 || s.FuelKg < 50 || s.LandsKg < 500 || math.Abs(s.ReserveKg-0.5*(700+(got.State.MassKg-14000)/10000*200)) > 1e-6 {
				t.Errorf("%s: %+v", p.Airfield.Ident, s)
			}
			if math.Abs(l.DistanceM-base) > 1e-6 || math.Abs(l.RequiredM-1.15*base) > 1e-6 || !l.Stops || !l.ByRows {
				t.Errorf("%s: lands in %g m, by hand %g", p.Airfield.Ident, l.DistanceM, base)
			}
		}
	}
	if oak.Failed.Good() || oak.Failed.Reasons[0].Kind != Length || !oak.Healthy.Good() {
		t.Errorf("1,219 m of runway: %v, healthy %v", oak.Failed.Reasons, oak.Healthy.Reasons)
	}
	if elm := placeNamed(t, got, "XELM"); !elm.Healthy.Good() || elm.Healthy.Landings[0].Code != 5 || !elm.Own {
		t.Errorf("the destination: %v", elm.Healthy.Reasons)
	}
}

// With the gear down the way takes 1.8 times the fuel in the same time; a battery of
// 30 minutes binds where it is farther; above the level that is left nothing is flown.
func TestRows_WhatFailuresDo(t *testing.T) {
	c, g := heron(t, "", "")
	_, p := onlyOne(t, c, g, "XASH", "gear_pump")
	if f, h := &p.Failed, &p.Healthy; math.Abs(f.FuelKg-1.8*h.FuelKg) > 0.02*h.FuelKg || math.Abs(f.Minutes-h.Minutes) > 0.5 || len(f.Lacking) > 0 {
		t.Errorf("gear down: %g kg in %g min, healthy %g kg in %g min; %v", f.FuelKg, f.Minutes, h.FuelKg, h.Minutes, f.Lacking)
	}
	got, p := onlyOne(t, c, g, "XELM", "generator")
	if p.Failed.Minutes < 31 || !has(&p.Failed, Time) || !strings.Contains(p.Failed.Reasons[0].Text, "Electrical power: gone after 30 min") {
		t.Errorf("%g NM with a battery of 30 minutes, %g min: %v", p.Line.NM(), p.Failed.Minutes, p.Failed.Reasons)
	}
	for _, q := range got.Places {
		if late := q.Failed.Minutes > 30; late != has(&q.Failed, Time) {
			t.Errorf("%s: %g min, %v", q.Airfield.Ident, q.Failed.Minutes, q.Failed.Reasons)
		}
	}
	_, p = onlyOne(t, c, g, "XASH", "pack")
	most := 0.0
	path, until, _ := p.Failed.Flown()
	for at := until - 12*60*book.Second; at < until; at += book.Second {
		most = max(most, energy.StateAt(path, at).AltitudeFt)
	}
	if most > 10000.1 || most < 9999 || p.Failed.FuelKg <= p.Healthy.FuelKg {
		t.Errorf("without a pack it flies at %g ft and burns %g kg, healthy %g", most, p.Failed.FuelKg, p.Healthy.FuelKg)
	}
}

// One engine and none: the ceiling of the rows, and a glide to what it reaches.
func TestRows_Engines(t *testing.T) {
	c, g := heron(t, "", "")
	got, p := onlyOne(t, c, g, "XASH", "engine_left")
	numbers := manual.New(c.Build)
	ft, err := numbers.CeilingFt(got.State.MassKg)
	if err != nil {
		t.Fatal(err)
	}
	path, until, lands := p.Failed.Flown()
	if level := energy.StateAt(path, until-15*60*book.Second).AltitudeFt; !lands || math.Abs(level-ft) > 200 {
		t.Errorf("with one engine it flies at %g ft, the ceiling is %g (%v)", level, ft, p.Failed.Reasons)
	}
	got, _ = onlyOne(t, c, g, "XASH", "engine_left", "engine_right")
	reached := 0
	for _, q := range got.Places {
		nm, err := numbers.ReachNM(got.State.AltitudeFt - q.Airfield.ElevationFt)
		if err != nil {
			t.Fatal(err)
		}
		if want := q.Line.NM() <= nm; want != q.Failed.Arrives || want == has(&q.Failed, NoArrival) {
			t.Errorf("%s: %g NM with a glide of %g NM: arrives %v, %v", q.Airfield.Ident, q.Line.NM(), nm, q.Failed.Arrives, q.Failed.Reasons)
		}
		if q.Failed.Arrives {
			reached++
		} else if short := q.Line.NM() - nm; len(q.Failed.Landings) > 0 || math.Abs(q.Failed.ShortNM-short) > 0.1 {
			t.Errorf("%s: %g NM beyond the glide, said to be %g; %d landings", q.Airfield.Ident, short, q.Failed.ShortNM, len(q.Failed.Landings))
		}
	}
	if reached == 0 || reached == len(got.Places) {
		t.Errorf("%d of %d are reached", reached, len(got.Places))
	}
}

// What the manual does not give is named with its line, on the place and in the
// text; nothing becomes zero and nothing is called good for it.
func TestRows_WhatTheManualDoesNotSay(t *testing.T) {
	for _, k := range []struct{ name, old, new, unit, says string }{
		{"a mass outside", "[[14000, 105, 900], [24000, 130, 1200]]", "[[14000, 105, 900], [16000, 130, 1200]]", "brake_pump", "not in the manual's numbers: approach: 1"},
		{"no factor", "    covers        = [\"brakes_ratio\"]\n", "", "brake_pump", "what brakes_ratio does: no factor of the performance block covers it (book.hcl:"},
		{"a factor that does not stand", "when       = !gear_pump", "when       = !pack", "gear_pump", "what gear_out does: the factor that covers it does not stand: gear_stays_down (book.hcl:"},
	} {
		c, g := heron(t, k.old, k.new)
		got, p := onlyOne(t, c, g, "XASH", k.unit)
		if p.Failed.Good() || !p.Failed.Unjudged() || !strings.Contains(p.Failed.Reasons[0].Text, k.says) {
			t.Errorf("%s: %v", k.name, p.Failed.Reasons)
		}
		var text strings.Builder
		if err := WriteText(&text, got.View("")); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(text.String(), "not worked out: "+k.says[:20]) || strings.Contains(text.String(), "no stop") {
			t.Errorf("%s:\n%s", k.name, text.String())
		}
	}
	c, g := heron(t, "[[1500, 14000, 180, 700], [1500, 24000, 200, 900]]", "[[5000, 14000, 180, 700], [5000, 24000, 200, 900]]")
	if _, p := onlyOne(t, c, g, "XELM", "pack"); p.Healthy.Good() || !strings.Contains(p.Healthy.Reasons[0].Text, "the final reserve: not in the manual's numbers: holding: 1,500 ft") {
		t.Errorf("without the flow of the holding: %v", p.Healthy.Reasons)
	}
}

// TestRows_AStrikeOnACondition is priced as the same strike at its moment.
func TestRows_AStrikeOnACondition(t *testing.T) {
	c, g := heron(t, "", "")
	low, diags := book.ParseExpr("real.altitude_ft > 12000", c.Build)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	when := failing("cruise", 0, "gear_pump")
	when.Strikes[0].When = low
	at, err := c.Resolve(context.Background(), book.Moment{Phase: "cruise", Offset: 600 * book.Second})
	if err != nil {
		t.Fatal(err)
	}
	r, err := c.Fly(context.Background(), when)
	if err != nil {
		t.Fatal(err)
	}
	timed := failing("", r.Struck[0].At.Seconds(), "gear_pump")
	one, other := priceAt(t, c, g, when, at, 0), priceAt(t, c, g, timed, at, 0)
	for i := range one.Places {
		a, b := &one.Places[i].Failed, &other.Places[i].Failed
		if a.FuelKg != b.FuelKg || a.Minutes != b.Minutes || a.FuelKg <= one.Places[i].Healthy.FuelKg {
			t.Errorf("%s: %g kg in %g min, at its moment %g kg in %g min; healthy %g kg", one.Places[i].Airfield.Ident, a.FuelKg, a.Minutes, b.FuelKg, b.Minutes, one.Places[i].Healthy.FuelKg)
		}
	}
}

// TestRows_WhatWasOutBeforeIsNotCharged: the generator is out at dispatch, so both
// aircraft are without power when the battery is empty, and no field is lost for it.
func TestRows_WhatWasOutBeforeIsNotCharged(t *testing.T) {
	c, g := heron(t, "", "")
	s := failing("cruise", 1200, "gear_pump")
	s.Inoperative = []book.FailureRef{{Unit: "generator"}}
	got := price(t, c, g, s, 0)
	at, _ := c.Resolve(context.Background(), s.Strikes[0].At)
	right, err := c.Healthy(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	given, err := Of(context.Background(), c, g, Question{Scenario: s, At: at, Rule: got.Rule, Right: right})
	if err != nil {
		t.Fatal(err)
	}
	for i := range got.Places {
		for _, p := range []*Place{&got.Places[i], &given.Places[i]} {
			if has(&p.Failed, Time) || len(p.Failed.fatal()) > 0 {
				t.Errorf("%s: %v", p.Airfield.Ident, p.Failed.Reasons)
			}
		}
	}
	if right.At(nodeOf(t, right, "electrics"), at) != 0 {
		t.Error("the battery is not empty yet: the test shows nothing")
	}
}

func nodeOf(t *testing.T, r *run.Record, item string) circuit.Node {
	t.Helper()
	n, ok := r.Circuit().Node(circuit.Value{Item: item})
	if !ok {
		t.Fatal("no", item)
	}
	return n
}

// TestRows_WhatRunsOut: the battery is named where it is among the causes; a
// function that a pump takes at once runs out of nothing.
func TestRows_WhatRunsOut(t *testing.T) {
	c, g := heron(t, "signal \"battery_min\" {", "function \"pressure\" {\n title = \"Cabin pressure\"\n works = pack\n severity = \"catastrophic\"\n}\nsignal \"battery_min\" {\n title = \"Battery\"")
	_, p := onlyOne(t, c, g, "XELM", "generator", "pack")
	what := map[string]string{}
	for _, l := range p.Failed.Lapses {
		what[l.Function.ID] = l.What
	}
	if len(what) != 2 || what["electrics"] != "Battery" || what["pressure"] != "" {
		t.Errorf("%q", what)
	}
}

// TestRows_AFieldTooNearToLetTheGearDown is not worked out for either side, also
// in the question until when; gear that comes out nowhere is a reason, not nearness.
func TestRows_AFieldTooNearToLetTheGearDown(t *testing.T) {
	c, g := heron(t, "real.height_ft < 3000 && real.vertical_speed_ft_per_min < 0", "held(real.vertical_speed_ft_per_min < 0, 400)")
	s := failing("", 10, "brake_pump")
	got := priceAt(t, c, g, s, 60*book.Second, 0)
	ash := placeNamed(t, got, "XASH")
	for _, side := range []*Side{&ash.Failed, &ash.Healthy} {
		if !side.Unjudged() || side.Reasons[0] != (Reason{Near, "too near to fly an approach from here"}) {
			t.Errorf("a mile away: %v", side.Reasons)
		}
	}
	if elm := placeNamed(t, got, "XELM"); has(&elm.Failed, Near) || elm.Healthy.GearUp {
		t.Errorf("300 NM away: %v", elm.Failed.Reasons)
	}
	c, g = heron(t, "    to   = \"down\"", "    to   = \"up\"")
	for _, p := range priceAt(t, c, g, s, 60*book.Second, 0).Places {
		if has(&p.Failed, Near) || !has(&p.Failed, Gear) {
			t.Errorf("%s: %v", p.Airfield.Ident, p.Failed.Reasons)
		}
	}
}

// TestRows_WhereTheTouchdownIs: 50 ft over the threshold on a path of 3 degrees, one
// foot in 19.08, which is 290.8 m.
func TestRows_WhereTheTouchdownIs(t *testing.T) {
	c, g := heron(t, "", "")
	got, _ := onlyOne(t, c, g, "XELM", "pack")
	toGo := value(c.Path, "to_go_nm", got.At)
	if m := got.desk.rows.leftM(got.At) - toGo*1852; math.Abs(m-290.8) > 0.1 {
		t.Errorf("%g m behind the threshold", m)
	}
	ash, _ := g.Find("Ash")
	flown := geo.Between(ash.Place, got.Position).Metres
	whole := geo.Between(ash.Place, placeNamed(t, got, "XELM").Airfield.Place).Metres
	if want := whole * (1 - (toGo*1852+290.8)/(300*1852)); math.Abs(flown-want) > 5 {
		t.Errorf("it has flown %g m, want %g", flown, want)
	}
}

// The rest of the price stands or says that it does not.
func TestRows_PartsMapAndUntil(t *testing.T) {
	c, g := heron(t, "", "")
	got, _ := onlyOne(t, c, g, "XASH", "generator")
	a, ok, err := got.Attribute(context.Background(), "XASH")
	if err != nil || !ok || !strings.Contains(a.View().Trouble, "is not worked out") {
		t.Errorf("the parts: %v, %v", ok, err)
	}
	got.Places[0].Failed = Side{record: got.Places[0].Failed.record}
	if a, ok, err := got.Attribute(context.Background(), got.Places[0].Airfield.Ident); err != nil || !ok || a.Failed.Stops || a.Failed.RequiredM != 0 {
		t.Errorf("the parts of a flight that does not arrive: %+v, %v", a, err)
	}
	failed, _, err := got.Boundaries(context.Background())
	if err != nil || len(failed.Places) > 0 {
		t.Errorf("the boundary: %v, %v", failed, err)
	}
	at, _ := c.Resolve(context.Background(), book.Moment{Phase: "cruise", Offset: 600 * book.Second})
	list, err := got.When(context.Background(), g, Question{Scenario: failing("cruise", 600, "generator"), Rule: got.Rule, At: at})
	if err != nil || len(list) != 4 {
		t.Fatalf("until when: %v, %v", list, err)
	}
	for _, l := range list {
		if l.Airfield.Ident == "XASH" && (!l.Ever || l.Always || l.Then.Kind != Time) {
			t.Errorf("back with 30 minutes of battery: %+v", l)
		}
	}
}
