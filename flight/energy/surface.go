package energy

import "knockon/flight"

// surface is the ground below a flight, and the wind on it from ahead.
type surface struct{ ft, kt float64 }

// below gives the surface by the way flown: that of the departure, then evenly that of
// the destination over the middle half of the way. Turns are flown over the field.
func (m *Mission) below(distance float64) surface {
	way := max(m.runway()-m.starts, leastSlopeM)
	share := min(max(2*(distance-m.starts)/way-0.5, 0), 1)
	return surface{m.fromFt + share*(m.toFt-m.fromFt), m.fromKt + share*(m.strip().HeadwindKt-m.fromKt)}
}

// leastSlopeM is the way over which the ground is taken to rise or fall at least.
const leastSlopeM = 5 * 1852.0

// breeze is the wind that the flight has: near the ground it goes over into that of
// the surface below (flight.WindAt).
func (m *Mission) breeze() breeze {
	aloft := m.plan.Wind
	high := max(m.fromFt, m.toFt) + flight.SurfaceLayerFt
	return func(y *vector) float64 {
		ft := y[iAltitude] / feet
		if ft >= high { // most of a flight
			return aloft(ft)
		}
		s := m.below(y[iDistance])
		return flight.WindAt(ft, s.ft, s.kt, aloft)
	}
}
