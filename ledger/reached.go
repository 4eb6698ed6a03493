package ledger

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/say"
	"knockon/span"
)

// ways gives by which ways an alert reached the crew in a stretch, and by which of
// its ways it did not. One without ways of its own and of its level has neither.
func (s speaker) ways(a *book.Alert, p circuit.Span) (by, not []string) {
	for i, e := range s.build.Reaches(a).Each() {
		if e == nil {
			continue
		}
		way := book.Ways[i]
		n, _ := s.l.Here.Circuit().Node(circuit.Value{Item: a.ID, Aspect: circuit.Aspect(way)})
		if len(span.Lasting(s.l.Here.Spans(n)).Within(p)) > 0 {
			by = append(by, way)
		} else {
			not = append(not, way)
		}
	}
	return by, not
}

// reached says which ways of telling failed an alert: nothing where none did.
func reached(by, not []string) string {
	switch {
	case len(not) == 0 || len(by) == 0:
		return ""
	case len(by) == 1 && by[0] == "sound":
		return "heard, not shown"
	}
	return "by " + say.And(by) + ", not by " + say.And(not)
}
