package claim

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/why"
)

// Most items of an expectation that are explained, and most causes named for each.
const (
	mostExplained = 3
	mostCauses    = 5
)

// why explains the items that a failing expectation names.
func (f *finder) why(e *book.Expr) (lines []string) {
	var seen []string
	e.Walk(func(x *book.Expr) {
		if x.Op == book.OpLedger && len(x.Args) == 2 && x.Word == "at" {
			f.asked = f.strike + book.AtSeconds(x.Args[0].Num)
		}
		if x.ID == "" || x.Op != book.OpRef || slices.Contains(seen, x.ID) || len(seen) == mostExplained {
			return
		}
		seen = append(seen, x.ID)
		if line := f.explain(x.ID); line != "" {
			lines = append(lines, line)
		}
	})
	return lines
}

// explain says an item's value at the moment that matters and what forced it.
func (f *finder) explain(id string) string {
	v := circuit.Value{Item: id}
	at := min(f.momentOf(id), f.l.Here.End)
	step, ok := why.Compare(f.l.Here, f.l.There, v, at)
	if !ok {
		return ""
	}
	text := fmt.Sprintf("%s %s at %s", step.Label, step.Says, f.clock(at))
	causes := f.causes(step)
	if len(causes) == 0 {
		return text
	}
	return text + ", because " + strings.Join(causes, "; ")
}

// momentOf is when a function is first lost, when an alert is first given or
// held back, when an indication first shows wrong or is dark; else the moment
// that the expectation asks about, or the strike.
func (f *finder) momentOf(id string) book.Time {
	if l := f.l.Loss(id); l != nil {
		return l.Spans[0].From
	}
	for _, list := range [][]ledger.Announcement{f.l.Alerts, f.l.Held} {
		for _, a := range list {
			if a.Alert.ID == id {
				return a.Spans[0].From
			}
		}
	}
	for _, list := range [][]ledger.Reading{f.l.Wrong, f.l.Dark} {
		for _, r := range list {
			if r.Indication.ID == id {
				return r.Spans[0].From
			}
		}
	}
	return max(f.asked, f.strike)
}

// causes lists the leaves of an explanation, each once: all failures and all
// controls that were moved, and of the others the first few.
func (f *finder) causes(root *why.Step) (list []string) {
	var rest []string
	seen := map[*why.Step]bool{}
	var visit func(s *why.Step)
	visit = func(s *why.Step) {
		if seen[s] {
			return
		}
		seen[s] = true
		if len(s.Because) == 0 && s != root {
			to := &rest
			if s.Kind == why.Fails || s.Kind == why.Acted {
				to = &list
			}
			if text := f.leaf(s, root); !slices.Contains(*to, text) {
				*to = append(*to, text)
			}
		}
		for _, b := range s.Because {
			visit(b)
		}
	}
	visit(root)
	if room := max(mostCauses-len(list), 0); len(rest) > room+1 {
		rest = append(rest[:room], fmt.Sprintf("%d more that are no failures", len(rest)-room))
	}
	return append(list, rest...)
}

// leaf says a leaf, and its moment where that is another than the one explained.
func (f *finder) leaf(s, root *why.Step) string {
	text := s.Label + " " + s.Says
	if s.At != root.At {
		text += " at " + f.clock(s.At)
	}
	return text
}
