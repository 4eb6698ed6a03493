package region

import (
	"fmt"

	"knockon/airfield"
	"knockon/book"
	"knockon/flight/geo"
)

// NoEnds says that a flight cannot be priced since its ends are not known.
type NoEnds struct {
	Flight *book.Flight
	Named  bool // the book names both; the airfields do not have them
}

func (e *NoEnds) Error() string {
	f := e.Flight
	if e.Named {
		return fmt.Sprintf("flight %s goes from %q to %q, and the airfields do not have both: give a folder that has them by name or by ident (--airfields DIR)", f.ID, f.From, f.To)
	}
	return fmt.Sprintf("flight %s does not say where it goes, so there is no way to price: add to its block from = \"NAME\" and to = \"NAME\", the name or ident of an airfield each, and give the folder of the airfields (--airfields DIR)", f.ID)
}

// Ends are the airfields that a flight goes from and to, or a *NoEnds.
func (g *Region) Ends(f *book.Flight) (from, to airfield.Airfield, err error) {
	from, ok1 := g.Find(f.From)
	to, ok2 := g.Find(f.To)
	if named := f.From != "" && f.To != ""; !named || !ok1 || !ok2 {
		return from, to, &NoEnds{f, named}
	}
	return from, to, nil
}

// Winds are the winds aloft for a flight: those of the region, or else the
// headwind that the flight has along its way.
func (g *Region) Winds(f *book.Flight, from, to geo.Place) []Aloft {
	if len(g.Aloft) > 0 {
		return g.Aloft
	}
	head, _ := f.Number("headwind_kt")
	course := Direction(geo.Between(from, to), from)
	if head < 0 {
		return []Aloft{{Wind: geo.Wind{From: geo.Course(course + 180), Kt: -head}}}
	}
	return []Aloft{{Wind: geo.Wind{From: geo.Course(course), Kt: head}}}
}
