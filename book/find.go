package book

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"knockon/say"
)

// IDs lists the ids of items, in their order.
func IDs[T Item](list []T) (ids []string) {
	for _, item := range list {
		ids = append(ids, item.Named().ID)
	}
	return ids
}

// Find finds an item of a list by its id. The error names the kind, and what was
// probably meant.
func Find[T Item](kind, id string, list []T) (found T, err error) {
	for _, item := range list {
		if item.Named().ID == id {
			return item, nil
		}
	}
	return found, errors.New(say.No(kind, id, IDs(list)))
}

// BuildNamed is Build with an error that says what was probably meant.
func (b *Book) BuildNamed(id string) (*Build, error) {
	if build, ok := b.Build(id); ok {
		return build, nil
	}
	return nil, errors.New(say.No("build", id, IDs(b.Variants)))
}

// FlightNamed finds a flight; "" is the first. Behind its id it may say what is
// supposed of it (see Supposed). The error reads on from "there is" too, as all these
// do.
func (b *Build) FlightNamed(id string) (*Flight, error) {
	if len(b.Flights) == 0 {
		return nil, errors.New("no flight in the book, and nothing can be flown without one: add flight \"name\" { … }")
	}
	id, supposed, more := strings.Cut(id, ",")
	f, err := b.Flights[0], error(nil)
	if id != "" {
		f, err = Find("flight", id, b.Flights)
	}
	if err != nil || !more {
		return f, err
	}
	return b.suppose(f, supposed)
}

// Planned is a number of the flight as its crew know it before they take off: what
// the book gives, 0 where it gives none, and of the decision speed then that of the
// rotation.
func (f *Flight) Planned(name string) float64 {
	v, given := f.Number(name)
	if !given && name == "decision_kt" {
		v, _ = f.Number("rotate_kt")
	}
	return v
}

// Failures lists all that can fail as ParseFailure reads it: each unit before its
// faults, then the events.
func (b *Build) Failures() (list []FailureRef) {
	for _, u := range b.Units {
		list = append(list, FailureRef{Unit: u.ID})
		for _, f := range u.Faults {
			list = append(list, FailureRef{Unit: u.ID, Fault: f.ID})
		}
	}
	for _, e := range b.Events {
		list = append(list, FailureRef{Unit: e.ID})
	}
	return list
}

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

// Covers lists the functions that an indication covers: those that its means
// names, in the order of its text, and those in its tells.
func (b *Build) Covers(i *Indication) []string {
	var ids []string
	add := func(id string) {
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	i.Means.Walk(func(e *Expr) {
		if item, ok := b.Item(e.ID); e.Op == OpRef && ok {
			if _, ok := item.(*Function); ok {
				add(e.ID)
			}
		}
	})
	for _, id := range i.Tells {
		add(id)
	}
	return ids
}
