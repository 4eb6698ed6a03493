package weather

import (
	"math"

	"knockon/flight/geo"
)

// Wind is the surface wind of a report. Directions are true and where it blows
// from. The zero value is a wind that is not known.
type Wind struct {
	Given       bool
	From        float64 // degrees, 0 to below 360
	Variable    bool    // no one direction, or none measured
	Kt          float64
	GustKt      float64 // 0: no gusts reported
	OrMore      bool    // the speed or the gust is beyond the code's scale
	Spread      bool    // the direction varied, clockwise from Least to Most
	Least, Most float64
}

// Components is a wind on a runway, in knots.
type Components struct {
	HeadKt  float64 // of the mean wind; negative: tailwind
	RightKt float64 // of the mean wind; negative: from the left
	TailKt  float64 // most tailwind, gusts and directions as they varied counted; never negative
	CrossKt float64 // most crosswind from either side, counted in the same way
}

// On gives the wind on a runway with a true heading; false if the wind is not
// known. A wind of variable direction counts as a tailwind of its whole
// strength and as a crosswind of its whole strength from the right. Wind credit
// (half a headwind, one and a half tailwinds) is not taken here: see
// CAT.POL.A.330.
func (w Wind) On(heading float64) (Components, bool) {
	peak := max(w.Kt, w.GustKt)
	if !w.Given || math.IsNaN(heading) || math.IsInf(heading, 0) {
		return Components{}, false
	}
	if w.Variable {
		return Components{HeadKt: -w.Kt, RightKt: w.Kt, TailKt: peak, CrossKt: peak}, true
	}
	var c Components
	c.HeadKt, c.RightKt = geo.Wind{From: w.From, Kt: w.Kt}.Components(heading)
	for _, from := range w.extremes() {
		head, right := geo.Wind{From: from, Kt: peak}.Components(heading)
		c.TailKt, c.CrossKt = max(c.TailKt, -head), max(c.CrossKt, math.Abs(right))
	}
	if w.cameFrom(heading + 180) {
		c.TailKt = peak
	}
	if w.cameFrom(heading+90) || w.cameFrom(heading-90) {
		c.CrossKt = peak
	}
	return c, true
}

func (w Wind) extremes() []float64 {
	if !w.Spread {
		return []float64{w.From}
	}
	return []float64{w.From, w.Least, w.Most}
}

// cameFrom tells whether a direction is between those that the wind varied.
func (w Wind) cameFrom(direction float64) bool {
	return w.Spread && geo.Course(direction-w.Least) <= geo.Course(w.Most-w.Least)
}
