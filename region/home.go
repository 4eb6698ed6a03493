package region

import (
	"knockon/airfield"
	"knockon/book"
	"knockon/flight/energy"
	"knockon/flight/roll"
	"knockon/run"
)

// StripsOf lists the ends of an airfield that a flight of the book may land on. At the
// destination of the book they are as the flight has its runway, whatever is reported,
// so that a landing there is one landing, whoever asks for it; of the report the
// crosswind counts, which a flight does not give.
func (g *Region) StripsOf(f *book.Flight, a airfield.Airfield) []Strip {
	list := g.Strips(a, airOf(f))
	if !g.Home(f, a) {
		return list
	}
	for i := range list {
		list[i].Ground = energy.RunwayOf(f)
		list[i].TailKt = max(0, -list[i].Ground.HeadwindKt)
		list[i].Surface = asGiven(list[i].Ground)
	}
	return list
}

// Home says that an airfield is the destination of a flight of the book.
func (g *Region) Home(f *book.Flight, a airfield.Airfield) bool {
	to, ok := g.Find(f.To)
	return ok && to.Ident == a.Ident
}

func asGiven(r roll.Runway) string {
	if r.Code < 6 {
		return "code 5, wet in the book's flight"
	}
	return "code 6, dry in the book's flight"
}

// onItsWay says that a flight that was turned nowhere flies its own way to an airfield.
func (g Router) onItsWay(a airfield.Airfield, w run.Whereabouts) bool {
	return w.Bound == "" && g.Home(w.Flight, a)
}

// Ahead is the wind by height along the own way of a flight of the book, as the book
// gives it; the winds aloft are those of all other ways.
func Ahead(f *book.Flight) func(ft float64) float64 {
	kt, _ := f.Number("headwind_kt")
	return func(float64) float64 { return kt }
}
