package costs

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/airfield"
	"knockon/book"
	"knockon/demo"
	"knockon/flight/energy"
	"knockon/flight/fuel"
	"knockon/flight/roll"
	"knockon/internal/corvane"
	"knockon/region"
	"knockon/run"
)

// islands are the airfields of the demonstration.
func islands(tb testing.TB) *region.Region {
	tb.Helper()
	list, problems, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil || problems.String() != "" {
		tb.Fatal(err, problems)
	}
	text := func(name string) string {
		b, err := fs.ReadFile(demo.Region(), name)
		if err != nil {
			tb.Fatal(err)
		}
		return string(b)
	}
	g, told := region.New(list, text("weather.txt"), text("conditions.csv"), text("aloft.txt"))
	if len(told) > 0 {
		tb.Fatal(told)
	}
	return g
}

func courseOf(tb testing.TB, build string) *run.Course {
	tb.Helper()
	c, err := run.NewCourse(corvane.Build(tb, build), nil, run.Setting{})
	if err != nil {
		tb.Fatal(err)
	}
	return c
}

func failing(phase string, offset float64, units ...string) run.Scenario {
	k := run.Strike{At: book.Moment{Phase: phase, Offset: book.AtSeconds(offset)}}
	for _, u := range units {
		unit, fault, _ := strings.Cut(u, ".")
		k.Fail = append(k.Fail, book.FailureRef{Unit: unit, Fault: fault})
	}
	return run.Scenario{Strikes: []run.Strike{k}}
}

// headline is the failure that the demonstration opens with.
func headline() run.Scenario {
	s := failing("climb", 120, "tr_right")
	s.Inoperative = []book.FailureRef{{Unit: "tr_left"}}
	return s
}

// onBattery leaves the main battery alone: no generator turns, not even that in the
// wind.
func onBattery() run.Scenario {
	return failing("climb", 120, "gen_left", "gen_right", "apu_gen", "ram_gen")
}

func price(tb testing.TB, c *run.Course, g *region.Region, s run.Scenario, most int) *Costs {
	tb.Helper()
	at, err := c.Resolve(context.Background(), s.Strikes[0].At)
	if err != nil {
		tb.Fatal(err)
	}
	return priceAt(tb, c, g, s, at, most)
}

func priceAt(tb testing.TB, c *run.Course, g *region.Region, s run.Scenario, at book.Time, most int) *Costs {
	tb.Helper()
	rule, _ := fuel.Named("european")
	p, err := Of(context.Background(), c, g, Question{Scenario: s, At: at, Rule: rule, Most: most})
	if err != nil {
		tb.Fatal(err)
	}
	return p
}

func placeNamed(tb testing.TB, c *Costs, ident string) *Place {
	tb.Helper()
	for i := range c.Places {
		if c.Places[i].Airfield.Ident == ident {
			return &c.Places[i]
		}
	}
	tb.Fatal("no place", ident)
	return nil
}

func has(s *Side, kind string) bool {
	for _, r := range s.Reasons {
		if r.Kind == kind {
			return true
		}
	}
	return false
}

// TestCosts_EveryKindOfVerdictChanges: the failure that the demonstration opens
// with changes the verdict of some airfield for fuel, for the runway, for the
// crosswind and for the approach that is left; without a generator what runs out
// does.
func TestCosts_EveryKindOfVerdictChanges(t *testing.T) {
	c := price(t, courseOf(t, ""), islands(t), headline(), 0)
	drained := price(t, courseOf(t, ""), islands(t), onBattery(), 0)
	for _, kinds := range [][]string{{Reserve, NoArrival}, {Length}, {Crosswind}, {Approach}, {Time}} {
		found, of := false, c
		if kinds[0] == Time {
			of = drained
		}
		for i := range of.Places {
			p := &of.Places[i]
			for _, k := range kinds {
				found = found || p.Healthy.Good() && !p.Failed.Good() && has(&p.Failed, k)
			}
		}
		if !found {
			t.Errorf("no airfield is lost for %v", kinds)
		}
	}
	good, byManual := 0, 0
	for i := range c.Places {
		byManual += manualOf(t, &c.Places[i])
		if c.Places[i].Failed.Good() {
			good++
		}
		if !c.Places[i].Healthy.Good() {
			t.Errorf("%s is no good with nothing failed: %v", c.Places[i].Airfield.Name, c.Places[i].Healthy.Reasons)
		}
	}
	if good == 0 {
		t.Error("no airfield is left at all")
	}
	if byManual == 0 {
		t.Error("the manual of the book says nothing of any runway")
	}
}

