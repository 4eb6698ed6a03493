package view_test

import (
	"net/url"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/internal/booktest"
	"knockon/internal/corvane"
	"knockon/ledger"
	"knockon/run"
	"knockon/scenario"
	"knockon/sweep"
	"knockon/sweep/findings"
	"knockon/sweep/view"
)

// swept sweeps some phases of a book's first build with pairs.
func swept(t *testing.T, b *book.Book, phases ...string) (*findings.Swept, *book.Flight) {
	t.Helper()
	build, _ := b.Build("")
	w, err := sweep.Of(t.Context(), build, nil, sweep.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	s := &findings.Swept{Build: build, Failures: w.Failures()}
	for i, p := range w.Phases() {
		if len(phases) > 0 && !slices.Contains(phases, p.ID) {
			continue
		}
		sheet, err := w.Run(t.Context(), i, 2, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.Sheets = append(s.Sheets, sheet)
	}
	return s, build.Flights[0]
}

// worst is the shade of an outcome, worked out once more.
func worst(list []sweep.Lost) byte {
	s := byte('0')
	for _, l := range list {
		if l.Mattered {
			switch l.Known {
			case ledger.IsTold, ledger.AtOnce:
				s = max(s, '1')
			case ledger.Follows:
				s = max(s, '2')
			case ledger.Late:
				s = max(s, '3')
			case ledger.InUse:
				s = max(s, '4')
			default:
				s = '5'
			}
		}
	}
	return s
}

// TestMapOf_EqualsPairByPair goes through all pairs of failures one by one.
func TestMapOf_EqualsPairByPair(t *testing.T) {
	b, diags := book.Load(t.Context(), booktest.Synthetic(24, 120))
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	s, flight := swept(t, b)
	shades := map[byte]int{}
	for p, sheet := range s.Sheets {
		m := view.MapOf(s, p)
		want := map[[2]string]byte{}
		put := func(x, y int, shade byte) {
			for _, k := range [][2]string{{s.Failures[x].Unit, s.Failures[y].Unit}, {s.Failures[y].Unit, s.Failures[x].Unit}} {
				want[k] = max(want[k], shade, '0')
			}
		}
		for x := range s.Failures {
			put(x, x, worst(sheet.Outcome(sweep.Set{x}).Lost))
			for y := x + 1; y < len(s.Failures); y++ {
				put(x, y, worst(sheet.Outcome(sweep.Set{x, y}).Lost))
			}
		}
		for i, u := range m.Units {
			for j, o := range m.Units {
				got := m.Whole[i][j]
				shades[got]++
				if got != want[[2]string{u.ID, o.ID}] {
					t.Fatalf("%s: %s with %s is %c, want %c", m.Phase, u.ID, o.ID, got, want[[2]string{u.ID, o.ID}])
				}
				if own := m.Own[i][j]; own > got {
					t.Fatalf("%s: %s with %s alone is %c, more than the whole %c", m.Phase, u.ID, o.ID, own, got)
				}
			}
		}
		checkZoom(t, m)
		if c, ok := view.CellOf(s, flight, p, m.Units[0].ID, m.Units[1].ID); ok && byte(c.Shade) > m.Whole[0][1] {
			t.Errorf("a cell is %c, its pair %c", m.Whole[0][1], c.Shade)
		}
	}
	if len(shades) < 2 {
		t.Errorf("all cells have one shade: %v", shades)
	}
}

// checkZoom goes from the chapters down to the units: the darkest cell of two
// chapters' units is the chapters' cell.
func checkZoom(t *testing.T, m *view.Map) {
	t.Helper()
	for _, layer := range []view.Layer{view.Whole, view.Own} {
		top, cells := m.Chapters(layer), 0
		for i, a := range top.Rows {
			for j, b := range top.Columns {
				part := m.Between(layer, a.Chapter, b.Chapter)
				darkest := byte('0')
				for _, row := range part.Cells {
					cells += len(row)
					for k := range row {
						darkest = max(darkest, row[k])
					}
				}
				if top.Cells[i][j] != darkest {
					t.Fatalf("chapters %d and %d are %c, their units %c", a.Chapter, b.Chapter, top.Cells[i][j], darkest)
				}
			}
		}
		if cells != len(m.Units)*len(m.Units) {
			t.Errorf("%d cells under the chapters, want %d", cells, len(m.Units)*len(m.Units))
		}
	}
}

// TestOf_RowsOpenTheirAnswer asks what the first rows lead to: the ledger has
// what the row says.
func TestOf_RowsOpenTheirAnswer(t *testing.T) {
	b := corvane.Book(t)
	s, flight := swept(t, b, "first_climb", "approach")
	page := view.Of(s, view.Asked{Flight: flight, Order: 2, Most: 5})
	if len(page.Lists) != 5 || !strings.Contains(page.Caution, "training") {
		t.Fatalf("%d lists, caution %q", len(page.Lists), page.Caution)
	}
	desk := ask.NewDesk(b)
	for _, list := range page.Lists {
		if len(list.Rows) == 0 {
			t.Errorf("nothing in %s", list.ID)
			continue
		}
		row := list.Rows[0]
		if row.Query == "" {
			continue
		}
		q, err := url.ParseQuery(row.Query)
		if err != nil {
			t.Fatal(err)
		}
		a, err := desk.Answer(t.Context(), ask.Question{Crew: q.Get("crew"), Fail: []scenario.Strike{{What: q["fail"], At: q.Get("at")}}, Build: q.Get("build"), Flight: q.Get("flight")})
		if err != nil {
			t.Fatalf("%s: %v", row.Query, err)
		}
		// The sweep counts what is lost to the end; an answer stops where nobody can fly on.
		if a.Here.Ending().How == run.NotFlyable {
			if !slices.ContainsFunc(a.Ledger.Losses, func(x ledger.Loss) bool { return x.Function.Severity == "catastrophic" }) {
				t.Errorf("%s: %s cannot be flown, and nothing catastrophic is lost", list.ID, row.Query)
			}
			continue
		}
		if len(row.Losses) > 0 && !says(a.Ledger, row.Losses[0].String()) {
			t.Errorf("%s: the answer to %s does not say %q", list.ID, row.Query, row.Losses[0])
		}
	}
}

func says(l *ledger.Ledger, loss string) bool {
	said := map[ledger.Word]string{ledger.IsTold: "told", ledger.Late: ""}
	return slices.ContainsFunc(l.Losses, func(x ledger.Loss) bool {
		word, ok := said[x.Known]
		if !ok {
			word = string(x.Known)
		}
		return strings.HasPrefix(loss, x.Function.Title+": "+word)
	})
}
