package circuit_test

import (
	"math"
	"testing"

	"knockon/book"
	"knockon/circuit"
)

var steps = []book.Time{book.Second / 10, book.Second, 5 * book.Second, 60 * book.Second}

func TestCrossing_TheFirstMicrosecondWhateverTheStep(t *testing.T) {
	c := compile(t, `signal "high" { value = real.height_ft > 1234.5 }`)
	a := air{"height_ft": func(s float64) float64 { return 100 * s }}
	for _, step := range steps {
		got := spans(t, flown(t, c, a, step, nil), "high")
		// 1234.5 ft is passed at 12.345 s exactly, where it is not yet more.
		want := circuit.Span{From: 12_345_001, To: 100 * book.Second}
		if len(got) != 1 || got[0] != want {
			t.Errorf("step %v s: got %v, want %v", step.Seconds(), got, want)
		}
	}
}

func TestCrossing_TwoWithinOneStepAreFound(t *testing.T) {
	// A parabola that is above the line from 33.0 s to 33.4 s only.
	c := compile(t, `signal "over" { value = real.height_ft > 1000 }`)
	a := air{"height_ft": func(s float64) float64 { return 1000 + 50*(0.04-(s-33.2)*(s-33.2)) }}
	for _, step := range steps {
		got := spans(t, flown(t, c, a, step, nil), "over")
		if len(got) != 1 || math.Abs(got[0].From.Seconds()-33) > 2e-6 || math.Abs(got[0].To.Seconds()-33.4) > 2e-6 {
			t.Errorf("step %v s: got %v, want 33.0 s to 33.4 s", step.Seconds(), got)
		}
	}
}

// Found on 2026-11-25 in a random book: a total was more than an airspeed for the
// first 90 microseconds, another instant fell into these, and it stayed so.
func TestCrossing_AShortOneThatAnInstantMeetsEnds(t *testing.T) {
	c := compile(t, `
unit "sensor" {}
signal "sensed_ft" { value = sensor ? real.height_ft : 0 }
signal "over" { value = sensed_ft > 1000 }
signal "sensed_kt" { value = sensor ? real.airspeed_kt : 0 }
signal "fast" { value = sensed_kt > 331.011 }
`)
	// Above the line for a fifth of a thousandth of a second.
	a := air{
		"height_ft":   func(s float64) float64 { return 1000 + 50*(1e-8-(s-33.1011)*(s-33.1011)) },
		"airspeed_kt": func(s float64) float64 { return 10 * s },
	}
	got := spans(t, flown(t, c, a, 60*book.Second, nil), "over")
	if last := len(got) - 1; last < 0 || math.Abs(got[last].To.Seconds()-33.1012) > 2e-6 {
		t.Errorf("got %v, want that it ends at 33.1012 s", got)
	}
}

func TestCrossing_FollowsASensorThatFails(t *testing.T) {
	c := compile(t, `
unit "sensor" { 
  fault "reads_low" { title = "reads nothing" } 
}
signal "sensed_ft" { value = sensor.reads_low ? 0 : real.height_ft }
signal "high" { value = sensed_ft > 1000 }
`)
	a := air{"height_ft": func(s float64) float64 { return 50 * s }}
	for _, step := range steps {
		got := spans(t, flown(t, c, a, step, map[string]float64{"sensor.reads_low": 70}), "high")
		want := circuit.Span{From: 20_000_001, To: 70 * book.Second}
		if len(got) != 1 || got[0] != want {
			t.Errorf("step %v s: got %v, want %v", step.Seconds(), got, want)
		}
	}
}

func TestTotal_OfASteadyRateCrossesExactly(t *testing.T) {
	c := compile(t, `
unit "charger" {}
signal "charge_s" { value = total(charger ? 1 : -2, 30, 0, 30) }
signal "flat"     { value = charge_s <= 0 }
`)
	for _, step := range steps {
		got := spans(t, flown(t, c, air{}, step, map[string]float64{"charger": 40}), "flat")
		if len(got) != 1 || got[0].From != 55*book.Second {
			t.Errorf("step %v s: got %v, want from 55 s: full until 40 s, then 30 at 2 a second", step.Seconds(), got)
		}
	}
}

