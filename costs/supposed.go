package costs

import (
	"strings"

	"knockon/say"
)

// supposed says of what is supposed of the wind and of the runway at which fields it
// counts: a supposition that some fields do not feel must not look like one that they
// do. Mass, fuel and icing are the flight's own and count everywhere.
func (c *Costs) supposed() string {
	f := c.desk.course.Flight
	var list []string
	if f.Supposes("runway") {
		list = append(list, "The state of the runway that is supposed counts at "+c.desk.homeward()+"; elsewhere the runways are as reported.")
	}
	if f.Supposes("wind") {
		list = append(list, "The wind that is supposed aloft counts "+c.blows()+"; elsewhere the winds aloft are as reported.")
	}
	if f.Supposes("surface") {
		list = append(list, "The wind that is supposed on the runways counts at take-off and at "+c.desk.homeward()+"; elsewhere it is as reported.")
	}
	return strings.Join(list, " ")
}

// homeward is where the runway is as the question has it: where the flight took off,
// for who comes back, and where the book's flight goes to.
func (d *desk) homeward() string {
	var at []string
	if from, ok := d.region.Find(d.course.Flight.From); ok && from.Name != d.home {
		at = append(at, from.Name+", where the flight took off")
	}
	if d.home != "" {
		at = append(at, d.home+", where the flight was planned to")
	}
	if len(at) == 0 {
		return "no airfield"
	}
	return strings.Join(at, ", and at ")
}

func (c *Costs) blows() string {
	parts := []string{"up to the turn"}
	switch {
	case len(c.desk.region.Aloft) == 0:
		parts = append(parts, "along every way")
	case c.desk.home != "" && !c.desk.turned:
		parts = append(parts, "on the flight's own way")
	}
	return say.And(parts)
}

// heading is what was asked, with what is supposed.
func (c *Costs) heading(asked string) string {
	if c.desk.course.Flight.Supposed == "" {
		return asked
	}
	return strings.TrimSuffix(asked, ".") + "; supposed " + c.desk.course.Flight.Supposed + "."
}

// calm says that a flight gives no wind on the runway of its destination.
func (c *Costs) calm() string {
	if _, given := c.desk.course.Flight.Number("to_headwind_kt"); given {
		return ""
	}
	return " (on the runway calm, since it gives no wind there)"
}
