package manual

import (
	"knockon/book"
	"knockon/flight"
)

// Numbers are a manual's numbers, ready to be read.
type Numbers struct {
	From    *book.Performance
	Engines float64 // how many the aircraft has

	tables map[string]*Table // by name
}

// New makes the numbers of a build readable; nil if it gives none.
func New(b *book.Build) *Numbers {
	if b.Performance == nil {
		return nil
	}
	n := &Numbers{From: b.Performance, Engines: 2, tables: map[string]*Table{}}
	if b.Aircraft != nil {
		if count, ok := b.Aircraft.Number("engines_count"); ok {
			n.Engines = count
		}
	}
	for _, t := range b.Performance.Tables {
		n.tables[t.Name()] = newTable(t)
	}
	return n
}

// table gives a table for a setting of slats and flaps, or else one for all.
func (n *Numbers) table(kind, setting, needs string) (*Table, error) {
	t, ok := n.From.Table(kind, setting)
	if !ok {
		what := "table of " + kind
		if setting != "" {
			what += " with setting " + setting
		}
		return nil, &Missing{n.From, what, needs}
	}
	return n.tables[t.Name()], nil
}

// Holding is the flow of the holding at 1,500 ft, in kg/h.
func (n *Numbers) Holding(massKg float64) (float64, error) { return n.flow("holding", 1500, massKg) }

// Cruise is the flow of the cruise at a level, in kg/h.
func (n *Numbers) Cruise(ft, massKg float64) (float64, error) { return n.flow("cruise", ft, massKg) }

func (n *Numbers) flow(kind string, ft, massKg float64) (float64, error) {
	t, err := n.table(kind, "", "the final reserve")
	if err != nil {
		return 0, err
	}
	v, err := t.Read(At{AltitudeFt: ft, MassKg: massKg})
	kg, _ := t.Get(&v, "fuel_kg_per_h")
	return kg, err
}

// unadjustedFt is how high a runway may lie for landing rows without a column of
// the altitude: the distance grows with the square of the true airspeed, by 3
// percent over this height (density of the standard atmosphere).
const unadjustedFt = 1000.0

// LandingM is the landing distance without any margin, before all factors.
// setting is the one in which slats and flaps stand; "" is the usual one. Rows
// without a column of the wind take no credit for a headwind.
func (n *Numbers) LandingM(setting string, at At) (float64, error) {
	t, err := n.landing(setting)
	if err != nil {
		return 0, err
	}
	switch {
	case t.From.Column("altitude_ft") < 0 && at.AltitudeFt > unadjustedFt:
		return 0, &Uncovered{t.From, "altitude_ft", "the runway lies at a pressure altitude of " + quantity("altitude_ft", at.AltitudeFt) + ", above the " + quantity("altitude_ft", unadjustedFt) + " up to which they are read"}
	case t.From.Column("headwind_kt") < 0 && at.HeadwindKt < 0:
		return 0, &Uncovered{t.From, "headwind_kt", quantity("headwind_kt", at.HeadwindKt)}
	}
	v, err := t.Read(at)
	m, _ := t.Get(&v, "distance_m")
	return m, err
}

func (n *Numbers) landing(setting string) (*Table, error) {
	if usual := n.From.LandingSettings(); setting == "" && len(usual) > 0 {
		setting = usual[0]
	}
	return n.table("landing", setting, "a landing")
}

// speed is the true airspeed of a row and its calibrated airspeed, at most what
// is left.
func (t *Table) speed(v *Values, ft, mostKt float64, in flight.Air) (tasKt float64) {
	x, _ := t.Get(v, t.From.Speed())
	switch t.From.Speed() {
	case "airspeed_kt":
		tasKt = in.TASOfCAS(x, ft)
	case "mach":
		tasKt = in.TASOfMach(x, ft)
	default:
		tasKt = x
	}
	if mostKt < book.NoLimit {
		tasKt = min(tasKt, in.TASOfCAS(mostKt, ft))
	}
	return tasKt
}
