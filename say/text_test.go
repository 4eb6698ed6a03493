package say

import (
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestPage(t *testing.T) {
	p := NewPage(1) // set in the least width
	p.Paragraph("  +0:42  ", "Vital DC power is lost in the cruise, and nobody is told of it.")
	p.Hang("3.  ", "  ", "Bus tie: to AUTO, then look at the load of what is left")
	p.Headed("+0:42  ", "Wing free of ice", "hazardous")
	p.Headed("+0:42  ", "Ten minutes of one battery", "hazardous")
	want := `  +0:42  Vital DC power is lost in the
         cruise, and nobody is told of
         it.
3.  Bus tie: to AUTO, then look at the
  load of what is left
+0:42  Wing free of ice        hazardous
+0:42  Ten minutes of one battery –
       hazardous
`
	if got := p.String(); got != want {
		t.Errorf("set as\n%s\nwant\n%s", got, want)
	}
}

// A paragraph keeps its words in order, and no line is wider than the page
// unless one word is.
func TestPage_Fits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[a-zäß–]{1,45}`), 1, 30).Draw(t, "words")
		p := NewPage(rapid.IntRange(40, 120).Draw(t, "width"))
		p.Paragraph("  ", strings.Join(words, " "))
		if got := strings.Fields(p.String()); strings.Join(got, " ") != strings.Join(words, " ") {
			t.Fatalf("%q became %q", words, got)
		}
		for _, line := range strings.Split(p.String(), "\n") {
			if utf8.RuneCountInString(line) > p.Width && len(strings.Fields(line)) > 1 {
				t.Fatalf("%d wide: %q", p.Width, line)
			}
		}
	})
}

func TestFold(t *testing.T) {
	for text, want := range map[string]string{
		"short\n": "short\n",
		"  +0:42  one two three four five six\nx": "  +0:42  one two\n    three four\n    five six\nx",
		"aaaaaaaaaaaaaaaaaaaaaaaaaaaa":            "aaaaaaaaaaaaaaaaaa\n  aaaaaaaaaa",
		"                        deep":            "\n         deep",
		"":                                        "",
	} {
		if got := Fold(text, 18); got != want {
			t.Errorf("%q is folded as %q, want %q", text, got, want)
		}
		if Fold(text, 0) != text {
			t.Errorf("%q is folded where there is no end", text)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringMatching(`( {0,30}[a-zäß]{1,50}\n?){0,20}`).Draw(t, "text")
		width := rapid.IntRange(40, 100).Draw(t, "width")
		got := Fold(text, width)
		for _, line := range strings.Split(got, "\n") {
			if utf8.RuneCountInString(line) > width {
				t.Fatalf("%d wide: %q", width, line)
			}
		}
		if strip(got) != strip(text) {
			t.Fatalf("%q became %q", text, got)
		}
	})
}

func strip(s string) string { return strings.Join(strings.Fields(s), "") }
