// Package bill turns costs into the inputs of their pictures: the roll, the map,
// the fuel and the waterfall.
//
// Invariant: it adds nothing. What a picture says is what the costs say; pages,
// files and handouts all take their pictures from here. Start reading at Roll.
package bill

import (
	"fmt"

	"knockon/book"
	"knockon/costs"
	"knockon/figure/landing"
	"knockon/figure/price"
	"knockon/figure/region"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/flight/roll"
)

// margin is that of roll.AtArrival.
var margin = roll.AtArrival(1) - 1

// Roll is the landing at a place, on the runway end that the failed aircraft
// flies to; with nothing failed it counts on the same end. ok is false where
// neither lands.
func Roll(p *costs.Place) (r landing.Roll, ok bool) {
	r = landing.Roll{Margin: margin}
	if rolls(p.Failed.Landings) {
		l := &p.Failed.Landings[0]
		r.Runway, r.Available, r.Failed, ok = l.End+" of "+p.Airfield.Name, l.AvailableM, stop(l), true
	}
	for i := range p.Healthy.Landings {
		l := &p.Healthy.Landings[i]
		if rolls(p.Healthy.Landings) && (!ok || l.End == p.Failed.Landings[0].End) {
			r.Runway, r.Available, r.Healthy, ok = l.End+" of "+p.Airfield.Name, l.AvailableM, stop(l), true
			break
		}
	}
	return r, ok
}

// rolls says that landings were worked out from forces: of those by a manual's rows
// nobody knows how they roll.
func rolls(list []costs.Landing) bool { return len(list) > 0 && !list[0].ByRows }

func stop(l *costs.Landing) landing.Stop {
	s := landing.Stop{Metres: l.DistanceM, Factored: l.RequiredM, Manual: l.ManualM, NeverStops: !l.Stops}
	s.Track = append(s.Track, landing.Point{Metres: 0, Kt: l.Roll.TouchdownKt / (1 - touchdownLoss)}, landing.Point{Metres: l.Roll.AirM, Kt: l.Roll.TouchdownKt})
	for _, p := range l.Roll.Track {
		s.Track = append(s.Track, landing.Point{Metres: p.Metres, Kt: p.Kt})
	}
	for _, e := range l.Roll.Events {
		s.Events = append(s.Events, landing.Event{What: e.What, Metres: e.Metres, Kt: e.Kt})
	}
	return s
}

// touchdownLoss is the share of the threshold speed that is gone at touchdown
// (roll.AirDistance).
const touchdownLoss = 0.04

// Map is the places round the aircraft, with how far its fuel goes.
func Map(c *costs.Costs, failed, healthy costs.Boundary) region.Map {
	m := region.Map{Here: place(c.Position), Track: c.Course, Failed: places(failed), Healthy: places(healthy)}
	for i := range c.Places {
		p := &c.Places[i]
		a := region.Airfield{Ident: p.Airfield.Ident, Name: p.Airfield.Name, At: place(p.Airfield.Place), NM: p.Line.NM(), Failed: verdict(&p.Failed), Healthy: verdict(&p.Healthy)}
		if len(p.Failed.Reasons) > 0 {
			a.Reason = p.Failed.Reasons[0].Kind
		}
		m.Airfields = append(m.Airfields, a)
	}
	return m
}

func place(p geo.Place) region.Place { return region.Place{Lat: p.Lat, Lon: p.Lon} }

func places(b costs.Boundary) (list []region.Place) {
	for _, p := range b.Places {
		list = append(list, place(p))
	}
	return list
}

func verdict(s *costs.Side) region.Verdict {
	switch {
	case s.Unjudged():
		return region.NotAsked
	case s.Good():
		return region.Can
	}
	return region.CanNot
}

// Fuel is the fuel on the way to a place.
func Fuel(c *costs.Costs, p *costs.Place) price.Fuel {
	return price.Fuel{To: p.Airfield.Name, Failed: burn(c.At, &p.Failed), Healthy: burn(c.At, &p.Healthy)}
}

// points is how many moments of a diversion are drawn.
const points = 60

func burn(from book.Time, s *costs.Side) price.Burn {
	b := price.Burn{Reserve: s.ReserveKg, Lands: s.Arrives}
	path, to, _ := s.Flown()
	for i := range points + 1 {
		t := from + (to-from)*book.Time(i)/points
		b.Points = append(b.Points, price.Burned{Minutes: (t - from).Seconds() / 60, Kg: energy.StateAt(path, t).FuelKg})
	}
	if !s.Arrives && s.Ending == energy.Dry {
		b.DryAt = (to - from).Seconds() / 60
	}
	return b
}

// Measures are what a waterfall can add up.
var Measures = []string{"fuel", "time", "runway"}

// Steps is what each thing adds to one measure; ok is false for an unknown one.
// A part that adds nothing to it is left out.
func Steps(a *costs.AttributionView, measure string) (w price.Waterfall, ok bool) {
	var of func(costs.Amounts) float64
	switch measure {
	case "fuel":
		w.What, w.Unit, of = "fuel to "+a.Name, "kg", func(m costs.Amounts) float64 { return m.FuelKg }
	case "time":
		w.What, w.Unit, of = "time to "+a.Name, "min", func(m costs.Amounts) float64 { return m.Minutes }
	case "runway":
		w.What, w.Unit, of = fmt.Sprintf("runway needed on %s of %s, with the margin", a.End, a.Name), "m", func(m costs.Amounts) float64 { return m.RequiredM }
	default:
		return w, false
	}
	w.Healthy, w.Failed = of(a.Healthy), of(a.Failed)
	for _, p := range a.Parts {
		if back, alone := of(p.Back), of(p.Alone); back != 0 || alone != 0 {
			w.Parts = append(w.Parts, price.Part{Title: p.Title, Back: back, Alone: alone})
		}
	}
	return w, true
}
