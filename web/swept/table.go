package swept

import (
	"fmt"
	"net/http"
	"strconv"

	"knockon/sweep"
	"knockon/sweep/view"
	"knockon/web/frame"
)

type phaseOf = sweep.Phase

// table is the pair map, or a part of it, as a page shows it.
type table struct {
	Caption string
	Columns []head
	Rows    []tableRow
	Shades  []shade
}

type head struct{ Short, Title string }

type tableRow struct {
	head
	Cells []tableCell
}

type tableCell struct {
	Class, Title, To string // To: "" where there is nothing to open
}

// shade is one line of the legend.
type shade struct{ Class, Text string }

var shades = []shade{
	{"s0", "nothing"}, {"s1", "told, or noticed at once"}, {"s2", "follows from what is told"}, {"s3", "late"}, {"s4", "found when used"}, {"s5", "hidden, or denied"},
}

// draw puts the map, or the part of it that was asked for, on the page.
func (page *sweepPage) draw(a asked, m *view.Map) error {
	layer := view.Own
	if a.layer == "whole" || a.order == 1 { // one failure has no parts
		layer = view.Whole
	}
	page.Layers = []option{
		{Title: "what two take beyond what each does", Chosen: layer == view.Own, To: a.with("layer", "") + "#map"},
		{Title: "all that two take", Chosen: layer == view.Whole, To: a.with("layer", "whole") + "#map"},
	}
	if a.a == "" && a.b == "" {
		page.Map = chapters(a, m.Chapters(layer))
		return nil
	}
	x, errX := strconv.Atoi(a.a)
	y, errY := strconv.Atoi(a.b)
	part := m.Between(layer, x, y)
	if errX != nil || errY != nil || len(part.Rows) == 0 || len(part.Columns) == 0 {
		return frame.Wrong("The map has no chapters %q and %q.", cut(a.a), cut(a.b))
	}
	page.Back = a.with() + "#map"
	page.Map = units(a, part, x, y)
	return nil
}

func chapter(n int) string {
	if n == 0 {
		return "other"
	}
	return fmt.Sprintf("%02d", n)
}

// chapters is the map by chapters; a cell opens the units of the two.
func chapters(a asked, t view.Table) *table {
	out := &table{Caption: "Chapters by chapters: the worst of any two of their units. A cell opens the units.", Shades: shades}
	for _, c := range t.Columns {
		out.Columns = append(out.Columns, head{chapter(c.Chapter), "Chapter " + chapter(c.Chapter)})
	}
	for i, r := range t.Rows {
		row := tableRow{head: head{chapter(r.Chapter), "Chapter " + chapter(r.Chapter)}}
		for j, c := range t.Columns {
			to := a.with("a", strconv.Itoa(r.Chapter), "b", strconv.Itoa(c.Chapter)) + "#map"
			row.Cells = append(row.Cells, cellOf(t.Cells[i][j], chapter(r.Chapter)+" with "+chapter(c.Chapter), to))
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

// units is a part of the map; a cell opens the answer to the worst two failures.
func units(a asked, t view.Table, x, y int) *table {
	out := &table{Caption: fmt.Sprintf("Units of chapter %s by units of chapter %s. A cell opens the answer to the worst two of their failures.", chapter(x), chapter(y)), Shades: shades}
	for _, c := range t.Columns {
		out.Columns = append(out.Columns, head{c.ID, c.Title})
	}
	for i, r := range t.Rows {
		row := tableRow{head: head{r.Title, r.ID}}
		for j, c := range t.Columns {
			v := a.values()
			v.Set("a", r.ID)
			v.Set("b", c.ID)
			row.Cells = append(row.Cells, cellOf(t.Cells[i][j], r.Title+" with "+c.Title, "/sweep/cell?"+v.Encode()))
		}
		out.Rows = append(out.Rows, row)
	}
	return out
}

func cellOf(s byte, what, to string) tableCell {
	c := tableCell{Class: "s" + string(s), Title: what + ": " + shades[s-'0'].Text}
	if s != byte(view.Nothing) {
		c.To = to
	}
	return c
}

// cell leads from two units to the answer of the worst two of their failures.
func (p *Pages) cell(r *http.Request) (reply, error) {
	a, err := p.asked(r.URL.Query())
	if err != nil {
		return reply{}, err
	}
	j := p.jobs.look(a.key())
	if j == nil {
		return reply{To: a.with()}, nil // where it can be begun
	}
	j.work().Wait(r.Context(), patience)
	s := j.state()
	for i, sheet := range s.Sheets {
		if sheet.Phase.ID != a.phase {
			continue
		}
		c, ok := view.CellOf(&s.Swept, a.flight, i, a.a, a.b)
		if !ok {
			return reply{}, frame.Wrong("There are no two failures of %q and %q.", cut(a.a), cut(a.b))
		}
		return reply{To: "/?" + c.Query}, nil
	}
	return reply{}, frame.Wrong("That phase has not been swept yet; open the page of the sweep first.")
}