// manualOf counts the runway ends that have a distance by the manual's factor, each
// that factor on the distance with nothing failed, with the same margin.
func manualOf(t *testing.T, p *Place) (n int) {
	t.Helper()
	down, _, _ := p.Failed.Path().Touchdown()
	ratio := effect(p.Failed.record, "manual_landing_ratio", down)
	for _, l := range p.Failed.Landings {
		for _, h := range p.Healthy.Landings {
			if h.End != l.End || !h.Stops || ratio == 0 {
				continue
			}
			n++
			if want := roll.AtArrival(ratio * h.DistanceM); math.Abs(l.ManualM-want) > 1e-6 || ratio <= 1 {
				t.Errorf("%s, runway %s: %v m by the manual, want %v", p.Airfield.Name, l.End, l.ManualM, want)
			}
		}
	}
	return n
}

// TestCosts_TheBatteryLastsAsLongAsTheBookSays: what runs out does so in the
// diversion's own time, not in that of the flight as planned.
func TestCosts_TheBatteryLastsAsLongAsTheBookSays(t *testing.T) {
	c := price(t, courseOf(t, ""), islands(t), onBattery(), 0)
	p := placeNamed(t, c, "QSHP")
	for _, l := range p.Failed.Lapses {
		if strings.HasPrefix(l.What, "Charge left in the main battery") {
			if math.Abs(l.Minutes-30) > 0.05 {
				t.Errorf("%s goes after %v minutes; the battery of the book lasts 30", l.Function.ID, l.Minutes)
			}
			return
		}
	}
	t.Errorf("nothing runs out: %+v", p.Failed.Lapses)
}

// TestCosts_SpoilersWaitForWheelsOnWater: on standing water, with one leg alone that
// says "on the ground", the wheels turn late and the spoilers come only
// then; on a dry runway, or with all switches, they come at once. Nothing in the
// program knows of this: the book's logic meets the wheels of flight/roll.
func TestCosts_SpoilersWaitForWheelsOnWater(t *testing.T) {
	c := price(t, courseOf(t, "second_series"), islands(t), failing("cruise", 0, "weight_switch_left.stays_air", "weight_switch_nose.stays_air"), 0)
	spoilers := func(ident string, side func(*Place) *Side) (after, turn float64) {
		_, rolled, _ := side(placeNamed(t, c, ident)).Path().Landing()
		after = -1
		for _, e := range rolled.Events {
			if e.What == "wheels turn" {
				turn = e.Seconds
			}
			if e.What == "spoilers" && after < 0 {
				after = e.Seconds
			}
		}
		return after, turn
	}
	failed, healthy := func(p *Place) *Side { return &p.Failed }, func(p *Place) *Side { return &p.Healthy }
	late, turn := spoilers("QSME", failed)
	if at, _ := spoilers("QSME", healthy); at > 0.01 {
		t.Errorf("with all switches the spoilers come %v s after touchdown", at)
	}
	if dry, _ := spoilers("QSHP", failed); dry < 0 || dry > 1 {
		t.Errorf("on a dry runway the spoilers come %v s after touchdown", dry)
	}
	if turn < 1 || late < turn || late > turn+1 {
		t.Errorf("on standing water the wheels turn after %v s and the spoilers come after %v s", turn, late)
	}
	p := placeNamed(t, c, "QSME")
	if p.Failed.Landings[0].DistanceM <= p.Healthy.Landings[0].DistanceM {
		t.Errorf("late spoilers: %v m, in time: %v m", p.Failed.Landings[0].DistanceM, p.Healthy.Landings[0].DistanceM)
	}
}

// TestCosts_AreThoseOfTheWholeFlight is the slow, obvious way: the diversion is
// flown again from the start of the flight, as a path that is given; the effects
// of that run, read off moment by moment, roll the same landing.
func TestCosts_AreThoseOfTheWholeFlight(t *testing.T) {
	course, g := courseOf(t, ""), islands(t)
	rng := rand.New(rand.NewPCG(3, 26))
	for range 8 {
		units := course.Build.Units
		s := failing("climb", rng.Float64()*1200, units[rng.IntN(len(units))].ID, units[rng.IntN(len(units))].ID)
		c := price(t, course, g, s, 4)
		s.Strikes[0].At = book.Moment{Offset: c.At}
		for i := range c.Places {
			side := &c.Places[i].Failed
			if !side.Arrives {
				continue
			}
			whole, err := run.NewCourse(course.Build, course.Flight, run.Setting{Path: side.Path()})
			if err != nil {
				t.Fatal(err)
			}
			r, err := whole.Fly(context.Background(), s)
			if err != nil {
				t.Fatal(err)
			}
			l := side.Landings[0].Input
			l.Changes = changesOf(c.desk.aircraft, r, side.Path())
			slow, _, err := roll.Careful(l)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(slow.TotalM-side.Landings[0].DistanceM) > 0.01 {
				t.Errorf("%v to %s: %v m, flown from the start %v m", s.Strikes[0].Fail, c.Places[i].Airfield.Ident, side.Landings[0].DistanceM, slow.TotalM)
			}
		}
	}
}

