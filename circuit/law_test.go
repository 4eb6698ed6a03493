package circuit_test

import (
	"fmt"
	"math"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/checks"
)

// worth is a number of the book language, with numbers filled in.
func worth(t testing.TB, form string, n ...any) float64 {
	t.Helper()
	c := compile(t, "signal \"x\" { value = "+fmt.Sprintf(form, n...)+" }")
	x, _ := c.Node(circuit.Value{Item: "x"})
	m := circuit.NewMachine(circuit.NewCourse(c, air{}, knots(), 0), nil, nil)
	if _, _, err := m.Instant(0, nil); err != nil {
		t.Fatal(err)
	}
	return m.Value(x)
}

// in makes a check of a form in the book language into which the numbers of a row
// go, in their order or by [n].
func in(t testing.TB, form string) checks.How {
	return checks.Of(func(n []float64) float64 {
		args := make([]any, len(n))
		for i, x := range n {
			args[i] = x
		}
		return worth(t, "%s", fmt.Sprintf(form, args...))
	})
}

// TestLaws_AirData holds what the language says of pitot and static pressure to
// values worked independently.
func TestLaws_AirData(t *testing.T) {
	const (
		trapped = "static_pressure(%[1]f) + impact_pressure(%[2]f)"
		stalls  = "airspeed_held(%[1]f * %[3]f * 9.80665 / (125 * %[2]f) / 100, static_pressure(0))"
		late    = "(%[3]f - %[1]f * %[2]f / 60)"
		leak    = "%[1]f * (static_pressure(%[3]f) - static_pressure(%[2]f))"
	)
	rise := "size(airspeed_of(" + trapped + " - static_pressure(%[1]f + 0.1)) - %[2]f) * 10000"
	checks.Run(t, "air-data", map[string]checks.How{
		"airspeed shown, tube and drain closed, kt":                        in(t, "airspeed_of("+trapped+" - static_pressure(%[3]f))"),
		"Mach number shown, tube and drain closed":                         in(t, "mach_of("+trapped+" - static_pressure(%[3]f), static_pressure(%[3]f))"),
		"altitude at which it falls to nothing, tube and drain closed, ft": in(t, "altitude_of("+trapped+")"),
		"rise at the start, tube and drain closed, kt per 1000 ft":         in(t, rise),
		"impact pressure, Pa":                                              in(t, "100 * impact_pressure(%[1]f)"),
		"airspeed shown, ports closed, kt":                                 in(t, "airspeed_of(impact_pressure(%[2]f) + static_pressure(%[3]f) - static_pressure(%[1]f))"),
		"altitude at which it falls to nothing, ports closed, ft":          in(t, "altitude_of(static_pressure(%[1]f) - impact_pressure(%[2]f))"),
		"altitude shown, ports closed, ft":                                 in(t, "altitude_of(static_pressure(%[1]f))"),
		"altitude lag, ft":                                                 in(t, "%[3]f - "+late),
		"static error, Pa":                                                 in(t, "100 * (static_pressure("+late+") - static_pressure(%[3]f))"),
		"airspeed shown, lagging, kt":                                      in(t, "airspeed_of(impact_pressure(%[4]f) + static_pressure(%[3]f) - static_pressure("+late+"))"),
		"altitude shown, leak from the cabin, ft":                          in(t, "altitude_of(static_pressure(%[2]f) + "+leak+")"),
		"airspeed shown, leak from the cabin, kt":                          in(t, "airspeed_of(impact_pressure(%[4]f) - "+leak+")"),
		"altitude error, alternate static, ft":                             in(t, "altitude_of(static_pressure(%[2]f) - %[1]f * impact_pressure(%[3]f)) - %[2]f"),
		"airspeed shown, alternate static, kt":                             in(t, "airspeed_of(impact_pressure(%[3]f) * (1 + %[1]f))"),
		"static error, Pa, of an altitude error":                           in(t, "100 * (static_pressure(%[1]f) - static_pressure(%[1]f + %[2]f))"),
		"stall speed at sea level, kt":                                     in(t, stalls),
		"stall speed at sea level, of that in level flight":                in(t, stalls+" / airspeed_held(%[1]f * 9.80665 / (125 * %[2]f) / 100, static_pressure(0))"),
		"stall speed, greatest lift 1.4 (1 - 0.9 (M - 0.3)), kt":           checks.Of(func(n []float64) float64 { return machStall(t, n[0], n[1], n[2]) }),
	})
}

