package airfield

import (
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"knockon/flight/geo"
)

// Names of the two tables, in a folder and in messages.
const (
	AirportsFile = "airports.csv"
	RunwaysFile  = "runways.csv"
)

// ReadFS reads the two tables from a folder. It fails as Read does, or if a
// table cannot be opened.
func ReadFS(fsys fs.FS, dir string) (*List, Problems, error) {
	airports, err := fsys.Open(path.Join(dir, AirportsFile))
	if err != nil {
		return nil, Problems{}, fmt.Errorf("airfields: %w", err)
	}
	defer airports.Close()
	runways, err := fsys.Open(path.Join(dir, RunwaysFile))
	if err != nil {
		return nil, Problems{}, fmt.Errorf("airfields: %w", err)
	}
	defer runways.Close()
	return Read(airports, runways)
}

// Read reads the two tables. Commas, semicolons or tabs separate the cells, by
// what the header uses; a byte-order mark, quotes, either line end and columns
// that are not known are all right. What cannot be used is left out and told in
// the problems. It fails only if a table cannot be read at all: a reader that
// fails, an empty file, a header without the columns that carry the list.
func Read(airports, runways io.Reader) (*List, Problems, error) {
	b := &builder{byID: map[string]int{}, byIdent: map[string]int{}, words: map[string]string{}}
	first, err := b.airports(airports)
	if err != nil {
		return nil, first, err
	}
	second, err := b.runways(runways)
	if err != nil {
		return nil, both(first, second), err
	}
	slices.SortFunc(b.airfields, func(x, y Airfield) int { return strings.Compare(x.Ident, y.Ident) })
	return newList(b.airfields), both(first, second), nil
}

// builder holds what has been read so far.
type builder struct {
	airfields []Airfield
	row       []int             // where each airfield stood
	byID      map[string]int    // place in airfields, or leftOut
	byIdent   map[string]int    // the same; idents in capitals
	words     map[string]string // one copy of each surface and kind
}

const leftOut = -1 // told already: its runways are passed over in silence

// word gives the one copy of a text that comes often.
func (b *builder) word(text string) string {
	if w, ok := b.words[text]; ok {
		return w
	}
	w := strings.Clone(text)
	b.words[w] = w
	return w
}

var (
	latitude  = span{"latitude", "degrees", -90, 90}
	longitude = span{"longitude", "degrees", -180, 180}
	elevation = span{"elevation", "ft", -1500, 20000}
)

type airportColumns struct{ id, ident, kind, name, lat, lon, elevation int }

func (b *builder) airports(in io.Reader) (Problems, error) {
	t, err := openTable(AirportsFile, in)
	if err != nil {
		return Problems{}, err
	}
	c := airportColumns{id: t.must("id"), ident: t.must("ident"), lat: t.must("latitude_deg"), lon: t.must("longitude_deg"), elevation: t.must("elevation_ft")}
	c.kind = t.may("type", "no airfield counts as closed")
	c.name = t.may("name", "airfields have no names")
	if err := t.complete(); err != nil {
		return t.problems, err
	}
	for {
		more, err := t.next()
		if err != nil || !more {
			return t.problems, err
		}
		b.airport(t, c)
	}
}

// airport reads a row into an airfield, or marks it as left out.
func (b *builder) airport(t *table, c airportColumns) {
	id, ident := t.text(c.id), t.text(c.ident)
	b.fresh(t, c.id, id, b.byID)
	b.fresh(t, c.ident, ident, b.byIdent)
	a := Airfield{
		Place:       geo.Place{Lat: t.needed(c.lat, latitude), Lon: t.needed(c.lon, longitude)},
		ElevationFt: t.needed(c.elevation, elevation),
	}
	if t.bad {
		mark(b.byID, id, leftOut)
		mark(b.byIdent, ident, leftOut)
		return
	}
	a.Ident, a.Name, a.Kind = strings.Clone(ident), strings.Clone(t.text(c.name)), b.word(t.text(c.kind))
	if a.Closed() {
		a.Notes = append(a.Notes, "the airfield is closed")
	}
	mark(b.byID, id, len(b.airfields))
	mark(b.byIdent, ident, len(b.airfields))
	b.airfields, b.row = append(b.airfields, a), append(b.row, t.rows.row)
}

// fresh says if a key is missing or was used before.
func (b *builder) fresh(t *table, column int, key string, seen map[string]int) {
	if key == "" {
		t.say(column, "no %s; the row is left out", t.columns[column])
		return
	}
	if i, ok := seen[strings.ToUpper(key)]; ok && i != leftOut {
		t.say(column, "%s is already in row %d; the row is left out", quote(key), b.row[i])
	}
}

// mark remembers where a key led; an airfield that is there stays.
func mark(seen map[string]int, key string, i int) {
	key = strings.ToUpper(key)
	if old, ok := seen[key]; key == "" || ok && old != leftOut {
		return
	}
	seen[strings.Clone(key)] = i
}
