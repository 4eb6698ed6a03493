package weather

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"knockon/flight/roll"
)

// RunwayCondition is the state of a runway by thirds, in the direction of
// landing.
type RunwayCondition [3]Third

// Third is a third of a runway: its code, and what lies there if that is how it
// was given.
type Third struct {
	Code    roll.Code
	Covered bool // Surface and DepthMM are known
	Surface roll.Surface
	DepthMM float64
}

// Worst is the lowest code.
func (c RunwayCondition) Worst() roll.Code { return min(c[0].Code, c[1].Code, c[2].Code) }

// String gives the codes: "5/5/3".
func (c RunwayCondition) String() string {
	return fmt.Sprintf("%d/%d/%d", c[0].Code, c[1].Code, c[2].Code)
}

// Fluid is the water or slush that lies on the whole runway, as deep as where
// it is least deep. Fluid on a part of it only is not counted: its drag would
// help to stop.
func (c RunwayCondition) Fluid() roll.Fluid {
	f := c[0].fluid()
	for _, t := range c[1:] {
		g := t.fluid()
		if g.Gravity != f.Gravity {
			return roll.Fluid{}
		}
		f.DepthMM = min(f.DepthMM, g.DepthMM)
	}
	return f
}

// Specific gravities as in roll.Fluid, from memory of AMC 25.1591.
func (t Third) fluid() roll.Fluid {
	switch {
	case !t.Covered || t.DepthMM == 0:
	case t.Surface == roll.Wet:
		return roll.Fluid{DepthMM: t.DepthMM, Gravity: 1}
	case t.Surface == roll.Slush:
		return roll.Fluid{DepthMM: t.DepthMM, Gravity: 0.85}
	}
	return roll.Fluid{}
}

// ReadCondition reads a condition as a person types it: one for the whole
// runway, or three with slashes between them. Each is a code ("5/5/3") or a
// surface of the runway condition assessment matrix with its depth in
// millimetres where the code depends on it ("slush 6 mm"), and the air
// temperature in degrees Celsius ("compacted snow -16 C"); where none is typed
// that of the report is taken. "Wet" without a depth is no deeper than 3 mm. The
// error names the part and what was expected.
func ReadCondition(text string, airC Reading) (RunwayCondition, error) {
	parts := strings.Split(strings.ToLower(text), "/")
	if len(parts) != 1 && len(parts) != 3 {
		return RunwayCondition{}, fmt.Errorf("runway condition %q has %d parts: give one for the whole runway, or three for its thirds, like 5/5/3", text, len(parts))
	}
	var c RunwayCondition
	for i, part := range parts {
		third, err := readThird(strings.Join(strings.Fields(part), " "), airC)
		if err != nil {
			return RunwayCondition{}, err
		}
		c[i] = third
	}
	if len(parts) == 1 {
		c[1], c[2] = c[0], c[0]
	}
	return c, nil
}

var conditionForm = regexp.MustCompile(`^([a-z][a-z ]*?)(?: ?([0-9]+(?:[.,][0-9]+)?) ?mm)?(?: ?([+-]?[0-9]+(?:[.,][0-9]+)?) ?°?c)?$`)

func readThird(part string, airC Reading) (Third, error) {
	if len(part) == 1 && part[0] >= '0' && part[0] <= '6' {
		return Third{Code: roll.Code(part[0] - '0')}, nil
	}
	m := conditionForm.FindStringSubmatch(part)
	if m == nil {
		return Third{}, fmt.Errorf("runway condition %q: give a code from 0 to 6, or a surface, its depth and the temperature, like \"wet snow 5 mm -2 C\"", part)
	}
	s, deep, err := surface(m[1])
	if err != nil {
		return Third{}, err
	}
	depth, air := typed(m[2]), typed(m[3])
	if !air.Given {
		air = airC
	}
	switch {
	case !depth.Given && (deep || s != roll.Wet && depends(s, 0, 10, 0, 0)):
		return Third{}, fmt.Errorf("runway condition %q: the code depends on the depth: give it in millimetres, like \"%s 5 mm\"", part, m[1])
	case deep && depth.Value <= 3:
		return Third{}, fmt.Errorf("runway condition %q: standing water is deeper than 3 mm; up to there the runway is wet", part)
	case !air.Given && depends(s, 0, 0, -40, 5):
		return Third{}, fmt.Errorf("runway condition %q: the code depends on the air temperature: give it in degrees, like \"%s -16 C\"", part, m[1])
	}
	code, err := roll.Condition(s, depth.Value, air.Value)
	if err != nil {
		return Third{}, fmt.Errorf("runway condition %q: %w", part, err)
	}
	return Third{Code: code, Covered: true, Surface: s, DepthMM: depth.Value}, nil
}

// depends tells whether a surface's code changes from one depth and temperature
// to another.
func depends(s roll.Surface, depth1, depth2, air1, air2 float64) bool {
	a, _ := roll.Condition(s, depth1, air1)
	b, _ := roll.Condition(s, depth2, air2)
	return a != b
}

// surface finds a surface by its words. deep tells that only a depth above the
// thin one is meant.
func surface(words string) (s roll.Surface, deep bool, err error) {
	switch words {
	case "damp":
		return roll.Wet, false, nil
	case "standing water", "water":
		return roll.Wet, true, nil
	}
	all := roll.Surfaces()
	i := slices.IndexFunc(all, func(s roll.Surface) bool { return s.String() == words })
	if i < 0 {
		return 0, false, fmt.Errorf("runway surface %q is not known: it can be %s", words, known(all))
	}
	return all[i], false, nil
}

func known(all []roll.Surface) string {
	names := []string{"damp", "standing water"}
	for _, s := range all {
		names = append(names, s.String())
	}
	return strings.Join(names, ", ")
}

func typed(text string) Reading {
	if text == "" {
		return Reading{}
	}
	x, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	return Reading{x, err == nil}
}
