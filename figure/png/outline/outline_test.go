package outline

import (
	"math"
	"strings"
	"testing"
)

func TestParse_FollowsThePath(t *testing.T) {
	for _, c := range []struct {
		d      string
		end    Point
		length float64
	}{
		{"M1,2 L4,6", Point{4, 6}, 5},
		{"m1,2 3,4", Point{4, 6}, 5},
		{"M0,0H3V4", Point{3, 4}, 7},
		{"M1-2h3v-4h-3z", Point{1, -6}, 14},
		{"M1e1.5L.5.5", Point{0.5, 0.5}, 9.5},
		{"M0,0 10,0 10,10", Point{10, 10}, 20},
		{" M 0 , 0 l 3 4 M 0 0 l 6 8 ", Point{6, 8}, 15},
		{"", Point{}, 0},
	} {
		o, err := Parse(c.d)
		if err != nil {
			t.Errorf("%q: %v", c.d, err)
			continue
		}
		if got := o.Length(); math.Abs(got-c.length) > 1e-9 {
			t.Errorf("%q is %v long, want %v", c.d, got, c.length)
		}
		if len(o) == 0 {
			continue
		}
		if end, _ := o.End(); end != c.end {
			t.Errorf("%q ends at %v, want %v", c.d, end, c.end)
		}
	}
}

// along gives places on all curves and lines of an outline.
func along(o Outline) (places []Point) {
	var at Point
	for _, s := range o {
		if s.What == 'Z' {
			continue // what is tested here closes where it already is
		}
		end := s.At[0]
		if s.What == 'C' {
			end = s.At[2]
		}
		for n := range 21 {
			i := float64(n) / 20
			p := Point{at.X + i*(end.X-at.X), at.Y + i*(end.Y-at.Y)}
			if s.What == 'C' {
				p = onCurve(at, s.At, i)
			}
			if s.What != 'M' {
				places = append(places, p)
			}
		}
		at = end
	}
	return places
}

func walk(places []Point) (length float64) {
	for i, p := range places[1:] {
		length += math.Hypot(p.X-places[i].X, p.Y-places[i].Y)
	}
	return length
}

// An arc lies on its circle; which of the four that fit it is, is told by the
// middle of the circle and the length.
func TestParse_ArcsLieOnTheirCircle(t *testing.T) {
	for _, c := range []struct {
		d         string
		cx, cy, r float64
		length    float64
	}{
		{"M0,0 A5,5 0 0 1 5,5", 0, 5, 5, math.Pi * 2.5},
		{"M0,0 A5,5 0 0 0 5,5", 5, 0, 5, math.Pi * 2.5},
		{"M0,0 A5,5 0 1 1 5,5", 5, 0, 5, math.Pi * 7.5},
		{"M0,0 a1,1 0 0 1 10,0", 5, 0, 5, math.Pi * 5}, // too small: it grows to fit
		{"M0,0 A5,5 77 0 0 5,5", 5, 0, 5, math.Pi * 2.5},
	} {
		o, err := Parse(c.d)
		if err != nil {
			t.Fatal(err)
		}
		places := along(o)
		for _, p := range places {
			if got := math.Hypot(p.X-c.cx, p.Y-c.cy); math.Abs(got-c.r) > 0.001*c.r {
				t.Fatalf("%s: %v lies %v from the middle of the circle, not %v", c.d, p, got, c.r)
			}
		}
		if length := walk(places); math.Abs(length-c.length) > 0.01*c.length {
			t.Errorf("%s is %v long, want %v", c.d, length, c.length)
		}
	}
}

func TestParse_TiltedArcLiesOnItsEllipse(t *testing.T) {
	o, err := Parse("M8.660254037844387,5 A10,4 30 0 1 -8.660254037844387,-5")
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range along(o) {
		x, y := Turn(-30).At(p.X, p.Y)
		if got := x*x/100 + y*y/16; math.Abs(got-1) > 0.002 {
			t.Fatalf("%v is not on the ellipse: %v", p, got)
		}
	}
}

func TestEllipse_IsRoundTo3In10000(t *testing.T) {
	for _, p := range along(Ellipse(3, 4, 10, 10)) {
		if got := math.Hypot(p.X-3, p.Y-4); math.Abs(got-10) > 0.003 {
			t.Errorf("%v lies %v from the middle", p, got)
		}
	}
}

func TestRectangle_RoundsItsCorners(t *testing.T) {
	o := Rectangle(0, 0, 10, 6, 99) // at most half the shorter side
	if got, want := walk(along(o)), 2*4+math.Pi*6; math.Abs(got-want) > 0.01*want {
		t.Errorf("the edge is %v long, want %v", got, want)
	}
	if got := Rectangle(0, 0, 10, 6, 0).Length(); got != 32 {
		t.Errorf("a plain rectangle's edge is %v long, want 32", got)
	}
}

