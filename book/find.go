package book

import (
	"errors"

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

// FlightNamed finds a flight; "" is the first. The error reads on from "there is"
// too, as all these do.
func (b *Build) FlightNamed(id string) (*Flight, error) {
	if len(b.Flights) == 0 {
		return nil, errors.New("no flight in the book, and nothing can be flown without one: add flight \"name\" { … }")
	}
	if id == "" {
		return b.Flights[0], nil
	}
	return Find("flight", id, b.Flights)
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
