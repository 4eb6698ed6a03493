package ledger

import (
	"testing"

	"knockon/book"
)

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

func TestClock(t *testing.T) {
	for s, want := range map[float64]string{0: "0:00", 42.4: "0:42", 59.5: "1:00", 3725: "62:05", -5: "−0:05"} {
		if got := Clock(book.AtSeconds(s)); got != want {
			t.Errorf("Clock(%v s) = %q, want %q", s, got, want)
		}
	}
}

func TestLasts(t *testing.T) {
	for s, want := range map[float64]string{0.5: "0.5 s", 2: "2 s", 42.4: "42 s", 119.4: "119 s", 119.6: "2 min 00 s", 3725: "62 min 05 s"} {
		if got := lasts(book.AtSeconds(s)); got != want {
			t.Errorf("lasts(%v s) = %q, want %q", s, got, want)
		}
	}
}

func TestSentence(t *testing.T) {
	for text, want := range map[string]string{"": "", "it fails": "It fails.", "Done.": "Done.", "éclair": "Éclair."} {
		if got := sentence(text); got != want {
			t.Errorf("sentence(%q) = %q, want %q", text, got, want)
		}
	}
}

func TestListed(t *testing.T) {
	for want, words := range map[string][]string{
		"": nil, "a": {"a"}, "a and b": {"a", "b"}, "a, b and c": {"a", "b", "c"}, "a; b, below 1,200 ft and c": {"a", "b, below 1,200 ft", "c"},
	} {
		if got := listed(words); got != want {
			t.Errorf("listed(%q) = %q, want %q", words, got, want)
		}
	}
}
