package energy

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"knockon/book"
	"knockon/flight"
	"knockon/internal/corvane"
)

// demoMissions are the flights of the demonstration book.
func demoMissions(tb testing.TB) []*Mission {
	tb.Helper()
	build := corvane.Build(tb, "")
	var list []*Mission
	for _, f := range build.Flights {
		m, err := NewMission(f, build.Aircraft)
		if err != nil {
			tb.Fatal(err)
		}
		list = append(list, m)
	}
	return list
}

func (p *Path) of(name string, t book.Time) float64 { return p.Value(quantities[name], t) }

// crewed flies a mission with gear and flaps moved as a crew does.
func crewed(m *Mission) *Path {
	c := Clean()
	c.GearOut, c.Setting, c.Reverse = true, 1, [2]bool{true, true}
	p := m.Fly(c)
	move := func(when func(t book.Time) bool, do func()) {
		for t := book.Time(0); t < p.End(); t += book.Second / 4 {
			if when(t) {
				do()
				p = p.Leave(t, c)
				return
			}
		}
	}
	airborne := func(t book.Time) bool { return p.of("on_ground", t) == 0 }
	near := func(nm float64) func(book.Time) bool {
		return func(t book.Time) bool { return airborne(t) && p.of("to_go_nm", t) < nm }
	}
	move(func(t book.Time) bool { return airborne(t) && p.of("height_ft", t) > 80 }, func() { c.GearOut = false })
	move(func(t book.Time) bool { return airborne(t) && p.of("airspeed_kt", t) > 180 }, func() { c.Setting = 0 })
	move(near(10), func() { c.Setting = 1 })
	move(near(7.5), func() { c.Setting = 2 })
	move(near(6.5), func() { c.GearOut = true })
	move(near(5), func() { c.Setting = 3 })
	move(func(t book.Time) bool { return p.of("to_go_nm", t) < 0.01 && !airborne(t) }, func() { c.GroundSpoilers = 1 })
	return p
}

// TestQuantities: the places used here are those of the book.
func TestQuantities(t *testing.T) {
	for i, name := range map[int]string{qTimeS: "time_s", qOnGround: "on_ground", qWheelSpeedKt: "wheel_speed_kt", qIcing: "icing", qThrustPct: "thrust_pct", qToGoNm: "to_go_nm", qBraking: "braking", qRunwayWet: "runway_wet"} {
		if book.Quantities[i].Name != name {
			t.Errorf("%d is %s, not %s", i, book.Quantities[i].Name, name)
		}
	}
	if len(book.Quantities) != qRunwayWet+1 {
		t.Errorf("the book has %d quantities, the path %d", len(book.Quantities), qRunwayWet+1)
	}
}

// TestMission_FliesAsTheBookSays: over the distance, at the level and the
// speeds of the book, to a stop.
func TestMission_FliesAsTheBookSays(t *testing.T) {
	for _, m := range demoMissions(t) {
		p := crewed(m)
		if p.Ending() != Arrived || p.of("ground_speed_kt", p.End()) > 0.02 {
			t.Fatalf("it %v at %.2f kt", p.Ending(), p.of("ground_speed_kt", p.End()))
		}
		var off, on, top float64
		air := false
		for x := book.Time(0); x <= p.End(); x += book.Second / 2 {
			ground := p.of("on_ground", x) != 0
			if !ground && !air {
				off = p.of("distance_nm", x)
			}
			if ground && air {
				on = p.of("distance_nm", x)
			}
			air = !ground
			top = max(top, p.of("altitude_ft", x))
			if kt := p.of("airspeed_kt", x); kt > m.a.MaxKt+1 || air && p.of("altitude_ft", x) < 9900 && kt > 251 {
				t.Fatalf("%.0f kt at %.0f ft", kt, p.of("altitude_ft", x))
			}
		}
		if want := m.distanceM / 1852; math.Abs(on-off-want) > 1.2 {
			t.Errorf("%.2f nm from lift-off to touchdown, not %.2f", on-off, want)
		}
		if math.Abs(top-m.plan.CruiseFt) > 5 {
			t.Errorf("it goes up to %.0f ft, not %.0f", top, m.plan.CruiseFt)
		}
	}
}

