package claim

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
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
	step, ok := circuit.Explain(f.l.Here.Trace, f.l.There.Trace, v, at)
	if !ok {
		return ""
	}
	text := fmt.Sprintf("%s %s at %s", step.Label, step.Says, f.clock(at))
	causes := f.causes(step)
	if len(causes) > mostCauses {
		causes = append(causes[:mostCauses], fmt.Sprintf("%d more", len(causes)-mostCauses))
	}
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

// causes lists the leaves of an explanation, each once.
func (f *finder) causes(root *circuit.Step) (list []string) {
	seen := map[*circuit.Step]bool{}
	var visit func(s *circuit.Step)
	visit = func(s *circuit.Step) {
		if seen[s] {
			return
		}
		seen[s] = true
		if text := s.Label + " " + s.Says; len(s.Because) == 0 && s != root && !slices.Contains(list, text) {
			list = append(list, text)
		}
		for _, b := range s.Because {
			visit(b)
		}
	}
	visit(root)
	return list
}