// changesOf reads the devices off a record, sixty seconds from touchdown.
func changesOf(a *energy.Aircraft, r *run.Record, p *energy.Path) (list []roll.Change) {
	down, _, _ := p.Touchdown()
	turn, brake := 0.0, roll.Transition(0, 1)
	_, rolled, _ := p.Landing()
	for _, e := range rolled.Events {
		if e.What == "wheels turn" {
			turn = math.Ceil(e.Seconds*1e6-1e-3) / 1e6
		}
	}
	if turn > 0 {
		brake = max(brake, turn+a.SpinUpS)
	}
	var was [5]float64
	look := func(at book.Time) {
		c := r.Effects(a, at)
		now := [5]float64{c.GroundSpoilers, c.Brakes, 0, a.Idle, (c.Engines[0] + c.Engines[1]) / 2}
		if c.HighIdle {
			now[3] = a.HighIdle
		}
		if !c.AntiSkid {
			now[1] *= float64(roll.OnOff / roll.FullyModulating)
		}
		for i, on := range c.Reverse {
			if on {
				now[2] += c.Engines[i] / 2
			}
		}
		s := max(0, (at-down).Seconds()+1e-6)
		if at <= down {
			s = 0
		}
		for i, d := range []roll.Device{roll.Spoilers, roll.Brakes, roll.Reverse, roll.Levers, roll.Engines} {
			if now[i] != was[i] {
				first := []float64{0, brake, roll.Transition(0, 2), 0, 0}[i]
				list = append(list, roll.Change{Device: d, At: max(s, first), Over: []float64{1, 0.5, 2, 0, 0}[i], To: now[i]})
			}
		}
		was = now
	}
	look(down - 1)
	for _, at := range r.Instants() {
		if at >= down {
			look(at)
		}
	}
	return list
}

// TestCosts_RandomFailures: no failure of the book, whenever it comes, gives a
// number that is none, a reason without words or a panic; and the healthy side
// does not depend on what fails.
func TestCosts_RandomFailures(t *testing.T) {
	course, g := courseOf(t, "island_kit"), islands(t)
	rng := rand.New(rand.NewPCG(9, 9))
	ways := course.Circuit().Ways()
	for range 25 {
		at := book.AtSeconds(450 + rng.Float64()*5000)
		k := run.Strike{At: book.Moment{Offset: at}}
		for range 1 + rng.IntN(4) {
			k.Fail = append(k.Fail, ways[rng.IntN(len(ways))])
		}
		c := priceAt(t, course, g, run.Scenario{Strikes: []run.Strike{k}}, at, 3)
		v := c.View("random")
		text, err := json.Marshal(v) // fails for a number that is none
		if err != nil {
			t.Fatalf("%v: %v", k.Fail, err)
		}
		if !strings.Contains(string(text), book.Caution) {
			t.Fatal("no caution")
		}
		var b bytes.Buffer
		if err := WriteText(&b, v); err != nil || strings.Contains(b.String(), "NaN") || !strings.Contains(b.String(), book.Caution) {
			t.Fatalf("%v: %v\n%s", k.Fail, err, b.String())
		}
		for i := range c.Places {
			for _, s := range []*Side{&c.Places[i].Failed, &c.Places[i].Healthy} {
				if s.Minutes < 0 || s.FuelKg < 0 || s.Arrives && len(s.Landings) == 0 {
					t.Errorf("%v to %s: %+v", k.Fail, c.Places[i].Airfield.Ident, s)
				}
				for _, r := range s.Reasons {
					if r.Text == "" || r.Kind == "" {
						t.Errorf("%v: a reason without words", k.Fail)
					}
				}
			}
		}
	}
}

