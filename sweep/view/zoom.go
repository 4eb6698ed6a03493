package view

import "slices"

// Table is a part of a map, or the whole of it by chapters: rows by columns.
type Table struct {
	Rows    []Unit   `json:"rows"`
	Columns []Unit   `json:"columns"`
	Cells   []string `json:"cells"` // a row each, a Shade for each column
}

// Layer says which of a map's two layers is meant.
type Layer int

// Layers: all that a pair takes away, or what it takes beyond its parts.
const (
	Whole Layer = iota
	Own
)

func (m *Map) layer(l Layer) []string {
	if l == Own {
		return m.Own
	}
	return m.Whole
}

// Chapters gives the map by chapters: the darkest cell of each two. A row has
// no id and no title, only its chapter; common causes, and units of none,
// stand under chapter 0.
func (m *Map) Chapters(l Layer) Table {
	var t Table
	for _, u := range m.Units {
		if !slices.ContainsFunc(t.Rows, func(r Unit) bool { return r.Chapter == u.Chapter }) {
			t.Rows = append(t.Rows, Unit{Chapter: u.Chapter})
		}
	}
	slices.SortFunc(t.Rows, func(a, b Unit) int { return a.Chapter - b.Chapter })
	t.Columns = t.Rows
	place := map[int]int{}
	for i, r := range t.Rows {
		place[r.Chapter] = i
	}
	cells := make([][]byte, len(t.Rows))
	for i := range cells {
		cells[i] = slices.Repeat([]byte{byte(Nothing)}, len(t.Rows))
	}
	for i, row := range m.layer(l) {
		for j := range row {
			a, b := place[m.Units[i].Chapter], place[m.Units[j].Chapter]
			cells[a][b] = max(cells[a][b], row[j])
		}
	}
	t.Cells = rows(cells)
	return t
}

// Between gives the part of the map in which units of one chapter meet those of
// another.
func (m *Map) Between(l Layer, chapter, other int) Table {
	var t Table
	var columns []int
	for j, u := range m.Units {
		if u.Chapter == other {
			t.Columns = append(t.Columns, u)
			columns = append(columns, j)
		}
	}
	for i, u := range m.Units {
		if u.Chapter != chapter {
			continue
		}
		t.Rows = append(t.Rows, u)
		cells := make([]byte, len(columns))
		for k, j := range columns {
			cells[k] = m.layer(l)[i][j]
		}
		t.Cells = append(t.Cells, string(cells))
	}
	return t
}
