// Package region turns tables of airfields, weather reports, runway conditions and
// winds aloft into the ground that flights go over: where a flight begins and
// ends, which runway ends an airfield has and how a landing finds each, which
// wind blows along a way, and how an aircraft under way gets to a field.
//
// Invariant: nothing here knows a system or a failure. What is not given is said
// not to be given; nothing is filled in but what docs/costs.md names.
//
// Start reading at Region, then Router.Route (router.go).
package region

import (
	"fmt"
	"slices"
	"strings"

	"knockon/airfield"
	"knockon/flight"
	"knockon/flight/geo"
	"knockon/flight/roll"
	"knockon/weather"
)

// Region is where a flight may go: airfields with their weather, the conditions
// of their runways, and the wind aloft. It is not changed by anything here.
type Region struct {
	Airfields  *airfield.List
	Reports    map[string]weather.Report                     // by ident
	Conditions map[string]map[string]weather.RunwayCondition // by ident, then by the ident of a runway end; "" for all ends
	Aloft      []Aloft                                       // ascending; none: that of the flight
}

// Aloft is the wind at a level.
type Aloft struct {
	AltitudeFt float64
	Wind       geo.Wind
}

// Find gives the airfield that a book names, by ident or by name.
func (g *Region) Find(name string) (airfield.Airfield, bool) {
	if a, ok := g.Airfields.Find(name); ok {
		return a, true
	}
	for a := range g.Airfields.All() {
		if strings.EqualFold(a.Name, name) {
			return a, true
		}
	}
	return airfield.Airfield{}, false
}

// Along gives the wind along a course by level: between two levels in proportion,
// beyond them as at the last. Drift is left out: it takes 1 percent of the speed
// at 60 kt across and 420 kt.
func Along(levels []Aloft, course float64) func(ft float64) float64 {
	heads := make([]float64, len(levels))
	for i, l := range levels {
		heads[i], _ = l.Wind.Components(course)
	}
	return func(ft float64) float64 {
		i, _ := slices.BinarySearchFunc(levels, ft, func(l Aloft, ft float64) int {
			if l.AltitudeFt < ft {
				return -1
			}
			return 1
		})
		switch {
		case len(levels) == 0:
			return 0
		case i == 0:
			return heads[0]
		case i == len(levels):
			return heads[i-1]
		}
		a, b := levels[i-1].AltitudeFt, levels[i].AltitudeFt
		return heads[i-1] + (heads[i]-heads[i-1])*(ft-a)/max(b-a, 1)
	}
}

// ground is a field as a landing finds it.
func (g *Region) ground(a airfield.Airfield, e airfield.End, slopePct float64, std flight.Air) roll.Runway {
	r := g.Reports[a.Ident]
	w := roll.Runway{AltitudeFt: e.ElevationFt, Air: std, SlopePct: slopePct, Code: 6}
	if r.QNHhPa.Given {
		w.AltitudeFt = flight.PressureAltitudeFt(e.ElevationFt, r.QNHhPa.Value)
	}
	if r.TemperatureC.Given {
		w.Air = flight.AirOfC(w.AltitudeFt, r.TemperatureC.Value)
	}
	if c, ok := g.condition(a.Ident, e.Ident); ok {
		w.Code, w.Fluid = c.Worst(), c.Fluid()
	} else if wetting(r.Weather) {
		w.Code = 5
	}
	if c, ok := r.Wind.On(e.HeadingTrue); ok {
		w.HeadwindKt = c.HeadKt
		if c.TailKt > 0 {
			w.HeadwindKt = -c.TailKt
		}
	}
	return w
}

func (g *Region) condition(ident, end string) (weather.RunwayCondition, bool) {
	byEnd := g.Conditions[ident]
	if c, ok := byEnd[end]; ok {
		return c, true
	}
	c, ok := byEnd[""]
	return c, ok
}

// wetting says that a report gives precipitation; a runway is then taken as wet
// where nobody says more.
func wetting(groups []string) bool {
	return slices.ContainsFunc(groups, func(w string) bool {
		return !strings.HasPrefix(w, "VC") && slices.ContainsFunc([]string{"RA", "DZ", "SN", "SG", "PL", "GR", "GS", "UP"}, func(kind string) bool { return strings.Contains(w, kind) })
	})
}

// Surface says in words how an end is: "code 5", with what lies on it.
func (g *Region) surface(ident, end string, r roll.Runway) string {
	text := fmt.Sprintf("code %d", r.Code)
	if c, ok := g.condition(ident, end); ok {
		if t := c[0]; t.Covered && c[0] == c[1] && c[1] == c[2] {
			text += ", " + t.Surface.String()
			if t.DepthMM > 0 {
				text += fmt.Sprintf(" %g mm", t.DepthMM)
			}
		} else if c[0] != c[1] || c[1] != c[2] {
			text += " of " + c.String()
		}
		return text
	}
	switch r.Code {
	case 5:
		return text + ", taken as wet"
	}
	return text + ", taken as dry"
}

// Direction is the course half way between two places.
func Direction(l geo.Line, from geo.Place) float64 {
	_, c := geo.Along(from, l.Start, l.Metres/2)
	return c
}
