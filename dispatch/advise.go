package dispatch

import (
	"context"
	"fmt"

	"knockon/book"
	"knockon/run"
	"knockon/scenario"
)

// Advise lists the items of a book's deferrals that take away something catastrophic
// by themselves, on the first flight of each build, as advice; what cannot be flown
// so is advised too.
func Advise(ctx context.Context, courses *scenario.Courses) (list book.Diagnostics, err error) {
	seen := map[string]bool{}
	for _, v := range courses.Book.Variants {
		b, _ := courses.Book.Build(v.ID)
		if len(b.Flights) == 0 {
			continue
		}
		for _, x := range b.Deferrals {
			for _, item := range x.Items {
				d, err := adviseItem(ctx, courses, b, x, item)
				if err != nil {
					return nil, err
				}
				if d != nil && !seen[d.String()] {
					seen[d.String()] = true
					list = append(list, *d)
				}
			}
		}
	}
	list.Sort()
	return list, nil
}

// adviseItem advises of one item; nil where there is nothing to advise.
func adviseItem(ctx context.Context, courses *scenario.Courses, b *book.Build, x *book.Deferral, item book.FailureRef) (*book.Diagnostic, error) {
	r := &Relief{Items: []book.FailureRef{item}, Uses: []*book.Deferral{x}}
	c := r.Conditions()
	course, err := courses.Of(b.Variant, c.Flown(b.Flights[0]))
	if err != nil {
		return nil, nil // the flight is not one that can be flown so: its answer says it
	}
	after, err := NewAircraft(ctx, course, goes(r.Items, c))
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		return advice(b, x, item, "with it inoperative "+err.Error()), nil
	}
	l, err := after.Beside(ctx, run.Scenario{})
	if err != nil {
		return nil, err
	}
	for _, y := range l.Losses {
		if y.Mattered && y.Function.Severity == "catastrophic" {
			return advice(b, x, item, fmt.Sprintf("it takes away %q, and that is catastrophic, with nothing more failed", y.Function.Title)), nil
		}
	}
	return nil, nil
}

func advice(b *book.Build, x *book.Deferral, item book.FailureRef, why string) *book.Diagnostic {
	return &book.Diagnostic{Severity: book.Advice, Code: "deferral", Subject: x.Range,
		Summary: fmt.Sprintf("Deferral %q lets the aircraft go without %s", x.ID, item),
		Detail:  fmt.Sprintf("%s: %s. Take it off the list, or add a condition that makes it survivable.", b.FailureTitle(item.String()), why)}
}
