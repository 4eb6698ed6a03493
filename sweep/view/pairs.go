package view

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/ledger"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// Shade of a cell: the worst that a pair brings about, of what mattered.
type Shade byte

// Shades, the best first: nothing lost; lost, and told or noticed at once; ...
const (
	Nothing Shade = '0' + iota
	Told
	Follows
	Late
	InUse
	Unknown // hidden, or denied by an indication
)

var shadeOf = map[ledger.Word]Shade{
	ledger.IsTold: Told, ledger.AtOnce: Told, ledger.Follows: Follows, ledger.Late: Late,
	ledger.InUse: InUse, ledger.Hidden: Unknown, ledger.Denied: Unknown,
}

// Map shows every two units of a build, in one phase: units by units.
type Map struct {
	Phase string   `json:"phase"`
	Units []Unit   `json:"units"` // by chapter, then in the order of the book; common causes last
	Whole []string `json:"whole"` // a row for each unit, a Shade for each unit: the worst outcome of any two of their failures
	Own   []string `json:"own"`   // the same of what the two take away beyond what each does
}

// Unit is a row and a column of the map.
type Unit struct {
	ID      string `json:"id"`
	Title   string `json:"title"`
	Chapter int    `json:"chapter,omitempty"`
}

// MapOf draws the map of a phase. On its diagonal stand the units alone: in
// Whole the worst of their failures, in Own what two failures of one unit do
// beyond that.
func MapOf(s *findings.Swept, phase int) *Map {
	d := newDrawing(s, phase)
	m := &Map{Phase: s.Sheets[phase].Phase.ID, Units: d.units}
	whole, own := d.blank(), d.blank()
	singles := make([]Shade, len(s.Failures))
	for n := range s.Failures {
		singles[n] = shade(d.sheet.Outcome(sweep.Set{n}).Lost)
		d.darken(whole, n, n, singles[n])
	}
	for a := range singles {
		for b := a + 1; b < len(singles); b++ {
			if o, kept := d.kept[sweep.Set{a, b}.Key()]; kept {
				d.darken(whole, a, b, shade(o.Lost))
			} else {
				d.darken(whole, a, b, max(singles[a], singles[b]))
			}
		}
	}
	for key := range d.kept {
		set := sweep.SetOf(key)
		d.darken(own, set[0], set[1], shade(s.Beyond(d.sheet, set)))
	}
	m.Whole, m.Own = rows(whole), rows(own)
	return m
}

// drawing is a map being drawn.
type drawing struct {
	*findings.Swept
	sheet *sweep.Sheet
	units []Unit
	place []int // failure -> its unit's place
	kept  map[uint64]sweep.Outcome
}

func newDrawing(s *findings.Swept, phase int) *drawing {
	d := &drawing{Swept: s, sheet: s.Sheets[phase], place: make([]int, len(s.Failures)), kept: map[uint64]sweep.Outcome{}}
	for _, u := range s.Build.Units {
		d.units = append(d.units, Unit{u.ID, u.Title, u.Chapter})
	}
	slices.SortStableFunc(d.units, func(a, b Unit) int { return cmp.Compare(a.Chapter, b.Chapter) })
	for _, e := range s.Build.Events {
		d.units = append(d.units, Unit{e.ID, e.Title, 0})
	}
	at := map[string]int{}
	for i, u := range d.units {
		at[u.ID] = i
	}
	for n, f := range s.Failures {
		d.place[n] = at[f.Unit]
	}
	d.sheet.Met(func(set sweep.Set, o sweep.Outcome) {
		if len(set) == 2 {
			d.kept[set.Key()] = o
		}
	})
	return d
}

func (d *drawing) blank() [][]byte {
	cells := make([][]byte, len(d.units))
	for i := range cells {
		cells[i] = slices.Repeat([]byte{byte(Nothing)}, len(d.units))
	}
	return cells
}

// darken gives the cell of two failures a shade if it is lighter.
func (d *drawing) darken(cells [][]byte, a, b int, s Shade) {
	i, j := d.place[a], d.place[b]
	if i == j && a != b && s == Nothing {
		return
	}
	cells[i][j] = max(cells[i][j], byte(s))
	cells[j][i] = cells[i][j]
}

func rows(cells [][]byte) (list []string) {
	for _, c := range cells {
		list = append(list, string(c))
	}
	return list
}

// shade is the worst way of being known of what is lost and mattered.
func shade(list []sweep.Lost) Shade {
	s := Nothing
	for _, l := range list {
		if l.Mattered {
			s = max(s, shadeOf[l.Known])
		}
	}
	return s
}

// Cell is the worst two failures of two units.
type Cell struct {
	Row
	Shade Shade
}

// CellOf finds, of all pairs of failures of two units in a phase, the one that
// takes most away beyond its parts, and of equals the one with the highest
// score; ok is false if there is no such pair. For one unit with itself that is
// the worst of its single failures.
func CellOf(s *findings.Swept, flight *book.Flight, phase int, a, b string) (c Cell, ok bool) {
	v := &viewer{s, flight}
	best := -1.0
	for _, set := range v.between(a, b) {
		o := s.Sheets[phase].Outcome(set)
		beyond := s.Beyond(s.Sheets[phase], set)
		score := 1e6*s.ScoreOf(set, sweep.Outcome{Lost: beyond}) + s.ScoreOf(set, o)
		if score <= best {
			continue
		}
		best, ok = score, true
		c = Cell{v.row(s.ScoreOf(set, o), set, phase, o.Lost), shade(o.Lost)}
	}
	return c, ok
}

// between lists the pairs of failures of two units; of one unit its failures.
func (v *viewer) between(a, b string) (list []sweep.Set) {
	for i, f := range v.Failures {
		if f.Unit != a {
			continue
		}
		if a == b {
			list = append(list, sweep.Set{i})
			continue
		}
		for j, g := range v.Failures {
			if g.Unit == b {
				list = append(list, sweep.Set{min(i, j), max(i, j)})
			}
		}
	}
	return list
}
