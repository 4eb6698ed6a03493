package say

import "testing"

func TestQuantity(t *testing.T) {
	for _, c := range []struct {
		v    float64
		unit string
		want string
	}{
		{35000, "ft", "35,000 ft"}, {1234567, "kg", "1,234,567 kg"}, {999.6, "ft", "1,000 ft"}, {-1200, "ft_per_min", "−1,200 ft/min"},
		{0.785, "mach", "Mach 0.785"}, {0.8, "mach", "Mach 0.8"}, {28.04, "v", "28 V"}, {27.96, "v", "28 V"}, {27.5, "v", "27.5 V"},
		{-56.5, "c", "−56.5 °C"}, {85, "pct", "85%"}, {3, "count", "3"}, {0, "min", "0 min"}, {-0.0001, "deg", "0°"}, {100, "psi", "100 psi"},
		{1e300, "kg", "1e+300 kg"}, {12, "", "12"},
	} {
		if got := Quantity(c.v, c.unit); got != c.want {
			t.Errorf("Quantity(%v, %q) = %q, want %q", c.v, c.unit, got, c.want)
		}
	}
}

func TestWhole(t *testing.T) {
	for v, want := range map[float64][2]string{
		0: {"0", "0.0"}, 999.6: {"1,000", "999.6"}, 1234567.25: {"1,234,567", "1,234,567.3"}, -1366: {"−1,366", "−1,366.0"},
		-0.04: {"0", "0.0"}, -0.5: {"−1", "−0.5"}, 0.5: {"1", "0.5"}, 1e300: {"?", "?"},
	} {
		if got := [2]string{Whole(v), Tenths(v)}; got != want {
			t.Errorf("%v is %q, want %q", v, got, want)
		}
	}
}

func TestCounted(t *testing.T) {
	for _, c := range []struct {
		n    int
		form []string
		want string
	}{
		{1, []string{"function"}, "1 function"}, {2, []string{"function"}, "2 functions"}, {0, []string{"function"}, "0 functions"}, {2345, []string{"set"}, "2,345 sets"},
		{2, []string{"battery"}, "2 batteries"}, {2, []string{"day"}, "2 days"}, {2, []string{"bus"}, "2 buses"}, {3, []string{"switch"}, "3 switches"},
		{2, []string{"slip of the hand", "slips of the hand"}, "2 slips of the hand"}, {1, []string{"slip of the hand", "slips of the hand"}, "1 slip of the hand"},
	} {
		if got := Counted(c.n, c.form[0], c.form[1:]...); got != c.want {
			t.Errorf("%d: %q, want %q", c.n, got, c.want)
		}
	}
	for n, want := range map[int]string{0: "no function", 1: "1 function", 2: "2 functions"} {
		if got := NoneOr(n, "function"); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

func TestSentence(t *testing.T) {
	for text, want := range map[string]string{"": "", "it fails": "It fails.", "Done.": "Done.", "éclair": "Éclair.", "did it?": "Did it?"} {
		if got := Sentence(text); got != want {
			t.Errorf("Sentence(%q) = %q, want %q", text, got, want)
		}
	}
	for text, want := range map[string]string{"": "", "A": "A", "VHF-1 radio": "VHF-1 radio", "N2": "N2", "Fuel": "fuel", "DC bus": "DC bus", "Étage": "étage"} {
		if got := Lower(text); got != want {
			t.Errorf("Lower(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestAnd(t *testing.T) {
	for want, words := range map[string][]string{
		"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}, "a; b, below 1,200 ft and c": {"a", "b, below 1,200 ft", "c"},
	} {
		if got := And(words); got != want {
			t.Errorf("And(%q) = %q, want %q", words, got, want)
		}
	}
}
