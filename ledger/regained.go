package ledger

import (
	"slices"

	"knockon/circuit"
)

// Regained says that a function works again at the end of every stretch of its loss that
// mattered. A stretch also ends where the function would not work with nothing failed
// either, or is not called for: that is no cure.
func (l *Ledger) Regained(x *Loss) bool {
	n, ok := l.Here.Circuit().Node(circuit.Value{Item: x.Function.ID})
	return ok && !slices.ContainsFunc(x.Spans, func(s LossSpan) bool {
		return s.Mattered && (s.ToEnd || !slices.ContainsFunc(l.Here.Spans(n), func(w circuit.Span) bool { return w.From <= s.To && s.To < w.To }))
	})
}
