package airfield

import (
	"fmt"
	"strings"

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

// Problem is something in a table that could not be used.
type Problem struct {
	File   string
	Row    int    // as a spreadsheet counts: the header is row 1
	Column string // empty if the whole row is meant
	Text   string // what is wrong and what was expected
}

// String gives the message with its place: file, row, column.
func (p Problem) String() string {
	if p.Column == "" {
		return fmt.Sprintf("%s row %d: %s", p.File, p.Row, p.Text)
	}
	return fmt.Sprintf("%s row %d, column %s: %s", p.File, p.Row, p.Column, p.Text)
}

// Problems are the messages of both tables: the airports' first, then by row,
// then in the order in which the columns are read.
type Problems struct {
	List []Problem // at most MostProblems of each table
	More int       // that many more were found
}

// MostProblems is how many messages of one table are kept.
const MostProblems = 100

// String gives one message a line, and "and N more" where the list was cut.
func (p Problems) String() string {
	var b strings.Builder
	for _, x := range p.List {
		fmt.Fprintln(&b, x)
	}
	if p.More > 0 {
		fmt.Fprintf(&b, "and %d more\n", p.More)
	}
	return b.String()
}

func (p *Problems) full() bool { return len(p.List) >= MostProblems }

func (p *Problems) add(q Problem) {
	if p.full() {
		p.More++
		return
	}
	p.List = append(p.List, q)
}

func both(a, b Problems) Problems {
	return Problems{List: append(a.List, b.List...), More: a.More + b.More}
}
