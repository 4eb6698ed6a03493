package book

import (
	"slices"
	"strings"
)

// Performance is what a manual says of how the aircraft flies: rows of numbers as
// they stand there, and the factors for what has failed. Flights and prices read
// between its rows (flight/manual) and never beyond them.
type Performance struct {
	Head
	Combine string // how several factors go together: one of Combines
	Tables  []*Table
	Factors []*Factor
}

// Combines says how several factors go together: their product, the greatest of
// them, or one and the sum of what each is above one. Metres that they add are
// added up, or the greatest of them counts.
var Combines = []string{"product", "greatest", "sum"}

// Table is one table of a manual.
type Table struct {
	Kind    string // of TableKinds
	Setting string // of slats and flaps; "" where the kind has none or the table is for all
	Columns []string
	Rows    []Row
	Range   Range
}

// Row is one row of a table, in the order of its columns.
type Row struct {
	Values []float64
	Range  Range
}

// Name says which table it is: "cruise", "landing full".
func (t *Table) Name() string { return strings.TrimSpace(t.Kind + " " + t.Setting) }

// Column gives the place of a column; -1 if the table has none of this name.
func (t *Table) Column(name string) int { return slices.Index(t.Columns, name) }

// Speed gives the column of the speed, one of SpeedColumns; "" if there is none.
func (t *Table) Speed() string {
	for _, name := range SpeedColumns {
		if t.Column(name) >= 0 {
			return name
		}
	}
	return ""
}

// Factor is what a manual makes of its numbers after a failure.
type Factor struct {
	ID, Title    string
	When         *Expr
	Covers       []string // effects for which it stands
	LandingRatio float64  // on the landing distance; 1 where not given
	FuelRatio    float64  // on the fuel for a distance; 1 where not given
	AddsM        float64  // to the landing distance
	Range        Range
}

// FactorID is the id under which a circuit knows a factor. No item can have it,
// since ids have no spaces.
func FactorID(id string) string { return "factor " + id }

// TableKind is a kind of table that a manual can give.
type TableKind struct {
	Word  string
	Keys  []string // columns that a row is looked up by, in this order; a * marks one that must be there
	Gives []string // columns that it gives, likewise
	Speed bool     // it gives one of SpeedColumns
	Title string
}

// SpeedColumns are the ways to give a speed.
var SpeedColumns = []string{"airspeed_kt", "true_airspeed_kt", "mach"}

// TableKinds lists them in the order of a flight.
var TableKinds = []TableKind{
	{"climb", columns("altitude_ft* mass_kg"), columns("fuel_kg_per_h* climb_ft_per_min*"), true, "the climb, by level and mass"},
	{"cruise", columns("altitude_ft* mass_kg"), columns("fuel_kg_per_h*"), true, "the cruise, by level and mass"},
	{"descent", columns("altitude_ft* mass_kg"), columns("fuel_kg_per_h* descent_ft_per_min*"), true, "the descent, by level and mass"},
	{"holding", columns("altitude_ft* mass_kg"), columns("fuel_kg_per_h*"), true, "the holding, by level and mass: the final reserve counts its flow at 1,500 ft"},
	{"approach", columns("mass_kg"), columns("fuel_kg_per_h*"), true, "the final approach, by mass; with a setting of slats and flaps in quotes for that one, without for all others"},
	{"landing", columns("code* altitude_ft mass_kg headwind_kt"), columns("distance_m*"), false, "the landing distance from 50 ft to the stop without any margin, by the setting in quotes, runway condition code, pressure altitude of the runway, mass and headwind"},
	{"engine_out", columns("altitude_ft mass_kg"), columns("ceiling_ft* fuel_kg_per_h* climb_ft_per_min"), true, "flight with one engine: its ceiling, and speed and flow there or by level"},
	{"glide", columns("height_ft*"), columns("distance_nm*"), true, "the glide with no engine: the distance in still air by the height above the ground"},
}

// columns parts a list of names.
func columns(list string) []string { return strings.Fields(list) }

// TableNamed looks a kind of table up; ok is false if there is none.
func TableNamed(word string) (kind TableKind, ok bool) {
	i := slices.IndexFunc(TableKinds, func(k TableKind) bool { return k.Word == word })
	if i < 0 {
		return kind, false
	}
	return TableKinds[i], true
}

// must lists the columns that must be there, may all.
func (k *TableKind) must() []string { return k.starred(true) }
func (k *TableKind) may() []string  { return k.starred(false) }

func (k *TableKind) starred(only bool) (list []string) {
	for _, c := range slices.Concat(k.Keys, k.Gives) {
		if name, star := strings.CutSuffix(c, "*"); star || !only {
			list = append(list, name)
		}
	}
	if k.Speed && !only {
		list = append(list, SpeedColumns...)
	}
	return list
}

// KeysOf are the columns that rows of a table are looked up by, in the order of
// its kind.
func (t *Table) KeysOf() (keys []string) {
	kind, _ := TableNamed(t.Kind)
	for _, c := range kind.Keys {
		if name := strings.TrimSuffix(c, "*"); t.Column(name) >= 0 {
			keys = append(keys, name)
		}
	}
	return keys
}

// Table gives the first table of a kind for a setting: that with the setting, or
// else one for all; ok is false if there is neither.
func (p *Performance) Table(kind, setting string) (t *Table, ok bool) {
	for _, want := range []string{setting, ""} {
		i := slices.IndexFunc(p.Tables, func(t *Table) bool { return t.Kind == kind && t.Setting == want })
		if i >= 0 {
			return p.Tables[i], true
		}
	}
	return nil, false
}

// LandingSettings are the settings for which there are landing rows, the usual
// one first.
func (p *Performance) LandingSettings() (names []string) {
	for _, t := range p.Tables {
		if t.Kind == "landing" {
			names = append(names, t.Setting)
		}
	}
	return names
}

// columnRange is what a number in a column can be.
func columnRange(name string) (least, most float64) {
	switch name {
	case "code":
		return 0, 6
	case "altitude_ft", "height_ft", "ceiling_ft":
		return -2000, 60000
	case "mass_kg":
		return 1, 1e6
	case "headwind_kt":
		return -60, 100
	case "airspeed_kt":
		return 40, 450
	case "true_airspeed_kt":
		return 40, 600
	case "mach":
		return 0.1, 0.95
	case "fuel_kg_per_h":
		return 0, 1e5
	case "climb_ft_per_min", "descent_ft_per_min":
		return 10, 20000
	case "distance_m":
		return 1, 20000
	}
	return 0, 1000 // distance_nm
}
