package smooth

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/flight/air"
)

// apart is by how much two worths differ, as a part of the larger of the sum and 1
// (docs/meaning.md, section 4).
func apart(got, want float64) float64 { return math.Abs(got-want) / max(math.Abs(want), 1) }

// whole solves an equation over so many stretches.
func whole(k Knots, rate Rate, v float64, stretches int) (list []Arc) {
	for at, end := book.Time(0), book.Time(stretches)*stretch; at < end; {
		list = k.Arcs(list, rate, at, k.StretchEnd(at, book.Never), v)
		at, v = list[len(list)-1].To, list[len(list)-1].End
	}
	return list
}

// TestArcs_AreTheClosedForms: equations with a known solution.
func TestArcs_AreTheClosedForms(t *testing.T) {
	for _, c := range []struct {
		what string
		v    float64
		rate func(s, v float64) float64
		is   func(s float64) float64
	}{
		{"decay", 800, func(_, v float64) float64 { return -0.05 * v }, func(s float64) float64 { return 800 * math.Exp(-0.05*s) }},
		{"fast decay", 800, func(_, v float64) float64 { return -3 * (v - 5) }, func(s float64) float64 { return 5 + 795*math.Exp(-3*s) }},
		{"growth", 1, func(_, v float64) float64 { return 0.02 * v }, func(s float64) float64 { return math.Exp(0.02 * s) }},
		{"a sum that reads time alone", 3, func(s, _ float64) float64 { return math.Cos(s / 9) }, func(s float64) float64 { return 3 + 9*math.Sin(s/9) }},
		{"logistic", 1, func(_, v float64) float64 { return 0.1 * v * (1 - v/50) }, func(s float64) float64 { return 50 / (1 + 49*math.Exp(-0.1*s)) }},
		{"a root that runs out", 100, func(_, v float64) float64 { return -0.1 * math.Sqrt(max(v, 0)) }, func(s float64) float64 { r := max(10-s/20, 0); return r * r }},
		{"what follows a ramp", 0, func(s, v float64) float64 { return 2 * (s - v) }, func(s float64) float64 { return s - 0.5 + 0.5*math.Exp(-2*s) }},
	} {
		t.Run(c.what, func(t *testing.T) {
			list := whole(nil, func(at book.Time, v float64) float64 { return c.rate(at.Seconds(), v) }, c.v, 5)
			for at := book.Time(0); at <= 5*stretch; at += 61_803 {
				if got, want := list[ArcAt(list, at)].At(at), c.is(at.Seconds()); apart(got, want) > 1e-9 {
					t.Fatalf("at %v s: %.12g, want %.12g", at.Seconds(), got, want)
				}
			}
		})
	}
}

// steps solves the same in the slow way, by the classical method of Runge and Kutta
// in even steps.
func steps(rate Rate, a, b book.Time, v float64, n int) float64 {
	for i := range n {
		from, to := a+(b-a)*book.Time(i)/book.Time(n), a+(b-a)*book.Time(i+1)/book.Time(n)
		h, mid := (to - from).Seconds(), from+(to-from)/2
		k1 := rate(from, v)
		k2 := rate(mid, v+h/2*k1)
		k3 := rate(mid, v+h/2*k2)
		k4 := rate(to, v+h*k3)
		v += h / 6 * (k1 + 2*k2 + 2*k3 + k4)
	}
	return v
}

// cabin is air that leaks out of a cabin on the way up and down, and is let in.
func cabin(hole, inflow, set float64) Rate {
	return func(at book.Time, v float64) float64 {
		s := at.Seconds()
		out := air.StaticHPa(2000 + 15000*(1-math.Cos(s/90)))
		return min(843.94/200*(inflow-hole*air.AirThrough(v, out)), 0.1*(set-v))
	}
}

