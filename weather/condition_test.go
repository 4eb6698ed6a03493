package weather

import (
	"strings"
	"testing"

	"knockon/flight/roll"
)

// Codes: runway condition assessment matrix for pilots and operators; by
// thirds: FAA Aeronautical Information Manual 4-3-9.
func TestReadCondition_Codes(t *testing.T) {
	for _, c := range []struct {
		text  string
		air   Reading
		want  string
		worst roll.Code
	}{
		{"5/5/3", Reading{}, "5/5/3", 3},
		{"0 / 1/ 6", Reading{}, "0/1/6", 0},
		{"4", Reading{}, "4/4/4", 4},
		{"dry", Reading{}, "6/6/6", 6},
		{"Wet", Reading{}, "5/5/5", 5},
		{"damp", Reading{}, "5/5/5", 5},
		{"wet 3 mm", Reading{}, "5/5/5", 5},
		{"wet 3.1 mm", Reading{}, "2/2/2", 2},
		{"standing water 6mm", Reading{}, "2/2/2", 2},
		{"slush 3,0 mm", Reading{}, "5/5/5", 5},
		{"slush 12 mm", Reading{}, "2/2/2", 2},
		{"wet  snow 5 mm", Reading{}, "3/3/3", 3},
		{"dry snow 2 mm -5 C", Reading{}, "5/5/5", 5},
		{"compacted snow -15 C", Reading{}, "4/4/4", 4},
		{"compacted snow -14C", Reading{}, "3/3/3", 3},
		{"compacted snow", given(-15), "4/4/4", 4},
		{"compacted snow -3 °C", given(-20), "3/3/3", 3},
		{"ice", Reading{}, "1/1/1", 1},
		{"wet ice/6/slush over ice", Reading{}, "0/6/0", 0},
		{"slippery when wet", Reading{}, "3/3/3", 3},
	} {
		got, err := ReadCondition(c.text, c.air)
		if err != nil || got.String() != c.want || got.Worst() != c.worst {
			t.Errorf("%q: %v, %v", c.text, got, err)
		}
	}
}

func TestReadCondition_EverySurfaceOfTheMatrix(t *testing.T) {
	for _, s := range roll.Surfaces() {
		for _, depth := range []float64{0, 5} {
			text := s.String() + map[float64]string{0: " 0 mm -2 C", 5: " 5 mm -2 C"}[depth]
			want, _ := roll.Condition(s, depth, -2)
			got, err := ReadCondition(text, Reading{})
			if err != nil || got[1] != (Third{Code: want, Covered: true, Surface: s, DepthMM: depth}) {
				t.Errorf("%q: %+v, %v", text, got[1], err)
			}
		}
	}
}

func TestReadCondition_SaysWhatIsWrong(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", `runway condition "": give a code from 0 to 6, or a surface`},
		{"7", `runway condition "7": give a code from 0 to 6`},
		{"5/5", `runway condition "5/5" has 2 parts: give one for the whole runway, or three`},
		{"5/x y z/3", `runway surface "x y z" is not known: it can be damp, standing water, dry, frost, wet`},
		{"slush", `runway condition "slush": the code depends on the depth`},
		{"wet/dry snow/wet", `runway condition "dry snow": the code depends on the depth`},
		{"standing water", `runway condition "standing water": the code depends on the depth`},
		{"standing water 2 mm", `runway condition "standing water 2 mm": standing water is deeper than 3 mm`},
		{"compacted snow", `runway condition "compacted snow": the code depends on the air temperature`},
		{"slush 2000 mm", `runway condition "slush 2000 mm": depth on the runway is 2000 mm: give 0 to 1000`},
		{"ice -200 C", `runway condition "ice -200 c": air temperature is -200 C`},
		{"slush -6 mm", `runway condition "slush -6 mm": give a code`},
	} {
		if _, err := ReadCondition(c.text, Reading{}); err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%q: %v, not %s", c.text, err, c.want)
		}
	}
}

func TestRunwayCondition_Fluid(t *testing.T) {
	for _, c := range []struct {
		text string
		want roll.Fluid
	}{
		{"standing water 6 mm", roll.Fluid{DepthMM: 6, Gravity: 1}},
		{"slush 12 mm/slush 8 mm/slush 10 mm", roll.Fluid{DepthMM: 8, Gravity: 0.85}},
		{"slush 12 mm/wet 8 mm/slush 10 mm", roll.Fluid{}},
		{"wet 6 mm/dry/wet 6 mm", roll.Fluid{}},
		{"wet", roll.Fluid{}},
		{"dry snow 20 mm", roll.Fluid{}},
		{"2/2/2", roll.Fluid{}},
	} {
		got, err := ReadCondition(c.text, Reading{})
		if err != nil || got.Fluid() != c.want {
			t.Errorf("%q: %+v, %v", c.text, got.Fluid(), err)
		}
	}
}
