package airfield

import (
	"knockon/flight/geo"
)

// Airfield is a row of the airports table with its runways.
type Airfield struct {
	Ident, Name string
	Kind        string // the list's own word: "large_airport", "heliport", "closed"; may be empty
	Place       geo.Place
	ElevationFt float64
	Runways     []Runway // those that can be used, in the order of the table
	Notes       []string // what was kept out or taken for granted, in the order of the table
}

// Closed tells whether the list calls the airfield closed. It then has no
// runways.
func (a Airfield) Closed() bool { return a.Kind == closedKind }

const closedKind = "closed"

// Runway is one strip with its one or two ends.
type Runway struct {
	LengthFt float64
	WidthFt  float64 // 0: not in the list
	Surface  string  // the list's own word, "ASP"; may be empty
	Ends     []End
}

// End is a runway as it is landed on in one direction.
type End struct {
	Ident       string
	HeadingTrue float64 // 0 to below 360
	FromName    bool    // the heading was not in the list: ten times the number in the name, magnetic
	ElevationFt float64 // of the end; where the list has none the other end's, or the airfield's
	DisplacedFt float64 // from the end of the runway to the threshold
}

const metresPerFoot = 0.3048

// LandingM is the length beyond the threshold of an end, in metres.
func (r Runway) LandingM(e End) float64 { return (r.LengthFt - e.DisplacedFt) * metresPerFoot }

// SlopePct is the mean slope seen from an end, in percent; positive goes up. It
// is 0 for a runway with only one end, or with one elevation.
func (r Runway) SlopePct(from End) float64 {
	for _, e := range r.Ends {
		if e.Ident != from.Ident {
			return 100 * (e.ElevationFt - from.ElevationFt) / r.LengthFt
		}
	}
	return 0
}

// Name gives the idents of the ends: "08/26".
func (r Runway) Name() string {
	if len(r.Ends) == 0 {
		return ""
	}
	name := r.Ends[0].Ident
	for _, e := range r.Ends[1:] {
		name += "/" + e.Ident
	}
	return name
}
