package airfield

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"knockon/flight/geo"
)

var (
	length   = span{"runway length", "ft", 1, 60000}
	width    = span{"runway width", "ft", 0, 20000}
	heading  = span{"true heading", "degrees", 0, 360}
	setBack  = span{"displaced threshold", "ft", 0, 60000}
	steepPct = 25.0 // no runway is so steep: a digit is wrong
	aside    = 10.0 // degrees by which two ends may fail to be opposite
)

type runwayColumns struct {
	id, ref, ident, length, width, surface, closed int
	end                                            [2]endColumns
}

type endColumns struct{ ident, lat, lon, elevation, heading, displaced int }

func (b *builder) runways(in io.Reader) (Problems, error) {
	t, err := openTable(RunwaysFile, in)
	if err != nil {
		return Problems{}, err
	}
	c := findRunwayColumns(t)
	if err := t.complete(); err != nil {
		return t.problems, err
	}
	seen := map[string]int{}
	for {
		more, err := t.next()
		if err != nil || !more {
			return t.problems, err
		}
		b.runway(t, c, seen)
	}
}

func findRunwayColumns(t *table) (c runwayColumns) {
	c.id = t.may("id", "two rows for one runway go unseen")
	c.ref = t.must("airport_ref")
	c.ident = t.may("airport_ident", "airfields are found by airport_ref")
	c.length = t.must("length_ft")
	c.width = t.may("width_ft", "widths are not known")
	c.surface = t.may("surface", "surfaces are not known")
	c.closed = t.may("closed", "all runways count as open")
	for i, end := range []string{"le_", "he_"} {
		c.end[i] = endColumns{
			ident:     t.must(end + "ident"),
			lat:       t.may(end+"latitude_deg", "headings are not found from the ends"),
			lon:       t.may(end+"longitude_deg", "headings are not found from the ends"),
			elevation: t.may(end+"elevation_ft", "the other end's or the airfield's elevation is taken"),
			heading:   t.may(end+"heading_degT", "headings are found from the ends or names"),
			displaced: t.may(end+"displaced_threshold_ft", "thresholds count as not displaced"),
		}
	}
	return c
}

// runway reads a row into a runway of its airfield.
func (b *builder) runway(t *table, c runwayColumns, seen map[string]int) {
	a := b.owner(t, c)
	if a == nil {
		return
	}
	closed := t.yes(c.closed)
	if name := strings.Trim(t.text(c.end[0].ident)+"/"+t.text(c.end[1].ident), "/"); !t.bad && (closed || a.Closed()) {
		a.Notes = append(a.Notes, fmt.Sprintf("runway %s is closed", name))
		return
	}
	if id := strings.ToUpper(t.text(c.id)); id != "" {
		if row, ok := seen[id]; ok {
			t.say(c.id, "%s is already in row %d; the row is left out", quote(id), row)
		} else {
			seen[strings.Clone(id)] = t.rows.row
		}
	}
	r := Runway{LengthFt: t.needed(c.length, length), Surface: b.word(t.text(c.surface))}
	r.WidthFt, _ = t.number(c.width, width)
	b.ends(t, c, a, &r)
	if t.bad {
		return
	}
	for _, e := range r.Ends {
		if e.FromName {
			a.Notes = append(a.Notes, fmt.Sprintf("runway %s: heading taken from the name, which is magnetic", e.Ident))
		}
	}
	a.Runways = append(a.Runways, r)
}

// owner finds the airfield of a row; nil if it is unknown or was left out.
func (b *builder) owner(t *table, c runwayColumns) *Airfield {
	column, seen := c.ref, b.byID
	if t.text(column) == "" && c.ident >= 0 {
		column, seen = c.ident, b.byIdent
	}
	key := t.text(column)
	i, ok := seen[strings.ToUpper(key)]
	switch {
	case key == "":
		t.say(column, "no airfield; the row is left out")
	case !ok:
		t.say(column, "no airfield has %s; the row is left out", quote(key))
	case i != leftOut:
		return &b.airfields[i]
	}
	return nil
}

// yes reads a cell that says yes or no; empty is no.
func (t *table) yes(column int) bool {
	switch text := strings.ToLower(t.text(column)); text {
	case "1", "yes", "true":
		return true
	case "", "0", "no", "false":
	default:
		t.say(column, "%s is neither 1 nor 0; the row is left out", quote(text))
	}
	return false
}

