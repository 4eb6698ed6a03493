package dispatch

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
)

// Relief is what the deferrals of a book say of a set of inoperative items.
type Relief struct {
	Items    []book.FailureRef
	Uses     []*book.Deferral // by which it goes, each once, in the order of the items; nil: it does not go
	Refusals []string         // why it does not go; empty: it goes
}

// Goes says that it may go as far as the deferrals are concerned: every item is
// covered, every condition is so, and no pair is excluded.
func (r *Relief) Goes() bool { return len(r.Refusals) == 0 }

// Decide chooses the deferrals by which an aircraft goes with some items inoperative:
// for each item, in their order, the first of the book that can be used with the
// others.
func Decide(b *book.Build, f *book.Flight, items []book.FailureRef) *Relief {
	d := decision{facts{b, f, items}, &Relief{Items: items}}
	options := make([][]*book.Deferral, len(items))
	for i, item := range items {
		options[i] = d.options(item)
	}
	if !d.relief.Goes() {
		return d.relief
	}
	uses, ok := choose(nil, options)
	if !ok {
		d.relief.Refusals = apart(options)
		return d.relief
	}
	for _, x := range uses {
		if !slices.Contains(d.relief.Uses, x) {
			d.relief.Uses = append(d.relief.Uses, x)
		}
	}
	return d.relief
}

// decision is one that is being made.
type decision struct {
	facts
	relief *Relief
}

// options lists the deferrals that an item can go by, and says why none is left.
func (d *decision) options(item book.FailureRef) (list []*book.Deferral) {
	title, reasons := d.build.FailureTitle(item.String()), []string(nil)
	for _, x := range d.build.Deferrals {
		switch {
		case !x.Covers(item):
		case d.holds(x.OnlyIf):
			list = append(list, x)
		default:
			reasons = append(reasons, fmt.Sprintf("%s: deferral %s asks for %s, and that is not so.", title, say.Quoted(x.Title), say.And(d.unmet(x.OnlyIf))))
		}
	}
	if len(list) > 0 {
		return list
	}
	if len(reasons) == 0 {
		reasons = []string{say.Sentence(fmt.Sprintf("The book has no deferral for %s (%s): it does not go%s", title, item, say.OrNear(item.String(), deferrable(d.build))))}
	}
	d.relief.Refusals = append(d.relief.Refusals, reasons...)
	return nil
}

// deferrable lists what the deferrals of a build are about, in the order of the book.
func deferrable(b *book.Build) (list []string) {
	for _, x := range b.Deferrals {
		for _, f := range x.Items {
			if !slices.Contains(list, f.String()) {
				list = append(list, f.String())
			}
		}
	}
	return list
}

// choose takes one of the options of each item so that all go together: the first in
// the order of the options.
func choose(taken []*book.Deferral, options [][]*book.Deferral) (uses []*book.Deferral, ok bool) {
	if len(options) == 0 {
		return taken, true
	}
	for _, x := range options[0] {
		if slices.ContainsFunc(taken, func(y *book.Deferral) bool { return clash(x, y) != "" }) {
			continue
		}
		if uses, ok = choose(append(taken[:len(taken):len(taken)], x), options[1:]); ok {
			return uses, true
		}
	}
	return nil, false
}

// clash says why two deferrals are not used together; "" if they can be.
func clash(x, y *book.Deferral) string {
	if x.Excludes(y) {
		return fmt.Sprintf("Deferrals %s and %s are not used together: the book says so.", say.Quoted(x.Title), say.Quoted(y.Title))
	}
	for _, s := range x.SetUps {
		if slices.ContainsFunc(y.SetUps, func(o *book.Act) bool { return o.Set == s.Set && o.To != s.To }) {
			return fmt.Sprintf("Deferrals %s and %s set %s to different positions.", say.Quoted(x.Title), say.Quoted(y.Title), s.Set)
		}
	}
	return ""
}

// apart lists the pairs that keep a choice from being made.
func apart(options [][]*book.Deferral) (list []string) {
	for i, list1 := range options {
		for _, list2 := range options[i+1:] {
			for _, x := range list1 {
				for _, y := range list2 {
					if says := clash(x, y); says != "" && !slices.Contains(list, says) {
						list = append(list, says)
					}
				}
			}
		}
	}
	return list
}

// Days is for how many days it may go so, that of the discovery not counted, and by
// which deferral.
func (r *Relief) Days() (days int, by *book.Deferral) {
	for _, x := range r.Uses {
		if by == nil || x.Days() < days {
			days, by = x.Days(), x
		}
	}
	return days, by
}

// Conditions of a flight that deferrals ask for.
type Conditions struct {
	MostAltitudeFt float64 // 0: none
	NoIcing        bool
	SetUps         []*book.Act
}

// Conditions puts together what the deferrals ask of the flight.
func (r *Relief) Conditions() (c Conditions) {
	for _, x := range r.Uses {
		if x.MostAltitudeFt > 0 && (c.MostAltitudeFt == 0 || x.MostAltitudeFt < c.MostAltitudeFt) {
			c.MostAltitudeFt = x.MostAltitudeFt
		}
		c.NoIcing = c.NoIcing || x.NoIcing
		for _, s := range x.SetUps {
			if !slices.ContainsFunc(c.SetUps, func(o *book.Act) bool { return o.Set == s.Set }) {
				c.SetUps = append(c.SetUps, s)
			}
		}
	}
	return c
}

// Flown is the id of a flight as the conditions let it be flown: lower, and without
// icing, where it is not so already.
func (c Conditions) Flown(f *book.Flight) string {
	id, supposed, _ := strings.Cut(f.ID, ",")
	var parts []string
	for _, p := range strings.FieldsFunc(supposed, func(r rune) bool { return r == ',' }) {
		if !(c.low(f) && strings.HasPrefix(p, "cruise=")) && !(c.ices(f) && strings.HasPrefix(p, "icing=")) {
			parts = append(parts, p)
		}
	}
	if c.ices(f) {
		parts = append(parts, "icing=none")
	}
	if c.low(f) {
		parts = append(parts, fmt.Sprintf("cruise=%g", c.MostAltitudeFt))
	}
	return strings.Join(append([]string{id}, parts...), ",")
}

// low says that a flight as planned is too high.
func (c Conditions) low(f *book.Flight) bool {
	return c.MostAltitudeFt > 0 && f.Planned("cruise_altitude_ft") > c.MostAltitudeFt
}

// ices says that a flight as planned meets icing that it must not.
func (c Conditions) ices(f *book.Flight) bool {
	_, given := f.Number("icing_to_ft")
	return c.NoIcing && given
}