// TestMission_QuantitiesHoldTogether, by definition: mass and fuel, height and
// altitude, Mach number and airspeed; and the rates are those of the values.
func TestMission_QuantitiesHoldTogether(t *testing.T) {
	m := demoMissions(t)[0]
	p := crewed(m)
	air := m.plan.Air
	knots := p.Knots()
	inside := func(x book.Time) bool {
		for _, k := range knots {
			if x-book.Second/2 < k && k < x+book.Second/2 {
				return false
			}
		}
		return true
	}
	empty := m.massKg - m.fuelKg
	for x := book.Second; x < p.End()-book.Second; x += 3*book.Second + 1 {
		if d := p.of("mass_kg", x) - p.of("fuel_kg", x) - empty; math.Abs(d) > 1e-6 {
			t.Fatalf("%.1f s: mass less fuel is off by %g kg", x.Seconds(), d)
		}
		ft, mach := p.of("altitude_ft", x), p.of("mach", x)
		if d := flight.CASOfMach(mach, ft) - p.of("airspeed_kt", x); math.Abs(d) > 1e-6 {
			t.Fatalf("%.1f s: airspeed and Mach number are apart by %g kt", x.Seconds(), d)
		}
		if d := air.TASOfMach(mach, ft) - p.of("true_airspeed_kt", x); math.Abs(d) > 1e-6 {
			t.Fatalf("%.1f s: true airspeed is off by %g kt", x.Seconds(), d)
		}
		if !inside(x) {
			continue
		}
		const h = book.Second / 100
		rate := func(name string) float64 { return (p.of(name, x+h) - p.of(name, x-h)) / (2 * h).Seconds() }
		if d := rate("altitude_ft")*60 - p.of("vertical_speed_ft_per_min", x); math.Abs(d) > 0.5 {
			t.Fatalf("%.1f s: vertical speed is off by %g ft/min", x.Seconds(), d)
		}
		if d := rate("distance_nm")*3600 - p.of("ground_speed_kt", x); math.Abs(d) > 0.05 {
			t.Fatalf("%.1f s: ground speed is off by %g kt", x.Seconds(), d)
		}
	}
}

// TestMission_YesAndNoChangeAtKnotsOnly, and numbers that run on do not jump. At
// touchdown the speed is that of the landing distance, which counts on less loss of
// speed in the flare than there was.
func TestMission_YesAndNoChangeAtKnotsOnly(t *testing.T) {
	for _, m := range demoMissions(t) {
		p := crewed(m)
		knots := p.Knots()
		for i, k := range knots[1:] {
			a, b := knots[i], k
			for q, v := range book.Quantities {
				if v.Type != book.YesNo {
					continue
				}
				for _, x := range []book.Time{a + (b-a)/3, a + (b-a)/2, b - 1} {
					if x > a && p.Value(q, x) != p.Value(q, a) {
						t.Errorf("%s changes between the knots %d and %d", v.Name, a, b)
					}
				}
			}
			for name, most := range map[string]float64{"altitude_ft": 0.02, "airspeed_kt": 0.02, "distance_nm": 1e-5, "mass_kg": 1e-3, "ground_speed_kt": 0.02} {
				touch := p.of("on_ground", b) > p.of("on_ground", b-1) && strings.HasSuffix(name, "speed_kt")
				if d := p.of(name, b) - p.of(name, b-1); math.Abs(d) > most && !(touch && d > 0 && d < 15) {
					t.Errorf("%s jumps by %g at %d", name, d, b)
				}
			}
		}
	}
}

