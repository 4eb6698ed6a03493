package region

import (
	"knockon/airfield"
	"knockon/flight"
	"knockon/flight/roll"
)

// Strip is a runway end as a landing finds it.
type Strip struct {
	Runway  airfield.Runway
	End     airfield.End
	Ground  roll.Runway
	Surface string  // condition code and what lies there
	CrossKt float64 // with gusts
	TailKt  float64
	InUse   bool // at the destination of the book: the end that its flight lands on
}

// Strips lists the ends of an airfield that a landing may use; std is the air
// where no report gives it.
func (g *Region) Strips(a airfield.Airfield, std flight.Air) (list []Strip) {
	w := g.Reports[a.Ident]
	for _, r := range a.Runways {
		for _, e := range r.Ends {
			s := Strip{Runway: r, End: e, Ground: g.ground(a, e, r.SlopePct(e), std)}
			s.Surface = g.surface(a.Ident, e.Ident, s.Ground)
			if c, ok := w.Wind.On(e.HeadingTrue); ok {
				s.CrossKt, s.TailKt = c.CrossKt, c.TailKt
			}
			list = append(list, s)
		}
	}
	return list
}

// Guess picks the end that is flown to where nothing more is known: the longest,
// a knot of headwind counting as 30 m and a code as 300 m. These weights are our
// own.
func Guess(strips []Strip) (best int) {
	worth := func(s *Strip) float64 {
		return s.Runway.LandingM(s.End) + 30*s.Ground.HeadwindKt + 300*float64(s.Ground.Code)
	}
	for i := range strips {
		if worth(&strips[i]) > worth(&strips[best]) {
			best = i
		}
	}
	return best
}
