package face

import (
	"math"
	"strings"
	"testing"
)

// Advances and kerning from the tables of the file (hmtx, GPOS), as FontTools
// prints them: H 814, o 579, A 712, V 709 of
// 1,000; an o stands 20 closer to an H.
func TestWidth_IsTheFonts(t *testing.T) {
	if got := Of(Upright).Width("Ho", 10); math.Abs(got-(8.14+5.79-0.20)) > 0.001 {
		t.Errorf("Ho is %v wide, want 13.73", got)
	}
	if got := Of(Upright).Width("AV", 10); got >= 14.21 || got < 12.5 {
		t.Errorf("AV is %v wide: an A and a V stand closer than 14.21", got)
	}
	if a, b := Of(Upright).Width("A", 10), Of(Upright).Width("V", 10); math.Abs(a+b-14.21) > 0.001 {
		t.Errorf("A and V are %v and %v", a, b)
	}
}

// Figures stand under one another in tables without being asked to.
func TestFigures_AreOfOneWidth(t *testing.T) {
	for _, name := range Names {
		for r := '1'; r <= '9'; r++ {
			if f := Of(name); f.Advance(r) != f.Advance('0') {
				t.Errorf("%s: %c is %d wide, 0 is %d", name, r, f.Advance(r), f.Advance('0'))
			}
		}
	}
}

// The letters of people's names and places, and the signs that pages and
// pictures use.
func TestFaces_HaveTheLetters(t *testing.T) {
	const need = "ÀÉÎÕÜßçñøåæœŁłŠšŽžŐőŞşĞğİıĀāĄąČčĐđĦħŅņŢţȘșȚț" +
		"“”‘’„«»–—−…•·×÷±°²³⁻⁰¹⁴⁵⁶⁷⁸⁹₀₁₂§µΔΣΠπ≤≥≠≈√∞∑←↑→↓■▲△▼▶◆◊✓€£‰†"
	for _, name := range Names {
		for _, r := range need {
			if glyph, err := Of(name).Font.GlyphIndex(nil, r); err != nil || glyph == 0 {
				t.Errorf("%s has no %c", name, r)
			}
		}
	}
}

func TestWidth_ALetterThatTheFontLacksTakesAnEm(t *testing.T) {
	if got := Of(Upright).Width("東京", 12); got != 24 {
		t.Errorf("two letters of another script take %v, want 24", got)
	}
}

func TestUnpack_RefusesWhatIsNoFont(t *testing.T) {
	whole, err := File("upright.woff")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := unpack(whole); err != nil {
		t.Errorf("the whole file: %v", err)
	}
	for _, n := range []int{0, 3, 43, 100, 5000, len(whole) - 2000} {
		if _, err := unpack(whole[:n]); err == nil {
			t.Errorf("%d bytes of the file are taken for a font", n)
		}
	}
}

func TestAlone_BringsTheFontsAlong(t *testing.T) {
	got := Alone(`<svg viewBox="0 0 1 1"><text>A</text></svg>`)
	if !strings.HasPrefix(got, `<svg viewBox="0 0 1 1"><style>@font-face`) || strings.Count(got, "data:font/woff;base64,") != len(Names) || !strings.HasSuffix(got, "<text>A</text></svg>") {
		t.Errorf("got %.200s", got)
	}
}
