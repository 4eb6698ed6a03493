package costs

import (
	"fmt"
	"math"

	"knockon/airfield"
	"knockon/book"
	"knockon/flight/roll"
	"knockon/region"
	"knockon/run"
	"knockon/say"
)

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
	ManualM     float64 // the same by the book's manual, factors and margin included; 0: none given
	Unsaid      error   // why the manual's rows do not say, where it has some
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
	ByRows      bool // DistanceM is that of the manual's rows: the book has no drag polars

	strip int
}

// NeedsM is the distance that decides: the larger of what was worked out from
// forces and what the manual says.
func (l *Landing) NeedsM() float64 { return max(l.RequiredM, l.ManualM) }

// MarginM is what is left of the runway; negative where it does not suffice.
func (l *Landing) MarginM() float64 { return l.AvailableM - l.NeedsM() }

// strips lists the ends of an airfield that a landing may use.
// On a manual's rows no landing of the book's flight is worked out elsewhere, so there
// the reports count at its destination too.
func (d *desk) strips(a airfield.Airfield) []region.Strip {
	if d.rows != nil {
		return d.region.Strips(a, d.std)
	}
	return d.region.StripsOf(d.course.Flight, a)
}

// landings works out the landing on every end, the one that was flown to first.
func (d *desk) landings(s *Side, a airfield.Airfield, strips []region.Strip, flown int) (list []Landing) {
	base, _, ok := s.Path().Landing()
	if !ok {
		return nil
	}
	down, _, _ := s.Path().Touchdown()
	list = append(list, d.landing(s.record, base, &strips[flown], down, flown))
	for i := range strips {
		if i != flown {
			there := base
			there.Runway = strips[i].Ground
			list = append(list, d.landing(s.record, there, &strips[i], down, i))
		}
	}
	return list
}

func (d *desk) landing(r *run.Record, in roll.Landing, on *region.Strip, down book.Time, number int) Landing {
	l := d.onStrip(r, on, down, number)
	l.Input = in
	rolled, decided, err := roll.Careful(in)
	if err != nil { // code 0, or a landing that makes no sense: it has no distance
		return l
	}
	l.Roll, l.Decided = rolled, decided
	l.stopsAt(rolled.TotalM)
	l.Stops = rolled.Stops
	return l
}

// onStrip is a runway end, before its landing is worked out.
func (d *desk) onStrip(r *run.Record, on *region.Strip, down book.Time, number int) Landing {
	return Landing{
		Runway: on.Runway.Name(), End: on.End.Ident, HeadingTrue: on.End.HeadingTrue, Surface: on.Surface, AvailableM: on.Runway.LandingM(on.End),
		HeadKt: on.Ground.HeadwindKt, CrossKt: on.CrossKt, TailKt: on.TailKt, Code: on.Ground.Code, strip: number,
		MostCrossKt: min(d.limit("max_crosswind_kt"), effect(r, "most_crosswind_kt", down)),
		MostTailKt:  min(d.limit("max_tailwind_kt"), effect(r, "most_tailwind_kt", down)),
	}
}

// stopsAt is a landing that takes so many metres.
func (l *Landing) stopsAt(metres float64) {
	l.Stops, l.DistanceM, l.RequiredM = true, metres, roll.AtArrival(metres)
	l.DispatchM = roll.WetDispatch(metres, roll.Turbojet)
	if l.Code == 6 {
		l.DispatchM = roll.DryDispatch(metres, roll.Turbojet)
	}
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
	case l.ByRows && l.Unsaid != nil:
		add(Lacking, "%v", l.Unsaid)
	case !l.Stops:
		add(Length, "it does not stop")
	case l.NeedsM() <= l.AvailableM:
	case l.ManualM > l.RequiredM:
		add(Length, "needs %s m with the margin by the manual, has %s m", longer(l.ManualM, l.AvailableM), say.Whole(l.AvailableM))
	default:
		add(Length, "needs %s m with the margin, has %s m", longer(l.RequiredM, l.AvailableM), say.Whole(l.AvailableM))
	}
	return list
}

// longer writes a need that is more than there is so that it reads as more.
func longer(need, has float64) string {
	if say.Whole(need) != say.Whole(has) {
		return say.Whole(need)
	}
	return say.Tenths(math.Ceil(need*10) / 10)
}
