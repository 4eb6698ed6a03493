package landing

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
	return map[string]picture{"roll": sampleRoll(), "never_stops": sampleNeverStops(), "nothing_roll": Roll{ID: "n"}}
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
		{sampleRoll(), []string{"stops at 2,726 m", "15 % margin 3,135 m", "of 2,400 m available: 735 m short", "manual (open triangle): 2,960 m, 560 m short", "585 m to spare", "spoilers 1,0"}},
		{sampleNeverStops(), []string{"does not stop", "it is still at"}},
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

func (c chance) stop() (s Stop) {
	for range c.IntN(30) {
		s.Track = append(s.Track, Point{c.value(3000), c.value(160)})
	}
	for range c.IntN(14) {
		s.Events = append(s.Events, Event{c.word(), c.value(2800), c.value(160)})
	}
	s.Metres, s.Factored, s.Manual, s.NeverStops = c.value(3000), c.value(3000), c.value(3000), c.IntN(5) == 0
	return s
}

func TestPictures_KeepTheirPromisesOnAnyInput(t *testing.T) {
	for seed := range uint64(120) {
		c := chance{rand.New(rand.NewPCG(seed, 3))}
		check(t, "roll", Roll{ID: "r", Title: c.word(), Runway: c.word(), Available: c.value(3000), Margin: c.value(1), Healthy: c.stop(), Failed: c.stop(), Foot: []string{c.word()}})
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

func TestRoll_DoesNotChangeItsInput(t *testing.T) {
	r := sampleRoll()
	r.Failed.Events = []Event{{"stop", 2000, 0}, {"touchdown", math.NaN(), 1}, {"touchdown", 400, 140}}
	_ = r.SVG()
	if r.Failed.Events[0].What != "stop" || len(r.Failed.Events) != 3 {
		t.Error("drawing sorted or dropped the events of the caller")
	}
}

func TestStop_SpeedAtTheEnd(t *testing.T) {
	s := Stop{Track: []Point{{0, 100}, {1000, 50}, {2000, 0}}}
	if kt, ok := s.ktAt(1500); !ok || kt != 25 {
		t.Errorf("%v kt, %v; want 25 kt halfway between 50 and 0", kt, ok)
	}
	if _, ok := s.ktAt(2500); ok {
		t.Error("a speed behind the stop")
	}
}

func TestRoll_FollowsALandingThatNeverStopsOnlyALittle(t *testing.T) {
	r := sampleNeverStops()
	r.Failed.Track = slowing(470, 151, 1e9, 0, 20000)
	r.Failed.Events = append(r.Failed.Events, Event{"wheels turn", 19000, 120})
	svg := r.SVG()
	if strings.Contains(svg, "19,000 m, 120 kt</text>") || strings.Contains(svg, ">10,000") {
		t.Error("the axis goes to 20 km")
	}
	if !strings.Contains(svg, "1 event lies beyond the right edge.") {
		t.Error("nothing says that an event is beyond the edge")
	}
	if !strings.Contains(r.Words(), "19,000 m") {
		t.Error("the words do not have the event")
	}
}

func BenchmarkRoll(b *testing.B) {
	r := sampleRoll()
	for b.Loop() {
		r.Wide()
	}
}
