package vary

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/ledger"
	"knockon/say"
)

// mostNamed is how many losses one part of a sentence names before it counts.
const mostNamed = 2

// sentence says what changes, the two heaviest kinds of it.
func sentence(c changes) string {
	type kind struct {
		list   []shift
		before string
	}
	kinds := []kind{
		{c.more, "this is lost as well"}, {c.less, "this is not lost when it is called for"},
		{c.clearer, "people know of this"}, {c.darker, "nobody knows of this in time"},
	}
	slices.SortStableFunc(kinds, func(a, b kind) int { return compareWeights(b.list, a.list) })
	var parts []string
	for _, k := range kinds[:2] {
		if len(k.list) > 0 {
			parts = append(parts, k.before+": "+named(k.list))
		}
	}
	return strings.Join(parts, "; ") + "."
}

func compareWeights(a, b []shift) int {
	switch x, y := weight(a), weight(b); {
	case x < y, x == y && len(a) < len(b):
		return -1
	case x > y || len(a) > len(b):
		return 1
	}
	return 0
}

// named names losses, the heaviest first, and counts the rest.
func named(list []shift) string {
	var names []string
	for _, s := range list[:min(mostNamed, len(list))] {
		names = append(names, s.said())
	}
	if more := len(list) - mostNamed; more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	return say.And(names)
}

// said names a loss, with how grave it is if it is grave, and how it is known in each.
func (s shift) said() string {
	x, also := s.loss(), []string(nil)
	if slices.Index(book.Severities, x.Function.Severity) >= slices.Index(book.Severities, "hazardous") {
		also = append(also, x.Function.Severity)
	}
	switch {
	case s.here != nil && s.there != nil:
		also = append(also, string(s.there.Word())+", here "+string(s.here.Word()))
	case x.Word().Unknown():
		also = append(also, string(x.Word()))
	}
	text := say.Lower(x.Function.Title)
	if len(also) > 0 {
		text += " (" + strings.Join(also, ", ") + ")"
	}
	return text
}

// refs are all losses that change.
func (c changes) refs() (list []ledger.Ref) {
	list = []ledger.Ref{}
	for _, kind := range c.kinds() {
		for _, s := range kind {
			f := s.loss().Function
			list = append(list, ledger.Ref{ID: f.ID, Title: f.Title, Rank: f.Severity})
		}
	}
	return list
}
