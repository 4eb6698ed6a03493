package say

import (
	"fmt"
	"math"
)

// Micros is a time in whole microseconds, as book.Time is.
type Micros interface{ ~int64 }

const second = 1_000_000

// Clock gives a moment as minutes and seconds from the start of the flight: 9:12.
func Clock[T Micros](t T) string {
	s, sign := steps(t, second), ""
	if s < 0 {
		s, sign = -s, "−"
	}
	return fmt.Sprintf("%s%d:%02d", sign, s/60, s%60)
}

// After gives a moment as minutes and seconds from the failure: +0:42, −0:05.
func After[T Micros](d T) string {
	if text := Clock(d); text[0] >= '0' && text[0] <= '9' {
		return "+" + text
	}
	return Clock(d)
}

// steps counts whole steps; halves go away from 0.
func steps[T Micros](t T, step int64) int64 {
	if t < 0 {
		return -steps(-t, step)
	}
	return (int64(t) + step/2) / step
}

// Lasts gives a length of time in words: 0.5 s, 42 s, 3 min 05 s.
func Lasts[T Micros](d T) string {
	switch s := math.Abs(float64(d)) / second; {
	case d < 0:
		return "−" + Lasts(-d)
	case s < 9.95:
		return Figures(math.Round(s*10)/10) + " s"
	case s < 119.5:
		return fmt.Sprintf("%d s", steps(d, second))
	}
	s := steps(d, second)
	return fmt.Sprintf("%d min %02d s", s/60, s%60)
}