// TestArcs_AreManySmallSteps: a rate with corners, which dies away fast, in each
// stretch beside four thousand steps.
func TestArcs_AreManySmallSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 0))
	for range 12 {
		rate := cabin(0.0005+0.03*r.Float64(), 0.6*r.Float64(), 700+300*r.Float64())
		list := whole(nil, rate, 600+400*r.Float64(), 12)
		from, v := book.Time(0), list[0].Base
		for _, a := range list {
			if v = steps(rate, a.From, a.To, v, max(8, int((a.To-a.From)*4096/stretch))); a.To%stretch != 0 {
				continue
			}
			if apart(a.End, v) > 2e-9 { // a stretch is twice sixteen seconds
				t.Errorf("from %v to %v s: %.12g, want %.12g", from.Seconds(), a.To.Seconds(), a.End, v)
			}
			from, v = a.To, a.End
		}
	}
}

// TestArcs_TakeWhatARateJumpsToAtAKnot: the piece before it does not.
func TestArcs_TakeWhatARateJumpsToAtAKnot(t *testing.T) {
	k := Knots{0, 10 * book.Second, 20 * book.Second}
	list := whole(k, func(at book.Time, v float64) float64 {
		if at >= 10*book.Second {
			return -3 - 0*v
		}
		return 2
	}, 1, 1)
	for _, want := range []struct {
		at book.Time
		is float64
	}{{5 * book.Second, 11}, {10 * book.Second, 21}, {15 * book.Second, 6}} {
		if got := list[ArcAt(list, want.at)].At(want.at); apart(got, want.is) > 1e-12 {
			t.Errorf("at %v s: %g, want %g", want.at.Seconds(), got, want.is)
		}
	}
}

// TestArcs_OfAFewMicroseconds: pieces so short that moments in them fall together.
func TestArcs_OfAFewMicroseconds(t *testing.T) {
	for short := book.Time(1); short < 3*asALine; short++ {
		a := 7 * book.Second
		k := Knots{0, a + short, 20 * book.Second}
		list := k.Arcs(nil, func(_ book.Time, v float64) float64 { return -0.3 * v }, a, a+short, 500)
		if got, want := list[len(list)-1].End, 500*math.Exp(-0.3*short.Seconds()); apart(got, want) > 1e-9 {
			t.Errorf("%d microseconds: %.15g, want %.15g", short, got, want)
		}
	}
}

// TestArcs_EndWhateverTheRate: what jumps, or runs away, comes to something finite.
func TestArcs_EndWhateverTheRate(t *testing.T) {
	for i, rate := range []Rate{
		func(_ book.Time, v float64) float64 { return 1e300 * v },
		func(_ book.Time, v float64) float64 { return v * v },
		func(at book.Time, v float64) float64 { return 1e6 * (math.Floor(v) - v + at.Seconds()) },
	} {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			list := Knots(nil).Arcs(nil, func(at book.Time, v float64) float64 { return Finite(rate(at, v)) }, 0, book.Second, 1)
			if end := list[len(list)-1].End; end != Finite(end) {
				t.Errorf("comes to %g", end)
			}
		})
	}
}

// TestArcs_BeginRightBeforeAKnot: a flight may turn a microsecond after an instant, and
// the sum goes on from there as from anywhere.
func TestArcs_BeginRightBeforeAKnot(t *testing.T) {
	rate := func(_ book.Time, v float64) float64 { return -0.05 * v }
	for gap := book.Time(1); gap < 400; gap++ {
		k := Knots{0, gap, 5 * stretch}
		list := whole(k, rate, 800, 2)
		for _, at := range []book.Time{gap / 2, gap, 3 * gap, book.Second, 2 * stretch} {
			if got, want := list[ArcAt(list, at)].At(at), 800*math.Exp(-0.05*at.Seconds()); !(apart(got, want) < 1e-9) {
				t.Fatalf("a knot after %d µs, at %v s: %.12g, want %.12g", gap, at.Seconds(), got, want)
			}
		}
	}
}
