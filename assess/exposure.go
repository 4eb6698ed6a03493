package assess

import (
	"cmp"
	"math"
	"slices"

	"knockon/run"
)

// Flight is a flight in hours: how long it is, and when each of its phases is.
type Flight struct {
	Hours  float64
	Phases []Spell
}

// Spell is a stretch of a flight, in hours from its start.
type Spell struct{ From, To float64 }

func (s Spell) hours() float64 { return s.To - s.From }

// HoursOf is a flight of these phases.
func HoursOf(phases []run.PhaseSpan) (f Flight) {
	const hour = 3600
	for _, p := range phases {
		s := Spell{p.From.Seconds() / hour, p.To.Seconds() / hour}
		f.Phases, f.Hours = append(f.Phases, s), max(f.Hours, s.To)
	}
	return f
}

// LifeH is how long an aircraft lives, in hours of flight: so long a latent
// failure may stay where no check is known (a judgement of this project).
const LifeH = 60_000

// Part is one failure as an assessment counts it.
type Part struct {
	Rate     float64 // per hour of flight; 0: not given
	Latent   bool    // nobody is told or shown that it has come
	CheckedH float64 // hours of flight between checks that would find it; 0: none is known
}

// IntervalH is how long at most the part goes unchecked: a flight where people
// know of its failure, or the time between checks, which are made between
// flights.
func (p Part) IntervalH(flightH float64) float64 {
	switch {
	case !p.Latent:
		return flightH
	case p.CheckedH == 0:
		return math.Ceil(LifeH/flightH-1e-9) * flightH
	}
	return math.Max(1, math.Ceil(p.CheckedH/flightH-1e-9)) * flightH
}

// mostFlights is how many flights between two checks are looked at one by one;
// of more a mean is taken by quadrature.
const mostFlights = 64

// ages are times since a check at which a flight may begin, with the share of
// each: all flights between two checks are as likely.
type age struct{ since, share float64 }

func agesOf(intervalH, flightH float64) (list []age) {
	n := math.Round(intervalH / flightH)
	if n <= mostFlights {
		for i := range int(n) {
			list = append(list, age{float64(i) * flightH, 1 / n})
		}
		return list
	}
	for _, g := range quadrature {
		list = append(list, age{g.since*n*flightH - flightH/2, g.share})
	}
	return list
}

// quadrature are the points and weights of Gauss and Legendre on 0 to 1.
var quadrature = legendre(24)

func legendre(n int) (list []age) {
	for i := range n {
		x := math.Cos(math.Pi * (float64(i) + 0.75) / (float64(n) + 0.5))
		var slope float64
		for range 50 {
			var p float64
			p, slope = polynomial(n, x)
			x -= p / slope
		}
		list = append(list, age{(1 - x) / 2, 1 / ((1 - x*x) * slope * slope)})
	}
	return list
}

// polynomial is the Legendre polynomial of degree n at x, and its slope.
func polynomial(n int, x float64) (p, slope float64) {
	p, last := x, 1.0
	for k := 2; k <= n; k++ {
		p, last = (float64(2*k-1)*x*p-float64(k-1)*last)/float64(k), p
	}
	return p, float64(n) * (x*p - last) / (x*x - 1)
}

// exposure is what is worked out beforehand of the parts on a flight: how likely
// each has failed by the beginning and the end of each phase, at each age.
type exposure struct {
	flight Flight
	parts  []Part
	ages   map[float64][]age // by interval
	every  []float64         // part -> interval
	failed [][]float64       // part -> moment (two for each phase) and age -> chance
}

func newExposure(f Flight, parts []Part) *exposure {
	x := &exposure{flight: f, parts: parts, ages: map[float64][]age{}}
	for _, p := range parts {
		every := p.IntervalH(f.Hours)
		if x.ages[every] == nil {
			x.ages[every] = agesOf(every, f.Hours)
		}
		x.every = append(x.every, every)
		var chances []float64
		for _, spell := range f.Phases {
			for _, at := range []float64{spell.From, spell.To} {
				for _, a := range x.ages[every] {
					chances = append(chances, -math.Expm1(-p.Rate*(a.since+at)))
				}
			}
		}
		x.failed = append(x.failed, chances)
	}
	return x
}

// at is the chances of a part at the beginning of a phase, or at its end.
func (x *exposure) at(part, moment int) []float64 {
	n := len(x.ages[x.every[part]])
	return x.failed[part][moment*n : (moment+1)*n]
}

// present is how likely it is that all of a set have failed by a moment (twice
// the number of a phase: its beginning; one more: its end), in the mean over all
// flights. Parts of one interval are checked together; others at times that have
// nothing to do with these.
func (x *exposure) present(set []int, moment int) float64 {
	set = slices.Clone(set)
	slices.SortStableFunc(set, func(a, b int) int { return cmp.Compare(x.every[a], x.every[b]) })
	all := 1.0
	for len(set) > 0 {
		n := 1
		for n < len(set) && x.every[set[n]] == x.every[set[0]] {
			n++
		}
		all *= x.together(set[:n], moment)
		set = set[n:]
	}
	return all
}

func (x *exposure) together(set []int, moment int) (mean float64) {
	for i, a := range x.ages[x.every[set[0]]] {
		product := a.share
		for _, part := range set {
			product *= x.at(part, moment)[i]
		}
		mean += product
	}
	return mean
}

// arises is how likely it is on one flight that the last of a set fails in a
// phase: that all have failed at its end, less that they had at its beginning.
// One failure alone is not taken to have come on an earlier flight already.
func (x *exposure) arises(set []int, phase int) float64 {
	if len(set) == 1 {
		return -math.Expm1(-x.parts[set[0]].Rate * x.flight.Phases[phase].hours())
	}
	return math.Max(0, x.present(set, 2*phase+1)-x.present(set, 2*phase))
}

// around is the mean of how likely it is that all of a set have failed at the
// beginning of a phase and at its end; 1 of none.
func (x *exposure) around(set []int, phase int) float64 {
	if len(set) == 0 {
		return 1
	}
	return (x.present(set, 2*phase) + x.present(set, 2*phase+1)) / 2
}
