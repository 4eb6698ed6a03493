package energy

import (
	"math"
	"testing"

	"knockon/book"
)

// winds is a mission of the demonstration with other winds.
func winds(t *testing.T, aloft, from, to float64) *Mission {
	t.Helper()
	m := *demoMissions(t)[1]
	m.plan.Wind, m.fromKt, m.home.HeadwindKt = func(float64) float64 { return aloft }, from, to
	return &m
}

// TestReject_TheWindOfTheRunway: a take-off roll and its stop feel the wind of the
// runway, and none of that aloft, to the digit: over the ground it is as much slower
// as the wind blows from ahead, and stops the shorter.
func TestReject_TheWindOfTheRunway(t *testing.T) {
	last := 0.0
	for _, surface := range []float64{20, 9, 0, -8} {
		took := math.NaN()
		for _, aloft := range []float64{35, 0, -60} {
			p := winds(t, aloft, surface, 0).Fly(takeOff())
			at := when(t, p, func(x book.Time) bool { return p.of("airspeed_kt", x) >= 105 })
			q := p.Turn(at, Turn{Kind: Rejecting}, takeOff())
			within(t, "wind over the runway", p.of("true_airspeed_kt", at)-p.of("ground_speed_kt", at), surface, 1e-3)
			l, _, _ := q.Landing()
			if l.Runway.HeadwindKt != surface {
				t.Errorf("the roll has %g kt, the runway %g kt", l.Runway.HeadwindKt, surface)
			}
			metres, ok := q.RejectedM()
			if !ok || aloft != 35 && metres != took {
				t.Errorf("%g kt on the runway, %g kt aloft: %.3f m, before %.3f m", surface, aloft, metres, took)
			}
			took = metres
		}
		if took <= last {
			t.Errorf("%g kt: %.0f m, with more from ahead %.0f m", surface, took, last)
		}
		last = took
	}
}

// TestReject_TheStateOfTheRunway: each lower code takes longer, as in AC 25-32.
func TestReject_TheStateOfTheRunway(t *testing.T) {
	last := 0.0
	for _, code := range []float64{6, 5, 4, 3, 2, 1} {
		m := winds(t, 10, 0, 0)
		m.fromCode = codeOf(&book.Flight{Numbers: []book.Named{{Name: "from_runway_code", Value: code}}}, "from_runway_code")
		p := m.Fly(takeOff())
		at := when(t, p, func(x book.Time) bool { return p.of("airspeed_kt", x) >= 90 })
		metres, ok := p.Turn(at, Turn{Kind: Rejecting}, takeOff()).RejectedM()
		if !ok || metres <= last {
			t.Errorf("code %g: %.0f m, the one above %.0f m", code, metres, last)
		}
		last = metres
	}
}

// TestMission_TheWindGoesOver: on the way up and down the wind is the rule's at each
// height (common practice: straight from the runway to 2,000 ft above it), and without
// a jump at lift-off and touchdown.
func TestMission_TheWindGoesOver(t *testing.T) {
	p := crewed(winds(t, 40, 4, -6))
	for at := book.Time(0); at < p.End(); at += book.Second {
		height, surface := p.of("height_ft", at), 4.0
		if p.of("to_go_nm", at) < 6 { // the middle half of the way lies behind
			surface = -6
		} else if p.of("distance_nm", at) > 6 {
			continue
		}
		want := surface + (40-surface)*min(height/2000, 1)
		within(t, "wind", p.of("headwind_kt", at), want, 0.02)
		if p.InAir(at) {
			within(t, "over the ground", p.of("ground_speed_kt", at), p.of("true_airspeed_kt", at)-want, 0.5)
		}
	}
	down, _, _ := p.Touchdown()
	l, _, _ := p.Landing()
	if l.Runway.HeadwindKt != -6 {
		t.Errorf("the landing has %g kt", l.Runway.HeadwindKt)
	}
	within(t, "just before it", p.of("headwind_kt", down-1), -6, 0.02)
}

func within(t *testing.T, what string, got, want, by float64) {
	t.Helper()
	if math.Abs(got-want) > by {
		t.Errorf("%s: %.4f, want %.4f within %g", what, got, want, by)
	}
}
