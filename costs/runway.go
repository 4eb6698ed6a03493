package costs

import (
	"fmt"

	"knockon/airfield"
	"knockon/book"
	"knockon/flight/roll"
	"knockon/run"
	"knockon/say"
)

// strip is a runway end as a landing finds it.
type strip struct {
	runway  airfield.Runway
	end     airfield.End
	ground  roll.Runway
	surface string
	cross   float64 // kt
	tail    float64
}

// Landing is a runway end and what the landing on it takes. The devices come at
// the times at which they came on the end that was flown to.
type Landing struct {
	Runway, End string
	HeadingTrue float64
	Surface     string  // condition code and what lies there
	AvailableM  float64 // landing distance available
	DistanceM   float64 // from the threshold to the stop; of no meaning where it does not stop
	RequiredM   float64 // with the margin of 15 percent (roll.AtArrival)
	DispatchM   float64 // what dispatch would need for the same landing (roll.DryDispatch, WetDispatch)
	ManualM     float64 // the same by the factor of the book's manual, on the healthy distance; 0: none given
	Stops       bool
	HeadKt      float64
	CrossKt     float64 // with gusts
	MostCrossKt float64
	TailKt      float64
	MostTailKt  float64
	Roll        roll.Roll
	Code        roll.Code
	Decided     roll.Code // the code whose distance counts (roll.Careful)
	Input       roll.Landing

	strip int
}

// MarginM is what is left of the runway; negative where it does not suffice.
func (l *Landing) MarginM() float64 { return l.AvailableM - l.RequiredM }

// strips lists the ends of an airfield that a landing may use.
func (d *desk) strips(a airfield.Airfield) (list []strip) {
	w := d.region.Reports[a.Ident]
	for _, r := range a.Runways {
		for _, e := range r.Ends {
			s := strip{runway: r, end: e, ground: d.region.ground(a, e, r.SlopePct(e), d.std)}
			s.surface = d.region.surface(a.Ident, e.Ident, s.ground)
			if c, ok := w.Wind.On(e.HeadingTrue); ok {
				s.cross, s.tail = c.CrossKt, c.TailKt
			}
			list = append(list, s)
		}
	}
	return list
}

// guess picks the end that is flown to first: the longest, a knot of headwind
// counting as 30 m and a code as 300 m. These weights are our own and decide
// nothing: the landing on every end is worked out afterwards, and the best is flown to.
func (d *desk) guess(strips []strip) (best int) {
	worth := func(s *strip) float64 {
		return s.runway.LandingM(s.end) + 30*s.ground.HeadwindKt + 300*float64(s.ground.Code)
	}
	for i := range strips {
		if worth(&strips[i]) > worth(&strips[best]) {
			best = i
		}
	}
	return best
}

// landings works out the landing on every end, the one that was flown to first.
func (d *desk) landings(s *Side, a airfield.Airfield, strips []strip, flown int) (list []Landing) {
	base, _, ok := s.Path().Landing()
	if !ok {
		return nil
	}
	down, _, _ := s.Path().Touchdown()
	list = append(list, d.landing(s.record, base, &strips[flown], down, flown))
	for i := range strips {
		if i != flown {
			there := base
			there.Runway = strips[i].ground
			list = append(list, d.landing(s.record, there, &strips[i], down, i))
		}
	}
	return list
}

func (d *desk) landing(r *run.Record, in roll.Landing, on *strip, down book.Time, number int) Landing {
	l := Landing{
		Runway: on.runway.Name(), End: on.end.Ident, HeadingTrue: on.end.HeadingTrue, Surface: on.surface, AvailableM: on.runway.LandingM(on.end),
		HeadKt: on.ground.HeadwindKt, CrossKt: on.cross, TailKt: on.tail, Code: on.ground.Code, Input: in, strip: number,
		MostCrossKt: min(d.limit("max_crosswind_kt"), effect(r, "most_crosswind_kt", down)),
		MostTailKt:  min(d.limit("max_tailwind_kt"), effect(r, "most_tailwind_kt", down)),
	}
	rolled, decided, err := roll.Careful(in)
	if err != nil { // code 0, or a landing that makes no sense: it has no distance
		return l
	}
	l.Roll, l.Decided, l.Stops = rolled, decided, rolled.Stops
	l.DistanceM, l.RequiredM = rolled.TotalM, roll.AtArrival(rolled.TotalM)
	l.DispatchM = roll.WetDispatch(rolled.TotalM, roll.Turbojet)
	if l.Code == 6 {
		l.DispatchM = roll.DryDispatch(rolled.TotalM, roll.Turbojet)
	}
	return l
}

// limit is a limit of the aircraft block; without one there is none.
func (d *desk) limit(name string) float64 {
	if v, ok := d.facts.Number(name); ok {
		return v
	}
	return book.NoLimit
}

// better says that a landing is the better choice: one that nothing speaks
// against, then the greater margin.
func (l *Landing) better(than *Landing) bool {
	a, b := len(l.reasons()), len(than.reasons())
	if (a == 0) != (b == 0) {
		return a == 0
	}
	if l.Stops != than.Stops {
		return l.Stops
	}
	return l.MarginM() > than.MarginM()+1
}

// reasons against a landing.
func (l *Landing) reasons() (list []Reason) {
	add := func(kind, text string, args ...any) {
		list = append(list, Reason{kind, "runway " + l.End + ": " + fmt.Sprintf(text, args...)})
	}
	if l.Code == noLanding {
		add(Surface, "condition code 0, on which no landing is made")
		return list
	}
	if l.CrossKt > l.MostCrossKt {
		add(Crosswind, "crosswind %.0f kt; %.0f kt are left", l.CrossKt, l.MostCrossKt)
	}
	if l.TailKt > l.MostTailKt {
		add(Tailwind, "tailwind %.0f kt; %.0f kt are left", l.TailKt, l.MostTailKt)
	}
	switch {
	case !l.Stops:
		add(Length, "it does not stop")
	case l.RequiredM > l.AvailableM:
		add(Length, "needs %s m with the margin, has %s m", say.Whole(l.RequiredM), say.Whole(l.AvailableM))
	}
	return list
}

// byManual puts the distance that the book's manual gives for the failures beside
// the one that was worked out: its factor on the distance with nothing failed.
func (s *Side) byManual(healthy *Side) {
	down, _, ok := s.Path().Touchdown()
	ratio := effect(s.record, "manual_landing_ratio", down)
	if !ok || ratio == 0 || s.record.Fault != nil {
		return
	}
	for i := range s.Landings {
		for k := range healthy.Landings {
			if l := &healthy.Landings[k]; l.End == s.Landings[i].End && l.Stops {
				s.Landings[i].ManualM = roll.AtArrival(ratio * l.DistanceM)
			}
		}
	}
}
