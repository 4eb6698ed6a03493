package say

import (
	"testing"

	"pgregory.net/rapid"
)

// moment is a time in microseconds, as the house has one.
type moment int64

func seconds(s float64) moment { return moment(s * 1e6) }

func TestClock(t *testing.T) {
	for s, want := range map[float64][2]string{
		0: {"0:00", "+0:00"}, 42.4: {"0:42", "+0:42"}, 59.5: {"1:00", "+1:00"}, 551.6: {"9:12", "+9:12"}, 3725: {"62:05", "+62:05"},
		-5: {"−0:05", "−0:05"}, -0.4: {"0:00", "+0:00"}, -59.5: {"−1:00", "−1:00"},
	} {
		if got := [2]string{Clock(seconds(s)), After(seconds(s))}; got != want {
			t.Errorf("%v s is %q, want %q", s, got, want)
		}
	}
}

func TestLasts(t *testing.T) {
	for s, want := range map[float64]string{
		0: "0 s", 0.5: "0.5 s", 2: "2 s", 9.94: "9.9 s", 9.96: "10 s", 42.4: "42 s", 119.4: "119 s", 119.6: "2 min 00 s", 3725: "62 min 05 s", -42: "−42 s",
	} {
		if got := Lasts(seconds(s)); got != want {
			t.Errorf("Lasts(%v s) = %q, want %q", s, got, want)
		}
	}
}

// Clocks never run backwards, and are half a second out at most.
func TestClock_InOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := moment(rapid.Int64Range(-1e10, 1e10).Draw(t, "a"))
		n := steps(a, second)
		if d := int64(a) - n*second; d > second/2 || d < -second/2 {
			t.Fatalf("%d is said as %d s", a, n)
		}
		if b := a + moment(rapid.Int64Range(0, 3e6).Draw(t, "later")); steps(b, second) < n {
			t.Fatalf("%d comes before %d", b, a)
		}
	})
}
