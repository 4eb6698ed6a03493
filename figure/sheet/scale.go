package sheet

import (
	"math"
)

// Scale maps values to places along the sheet. A value outside goes to an end.
type Scale struct {
	Low, High float64 // values
	From, To  float64 // places, in points
}

// At gives the place of a value.
func (s Scale) At(v float64) float64 {
	if !(s.High > s.Low) || math.IsNaN(v) {
		return s.From
	}
	v = min(max(v, s.Low), s.High)
	return s.From + (s.To-s.From)*(v-s.Low)/(s.High-s.Low)
}

// Ticks are round values of a scale, at most so many, in order.
func (s Scale) Ticks(most int) (ticks []float64) {
	step := RoundStep((s.High - s.Low) / float64(max(most, 1)))
	if step == 0 {
		return nil
	}
	for i := math.Ceil(s.Low / step); i*step <= s.High && len(ticks) < most+1; i++ {
		ticks = append(ticks, i*step+0) // + 0: not -0
	}
	return ticks
}

// RoundStep is the least of 1, 2 and 5 times a power of ten that is not under
// the value; 0 when the value is not a positive number.
func RoundStep(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 0) {
		return 0
	}
	power := math.Pow(10, math.Floor(math.Log10(v)))
	for _, m := range []float64{1, 2, 5} {
		if v <= m*power*(1+1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// Sound says whether a value is a number that a picture can show.
func Sound(v, most float64) bool { return math.Abs(v) <= most }
