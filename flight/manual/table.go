package manual

import (
	"slices"
	"sort"

	"knockon/book"
)

// At is where a table is read.
type At struct {
	Code                                     float64
	AltitudeFt, HeightFt, MassKg, HeadwindKt float64
}

func (a At) of(key string) float64 {
	switch key {
	case "code":
		return a.Code
	case "altitude_ft":
		return a.AltitudeFt
	case "height_ft":
		return a.HeightFt
	case "mass_kg":
		return a.MassKg
	}
	return a.HeadwindKt
}

// mostColumns is more than any kind of table can have.
const mostColumns = 8

// Values are what a table says at a place, in the order of its columns.
type Values [mostColumns]float64

// Table is a table of a manual, ready to be read.
type Table struct {
	From *book.Table

	keys []int // columns that it is looked up by, in order
	rows []Values
}

// newTable sorts the rows by their keys.
func newTable(from *book.Table) *Table {
	t := &Table{From: from}
	for _, k := range from.KeysOf() {
		t.keys = append(t.keys, from.Column(k))
	}
	for _, r := range from.Rows {
		var v Values
		copy(v[:], r.Values)
		t.rows = append(t.rows, v)
	}
	slices.SortFunc(t.rows, func(a, b Values) int {
		for _, k := range t.keys {
			if a[k] != b[k] {
				return map[bool]int{true: -1, false: 1}[a[k] < b[k]]
			}
		}
		return 0
	})
	return t
}

// Get is a column of what was read; ok is false if the table does not have it.
func (t *Table) Get(v *Values, column string) (number float64, ok bool) {
	if i := t.From.Column(column); i >= 0 {
		return v[i], true
	}
	return 0, false
}

// Read gives the row at a place: in a straight line between the two rows beside
// it, one key after the other. An *Outside says that the rows do not go so far.
func (t *Table) Read(at At) (Values, error) { return t.read(at, t.rows, 0) }

// read does so among rows that are alike in the keys before depth.
func (t *Table) read(at At, rows []Values, depth int) (v Values, err error) {
	if depth == len(t.keys) {
		return rows[0], nil
	}
	key := t.keys[depth]
	name := t.From.Columns[key]
	x := at.of(name)
	i := sort.Search(len(rows), func(i int) bool { return rows[i][key] >= x })
	switch {
	case i < len(rows) && rows[i][key] == x:
		return t.read(at, t.alike(rows, i, key), depth+1)
	case !(i > 0 && i < len(rows)) || name == "code": // also where x is no number
		return v, &Outside{Table: t.From, Key: name, Asked: x, Rows: distinct(rows, key), At: at, Among: t.from(depth)}
	}
	low, err := t.read(at, t.alike(rows, i-1, key), depth+1)
	if err != nil {
		return v, err
	}
	high, err := t.read(at, t.alike(rows, i, key), depth+1)
	if err != nil {
		return v, err
	}
	part := (x - rows[i-1][key]) / (rows[i][key] - rows[i-1][key])
	for c := range v {
		v[c] = low[c] + part*(high[c]-low[c])
	}
	return v, nil
}

// alike is the part of sorted rows that has the same key as one of them.
func (t *Table) alike(rows []Values, i, key int) []Values {
	x := rows[i][key]
	from := sort.Search(len(rows), func(k int) bool { return rows[k][key] >= x })
	to := sort.Search(len(rows), func(k int) bool { return rows[k][key] > x })
	return rows[from:to]
}

func (t *Table) from(depth int) (names []string) {
	for _, k := range t.keys[:depth] {
		names = append(names, t.From.Columns[k])
	}
	return names
}

func distinct(rows []Values, key int) (list []float64) {
	for _, r := range rows {
		list = append(list, r[key])
	}
	return slices.Compact(list)
}
