package worth

import (
	"slices"

	"knockon/book"
	"knockon/run"
)

// Stated lists what the book itself gives for a procedure: of its claims on the
// build and the flight those failures whose consequences name the procedure, or
// an alert that calls for it. So a list for what takes two failures is found.
func (c *Caller) Stated(p *book.Procedure) (list []run.Scenario) {
	b := c.team.Build()
	for _, k := range b.Claims {
		for _, g := range k.Given {
			if !c.flown(g) || len(g.Strikes) == 0 || !speaks(g, c.names(p)) {
				continue
			}
			if s, err := run.OfGiven(g, b); err == nil && plain(s) {
				list = append(list, s)
			}
		}
	}
	return list
}

// plain says that a scenario is of failures and moves at moments alone: a condition
// is watched on the flight of its claim only, and not every flight can turn.
func plain(s run.Scenario) bool {
	awaits := func(a run.Action) bool { return a.When != nil }
	return len(s.Plan) == 0 && !slices.ContainsFunc(s.Strikes, func(k run.Strike) bool { return k.When != nil }) &&
		!slices.ContainsFunc(s.Actions, awaits) && !slices.ContainsFunc(s.SetUp, awaits)
}

// flown says that a given is of the build and the flight of the team.
func (c *Caller) flown(g *book.Given) bool {
	b := c.team.Build()
	on, _ := b.Book.Build(g.Variant)
	f, err := b.FlightNamed(g.Flight)
	return on == b && err == nil && f == c.team.Course().Flight
}

// names are the ids of a procedure, and of the alerts that call for it or for one
// that sends to it.
func (c *Caller) names(p *book.Procedure) []string {
	lists, ids := c.team.Build().SendTo(p), []string{p.ID}
	for _, a := range c.team.Build().Alerts {
		if slices.Contains(lists, a.Procedure) {
			ids = append(ids, a.ID)
		}
	}
	return ids
}

// speaks says that what is expected of a given names one of these.
func speaks(g *book.Given, ids []string) (yes bool) {
	for _, e := range g.Expect {
		e.Walk(func(x *book.Expr) { yes = yes || slices.Contains(ids, x.ID) })
	}
	return yes
}