func TestTotal_OfAContinuousRate(t *testing.T) {
	// The integral of 2s is s², which passes 900 at 30 s.
	c := compile(t, `
signal "sum_l" { value = total(real.fuel_kg * 2) }
signal "much"  { value = sum_l >= 900 }
`)
	a := air{"fuel_kg": func(s float64) float64 { return s }}
	for _, step := range steps {
		got := spans(t, flown(t, c, a, step, nil), "much")
		if len(got) != 1 || math.Abs(got[0].From.Seconds()-30) > 2e-6 {
			t.Errorf("step %v s: got %v, want from 30 s", step.Seconds(), got)
		}
	}
}

func TestTrace_ANumberCanBeAskedForAtAnyMoment(t *testing.T) {
	c := compile(t, `
unit "sensor" {}
signal "kept_ft" { value = frozen(real.height_ft, !sensor) }
signal "far_nm"  { value = total(sensor ? 1 : 3) }
`)
	a := air{"height_ft": func(s float64) float64 { return 10 * s }}
	tr := flown(t, c, a, 0, map[string]float64{"sensor": 42.5})
	for _, want := range []struct{ s, kept, far float64 }{{0, 0, 0}, {12.25, 122.5, 12.25}, {42.5, 425, 42.5}, {77, 425, 42.5 + 3*34.5}} {
		kept, _ := c.Node(circuit.Value{Item: "kept_ft"})
		far, _ := c.Node(circuit.Value{Item: "far_nm"})
		if got := tr.At(kept, book.AtSeconds(want.s)); math.Abs(got-want.kept) > 1e-9 {
			t.Errorf("kept_ft at %v s: got %v, want %v", want.s, got, want.kept)
		}
		if got := tr.At(far, book.AtSeconds(want.s)); math.Abs(got-want.far) > 1e-9 {
			t.Errorf("far_nm at %v s: got %v, want %v", want.s, got, want.far)
		}
	}
}

func TestMachine_ALoopThatNeverSettlesIsNamed(t *testing.T) {
	c := compile(t, `
signal "flip" { value = !before(flip) || real.on_ground }
signal "calm" { value = real.on_ground }
`)
	a := air{"on_ground": func(s float64) float64 {
		if s < 20 {
			return 1
		}
		return 0
	}}
	course := circuit.NewCourse(c, a, knots(), 0)
	m := circuit.NewMachine(course, nil, nil)
	if _, _, err := m.Instant(0, nil); err != nil {
		t.Fatal(err)
	}
	var err error
	for again := true; err == nil && again; {
		_, again, err = m.Instant(20*book.Second, nil)
	}
	u, ok := err.(*circuit.Unsettled)
	if !ok || len(u.Items) != 1 || u.Items[0] != "flip" {
		t.Fatalf("got %v, want flip alone as never settling", err)
	}
}

func TestCompile_RefusesTotalsOfEachOther(t *testing.T) {
	sum := &book.Expr{Op: book.OpTotal, Type: book.Number}
	sum.Args = []*book.Expr{{Op: book.OpNeg, Type: book.Number, Args: []*book.Expr{{Op: book.OpRef, ID: "other_l", Type: book.Number}}}}
	files := build(t, `
signal "sum_l" { value = total(real.fuel_kg) }
signal "other_l" { value = total(sum_l) }`)
	item, _ := files.Item("sum_l")
	signal := item.(*book.Signal)
	was := signal.Value
	defer func() { signal.Value = was }()
	signal.Value = sum
	if _, err := circuit.Compile(files, nil); err == nil {
		t.Error("totals of each other were compiled")
	}
}