// TestAttribution_OneThingAloneIsAllOfIt: where one thing alone is different, it
// adds the same given back and taken, all that is added, and nothing is left.
func TestAttribution_OneThingAloneIsAllOfIt(t *testing.T) {
	course, g := courseOf(t, ""), islands(t)
	s := failing("cruise", 60, "brake_left")
	c := price(t, course, g, s, 2)
	a, ok, err := c.Attribute(context.Background(), c.Places[0].Airfield.Ident)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	v := a.View()
	if len(v.Parts) != 1 || v.Parts[0].ID != "brakes" {
		t.Fatalf("parts %+v", v.Parts)
	}
	p := v.Parts[0]
	if p.Back != p.Alone || p.Back.RequiredM <= 0 || v.Interaction != (Amounts{}) || p.Back != v.Failed.less(v.Healthy) {
		t.Errorf("back %+v, alone %+v, all %+v, left over %+v", p.Back, p.Alone, v.Failed.less(v.Healthy), v.Interaction)
	}
}

// TestAttribution_AddsUp: healthy, what each gives back and what is left over make
// the failed total; and the totals are those of the page.
func TestAttribution_AddsUp(t *testing.T) {
	s := headline()
	s.Strikes[0].Fail = append(s.Strikes[0].Fail, book.FailureRef{Unit: "flap_shaft"})
	c := price(t, courseOf(t, ""), islands(t), s, 0)
	a, _, err := c.Attribute(context.Background(), "QSKE")
	if err != nil {
		t.Fatal(err)
	}
	v := a.View()
	sum := v.Healthy
	for _, p := range v.Parts {
		sum = sum.plus(p.Back)
	}
	if sum = sum.plus(v.Interaction); sum != v.Failed {
		t.Errorf("adds up to %+v, not %+v", sum, v.Failed)
	}
	p := placeNamed(t, c, "QSKE")
	if math.Abs(a.Failed.RequiredM-p.Failed.Landings[0].RequiredM) > 0.01 || math.Abs(a.Failed.FuelKg-p.Failed.FuelKg) > 0.01 {
		t.Errorf("failed totals %+v, on the page %v m and %v kg", a.Failed, p.Failed.Landings[0].RequiredM, p.Failed.FuelKg)
	}
	named := map[string]bool{}
	for _, part := range v.Parts {
		named[part.ID] = len(part.Functions) > 0
	}
	for _, id := range []string{"anti_skid", "reverse", "level", "flaps"} {
		if !named[id] {
			t.Errorf("%s is not put down to a lost function", id)
		}
	}
}

func (m Amounts) plus(n Amounts) Amounts {
	return Amounts{round(m.FuelKg+n.FuelKg, 0), round(m.Minutes+n.Minutes, 1), round(m.RequiredM+n.RequiredM, 0)}
}

