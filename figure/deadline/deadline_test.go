package deadline

import (
	"flag"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"knockon/internal/figuretest"
)

var update = flag.Bool("update", false, "rewrite the pictures in testdata")

// The samples are invented.
func sample() Line {
	l := Line{
		ID: "deadline", Title: "Wing not heated: three ways to keep it", From: -30, To: 640,
		Phases: []Phase{{"Climb", -30, 120}, {"Cruise", 120, 640}}, Lost: []Stretch{{600, 640}}, LostText: "is lost from +10:00",
		Bars: []Bar{
			{Moves: "Left bleed switch to “off” and cross-bleed valve switch to “shut”", In: []Stretch{{10, 599}}, Until: "+9:59", Cost: "costs nothing else", Cheap: true},
			{Moves: "Left engine switch to “off” and cross-bleed valve switch to “shut”, 2 min later", In: []Stretch{{10, 40}, {300, 302}}, Until: "+5:02", Cost: "costs 8 functions, worst major"},
			{Moves: "APU to “run”", In: []Stretch{{200, 590}}, Until: "+9:50 on", Open: true, Cost: "costs 1 function"},
		},
	}
	for k := range 41 {
		l.Heights = append(l.Heights, Height{-30 + 16.75*float64(k), min(31000, 24000+400*float64(k))})
	}
	return l
}

func samples() map[string]Line {
	short := sample()
	short.From, short.To, short.Lost, short.LostText = -1, 15.4, []Stretch{{15.3, 15.4}}, "breaks off at +0:15"
	short.Bars = short.Bars[:1]
	return map[string]Line{"three": sample(), "short": short, "nothing": {ID: "n"}}
}

func drawings(l Line) map[string]string {
	return map[string]string{"wide": l.Wide(), "narrow": l.Narrow(), "alone": l.SVG()}
}

func TestPictures_AreAsDrawnBefore(t *testing.T) {
	for name, l := range samples() {
		for form, got := range drawings(l) {
			path := filepath.Join("testdata", name+"_"+form+".svg")
			if *update {
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatalf("%v (make it with -update)", err)
			}
			if got != string(want) {
				t.Errorf("%s differs from testdata; look at the difference and run with -update if it is meant", path)
			}
		}
	}
}

func check(t *testing.T, name string, l Line) {
	t.Helper()
	for form, svg := range drawings(l) {
		for _, wrong := range figuretest.Check(svg) {
			t.Errorf("%s, %s: %s", name, form, wrong)
		}
	}
	if !strings.Contains(l.SVG(), "not for use in flight") {
		t.Errorf("%s: the document has no caution", name)
	}
}

func TestPictures_KeepTheirPromises(t *testing.T) {
	for name, l := range samples() {
		check(t, name, l)
	}
}

// TestPictures_SayEachDeadlineAndCost: in every form, and in the words.
func TestPictures_SayEachDeadlineAndCost(t *testing.T) {
	l := sample()
	for form, svg := range drawings(l) {
		text := strings.Join(texts(svg), " ")
		for _, want := range []string{"until +9:59", "until +5:02", "costs nothing else", "worst", "fails", "is lost from +10:00", "cross-bleed valve switch"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s does not say %q: %s", form, want, text)
			}
		}
	}
	if !strings.Contains(l.Words(), "until +5:02; costs 8 functions") {
		t.Error(l.Words())
	}
}

func texts(svg string) (list []string) {
	for _, x := range figuretest.Texts(svg) {
		list = append(list, x.Words)
	}
	return list
}

// TestPictures_OfSenselessInput are sound all the same.
func TestPictures_OfSenselessInput(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 1))
	wild := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e300, 5, 700}
	any := func() float64 {
		if r.IntN(3) == 0 {
			return wild[r.IntN(len(wild))]
		}
		return 2000*r.Float64() - 200
	}
	for range 200 {
		l := Line{ID: "x", Title: "<&>", From: any(), To: any(), LostText: strings.Repeat("lost ", r.IntN(30))}
		for range r.IntN(4) {
			l.Phases = append(l.Phases, Phase{strings.Repeat("p", r.IntN(30)), any(), any()})
			l.Heights = append(l.Heights, Height{any(), any()})
			l.Lost = append(l.Lost, Stretch{any(), any()})
			l.Bars = append(l.Bars, Bar{Moves: strings.Repeat("move it ", r.IntN(40)), In: []Stretch{{any(), any()}}, Until: "+1:00", Cost: strings.Repeat("cost ", r.IntN(40)), Open: r.IntN(2) == 0})
		}
		check(t, "senseless", l)
		if t.Failed() {
			t.Fatalf("%+v", l)
		}
	}
}
