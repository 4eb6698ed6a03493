package dispatch

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
)

// Forbids says why the deferrals of a book do not let a flight go with some items
// inoperative, or not with what fails as well before the take-off (early), or not as it
// is planned; "" where they let it go so. A book without deferrals forbids nothing.
func Forbids(b *book.Build, f *book.Flight, out, early []book.FailureRef) string {
	if len(out) == 0 || len(b.Deferrals) == 0 {
		return ""
	}
	const with = "By the book's deferrals this flight does not go with "
	alone := Decide(b, f, out)
	if !alone.Goes() {
		return with + "what is inoperative. " + uncovered(alone, b)
	}
	if more := struckToo(b, out, early); len(more) > len(out) {
		if both := Decide(b, f, more); !both.Goes() {
			return with + "what is inoperative and what fails before the take-off. " + uncovered(both, b)
		}
	}
	if c := alone.Conditions(); c.Flown(f) != f.ID {
		return "By the book's deferrals this flight, as planned, does not go with what is inoperative: " + say.And(c.broken(f)) + " is asked for."
	}
	return ""
}

// uncovered says of a refusal what no deferral covers, each item once, and else which
// deferrals ask for what is not so.
func uncovered(r *Relief, b *book.Build) string {
	var bare, other []string
	for _, item := range r.Items {
		if !slices.ContainsFunc(b.Deferrals, func(x *book.Deferral) bool { return x.Covers(item) }) {
			bare = append(bare, say.Lower(b.FailureTitle(item.String())))
		}
	}
	if len(bare) > 0 {
		return "No deferral covers " + or(bare) + "."
	}
	for _, item := range r.Items {
		for _, x := range b.Deferrals {
			if x.Covers(item) && !slices.Contains(other, say.Quoted(x.Title)) {
				other = append(other, say.Quoted(x.Title))
			}
		}
	}
	return fmt.Sprintf("%s %s all of it.", say.And(other), say.Plural(len(other), "does not allow", "do not allow"))
}

// broken says which conditions a flight as planned does not keep.
func (c Conditions) broken(f *book.Flight) (list []string) {
	if c.low(f) {
		list = append(list, "no higher than "+say.Whole(c.MostAltitudeFt)+" ft")
	}
	if c.ices(f) {
		list = append(list, "no icing")
	}
	return list
}

// struckToo is what is inoperative and what fails before the take-off; events are no
// items, and count for nothing.
func struckToo(b *book.Build, out, early []book.FailureRef) []book.FailureRef {
	all := slices.Clone(out)
	for _, x := range early {
		item, ok := b.Item(x.Unit)
		if _, unit := item.(*book.Unit); ok && unit && !slices.Contains(say.Texts(all), x.String()) {
			all = append(all, x)
		}
	}
	return all
}

func or(words []string) string {
	if len(words) == 1 {
		return words[0]
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}
