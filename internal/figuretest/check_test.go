package figuretest

import (
	"os"
	"path/filepath"
	"testing"

	"knockon/figure/face"
)

// The room that the pictures give their texts is at least what the texts take
// in the family that the program brings along, upright or slanting.
func TestTexts_FitTheirRoom(t *testing.T) {
	files, _ := filepath.Glob("../../figure/*/testdata/*.svg")
	if len(files) < 30 {
		t.Fatalf("only %d pictures found", len(files))
	}
	for _, f := range files {
		svg, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range Texts(string(svg)) {
			size, room := text.Box.Bottom-text.Box.Top, text.Box.Right-text.Box.Left
			for _, cut := range []string{face.Upright, face.Italic} {
				if wide := face.Of(cut).Width(text.Words, size); wide > room+slack {
					t.Errorf("%s: %q takes %.1f of %.1f points in %s", filepath.Base(f), text.Words, wide, room, cut)
				}
			}
		}
	}
}

func TestCheck_FindsWhatIsWrong(t *testing.T) {
	picture := func(inside string) string {
		return `<svg viewBox="0 0 100 60">` + inside + `</svg>`
	}
	for inside, good := range map[string]bool{
		`<text x="5" y="20">Seen</text><text x="5" y="40">Too</text>`:  true,
		`<text x="5" y="20">Seen</text><text x="12" y="24">Too</text>`: false,
		`<text x="90" y="20">Off the sheet</text>`:                     false,
		`<text x="98" y="20" text-anchor="end">Anchored</text>`:        true,
		`<path d="M0,NaN L1,1"/>`:                                      false,
		`<path d="M0,0 L+Inf,1"/>`:                                     false,
		`<path d="M0,0 L1e7,1"/>`:                                      false,
		`<g id="a"/><g id="a"/>`:                                       false,
		`<g style="fill:none"/>`:                                       false,
		`<rect width="5" height="5" fill="#b3261e"/>`:                  false,
		`<rect width="5" height="5" fill="#211e1a"/>`:                  true,
		`<text x="5" y="20">Cut`:                                       false,
	} {
		if wrong := Check(picture(inside)); (len(wrong) == 0) != good {
			t.Errorf("%s: %q", inside, wrong)
		}
	}
}
