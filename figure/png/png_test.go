package png

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func drawn(t *testing.T, inside string) *image.RGBA {
	t.Helper()
	img, err := Draw(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><rect width="40" height="20" fill="#ffffff"/>`+inside+`</svg>`, 2)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// is tells whether the pixel in which a place of the picture lies is dark.
func dark(img *image.RGBA, x, y float64) bool {
	r, _, _, _ := img.At(int(x*2), int(y*2)).RGBA()
	return r < 0x8000
}

func TestDraw_PutsInkWhereTheShapeIs(t *testing.T) {
	for _, c := range []struct {
		name, svg   string
		black, bare [][2]float64
	}{
		{"rect", `<rect x="5" y="5" width="10" height="4"/>`, [][2]float64{{5.5, 5.5}, {14, 8}}, [][2]float64{{4, 5}, {16, 8}, {10, 10}}},
		{"rounded rect", `<rect x="0" y="0" width="20" height="20" rx="10"/>`, [][2]float64{{10, 1}, {1, 10}, {10, 10}}, [][2]float64{{1, 1}, {19, 19}, {25, 10}}},
		{"circle", `<circle cx="10" cy="10" r="5"/>`, [][2]float64{{10, 10}, {13, 13}, {5.6, 10}}, [][2]float64{{14.5, 14.5}, {4, 10}}},
		{"line of a width", `<line x1="0" y1="10" x2="20" y2="10" stroke="#000000" stroke-width="4"/>`, [][2]float64{{10, 8.5}, {10, 11.5}}, [][2]float64{{10, 7}, {10, 13}, {21, 10}}},
		{"square ends", `<line x1="5" y1="10" x2="20" y2="10" stroke="#000000" stroke-width="4" stroke-linecap="square"/>`, [][2]float64{{3.6, 10}, {21.4, 8.6}}, [][2]float64{{2, 10}, {23, 10}}},
		{"dashes", `<line x1="0" y1="10" x2="40" y2="10" stroke="#000000" stroke-width="4" stroke-dasharray="4 6"/>`, [][2]float64{{2, 10}, {12, 10}, {33, 10}}, [][2]float64{{6, 10}, {17, 10}, {38, 10}}},
		{"an odd count of dashes", `<line x1="0" y1="10" x2="40" y2="10" stroke="#000000" stroke-width="4" stroke-dasharray="5"/>`, [][2]float64{{2, 10}, {12, 10}}, [][2]float64{{7, 10}, {17, 10}}},
		{"dots", `<line x1="5" y1="10" x2="40" y2="10" stroke="#000000" stroke-width="4" stroke-dasharray="0 10" stroke-linecap="round"/>`, [][2]float64{{5, 10}, {15, 11.5}, {25, 8.5}}, [][2]float64{{9, 10}, {20, 10}, {5, 13}}},
		{"a line slanted after it got its width", `<line x1="10" y1="0" x2="12" y2="0" stroke="#000000" stroke-width="16" transform="translate(0 10) skewX(-45)"/>`, [][2]float64{{17, 4}, {5, 16}, {11, 10}}, [][2]float64{{11, 4}, {11, 16}, {17, 16}}},
		{"path of moves that go on", `<path d="M0,0 10 0 10 10 0 10 Z m20 0 h10 v10 h-10 z"/>`, [][2]float64{{5, 5}, {25, 5}}, [][2]float64{{15, 5}, {35, 5}}},
		{"path with a hole", `<path d="M0,0 H20 V20 H0 Z M5,5 V15 H15 V5 Z"/>`, [][2]float64{{2, 2}, {18, 18}}, [][2]float64{{10, 10}}},
		{"half a circle", `<path d="M5,10 A5,5 0 0 1 15,10 Z"/>`, [][2]float64{{10, 6}, {7, 8}}, [][2]float64{{10, 12}, {5, 5}}},
		{"the other half", `<path d="M5,10 A5,5 0 0 0 15,10 Z"/>`, [][2]float64{{10, 14}}, [][2]float64{{10, 8}}},
		{"more than half", `<path d="M10,5 A5,5 0 1 1 5,10 L10,10 Z"/>`, [][2]float64{{12, 8}, {12, 12}, {8, 12}}, [][2]float64{{8, 8}}},
		{"an open polyline is filled", `<polyline points="0,0 20,0 20,20"/>`, [][2]float64{{15, 5}}, [][2]float64{{5, 15}}},
		{"an open polyline has no last side", `<polyline points="5,2 20,2 20,18 5,18" fill="none" stroke="#000000" stroke-width="2"/>`, [][2]float64{{12, 2}, {12, 18}}, [][2]float64{{5, 10}}},
		{"a polygon has", `<polygon points="5,2 20,2 20,18 5,18" fill="none" stroke="#000000" stroke-width="2"/>`, [][2]float64{{12, 2}, {5, 10}}, [][2]float64{{12, 10}}},
		{"inherited", `<g fill="none" stroke="#000000" stroke-width="2"><rect x="5" y="5" width="10" height="10"/></g>`, [][2]float64{{5, 10}, {15, 10}}, [][2]float64{{10, 10}}},
		{"moved, turned, larger", `<g transform="translate(20 10)"><g transform="rotate(90) scale(2 1)"><rect x="0" y="0" width="4" height="2"/></g></g>`, [][2]float64{{19, 12}, {19, 17}}, [][2]float64{{21, 12}, {17, 12}}},
		{"turned about a place", `<rect x="10" y="10" width="8" height="2" transform="rotate(180 10 10)"/>`, [][2]float64{{4, 9}}, [][2]float64{{14, 11}}},
		{"under a rim", `<rect x="0" y="0" width="40" height="20"/><text x="10" y="15" font-size="14" fill="#ffffff" stroke="#ffffff" stroke-width="3" paint-order="stroke">I</text>`, [][2]float64{{2, 2}}, [][2]float64{{12, 10}, {10.5, 10}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			img := drawn(t, c.svg)
			for _, p := range c.black {
				if !dark(img, p[0], p[1]) {
					t.Errorf("bare at %v", p)
				}
			}
			for _, p := range c.bare {
				if dark(img, p[0], p[1]) {
					t.Errorf("ink at %v", p)
				}
			}
		})
	}
}

func TestDraw_PutsAnArrowHeadAtTheEnd(t *testing.T) {
	img := drawn(t, `<defs><marker id="h" viewBox="0 0 8 8" refX="8" refY="4" markerWidth="8" markerHeight="8" orient="auto"><path d="M0,0 L8,4 L0,8 Z"/></marker></defs>
		<path d="M5,2 V18" fill="none" stroke="#000000" stroke-width="1" marker-end="url(#h)"/>`)
	if !dark(img, 3, 11) || !dark(img, 7, 11) || dark(img, 3, 9) || dark(img, 3, 17) {
		t.Error("no head of 8 by 8 points, pointing down, at 5, 18")
	}
}

func TestDraw_AnchorsTexts(t *testing.T) {
	// An H is 814 of 1,000 units wide and keeps 38 free at either side (the
	// font's hmtx and glyf): two at 12 points are 19.5 wide.
	for anchor, want := range map[string][2]float64{"start": {20.5, 39.1}, "middle": {10.7, 29.3}, "end": {0.9, 19.5}} {
		img := drawn(t, fmt.Sprintf(`<text x="20" y="14" font-size="12" text-anchor="%s">HH</text>`, anchor))
		low, high := 40.0, 0.0
		for x := 0.0; x < 40; x += 0.5 {
			for y := 0.0; y < 20; y += 0.5 {
				if dark(img, x, y) {
					low, high = min(low, x), max(high, x+0.5)
				}
			}
		}
		if math.Abs(low-want[0]) > 1 || math.Abs(high-want[1]) > 1 {
			t.Errorf("%s: ink from %v to %v, want %v", anchor, low, high, want)
		}
	}
}

func TestDraw_ShowsThatALetterIsMissing(t *testing.T) {
	img := drawn(t, `<text x="10" y="18" font-size="20">◇</text>`) // not in the font
	if !dark(img, 14.5, 12) || !dark(img, 25.5, 12) || !dark(img, 20, 17.5) || dark(img, 20, 12) {
		t.Error("no box where the letter should be")
	}
}

func TestWrite_DrawsAllPicturesTheSameTwice(t *testing.T) {
	files, _ := filepath.Glob("../testdata/*.svg")
	more, _ := filepath.Glob("../*/testdata/*_alone.svg")
	if len(files) == 0 {
		t.Fatal("no pictures in ../testdata")
	}
	for _, f := range append(files, more...) {
		svg, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		var one, two bytes.Buffer
		if err := Write(&one, string(svg), 1); err != nil {
			t.Errorf("%s: %v", f, err)
		}
		_ = Write(&two, string(svg), 1)
		if !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Errorf("%s: two files differ", f)
		}
		if img, err := png.Decode(&one); err != nil || img.Bounds().Dx() < 300 {
			t.Errorf("%s: the file is no picture of 300 pixels and more: %v", f, err)
		}
	}
}

func TestDraw_SaysWhatItCannotDraw(t *testing.T) {
	head := `<svg viewBox="0 0 40 20">`
	for _, c := range []struct{ svg, want string }{
		{"", "no element"},
		{"<svg", "cannot be read"},
		{"<html></html>", "begins with <html>"},
		{`<svg></svg>`, "no viewBox"},
		{`<svg viewBox="0 0 0 5"></svg>`, "no viewBox"},
		{`<svg viewBox="0 0 NaN 5"></svg>`, "no viewBox"},
		{`<svg viewBox="0 0 99999 99999"></svg>`, "take a smaller scale"},
		{head + `<image href="x.png"/></svg>`, "<image>"},
		{head + `<rect width="wide" height="2"/></svg>`, `width is "wide"`},
		{head + `<rect width="NaN" height="2"/></svg>`, `width is "NaN"`},
		{head + `<rect width="1" height="2" fill="red"/></svg>`, `"red" is no colour`},
		{head + `<rect width="1" height="2" style="fill:none"/></svg>`, "attribute style"},
		{head + `<g filter="url(#a)"></g></svg>`, "attribute filter"},
		{head + `<path d="L3,3"/></svg>`, "begin with a move"},
		{head + `<path d="M3"/></svg>`, "not a number"},
		{head + `<path d="M3,3 S4,4 5,5"/></svg>`, "'S' cannot be drawn"},
		{head + `<path d="M3,3 Z 4"/></svg>`, "a number stands"},
		{head + `<g transform="spin(3)"></g></svg>`, "spin"},
		{head + `<g transform="rotate(3"></g></svg>`, "cannot be read"},
		{head + `<line stroke-dasharray="-1 2"/></svg>`, "below 0"},
		{head + `<line x2="9000" stroke="#000000" stroke-dasharray="0 .3"/></svg>`, "more than 4000 dashes"},
		{head + `<line x2="3" marker-end="url(#none)"/></svg>`, "no marker"},
		{head + `<marker id="m" viewBox="0 0 1 1" markerWidth="1" markerHeight="1"><line x2="1" marker-end="url(#m)"/></marker><line x2="3" marker-end="url(#m)"/></svg>`, "drawn here"},
		{head + `<text>a<tspan>b</tspan></text></svg>`, "<tspan>"},
		{head + strings.Repeat("<g>", 60) + strings.Repeat("</g>", 60) + `</svg>`, "deep"},
	} {
		var w bytes.Buffer
		err := Write(&w, c.svg, 1)
		if err == nil || !strings.Contains(err.Error(), c.want) || w.Len() > 0 {
			t.Errorf("%.60s: %v, %d bytes; want an error with %q", c.svg, err, w.Len(), c.want)
		}
	}
	for _, scale := range []float64{0, -1, 100} {
		if _, err := Draw(head+`</svg>`, scale); err == nil {
			t.Errorf("scale %v: no error", scale)
		}
	}
}

func TestDraw_LeavesBareWhatIsBare(t *testing.T) {
	img, err := Draw(`<svg viewBox="10 10 4 4"><rect x="10" y="10" width="2" height="4" fill="#24449c"/></svg>`, 3)
	if err != nil || img.Bounds().Dx() != 12 {
		t.Fatal(err, img.Bounds())
	}
	if got := img.RGBAAt(2, 5); got != (color.RGBA{0x24, 0x44, 0x9c, 255}) {
		t.Errorf("the colour came out as %v", got)
	}
	if got := img.RGBAAt(9, 5); got.A != 0 {
		t.Errorf("a bare place came out as %v", got)
	}
}

func FuzzDraw(f *testing.F) {
	f.Add("M0,0 C1e9,5 -1e9,3 4,4 A1,1e9 30 1 0 5,5 Z L3,3", "skewX(90) scale(1e9)", "1 1e-9", 3.0)
	f.Add("M-99999,-99999 L99999,99999", "rotate(45)", "0 4", 99999.0)
	f.Fuzz(func(t *testing.T, d, transform, dashes string, width float64) {
		if strings.ContainsAny(d+transform+dashes, `<&"`) || len(d) > 200 || len(dashes) > 40 {
			return
		}
		svg := fmt.Sprintf(`<svg viewBox="0 0 40 20"><path d="%s" transform="%s" stroke="#000000" stroke-width="%v" stroke-dasharray="%s"/></svg>`, d, transform, width, dashes)
		_, _ = Draw(svg, 1)
	})
}
