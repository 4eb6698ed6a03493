package claim

import (
	"math"
	"slices"

	"knockon/ledger"
)

// undecided is the value of what only the rest of a flight that breaks off would
// decide. It is not a number, so that arithmetic with it is undecided too.
var undecided = math.NaN()

// soFar gives a value that was observed; undecided where the flight breaks off
// and the rest of it could make it another. final says that it could not.
func (f *finder) soFar(v float64, final bool, text string) float64 {
	if f.open && !final {
		v = undecided
	}
	return f.note(v, text)
}

// stands says that a row, or that there is none, would be so whatever came after
// the break: what was lost, given or shown stays so, and a class only gets worse
// than that of a span that is over and mattered.
func (f *finder) stands(word, id string, v bool) bool {
	class, ok := classes[word]
	loss := f.l.Loss(id)
	if word == "told_wrong" && loss == nil {
		ok = false
	}
	if !ok {
		return v != (word == "kept" || word == "never_given")
	}
	return loss != nil && slices.ContainsFunc(loss.Spans, func(s ledger.LossSpan) bool {
		over := s.To+ledger.WrongAfter(f.l.Here.Course.Build.Aircraft) <= min(f.l.Here.End, f.l.There.End)
		return over && s.Mattered && (s.Class > class || s.Class == ledger.NotTold)
	})
}

// atLeast says whether k of some yes/no values are yes, as far as that is decided.
func atLeast(k int, a []float64) float64 {
	sure, open := 0, 0
	for _, v := range a {
		switch {
		case math.IsNaN(v):
			open++
		case v != 0:
			sure++
		}
	}
	if sure < k && sure+open >= k {
		return undecided
	}
	return yes(sure >= k)
}