// end is a runway's end as the table has it.
type end struct {
	End
	column                     int // of the heading, or the name where there is none
	place                      geo.Place
	hasPlace, hasElevation, ok bool // ok: the heading is known
}

// ends reads the ends of a row and fills in what one tells about the other.
func (b *builder) ends(t *table, c runwayColumns, a *Airfield, r *Runway) {
	var e [2]end
	for i := range e {
		e[i] = readEnd(t, c.end[i])
		if e[i].DisplacedFt >= r.LengthFt && e[i].DisplacedFt > 0 && r.LengthFt > 0 {
			t.say(c.end[i].displaced, "displaced by %v ft on a runway of %v ft; the row is left out", e[i].DisplacedFt, r.LengthFt)
		}
	}
	level(&e, a.ElevationFt)
	if t.bad {
		return
	}
	if slope := 100 * math.Abs(e[1].ElevationFt-e[0].ElevationFt) / r.LengthFt; slope > steepPct {
		t.say(c.end[1].elevation, "the ends' elevations make a slope of %.0f percent; the row is left out", slope)
		return
	}
	direct(t, &e)
	for i := range e {
		b.keep(t, e[i], r)
	}
	if len(r.Ends) == 0 && !t.bad {
		t.say(c.end[0].ident, "neither end has a name; the row is left out")
	}
}

// keep adds an end that has a name.
func (b *builder) keep(t *table, e end, r *Runway) {
	if e.Ident == "" || t.bad {
		return
	}
	if !e.ok {
		t.say(e.column, "no heading for runway %s, and its name gives none; the row is left out", quote(e.Ident))
		return
	}
	e.Ident = b.word(e.Ident)
	r.Ends = append(r.Ends, e.End)
}

func readEnd(t *table, c endColumns) (e end) {
	e.Ident, e.column = t.text(c.ident), c.heading
	if e.column < 0 {
		e.column = c.ident
	}
	lat, north := t.number(c.lat, latitude)
	lon, east := t.number(c.lon, longitude)
	e.place, e.hasPlace = geo.Place{Lat: lat, Lon: lon}, north && east
	e.ElevationFt, e.hasElevation = t.number(c.elevation, elevation)
	e.DisplacedFt, _ = t.number(c.displaced, setBack)
	e.HeadingTrue, e.ok = t.number(c.heading, heading)
	e.HeadingTrue = geo.Course(e.HeadingTrue)
	return e
}

// level gives an end without elevation the other's, or the airfield's.
func level(e *[2]end, fieldFt float64) {
	for i := range e {
		other := &e[1-i]
		switch {
		case e[i].hasElevation:
		case other.hasElevation:
			e[i].ElevationFt = other.ElevationFt
		default:
			e[i].ElevationFt = fieldFt
		}
	}
}

// direct finds headings that are missing: from the other end, from where the
// ends lie, from the name.
func direct(t *table, e *[2]end) {
	if e[0].ok && e[1].ok {
		if off := math.Abs(geo.Course(e[1].HeadingTrue-e[0].HeadingTrue) - 180); off > aside {
			t.say(e[1].column, "headings %v and %v are not opposite; the row is left out", e[0].HeadingTrue, e[1].HeadingTrue)
		}
		return
	}
	if !e[0].ok && !e[1].ok && e[0].hasPlace && e[1].hasPlace && e[0].place != e[1].place {
		e[0].HeadingTrue, e[0].ok = geo.Between(e[0].place, e[1].place).Start, true
	}
	for i := range e {
		if other := e[1-i]; !e[i].ok && other.ok && !other.FromName {
			e[i].HeadingTrue, e[i].ok = geo.Course(other.HeadingTrue+180), true
		}
	}
	for i := range e {
		if !e[i].ok {
			e[i].HeadingTrue, e[i].ok = named(e[i].Ident)
			e[i].FromName = e[i].ok
		}
	}
}

// named is ten times the number that a runway's name begins with.
func named(ident string) (float64, bool) {
	n, err := strconv.Atoi(strings.TrimRight(ident, "LCRTWSGU"))
	if err != nil || n < 1 || n > 36 || len(ident) > 3 {
		return 0, false
	}
	return geo.Course(float64(n) * 10), true
}
