package claim

import (
	"context"
	"slices"

	"knockon/ask"
	"knockon/book"
	"knockon/region"
	"knockon/run"
	"knockon/scenario"
)

// world is where the givens of some claims are flown. All that they observe is
// observed on the courses that they share.
type world struct {
	ground *region.Region // nil: not known
	off    *ask.Desk      // with nobody's hands
	hands  *ask.Desk      // with what a crew look at
}

func newWorld(b *book.Book, ground *region.Region, claims []*book.Claim) *world {
	w := &world{ground: ground, off: ask.NewDesk(b), hands: ask.NewDesk(b)}
	crewed := w.hands.Courses.Watch
	w.off.Courses.Watch = func(build *book.Build, f *book.Flight) []*book.Expr { return observedBy(b, claims, false, build, f) }
	w.hands.Courses.Watch = func(build *book.Build, f *book.Flight) []*book.Expr {
		return slices.Concat(crewed(build, f), observedBy(b, claims, true, build, f))
	}
	if ground != nil {
		w.off.Over(ground)
		w.hands.Over(ground)
	}
	return w
}

// observedBy lists what the givens observe that are flown on a course, by a crew or
// hands off.
func observedBy(b *book.Book, claims []*book.Claim, crewed bool, build *book.Build, flight *book.Flight) (list []*book.Expr) {
	for _, c := range claims {
		for _, g := range c.Given {
			on, _ := b.Build(g.Variant)
			if f, err := on.FlightNamed(g.Flight); err == nil && on == build && f == flight && seesAsCrew(g) == crewed {
				list = append(list, Observed(g)...)
			}
		}
	}
	return list
}

// byTheBook says that a crew act: in claims nobody does unless they say so.
func byTheBook(g *book.Given) bool { return g.Crew == scenario.ByTheBook }

// seesAsCrew says that a given is flown where all that a crew look at is observed:
// by a crew, or since it is asked what one would make of a rescue.
func seesAsCrew(g *book.Given) bool { return byTheBook(g) || asks(g, book.AsksRescue) }

func conduct(g *book.Given) string {
	if byTheBook(g) {
		return scenario.ByTheBook
	}
	return scenario.Nobody
}

// deskOf is the desk of a given: one that watches what a crew look at, or not.
func (w *world) deskOf(g *book.Given) *ask.Desk {
	if seesAsCrew(g) {
		return w.hands
	}
	return w.off
}

// fly answers the question of a given on its course, with whoever acts and wherever
// it goes.
func (w *world) fly(ctx context.Context, g *book.Given, course *run.Course) (*ask.Answer, error) {
	s, err := run.OfGiven(g, course.Build)
	if err != nil {
		return nil, err
	}
	return w.deskOf(g).Fly(ctx, course, ask.Question{Crew: conduct(g)}, s)
}

// Whole says that a given asks for more than its failures on the book's flight: who
// acts, where the flight goes, how it ends, what an airfield costs.
func Whole(g *book.Given) bool {
	return byTheBook(g) || len(g.Plan) > 0 || asks(g, book.AsksEvent) || asks(g, book.AsksEnding) || asks(g, book.AsksPrice) || asks(g, book.AsksRescue)
}

// asks says that an expectation of a given asks for something of a kind.
func asks(g *book.Given, kind book.Ask) (yes bool) {
	for _, e := range g.Expect {
		e.Walk(func(x *book.Expr) {
			if f, ok := book.ClaimFunctionNamed(x.Word); ok && x.Op == book.OpLedger && f.Asks == kind {
				yes = true
			}
		})
	}
	return yes
}
