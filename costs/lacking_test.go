package costs

import (
	"context"
	"strings"
	"testing"

	"knockon/book"
	"knockon/run"
)

// braking is a side on which the brakes are half gone for some spans of seconds;
// the book gives no factor for that.
func braking(t *testing.T, c *run.Course, spans ...[2]float64) *Side {
	t.Helper()
	var s run.Scenario
	for _, x := range spans {
		s.Strikes = append(s.Strikes, run.Strike{Fail: []book.FailureRef{{Unit: "brake_pump"}}, At: book.Moment{Offset: book.AtSeconds(x[0])}, Lasts: book.AtSeconds(x[1] - x[0])})
	}
	r, err := c.Fly(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return &Side{record: r}
}

// TestSide_Acts: from the turn to the end of the flight, for as long as the effect
// is not what it is where a book says nothing.
func TestSide_Acts(t *testing.T) {
	c, _ := heron(t, "    covers        = [\"brakes_ratio\"]\n", "")
	end := c.Path.End().Seconds()
	brakes := c.Build.Effects[3]
	if brakes.Name != "brakes_ratio" {
		t.Fatal(brakes.Name)
	}
	for _, x := range []struct {
		spans [][2]float64
		want  float64
	}{
		{nil, 0},
		{[][2]float64{{100, 900}}, 0},
		{[][2]float64{{900, 1100}}, 100},
		{[][2]float64{{1000, 1100}}, 100},
		{[][2]float64{{2000, 2050}, {2100, 2107}}, 57},
		{[][2]float64{{end - 30, end + 500}}, 30},
	} {
		if got := braking(t, c, x.spans...).acts(brakes, 1000*book.Second); got != book.AtSeconds(x.want) {
			t.Errorf("%v: %g s, want %g", x.spans, got.Seconds(), x.want)
		}
	}
}

// TestLacking_FromAMinuteLonger: what acts in one run alone is missed whatever it
// lasts; where it acts in both, from more than a minute longer.
func TestLacking_FromAMinuteLonger(t *testing.T) {
	c, _ := heron(t, "    covers        = [\"brakes_ratio\"]\n", "")
	d := &desk{course: c, at: 1000 * book.Second}
	for _, x := range []struct {
		here, there float64
		want        bool
	}{
		{0, 0, false}, {1, 0, true}, {90, 0, true}, {0, 90, false},
		{160, 100, false}, {160.5, 100, true}, {161, 100, true}, {100, 100, false}, {100, 300, false},
	} {
		here, there := braking(t, c, [2]float64{1500, 1500 + x.here}), braking(t, c, [2]float64{1500, 1500 + x.there})
		if x.here == 0 {
			here = braking(t, c)
		}
		if x.there == 0 {
			there = braking(t, c)
		}
		list := d.lacking(here, there)
		if len(list) > 0 != x.want || x.want && !strings.HasPrefix(list[0], "what brakes_ratio does: ") {
			t.Errorf("%g s, with nothing failed %g s: %q", x.here, x.there, list)
		}
	}
}

// TestUncovered_FromAMinuteEitherWay: on a manual's numbers what acts in one run
// alone counts, and what acts in both from more than a minute's difference.
func TestUncovered_FromAMinuteEitherWay(t *testing.T) {
	c, g := heron(t, "    covers        = [\"brakes_ratio\"]\n", "")
	d := price(t, c, g, failing("cruise", 600, "pack"), 1).desk
	for _, x := range []struct {
		a, b float64
		want bool
	}{
		{0, 0, false}, {30, 0, true}, {0, 30, true}, {100, 100, false}, {100, 60, false}, {60, 100, false}, {160, 100, false}, {161, 100, true}, {100, 161, true},
	} {
		side := func(s float64) *Side {
			if s == 0 {
				return braking(t, c)
			}
			return braking(t, c, [2]float64{2000, 2000 + s})
		}
		if list := d.uncovered(side(x.a), side(x.b)); len(list) > 0 != x.want {
			t.Errorf("%g s and %g s: %q", x.a, x.b, list)
		}
	}
}
