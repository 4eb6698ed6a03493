package sheet

import (
	"strings"
	"testing"
)

func TestWrap_KeepsToItsRoom(t *testing.T) {
	for _, text := range []string{"", "Anti-skid protection of the left and right main wheels", "Unspeakablylongwordthatcannotbebrokenanywhere and more", "ÄÖÜ"} {
		lines := Wrap(text, 90, 12, 2)
		if len(lines) > 2 {
			t.Errorf("%q takes %d lines", text, len(lines))
		}
		for _, l := range lines {
			if Width(l, 12) > 90 {
				t.Errorf("%q is wider than its room", l)
			}
		}
	}
	if got := strings.Join(Wrap("one two three", 1000, 12, 2), "|"); got != "one two three" {
		t.Errorf("a text that fits became %q", got)
	}
}
