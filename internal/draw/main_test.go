package main

import (
	"reflect"
	"strings"
	"testing"

	"knockon/internal/corvane"
)

// TestDraw_HangsOnTheSeedAlone: the same seed draws the same, another draws other
// scenarios, and each that is drawn is answered and has something said of it.
func TestDraw_HangsOnTheSeedAlone(t *testing.T) {
	b := corvane.Book(t)
	if first := draw(b, 7, 12); !reflect.DeepEqual(first, draw(b, 7, 12)) || reflect.DeepEqual(first, draw(b, 8, 12)) {
		t.Error("the seed does not say what is drawn")
	}
	var text strings.Builder
	if err := show(t.Context(), &text, 7, 6); err != nil {
		t.Fatal(err)
	}
	for _, x := range strings.Split(strings.TrimSpace(text.String()), "\n\n") {
		if strings.Count(x, "\n") < 2 {
			t.Errorf("nothing is said of %q", x)
		}
	}
}
