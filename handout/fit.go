package handout

import (
	"slices"
	"strings"

	"knockon/figure"
	"knockon/figure/sheet"
)

// The sheet, in points: A4 between its margins, as web/static/handout.css sets it.
const (
	High   = 760.0 // 297 mm less twice 12 mm, and some air
	wide   = 527.0 // 210 mm less twice 12 mm
	margin = 66.0  // of the words beside the text, with the space behind them
	title  = 13.0
	opens  = 11.0
	text   = 10.0
	table  = 9.0 // told and true, the lists, and what other flights make of it
	small  = 8.0
	lead   = 1.2 // lines are so much higher than their letters
	gap    = 4.5 // between two parts
)

// fit leaves out what there is no room for, what teaches least first, and counts it.
func (h *View) fit() *View {
	h.Sources = strings.Join(h.sources, "; ")
	for h.high() > High && h.less() {
	}
	return h
}

// less leaves one thing out; no says that nothing more can be.
func (h *View) less() bool {
	if n := len(h.sources); n > 2 {
		h.sources = h.sources[:n-1]
		h.Sources = strings.Join(h.sources, "; ") + "; and others, which the rows of the answer name"
		return true
	}
	lines := 0
	for _, l := range h.Lists {
		lines += len(l.Lines)
	}
	switch rows := len(h.Rows); {
	case lines > 6:
		h.cutLine()
	case rows > 6:
		h.Rows, h.More = rowsOf(h.Answer, rows-1)
	case lines > 3:
		h.cutLine()
	case rows > 3:
		h.Rows, h.More = rowsOf(h.Answer, rows-1)
	case lines > 1:
		h.cutLine()
	case rows > 2:
		h.Rows, h.More = rowsOf(h.Answer, rows-1)
	case len(h.Keep) > 2:
		h.Keep = h.Keep[:2]
	case lines > 0:
		h.cutLine()
	default:
		return false
	}
	return true
}

// cutLine takes out the line that weighs least; of several the last.
func (h *View) cutLine() {
	var from *List
	at := 0
	for i := range h.Lists {
		for k, x := range h.Lists[i].Lines {
			if from == nil || x.weight <= from.Lines[at].weight {
				from, at = &h.Lists[i], k
			}
		}
	}
	from.Lines, from.Left = slices.Delete(slices.Clone(from.Lines), at, at+1), from.Left+1
}

// high is how high the sheet comes out.
func (h *View) high() (sum float64) {
	body := wide - margin
	part := func(high float64) { sum += high + gap }
	part(small*lead + 4 + set(h.Title, wide, title))
	part(set(h.Case, wide, small))
	part(set(h.Opens, wide, opens))
	points := set(h.Nothing, body, text)
	for _, k := range h.Keep {
		points += set(k, body-14, text) + 1
	}
	part(points)
	part(wide * figure.PrintedAspect)
	part(h.table(body))
	part(h.listed(body))
	part(set(h.Rescue, body, table))
	if len(h.Phases) > 0 {
		part(small*lead + 4*7*1.15 + 2*table*lead + 4)
	}
	for _, n := range h.Notes {
		part(set(n.Text, body, table))
	}
	for _, t := range []string{h.Lacks, h.Book + " " + h.Sources, h.Question, h.WorthNote()} {
		sum += set(t, body, small) + 2
	}
	return sum
}

// table is how high the table of told and true comes out.
func (h *View) table(body float64) (sum float64) {
	if len(h.Rows) == 0 {
		return 0
	}
	sum = small*lead + 2
	side := (body-40)/2 - 10
	for _, r := range h.Rows {
		sum += max(set(r.Told, side, table), set(r.True, side, table)) + 1.6
	}
	if h.More > 0 {
		sum += table * lead
	}
	return sum
}

func (h *View) listed(body float64) (sum float64) {
	for _, l := range h.Lists {
		if len(l.Lines) == 0 {
			continue
		}
		sum += set(l.Title+". "+l.Rest(), body, table)
		for _, x := range l.Lines {
			sum += set(x.Says+" "+x.Worth, body-36, table) + 0.6
		}
	}
	return sum + set(h.NoLists, body, table) + set(h.Idle, body, table) + set(h.Also(), body, table)
}

// set is how high a text comes out in a room of so many points.
func set(words string, room, size float64) float64 {
	return float64(len(sheet.Wrap(words, room, size, 1000))) * size * lead
}

// worthNote says on which flight the lines are weighed.
const worthNote = "What a line is worth is what leaving it out does, worked out with the flight kept to its profile, as knockon worth does."

// WorthNote is it where any line is weighed.
func (h *View) WorthNote() string {
	if len(h.Worths) == 0 {
		return ""
	}
	return worthNote
}
