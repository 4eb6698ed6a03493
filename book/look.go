package book

import "strings"

// VariantTitle is what a person calls the build.
func (b *Build) VariantTitle() string {
	if v, err := Find("build", b.Variant, b.Book.Variants); err == nil {
		return v.Title
	}
	return b.Variant
}

// Title is what a person calls an item; the id of what the build does not have.
func (b *Build) Title(id string) string {
	if item, ok := b.items[id]; ok {
		return item.Named().Title
	}
	return id
}

// FaultTitle is what a unit does that fails in a way of its own; "" for plain
// loss, for an event, and for what the build does not have.
func (b *Build) FaultTitle(f FailureRef) string {
	if u, ok := b.items[f.Unit].(*Unit); ok && f.Fault != "" {
		for _, x := range u.Faults {
			if x.ID == f.Fault {
				return x.Title
			}
		}
	}
	return ""
}

// FailureTitle is what a person calls a failure that is written as "unit",
// "unit.fault" or the id of an event.
func (b *Build) FailureTitle(ref string) string {
	unit, fault, _ := strings.Cut(ref, ".")
	if title := b.FaultTitle(FailureRef{Unit: unit, Fault: fault}); title != "" {
		return b.Title(unit) + ": " + title
	}
	return b.Title(ref)
}
