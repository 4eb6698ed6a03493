package region

import (
	"fmt"
	"math"

	"knockon/airfield"
	"knockon/book"
	"knockon/flight/energy"
	"knockon/flight/roll"
	"knockon/run"
)

// StripsOf lists the ends of an airfield that a flight of the book may land on. At the
// destination of the book they are as the flight has its runway, whatever is reported,
// so that a landing there is one landing, whoever asks for it; of the report the
// crosswind counts, which a flight does not give. The wind that a flight gives blows along
// the end in use, the one that looks best by the reports; the others have what comes of
// it along them.
func (g *Region) StripsOf(f *book.Flight, a airfield.Airfield) []Strip {
	list := g.Strips(a, airOf(f))
	switch {
	case len(list) == 0:
		return list
	case !g.Home(f, a):
		g.supposed(list, f, a)
		return list
	}
	used := Guess(list)
	along := list[used].End.HeadingTrue
	for i := range list {
		r := energy.RunwayOf(f)
		r.HeadwindKt *= math.Cos((list[i].End.HeadingTrue - along) * math.Pi / 180)
		list[i].Ground, list[i].TailKt, list[i].Surface = r, max(0, -r.HeadwindKt), asGiven(r)
	}
	list[used].InUse = true
	return list
}

// supposed puts on the runways of departure what a question supposes of them: who took
// off there finds it on the way back.
func (g *Region) supposed(list []Strip, f *book.Flight, a airfield.Airfield) {
	if from, ok := g.Find(f.From); !ok || from.Ident != a.Ident {
		return
	}
	along := list[Guess(list)].End.HeadingTrue
	for i := range list {
		s := &list[i]
		if f.Supposes("runway") {
			code, _ := f.Number("from_runway_code")
			s.Ground.Code, s.Ground.Fluid = roll.Code(code), roll.Fluid{}
			s.Surface = fmt.Sprintf("code %g, supposed", code)
		}
		if kt, _ := f.Number("from_headwind_kt"); f.Supposes("surface") {
			off := (s.End.HeadingTrue - along) * math.Pi / 180
			s.Ground.HeadwindKt, s.CrossKt = kt*math.Cos(off), math.Abs(kt*math.Sin(off))
			s.TailKt = max(0, -s.Ground.HeadwindKt)
		}
	}
}

// Home says that an airfield is the destination of a flight of the book.
func (g *Region) Home(f *book.Flight, a airfield.Airfield) bool {
	to, ok := g.Find(f.To)
	return ok && to.Ident == a.Ident
}

func asGiven(r roll.Runway) string {
	lies := map[roll.Code]string{6: ", dry", 5: ", wet"}[r.Code]
	return fmt.Sprintf("code %d%s in the book's flight", r.Code, lies)
}

// onItsWay says that a flight that was turned nowhere flies its own way to an airfield.
func (g Router) onItsWay(a airfield.Airfield, w run.Whereabouts) bool {
	return w.Bound == "" && g.Home(w.Flight, a)
}

// Ahead is the wind aloft along the own way of a flight of the book, as the book gives
// it; those of the region are those of all other ways.
func Ahead(f *book.Flight) func(ft float64) float64 { return energy.PlanOf(f).Wind }
