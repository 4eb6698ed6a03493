package figure

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"knockon/ledger"
	"knockon/say"
)

// mostPrinted is how many waves there is room for on paper.
const mostPrinted = 3

// PrintedAspect is the height of a printed line over its width, at most.
const PrintedAspect = 0.28

// inFewRows is what a sheet of paper has room for: a few waves, and all alerts in one row.
func (l Line) inFewRows() Group {
	g := l.Together.atMost(mostPrinted, "wave")
	if n := len(l.Told.Rows); n > 0 {
		told := l.Told.atMost(0, "alert")
		told.Rows[0].Label = say.Counted(n, "alert") + ", given or held back"
		g.Rows = append(slices.Clone(g.Rows), told.Rows...)
	}
	return g
}

// Folded shows what goes together and the alerts, so many of each and the others in one
// row, where there are more rows than a screen has room for. folds is no where there are not.
func (l Line) Folded(most int) (folded Line, folds bool) {
	rows := 0
	for _, g := range l.Groups {
		rows += len(g.Rows)
	}
	if rows <= mostOnScreen || len(l.Together.Rows) == 0 {
		return l, false
	}
	waves, told := l.Together.atMost(most, "wave"), l.Told.atMost(most, "alert")
	waves.Title = "What goes together, and how many functions"
	l.Groups = []Group{waves}
	if len(told.Rows) > 0 {
		l.Groups = append(l.Groups, told)
	}
	return l, true
}

// mostOnScreen is how many rows a screen has room for.
const mostOnScreen = 24

// WaveID is the anchor of a wave in a page that shows a ledger's view, counted from none.
func WaveID(i int) string { return "wave-" + strconv.Itoa(i+1) }

// atMost keeps so many rows, those that stand for most, and makes one of the others.
func (g Group) atMost(n int, one string) Group {
	if len(g.Rows) <= n+1 && n > 0 || len(g.Rows) == 0 {
		return g
	}
	order := slices.Clone(g.Rows)
	slices.SortStableFunc(order, func(a, b Row) int { return cmp.Compare(b.Count, a.Count) })
	rest := Row{Label: say.Counted(len(order)-n, "more "+one)}
	var rows []Row
	for _, r := range g.Rows {
		if slices.ContainsFunc(order[:n], func(o Row) bool { return o.Says == r.Says && o.Label == r.Label }) && len(rows) < n {
			rows = append(rows, r)
			continue
		}
		rest.Count += r.Count
		rest.Says += r.Label + ". "
		rest.Pieces = append(rest.Pieces, r.Pieces...)
	}
	slices.SortStableFunc(rest.Pieces, func(a, b Piece) int { return cmp.Compare(a.From, b.From) })
	g.Rows = append(rows, rest)
	return g
}

// wavesOf gives each wave a bar over all that is lost with it, in the ink of what people
// know least of.
func wavesOf(v *ledger.View) Group {
	g := Group{Plain: true}
	if v.Worth == nil {
		return g
	}
	rows := lostRows(v)
	for i, w := range v.Worth.Waves {
		row := Row{Link: "#" + WaveID(i), Label: say.Capital(w.Cause) + ": " + say.Whole(float64(len(w.Losses))), Count: len(w.Losses)}
		var names []string
		for _, l := range w.Losses {
			row.Pieces = append(row.Pieces, rows[l.ID].Pieces...)
			names = append(names, l.Title)
		}
		row.Says = w.Clock + ": " + strings.Join(names, "; ")
		row.Pieces = joined(row.Pieces)
		g.Rows = append(g.Rows, row)
	}
	return g
}

// lostRows are the rows of all that is lost, by the ids of the functions.
func lostRows(v *ledger.View) map[string]Row {
	rows := map[string]Row{}
	for _, g := range v.Groups {
		if _, is := lossInks[g.ID]; is || g.ID == ledger.GroupIdle {
			for _, r := range g.Rows {
				rows[r.ID] = lossRow(g.ID, r)
			}
		}
	}
	return rows
}

// joined makes one stretch of those that meet, as thick and as little known as the least
// known of them that mattered.
func joined(list []Piece) (out []Piece) {
	slices.SortStableFunc(list, func(a, b Piece) int { return cmp.Compare(a.From, b.From) })
	for _, p := range list {
		n := len(out) - 1
		if n < 0 || p.From > out[n].To {
			out = append(out, p)
			continue
		}
		last := &out[n]
		last.To = max(last.To, p.To)
		switch {
		case last.Thin && !p.Thin:
			last.Ink, last.Thin = p.Ink, false
		case last.Thin == p.Thin:
			last.Ink = max(last.Ink, p.Ink)
		}
	}
	return out
}
