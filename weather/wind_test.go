package weather

import (
	"math"
	"testing"

	"knockon/flight/geo"
)

func TestWind_OnARunway(t *testing.T) {
	// "Aviation Formulary" 1.47, wind components: wind 060/20 on runway 03 is a
	// headwind of 17.32 and a crosswind of 10 from the right.
	c, ok := with("24015KT", "06020KT").Wind.On(30)
	if near(t, "head", c.HeadKt, 17.32, 0.005); !ok || c.TailKt != 0 {
		t.Errorf("%+v", c)
	}
	near(t, "right", c.RightKt, 10, 1e-9)
	near(t, "cross", c.CrossKt, 10, 1e-9)
	for _, c := range []struct {
		group   string
		heading float64
		want    Components
	}{
		{"24015KT", 60, Components{-15, 0, 15, 0}},
		{"24015G25KT", 150, Components{0, 15, 0, 25}},
		{"24015G25KT", 330, Components{0, -15, 0, 25}},
		{"VRB05G09KT", 10, Components{-5, 5, 9, 9}},
		{"00000KT", 10, Components{}},
		{"24010KT 180V300", 30, Components{-10 * math.Sqrt(0.75), -5, 10, 10}},
		{"24010KT 210V270", 240, Components{10, 0, 0, 5}},
	} {
		got, ok := with("24015KT", c.group).Wind.On(c.heading)
		off := math.Hypot(math.Hypot(got.HeadKt-c.want.HeadKt, got.RightKt-c.want.RightKt), math.Hypot(got.TailKt-c.want.TailKt, got.CrossKt-c.want.CrossKt))
		if !ok || off > 1e-9 {
			t.Errorf("%s on %v: %+v", c.group, c.heading, got)
		}
	}
	if _, ok := (Wind{}).On(90); ok {
		t.Error("an unknown wind has components")
	}
	if _, ok := (Wind{Given: true}).On(math.NaN()); ok {
		t.Error("no heading has components")
	}
}

// The slow way: every degree between the least and the most direction.
func TestWind_MostOfASpreadIsThatOfEveryDegree(t *testing.T) {
	for least := 0; least < 360; least += 10 {
		for width := 60; width < 360; width += 20 {
			w := Wind{Given: true, From: geo.Course(float64(least + width/2)), Kt: 10, GustKt: 20, Spread: true, Least: float64(least), Most: geo.Course(float64(least + width))}
			for heading := 0.0; heading < 360; heading += 40 {
				var tail, cross float64
				for d := 0; d <= width; d++ {
					head, right := geo.Wind{From: float64(least + d), Kt: 20}.Components(heading)
					tail, cross = max(tail, -head), max(cross, math.Abs(right))
				}
				if c, _ := w.On(heading); math.Abs(c.TailKt-tail) > 1e-9 || math.Abs(c.CrossKt-cross) > 1e-9 {
					t.Fatalf("%d to %v on %v: %+v, not %v and %v", least, w.Most, heading, c, tail, cross)
				}
			}
		}
	}
}