// TestBoundary_IsWhereTheReserveIsLeft: a kilometre nearer leaves more than the
// final reserve, a kilometre farther less; found again by halving.
func TestBoundary_IsWhereTheReserveIsLeft(t *testing.T) {
	ctx := context.Background()
	c := price(t, courseOf(t, ""), islands(t), headline(), 0)
	failed, healthy, err := c.Boundaries(ctx)
	if err != nil {
		t.Fatal(err)
	}
	h := c.desk.underWay(&c.Places[len(c.Places)-1].Failed)
	for i := 0; i < len(failed.Metres); i += 7 {
		lo, hi := 0.0, 5e6
		for hi-lo > 100 {
			mid := (lo + hi) / 2
			spare, err := c.desk.spareKg(ctx, h, float64(i)*10, mid)
			if err != nil {
				t.Fatal(err)
			}
			if spare > 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		if math.Abs(lo-failed.Metres[i]) > 1000 {
			t.Errorf("bearing %d: %v m, by halving %v m", i*10, failed.Metres[i], lo)
		}
		if failed.Metres[i] >= healthy.Metres[i] {
			t.Errorf("bearing %d: failed %v m, healthy %v m", i*10, failed.Metres[i], healthy.Metres[i])
		}
	}
	for _, hit := range failed.Reached(c.desk.region.Airfields) {
		if !failed.Within(hit.Line.Start, hit.Line.Metres) {
			t.Errorf("%s is not inside", hit.Airfield.Ident)
		}
	}
}

// TestWhen_IsTheLastGoodMoment: half a minute later the airfield is no good any
// more.
func TestWhen_IsTheLastGoodMoment(t *testing.T) {
	ctx := context.Background()
	course, g := courseOf(t, ""), islands(t)
	c := price(t, course, g, headline(), 1)
	list, err := c.When(ctx, g, Question{Scenario: headline(), Rule: c.Rule})
	if err != nil {
		t.Fatal(err)
	}
	l := list[0]
	if !l.Ever || l.Always || l.At <= c.At {
		t.Fatalf("%+v", l)
	}
	before := priceAt(t, course, g, headline(), l.At, 13)
	after := priceAt(t, course, g, headline(), l.At+lookFine, 13)
	ident := l.Airfield.Ident
	if !placeNamed(t, before, ident).Failed.Good() || placeNamed(t, after, ident).Failed.Good() {
		t.Errorf("%s: good then %v, half a minute later %v", ident, placeNamed(t, before, ident).Failed.Good(), placeNamed(t, after, ident).Failed.Good())
	}
}

func TestOf_SaysWhatCannotBePriced(t *testing.T) {
	ctx := context.Background()
	course, g := courseOf(t, ""), islands(t)
	rule, _ := fuel.Named("icao")
	for name, q := range map[string]struct {
		region *region.Region
		at     book.Time
		says   string
	}{
		"on the ground": {g, 0, "on the ground"},
		"after the end": {g, 1e12, "flight ends"},
		"elsewhere":     {&region.Region{Airfields: g.Airfields.Where(func(a airfield.Airfield) bool { return a.Ident != "QSVA" })}, 600 * book.Second, "do not have both"},
	} {
		_, err := Of(ctx, course, q.region, Question{Scenario: headline(), At: q.at, Rule: rule})
		if err == nil || !strings.Contains(err.Error(), q.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestOf_InTheApproachOnlyTheRunwayAheadIsLeft.
func TestOf_InTheApproachOnlyTheRunwayAheadIsLeft(t *testing.T) {
	course, g := courseOf(t, ""), islands(t)
	c := price(t, course, g, failing("final", 5, "brake_left"), 0)
	if !c.Landing || len(c.Places) != 1 || !c.Places[0].Own || !c.Places[0].Failed.Arrives {
		t.Fatalf("%v, %d places", c.Landing, len(c.Places))
	}
	if c.Places[0].Failed.Landings[0].DistanceM <= c.Places[0].Healthy.Landings[0].DistanceM {
		t.Error("a brake that is lost costs nothing")
	}
}

// Once the approach has begun nothing can be put off, and it says so.
func TestWhen_SaysThatTheApproachHasBegun(t *testing.T) {
	course, g := courseOf(t, ""), islands(t)
	at, err := course.Resolve(context.Background(), book.Moment{Phase: "final", Offset: 10 * book.Second})
	if err != nil {
		t.Fatal(err)
	}
	rule, _ := fuel.Named("european")
	q := Question{Scenario: headline(), At: at, Rule: rule, Most: 5}
	c, err := Of(context.Background(), course, g, q)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := c.When(context.Background(), g, q); !errors.Is(err, ErrBegun) {
		t.Errorf("%v, want ErrBegun", err)
	}
}

// TestOf_AFlightWithoutEndsSaysWhatToAdd: the error is about the book, and names
// the lines that it lacks.
func TestOf_AFlightWithoutEndsSaysWhatToAdd(t *testing.T) {
	course := courseOf(t, "")
	flight := *course.Flight
	course.Flight, flight.From, flight.To = &flight, "", ""
	rule, _ := fuel.Named("icao")
	_, err := Of(context.Background(), course, islands(t), Question{Scenario: headline(), At: 600 * book.Second, Rule: rule})
	var ends *region.NoEnds
	if !errors.As(err, &ends) || ends.Named {
		t.Fatal(err)
	}
	for _, says := range []string{`from = "`, `to = "`, "--airfields", flight.ID} {
		if !strings.Contains(err.Error(), says) {
			t.Errorf("%v does not say %s", err, says)
		}
	}
}

// TestCosts_BrakesThatTakeTooMuch: a landing that the brakes cannot take speaks against a
// place, and only where the book gives a limit that is passed.
func TestCosts_BrakesThatTakeTooMuch(t *testing.T) {
	for _, most := range []float64{20, 1000} {
		b := *corvane.Build(t, "")
		a := *b.Aircraft
		a.Numbers = slices.DeleteFunc(slices.Clone(a.Numbers), func(n book.Named) bool { return n.Name == "max_brake_energy_mj" })
		a.Numbers = append(a.Numbers, book.Named{Name: "max_brake_energy_mj", Value: most})
		b.Aircraft = &a
		c, err := run.NewCourse(&b, nil, run.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range price(t, c, islands(t), failing("cruise", 60, "waste_blower"), 3).Places {
			for _, s := range []*Side{&p.Failed, &p.Healthy} {
				if has(s, Brakes) != (most == 20) {
					t.Errorf("at most %g MJ at %s: %v", most, p.Airfield.Ident, s.Reasons)
				}
			}
		}
	}
}
