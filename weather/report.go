package weather

import "fmt"

// Report is an aerodrome report. A group that is not in the report, or says
// that its value was not measured, leaves its part not given.
type Report struct {
	Text      string // as read: capitals, single spaces
	Special   bool   // SPECI
	Station   string // four characters; empty if there is none
	Time      Time
	Automatic bool // AUTO
	Corrected bool // COR
	Missing   bool // NIL: nothing was observed

	Wind         Wind
	Visibility   Visibility
	CAVOK        bool     // visibility 10 km or more, no cloud or weather of operational significance
	Weather      []string // groups as they stand: "-SHRA"
	Clouds       []Cloud
	TemperatureC Reading
	DewPointC    Reading
	QNHhPa       Reading

	RunwayStates []string // groups as they stand: "R24/010060", "R/SNOCLO"
	Kept         []string // groups that are known and kept as they stand: runway visual range, visibility by direction, recent weather, wind shear, sea
	Trend        string   // from NOSIG, BECMG or TEMPO on
	Remarks      string   // after RMK
	Unknown      []string // groups that could not be read
	Problems     []Problem
}

// Reading is a number that may be missing.
type Reading struct {
	Value float64
	Given bool
}

// Time is when a report was made, UTC. Day 0 means that it is not given.
type Time struct{ Day, Hour, Minute int }

// Visibility is the prevailing visibility.
type Visibility struct {
	Metres  float64
	Given   bool
	OrMore  bool // 9999, CAVOK, P6SM
	OrLess  bool // 0000 (less than 50 m), M1/4SM
	NoSides bool // NDV: the station cannot tell directions apart
}

// Cloud is one layer, or the vertical visibility into an obscured sky.
type Cloud struct {
	Amount string  // FEW, SCT, BKN, OVC, VV; empty if not observed (///)
	BaseFt Reading // above the aerodrome
	Kind   string  // CB, TCU or empty
}

// CeilingFt is the lowest base of more than half the sky (BKN, OVC) or the
// vertical visibility, above the aerodrome; not given if there is no such
// layer or its base is not known. A layer of unknown amount counts: it may be
// more than half.
func (r Report) CeilingFt() (lowest Reading) {
	for _, c := range r.Clouds {
		if c.Amount == "FEW" || c.Amount == "SCT" || !c.BaseFt.Given {
			continue
		}
		if !lowest.Given || c.BaseFt.Value < lowest.Value {
			lowest = c.BaseFt
		}
	}
	return lowest
}

// Problem is something in a report that could not be read as it stands.
type Problem struct {
	Place int    // of the group in the report, from 1; 0 if a group is missing
	Group string // as it stands; empty if a group is missing
	Text  string // what is wrong and what was expected
}

// String gives the message with its group.
func (p Problem) String() string {
	if p.Place == 0 {
		return p.Text
	}
	return fmt.Sprintf("group %d, %q: %s", p.Place, p.Group, p.Text)
}
