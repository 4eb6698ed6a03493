package claim

import (
	"slices"

	"knockon/ledger"
)

// known says whether people can know of a loss in a way (docs/meaning.md, section
// 5a). What comes after a break may make any row another one.
func (f *finder) known(word, id string) float64 {
	if f.openRows {
		return undecided
	}
	if word == "false_conclusion" {
		return yes(slices.ContainsFunc(f.l.Concluded, func(c ledger.Conclusion) bool { return c.Function.ID == id }))
	}
	l := f.l.Loss(id)
	return yes(l != nil && knownAs(l, word))
}

func knownAs(l *ledger.Loss, word string) bool {
	switch word {
	case "hidden":
		return slices.ContainsFunc(l.Spans, func(s ledger.LossSpan) bool { return s.Mattered == l.Mattered && s.Known.Word == ledger.Hidden })
	case "named":
		return l.Known == ledger.IsTold || l.Known == ledger.Late && heaviest(l).ByAlert
	case "follows":
		return l.Known == ledger.Follows || l.Known == ledger.Late && !heaviest(l).ByAlert
	case "noticed":
		return l.Known == ledger.AtOnce || l.Known == ledger.InUse
	case "known_late":
		return l.Known == ledger.Late
	}
	return l.Known == ledger.Denied
}

// heaviest is how the span is known that gave the row its word: of several the
// latest known.
func heaviest(l *ledger.Loss) (k ledger.Known) {
	for _, s := range l.Spans {
		if s.Mattered == l.Mattered && s.Known.Word == l.Known && (k.Word == "" || s.Known.LateBy > k.LateBy) {
			k = s.Known
		}
	}
	return k
}
