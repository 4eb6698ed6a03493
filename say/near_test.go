package say

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestNearest(t *testing.T) {
	words := []string{"pump_1", "pump_2", "pressure_1", "gear_lever", "on", "off", "up"}
	for word, want := range map[string]string{
		"pmup_1": "pump_1", "pump_3": "pump_1", "presure_1": "pressure_1", "gearlever": "gear_lever",
		"GEAR-LEVER": "gear_lever", "ofn": "on", "of": "on", "offf": "off", "hydraulics": "", "x": "", "": "",
		strings.Repeat("pump_1", 100): "",
	} {
		if got := Nearest(word, words); got != want {
			t.Errorf("near %q is %q, want %q", word, got, want)
		}
	}
}

// The distance is one: it is 0 for equal words only, the same both ways, and a
// single slip is 1.
func TestDistance(t *testing.T) {
	word := rapid.StringMatching(`[a-c_]{1,8}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		d := distance(a, b, 99)
		if (d == 0) != (a == b) || d != distance(b, a, 99) || d > max(len(a), len(b)) {
			t.Fatalf("from %q to %q it is %d, back %d", a, b, d, distance(b, a, 99))
		}
		i := rapid.IntRange(0, len(a)-1).Draw(t, "i")
		if got := distance(a, a[:i]+a[i+1:], 99); got != 1 {
			t.Fatalf("without letter %d of %q it is %d", i, a, got)
		}
		if i > 0 && a[i] != a[i-1] {
			swapped := a[:i-1] + a[i:i+1] + a[i-1:i] + a[i+1:]
			if got := distance(a, swapped, 99); got != 1 {
				t.Fatalf("from %q to %q it is %d", a, swapped, got)
			}
		}
	})
}

func TestOrNear(t *testing.T) {
	for want, known := range map[string][]string{
		`no pump "p_2"; did you mean "p_1"?`:                       {"q", "p_1"},
		`no pump "p_2"; there are: left, right`:                    {"left", "right"},
		`no pump "p_2"; there is only left`:                        {"left"},
		`no pump "p_2"`:                                            nil,
		`no pump "p_2"; there are 13, such as aaaa, bbbb and cccc`: strings.Fields("aaaa bbbb cccc dddd eeee ffff gggg hhhh iiii jjjj kkkk llll mmmm"),
	} {
		if got := No("pump", "p_2", known); got != want {
			t.Errorf("of %q: %s, want %s", known, got, want)
		}
	}
}
