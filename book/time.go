package book

import "math"

// Time is a moment of a flight in whole microseconds from its start. Counting
// whole microseconds keeps sums of timers exact and makes the located moment
// of a crossing the same whatever step the search used.
type Time int64

// Second is one second.
const Second Time = 1_000_000

// Never is later than every moment of any flight.
const Never Time = math.MaxInt64

// Seconds returns the moment in seconds.
func (t Time) Seconds() float64 { return float64(t) / 1e6 }

// AtSeconds returns the microsecond nearest to s seconds.
func AtSeconds(s float64) Time { return Time(math.Round(s * 1e6)) }