// TestPath_LeaveKeepsWhatWas, to the last bit, and leaving with the same
// configuration changes hardly anything.
func TestPath_LeaveKeepsWhatWas(t *testing.T) {
	m := demoMissions(t)[0]
	p := crewed(m)
	c := Clean()
	for _, share := range []book.Time{5, 20, 50, 80, 95, 99} {
		at := p.End() / 100 * share
		other := c
		other.GearOut, other.ExtraDrag = true, 0.01
		q := p.Leave(at, other)
		for i := range book.Quantities {
			for _, x := range []book.Time{0, at / 3, at - 1, at} {
				if a, b := p.Value(i, x), q.Value(i, x); a != b {
					t.Errorf("left at %d: %s at %d is %g, was %g", at, book.Quantities[i].Name, x, b, a)
				}
			}
			if v := book.Quantities[i]; v.Type == book.YesNo && p.Value(i, at) != q.Value(i, at+1) && share != 99 {
				t.Errorf("left at %d: %s jumps", at, v.Name)
			}
		}
	}
	at := p.End() / 2 // in the cruise, where the crew's configuration is the clean one
	c.Reverse = [2]bool{true, true}
	q := p.Leave(at, c)
	for _, name := range []string{"altitude_ft", "airspeed_kt", "fuel_kg", "distance_nm"} {
		if a, b := p.of(name, at+600*book.Second), q.of(name, at+600*book.Second); math.Abs(a-b) > 1e-3*math.Abs(a)/10 {
			t.Errorf("%s ten minutes after nothing changed: %g, was %g", name, b, a)
		}
	}
}

// TestMission_StopsShorterWithMore: brakes, spoilers, reverse and the anti-skid
// each shorten the landing roll.
func TestMission_StopsShorterWithMore(t *testing.T) {
	m := demoMissions(t)[1]
	p := crewed(m)
	down := book.Time(0)
	for x := p.End(); x > 0; x -= book.Second / 10 {
		if p.of("on_ground", x) == 0 {
			down = x + book.Second/10
			break
		}
	}
	all := Clean()
	all.GearOut, all.Setting, all.GroundSpoilers, all.Reverse = true, 3, 1, [2]bool{true, true}
	roll := func(c Config, kt float64) float64 {
		q := p.Leave(down, c)
		for x := down; x <= q.End(); x += book.Second / 10 {
			if q.of("ground_speed_kt", x) < kt {
				return q.of("distance_nm", x) - q.of("distance_nm", down)
			}
		}
		return math.Inf(1)
	}
	best := roll(all, 20)
	for name, take := range map[string]func(*Config){
		"brakes": func(c *Config) { c.Brakes = 0.1 }, "anti-skid": func(c *Config) { c.AntiSkid, c.Brakes = false, 0.5 },
	} {
		c := all
		take(&c)
		if got := roll(c, 20); got <= best*1.02 {
			t.Errorf("without %s %.3f nm, with everything %.3f", name, got, best)
		}
	}
	bare := all
	bare.Brakes, bare.GroundSpoilers, bare.Reverse = 0, 0, [2]bool{}
	none := roll(bare, 85)
	for name, put := range map[string]func(*Config){
		"spoilers": func(c *Config) { c.GroundSpoilers = 1 }, "reverse": func(c *Config) { c.Reverse = [2]bool{true, true} }, "brakes": func(c *Config) { c.Brakes = 1 },
	} {
		c := bare
		put(&c)
		if got := roll(c, 85); got >= none {
			t.Errorf("with %s alone %.3f nm, with nothing %.3f", name, got, none)
		}
	}
}

// TestNewMission_SaysWhatIsWrong.
func TestNewMission_SaysWhatIsWrong(t *testing.T) {
	build := corvane.Build(t, "")
	f := *build.Flights[0]
	var missing *Missing
	if _, err := NewMission(&f, &book.Aircraft{}); !errors.As(err, &missing) {
		t.Errorf("without coefficients: %v", err)
	}
	a, err := Decode(build.Aircraft)
	if err != nil {
		t.Fatal(err)
	}
	heavy, most := f, a.MaxTakeoffMassKg
	heavy.Numbers = append([]book.Named{{Name: "takeoff_mass_kg", Value: most + 1000}}, f.Numbers...)
	if _, err := NewMission(&heavy, build.Aircraft); err == nil || !strings.Contains(err.Error(), fmt.Sprintf("max_takeoff_mass_kg of %.0f", most)) {
		t.Errorf("too heavy: %v", err)
	}
	if _, err := NewMission(nil, build.Aircraft); err == nil {
		t.Error("no flight was flown")
	}
}
