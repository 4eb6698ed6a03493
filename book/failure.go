package book

import (
	"fmt"
	"slices"
	"strings"

	"knockon/say"
)

// ParseFailure reads what fails as people write it: "unit", "unit.fault" or the
// id of an event. The error says in full sentences what is wrong and what was
// probably meant.
func ParseFailure(text string, b *Build) (FailureRef, error) {
	id, fault, dotted := strings.Cut(strings.TrimSpace(text), ".")
	item, ok := b.items[id]
	if !ok {
		return FailureRef{}, fmt.Errorf("nothing that can fail is called %q%s", id, say.OrNear(id, slices.Concat(IDs(b.Units), IDs(b.Events))))
	}
	switch item := item.(type) {
	case *Event:
		if dotted {
			return FailureRef{}, fmt.Errorf("%q is an event; it has no faults", id)
		}
	case *Unit:
		var faults []string
		for _, f := range item.Faults {
			faults = append(faults, f.ID)
		}
		if dotted && !slices.Contains(faults, fault) {
			return FailureRef{}, fmt.Errorf("unit %q has no fault called %q%s", id, fault, say.OrNear(fault, faults))
		}
	default:
		return FailureRef{}, fmt.Errorf("%q is %s; only units and events can fail", id, withArticle(item.Named().Kind))
	}
	return FailureRef{Unit: id, Fault: fault}, nil
}

func withArticle(noun string) string {
	if strings.ContainsRune("aeio", rune(noun[0])) { // a unit
		return "an " + noun
	}
	return "a " + noun
}
