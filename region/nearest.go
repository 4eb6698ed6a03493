package region

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"knockon/airfield"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/run"
)

// Fields are the ways to the fields that a flight without one may go to, the fewest
// minutes first: those that suit the aircraft with nothing failed, each marked if it suits
// it as its systems leave it at the turn, and then the others that have a runway.
func (g Router) Fields(w run.Whereabouts) (list []run.Route, err error) {
	usable := g.Airfields.Where(func(a airfield.Airfield) bool { return len(a.Runways) > 0 })
	hits := usable.Nearest(w.Place, mostLookedAt)
	if len(hits) == 0 {
		return nil, errors.New("the list of airfields has none with a runway")
	}
	var rest []run.Route
	for _, h := range hits {
		if r := g.field(h.Airfield, w); r.Choice == run.NearestOnly {
			rest = append(rest, r)
		} else {
			list = append(list, r)
		}
	}
	byMinutes(list, w)
	byMinutes(rest, w)
	return append(list, rest...), nil
}

// byMinutes orders ways by how long they take at the speed of the book's flight at this
// height, with the wind there.
func byMinutes(list []run.Route, w run.Whereabouts) {
	tas := planned(w)
	slices.SortStableFunc(list, func(a, b run.Route) int {
		return cmp.Compare(minutes(a.Turn.To, tas, w), minutes(b.Turn.To, tas, w))
	})
}

// minutes are those of a way at an airspeed; one against more wind than that takes none
// to anywhere.
func minutes(to energy.Diversion, tas float64, w run.Whereabouts) float64 {
	kt := tas - to.Wind(w.State.AltitudeFt)
	if kt <= 0 {
		return math.Inf(1)
	}
	return to.DistanceM / geo.MetresPerNM / kt * 60
}

// planned is the true airspeed at the height of a flight as the book's flight has it
// there: its speed of the descent, its Mach number at most, and 250 kt below 10,000 ft.
func planned(w run.Whereabouts) float64 {
	p, ft := energy.PlanOf(w.Flight), w.State.AltitudeFt
	kt := p.DescentKt
	if ft < 10000 {
		kt = min(kt, 250)
	}
	return min(p.Air.TASOfCAS(kt, ft), p.Air.TASOfMach(p.ClimbMach, ft))
}

// field is the way to a field, with what can be said for it before anybody goes there.
func (g Router) field(a airfield.Airfield, w run.Whereabouts) run.Route {
	whole := w
	whole.Left = w.Whole
	on, suits := g.suits(a, w)
	if suits && w.Left.Devices.Engines != [2]float64{} {
		r := g.Way(a, on, w)
		r.Choice = run.AsItIs
		return r
	}
	strips := g.StripsOf(w.Flight, a)
	r := g.Way(a, strips[Best(strips, w)], w)
	r.Choice = run.NearestOnly
	if _, suits = g.suits(a, whole); suits {
		r.Choice = run.AsIfWhole
	}
	return r
}

// first is the nearest that suits the aircraft as it is, or else the first.
func first(list []run.Route) run.Route {
	if i := slices.IndexFunc(list, func(r run.Route) bool { return r.Choice == run.AsItIs }); i >= 0 {
		return list[i]
	}
	return list[0]
}

// mostLookedAt is how many fields are looked at for the nearest that suits.
const mostLookedAt = 50

// suits gives the runway end of a field that leaves the most room beyond what the
// aircraft needs, as what is left of it says; ok is false where none suffices, or the
// weather is not good enough.
func (g Router) suits(a airfield.Airfield, w run.Whereabouts) (on Strip, ok bool) {
	if !g.clear(a, w) {
		return on, false
	}
	strips := g.StripsOf(w.Flight, a)
	i := fitting(strips, w)
	if i < 0 {
		return on, false
	}
	return strips[i], true
}

// clear says that the weather of a field, as far as it is reported, is good enough.
func (g Router) clear(a airfield.Airfield, w run.Whereabouts) bool {
	r := g.Reports[a.Ident]
	if c := r.CeilingFt(); c.Given && c.Value < w.Left.CeilingFt {
		return false
	}
	v := r.Visibility
	return !v.Given || v.OrMore || v.Metres >= w.Left.VisibilityM
}

// Suits says that the runway end of a way suits an aircraft as it came there.
func (g Router) Suits(on run.Route, w run.Whereabouts) bool {
	a, ok := g.Find(on.Field)
	if !ok || !g.clear(a, w) {
		return false
	}
	i := slices.IndexFunc(g.StripsOf(w.Flight, a), func(s Strip) bool { return s.End.Ident == on.End })
	return i >= 0 && fits(g.StripsOf(w.Flight, a)[i], w)
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
