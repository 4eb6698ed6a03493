package price

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

// picture is what all pictures of this room can do.
type picture interface {
	Wide() string
	Narrow() string
	SVG() string
	Caption() string
	Words() string
}

func samples() map[string]picture {
	return map[string]picture{
		"fuel": sampleFuel(), "dry": sampleDry(),
		"waterfall": sampleWaterfall(), "small_parts": sampleSmallParts(),
		"one_part":     Waterfall{ID: "one", What: "time to Golf", Unit: "min", Healthy: 31.4, Failed: 33.9, Parts: []Part{{"Speed brakes", 2.5, 2.5}}},
		"nothing_fuel": Fuel{ID: "n"}, "nothing_waterfall": Waterfall{ID: "n"},
	}
}

func drawings(p picture) map[string]string {
	return map[string]string{"wide": p.Wide(), "narrow": p.Narrow(), "alone": p.SVG()}
}

func TestPictures_AreAsDrawnBefore(t *testing.T) {
	for name, p := range samples() {
		for form, got := range drawings(p) {
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

func TestPictures_KeepTheirPromises(t *testing.T) {
	for name, p := range samples() {
		check(t, name, p)
	}
}

// check holds all forms of a picture to what pictures promise.
func check(t *testing.T, name string, p picture) {
	t.Helper()
	for form, svg := range drawings(p) {
		for _, wrong := range figuretest.Check(svg) {
			t.Errorf("%s, %s: %s", name, form, wrong)
		}
	}
	if !strings.Contains(p.SVG(), "not for use in flight") {
		t.Errorf("%s: the document has no caution", name)
	}
	if strings.TrimSpace(p.Words()) == "" || strings.TrimSpace(p.Caption()) == "" {
		t.Errorf("%s: no caption or no words", name)
	}
}

func TestPictures_PrintTheirNumbers(t *testing.T) {
	for _, c := range []struct {
		p    picture
		says []string
	}{
		{sampleFuel(), []string{"lands after 55 min with 930 kg", "150 kg below the final reserve of 1,080 kg", "would run dry after 74 min"}},
		{sampleDry(), []string{"runs dry after 37 min"}},
		{sampleWaterfall(), []string{"1,480 kg", "4,270 kg", "+1,650 kg", "+1,490 kg", "−90 kg", "+300 kg"}},
	} {
		for form, svg := range drawings(c.p) {
			var all []string
			for _, text := range figuretest.Texts(svg) {
				all = append(all, text.Words)
			}
			for _, want := range c.says {
				if !strings.Contains(strings.Join(all, " "), want) {
					t.Errorf("%s, %s: %q is not printed", c.p.Caption(), form, want)
				}
			}
		}
	}
}

// senseless are values that a broken input may hold.
var senseless = []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e-300, 1e300, -1e300, 1e7, math.MaxFloat64}

// chance makes values of all kinds, some of them senseless.
type chance struct{ *rand.Rand }

func (c chance) value(most float64) float64 {
	if c.IntN(12) == 0 {
		return senseless[c.IntN(len(senseless))]
	}
	return c.Float64() * most
}

var words = []string{"touchdown", "spoilers", "brakes", "reverse", "wheels turn", "tyres grip", "reverse out", "stop", "", "<&>\"\x00", "東京国際空港", "Unspeakably" + strings.Repeat("long", 40), strings.Repeat("many words ", 30)}

func (c chance) word() string { return words[c.IntN(len(words))] }

func (c chance) burn() (b Burn) {
	for range c.IntN(12) {
		b.Points = append(b.Points, Burned{c.value(100), c.value(6000)})
	}
	b.Reserve, b.DryAt, b.Lands = c.value(1500), c.value(200), c.IntN(2) == 0
	return b
}

func (c chance) waterfall() Waterfall {
	w := Waterfall{ID: "w", What: c.word(), Unit: []string{"kg", "min", "m", ""}[c.IntN(4)], Healthy: c.value(5000), Failed: c.value(8000)}
	for range c.IntN(13) {
		w.Parts = append(w.Parts, Part{c.word(), c.value(900) - c.value(300), c.value(900) - c.value(300)})
	}
	return w
}

func TestPictures_KeepTheirPromisesOnAnyInput(t *testing.T) {
	for seed := range uint64(120) {
		c := chance{rand.New(rand.NewPCG(seed, 3))}
		check(t, "fuel", Fuel{ID: "f", Title: c.word(), To: c.word(), Healthy: c.burn(), Failed: c.burn()})
		check(t, "waterfall", c.waterfall())
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

func TestPictures_SameInputSameBytes(t *testing.T) {
	for name, p := range samples() {
		first, again := p.SVG(), p.SVG()
		if first != samples()[name].SVG() || first != again {
			t.Errorf("%s is drawn in two ways", name)
		}
	}
}

func TestWaterfall_LeavesTheInteraction(t *testing.T) {
	if got := sampleWaterfall().Interaction(); got != 300 {
		t.Errorf("interaction of %v, want 4270 - 1480 - (1650 + 410 + 520 + 0 - 90) = 300", got)
	}
}

func BenchmarkFuel(b *testing.B) {
	f := sampleFuel()
	for b.Loop() {
		f.Wide()
	}
}

func BenchmarkWaterfall(b *testing.B) {
	w := sampleSmallParts()
	for b.Loop() {
		w.Wide()
	}
}
