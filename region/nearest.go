package region

import (
	"errors"

	"knockon/airfield"
	"knockon/run"
)

// nearest is the way to the nearest field that suits the aircraft as its systems leave
// it at the turn, everything known. Where there is none, or no engine gives thrust to
// go on to a better one, it is the nearest that suits with nothing failed; where there
// is none of those, the nearest with a runway.
func (g Router) nearest(w run.Whereabouts) (run.Route, error) {
	usable := g.Airfields.Where(func(a airfield.Airfield) bool { return len(a.Runways) > 0 })
	hits := usable.Nearest(w.Place, mostLookedAt)
	if len(hits) == 0 {
		return run.Route{}, errors.New("the list of airfields has none with a runway")
	}
	if w.Left.Devices.Engines != [2]float64{} {
		for _, h := range hits {
			if on, ok := g.suits(h.Airfield, w); ok {
				r := g.Way(h.Airfield, on, w)
				r.Choice = run.AsItIs
				return r, nil
			}
		}
	}
	return g.asIfWhole(hits, w)
}

// asIfWhole is the way to the nearest field that suits the aircraft as it was
// dispatched, or else to the nearest.
func (g Router) asIfWhole(hits []airfield.Hit, w run.Whereabouts) (run.Route, error) {
	to, choice, whole := hits[0].Airfield, run.NearestOnly, w
	whole.Left = w.Whole
	for _, h := range hits {
		if _, ok := g.suits(h.Airfield, whole); ok {
			to, choice = h.Airfield, run.AsIfWhole
			break
		}
	}
	r, err := g.to(to, "", w)
	r.Choice = choice
	return r, err
}

// mostLookedAt is how many fields are looked at for the nearest that suits.
const mostLookedAt = 50

// suits gives the runway end of a field that leaves the most room beyond what the
// aircraft needs, as what is left of it says; ok is false where none suffices, or the
// weather is not good enough.
func (g Router) suits(a airfield.Airfield, w run.Whereabouts) (on Strip, ok bool) {
	r := g.Reports[a.Ident]
	if c := r.CeilingFt(); c.Given && c.Value < w.Left.CeilingFt {
		return on, false
	}
	if v := r.Visibility; v.Given && !v.OrMore && v.Metres < w.Left.VisibilityM {
		return on, false
	}
	strips := g.StripsOf(w.Flight, a)
	i := fitting(strips, w)
	if i < 0 {
		return on, false
	}
	return strips[i], true
}

// room is what a runway end has beyond what the aircraft needs as what is left of it
// says: by the forces or by its manual's factor, whichever asks for more.
func room(s Strip, w run.Whereabouts) (metres float64, ok bool) {
	need, ok := w.Aircraft.LandingLeft(s.Ground, w.State.MassKg, w.Left.Devices)
	if !ok {
		return 0, false
	}
	if w.Left.Ratio > 0 {
		whole, _ := w.Aircraft.LandingM(s.Ground, w.State.MassKg)
		need = max(need, whole*w.Left.Ratio)
	}
	return s.Runway.LandingM(s.End) - need, true
}