func TestDashed_KeepsToTheLengths(t *testing.T) {
	o, err := Parse("M0,0 H30 V30 M0,50 h100")
	if err != nil {
		t.Fatal(err)
	}
	// 60 long: dashes 0-10, 14-24, 28-38 around the corner, 42-52, 56-60; then
	// 100 long: seven of 10 and the last from 98.
	d := o.Dashed([]float64{10, 4})
	if want := 44.0 + 72; math.Abs(d.Length()-want) > 1e-9 {
		t.Errorf("the dashes are %v long together, want %v", d.Length(), want)
	}
	moves, corner := 0, false
	for i, s := range d {
		if s.What == 'M' {
			moves++
		}
		if s.What == 'L' && s.At[0] == (Point{30, 0}) {
			corner = d[i+1].What == 'L' && d[i+1].At[0] == Point{30, 8}
		}
	}
	if moves != 13 || !corner {
		t.Errorf("%d dashes, want 13; goes on around the corner: %v", moves, corner)
	}
	round := Ellipse(0, 0, 50, 50).Dashed([]float64{1, 1})
	if want := math.Pi * 50; math.Abs(round.Length()-want) > 1.1 {
		t.Errorf("half of a circle's edge is %v long, want %v", round.Length(), want)
	}
}

func TestTransform_MapsPlaces(t *testing.T) {
	for _, c := range []struct {
		text string
		want Point // of 1, 2
	}{
		{"", Point{1, 2}},
		{"translate(3)", Point{4, 2}},
		{"translate(3,-1)", Point{4, 1}},
		{"scale(2)", Point{2, 4}},
		{"scale(2 3)", Point{2, 6}},
		{"rotate(90)", Point{-2, 1}},
		{"rotate(90 1 1)", Point{0, 1}},
		{"skewX(45)", Point{3, 2}},
		{"skewY(45)", Point{1, 3}},
		{"matrix(1 2 3 4 5 6)", Point{12, 16}},
		{"translate(10 0) rotate(90), scale(2)", Point{6, 2}},
	} {
		m, err := Transform(c.text)
		x, y := m.At(1, 2)
		if err != nil || math.Abs(x-c.want.X)+math.Abs(y-c.want.Y) > 1e-12 {
			t.Errorf("%q takes 1, 2 to %v, %v (%v), want %v", c.text, x, y, err, c.want)
		}
	}
	if got := Turn(30).After(Map{A: 2, D: 8}).Size(); math.Abs(got-4) > 1e-12 {
		t.Errorf("a map that makes areas 16 times larger has the size %v", got)
	}
}

func TestEnd_KnowsTheWay(t *testing.T) {
	for d, want := range map[string]float64{"M0,0 L5,0": 0, "M0,0 L5,0 L5,5": 90, "M0,0 C0,9 5,5 9,5": 0, "M0,0 C0,9 9,5 9,5": math.Atan2(-4, 9) * 180 / math.Pi, "M3,3": 0, "M0,0 L0,-2 L0,-2": -90} {
		o, err := Parse(d)
		if err != nil {
			t.Fatal(err)
		}
		if _, got := o.End(); math.Abs(got-want) > 1e-9 {
			t.Errorf("%s goes %v degrees at its end, want %v", d, got, want)
		}
	}
}

func TestNumbers_RefusesWhatIsNone(t *testing.T) {
	for _, text := range []string{"1 two", "NaN", "Inf 1", "1e999", "0x"} {
		if v, err := Numbers(text); err == nil {
			t.Errorf("%q became %v", text, v)
		}
	}
	if v, err := Numbers(" 1,2\n3e7 "); err != nil || len(v) != 3 || v[2] != mostFar {
		t.Errorf("1,2 3e7 became %v, %v: want the last brought in", v, err)
	}
}

func FuzzParse(f *testing.F) {
	f.Add("M0,0 10-5 A5,5 0 0 1 5,5z l1e5 0")
	f.Fuzz(func(t *testing.T, d string) {
		o, err := Parse(d)
		if err != nil {
			return
		}
		if strings.TrimLeft(d, " ,\n\t") != "" && (len(o) == 0 || o[0].What != 'M') {
			t.Errorf("%q gives %v", d, o)
		}
		if l := o.Length(); math.IsNaN(l) || math.IsInf(l, 0) {
			t.Errorf("%q is %v long", d, l)
		}
	})
}
