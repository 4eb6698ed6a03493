package region

import (
	"fmt"
	"math"
	"strings"

	"knockon/airfield"
	"knockon/book"
	"knockon/flight"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/run"
	"knockon/say"
)

// Router finds the ways of flights over a region. It is run.Router.
type Router struct{ *Region }

// Track is the way of a book's flight. The error is a *NoEnds.
func (g Router) Track(f *book.Flight) (run.Track, error) {
	from, to, err := g.Ends(f)
	return run.Track{From: from.Place, To: to.Place}, err
}

// Route is the way of a leg.
func (g Router) Route(l run.Leg, w run.Whereabouts) (run.Route, error) {
	from, to, err := g.Ends(w.Flight)
	if err != nil {
		return run.Route{}, err
	}
	switch l.Do {
	case run.GoOn:
		return g.to(to, "", w)
	case run.Return:
		return g.to(from, "", w)
	case run.Divert, run.Land:
		return g.named(l, w)
	}
	return run.Route{}, fmt.Errorf("there is no way over the ground for %q", l.Do)
}

// named is the way to the field that a leg names; of one that names none, to the first
// choice.
func (g Router) named(l run.Leg, w run.Whereabouts) (run.Route, error) {
	if l.To == "" {
		list, err := g.Fields(w)
		if err != nil {
			return run.Route{}, err
		}
		return first(list), nil
	}
	a, end, err := g.Named(l.To)
	if err != nil {
		return run.Route{}, err
	}
	return g.to(a, end, w)
}

// Named reads the ident of a field that has a runway, alone or with one of its
// runway ends: "QSVA", "QSVA/17".
func (g Router) Named(text string) (a airfield.Airfield, end string, err error) {
	ident, end, _ := strings.Cut(text, "/")
	a, ok := g.Find(strings.TrimSpace(ident))
	switch {
	case !ok:
		return a, end, fmt.Errorf("there is no airfield %q in the list; give its ident or its name", ident)
	case len(a.Runways) == 0:
		return a, end, fmt.Errorf("%s has no runway", a.Ident)
	}
	for _, e := range ends(a) {
		if e == end || end == "" {
			return a, end, nil
		}
	}
	return a, end, fmt.Errorf("%s", say.No("runway end of "+a.Ident, end, ends(a)))
}

// to is the way to a field: to one of its runway ends, or else to the best.
func (g Router) to(a airfield.Airfield, end string, w run.Whereabouts) (run.Route, error) {
	strips := g.StripsOf(w.Flight, a)
	if len(strips) == 0 {
		return run.Route{}, fmt.Errorf("%s has no runway", a.Ident)
	}
	on := strips[Best(strips, w)]
	for _, s := range strips {
		if s.End.Ident == end {
			on = s
		}
	}
	return g.Way(a, on, w), nil
}

// Way is the way to a runway end from where a flight is. To where it is going it
// has the way that is left.
func (g Router) Way(a airfield.Airfield, on Strip, w run.Whereabouts) run.Route {
	line := geo.Between(w.Place, a.Place)
	metres, wind := line.Metres, Along(g.winds(w), Direction(line, w.Place))
	turned := math.Abs(math.Remainder(line.Start-w.Course, 360))
	align := math.Abs(math.Remainder(on.End.HeadingTrue-line.End, 360))
	if a.Ident == g.bound(w) {
		metres, turned, align = w.LeftM, 0, 0
	}
	if g.onItsWay(a, w) {
		wind = Ahead(w.Flight)
	}
	return run.Route{
		Track: run.Track{From: w.Place, To: a.Place}, Field: a.Ident, Name: a.Name, End: on.End.Ident, LengthM: on.Runway.LandingM(on.End), CrossKt: on.CrossKt, Ahead: a.Ident == g.bound(w),
		Turn: energy.Turn{To: energy.Diversion{DistanceM: metres, TurnDeg: turned, AlignDeg: align, Wind: wind, Runway: on.Ground}},
	}
}

func (g Router) bound(w run.Whereabouts) string {
	if w.Bound != "" {
		return w.Bound
	}
	to, _ := g.Find(w.Flight.To)
	return to.Ident
}

func (g Router) winds(w run.Whereabouts) []Aloft {
	from, to, _ := g.Ends(w.Flight)
	return g.Winds(w.Flight, from.Place, to.Place)
}

func airOf(f *book.Flight) flight.Air {
	dev, _ := f.Number("isa_deviation_c")
	return flight.Air{DeviationC: dev}
}