// machStall is the speed that holds the weight at the lift that is left at its own
// Mach number, gone towards until it stands.
func machStall(t testing.TB, kg, ft, load float64) float64 {
	kt, lift := 0.0, 1.4
	for range 40 {
		kt = worth(t, "airspeed_held(%f * %f * 9.80665 / (125 * %f) / 100, static_pressure(%f))", kg, load, lift, ft)
		mach := worth(t, "mach_of(impact_pressure(%f), static_pressure(%f))", kt, ft)
		lift = (lift + min(1.4, 1.4*(1-0.9*(mach-0.3)))) / 2
	}
	return kt
}

// TestLaws_StayWithinTheirRange holds each law, far outside, to the value of the
// edge, so that nothing is infinite or not a number.
func TestLaws_StayWithinTheirRange(t *testing.T) {
	for form, want := range map[string]float64{
		"airspeed_of(-5)":                            0,
		"airspeed_of(900000000000000)":               661.4786,
		"impact_pressure(-200)":                      0,
		"airspeed_of(impact_pressure(900000000000))": 661.4786,
		"altitude_of(-900000000000000)":              100000,
		"altitude_of(900000000000000)":               -10000,
		"mach_of(900000000000000, 0.000000001)":      1,
		"mach_of(-1, 0)":                             0,
		"airspeed_held(-1, 500)":                     0,
		"airspeed_held(900000000000000, 1013.25)":    661.4786,
		"root_of(-4)":                                0,
		"root_of(16)":                                4,
	} {
		if got := worth(t, "%[1]s", form); math.Abs(got-want) > 1e-4 {
			t.Errorf("%s: got %g, want %g", form, got, want)
		}
	}
}

// TestCrossing_OfALaw finds where an airspeed behind closed ports passes a level, to
// the microsecond, whatever the step.
func TestCrossing_OfALaw(t *testing.T) {
	c := compile(t, `signal "slow" { value = airspeed_of(impact_pressure(real.airspeed_kt) + static_pressure(real.altitude_ft) - static_pressure(0)) < 203.7 }`)
	a := air{
		"altitude_ft": func(s float64) float64 { return 20 * s },
		"airspeed_kt": func(float64) float64 { return 250 },
	}
	at := func(s float64) float64 {
		return worth(t, "airspeed_of(impact_pressure(250) + static_pressure(%f) - static_pressure(0))", 20*s)
	}
	for _, step := range steps {
		got := spans(t, flown(t, c, a, step, nil), "slow")
		if len(got) != 1 || at(got[0].From.Seconds()) >= 203.7 || at((got[0].From-book.Second/1000).Seconds()) < 203.7 {
			t.Fatalf("step %v s: got %v", step.Seconds(), got)
		}
		if want := 50.0; math.Abs(got[0].From.Seconds()-want) > 0.1 {
			t.Errorf("step %v s: at %g s, want about %g s", step.Seconds(), got[0].From.Seconds(), want)
		}
	}
}

// TestCrossing_OfNumbersThatAreAlike holds three heights against each other that are
// worked out alike until one is held back: what parts them then is found where one
// that was never alike is.
func TestCrossing_OfNumbersThatAreAlike(t *testing.T) {
	c := compile(t, `
		signal "stuck" { value = real.time_s >= 50 }
		signal "first" { value = altitude_of(frozen(static_pressure(real.altitude_ft), stuck)) }
		signal "second" { value = altitude_of(stuck ? static_pressure(real.altitude_ft) * 0.5 + static_pressure(real.altitude_ft) * 0.5 : static_pressure(real.altitude_ft)) }
		signal "apart" { value = size(first - second) > 300 }
		signal "plain" { value = size(altitude_of(frozen(static_pressure(real.altitude_ft), stuck)) - real.altitude_ft) > 300 }
	`)
	a := air{"altitude_ft": func(s float64) float64 { return 20 * s }}
	for _, step := range steps {
		record := flown(t, c, a, step, nil)
		got, want := spans(t, record, "apart"), spans(t, record, "plain")
		if len(want) != 1 || math.Abs(want[0].From.Seconds()-65) > 0.01 {
			t.Fatalf("step %v s: %v, want from 65 s", step.Seconds(), want)
		}
		if len(got) != 1 || max(got[0].From-want[0].From, want[0].From-got[0].From) > 10 {
			t.Errorf("step %v s: got %v, want %v", step.Seconds(), got, want)
		}
	}
}
