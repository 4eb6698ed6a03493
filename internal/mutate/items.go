package mutate

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
)

// lines lists the expressions of an item.
func lines(item book.Item) []line {
	h := item.Named()
	switch it := item.(type) {
	case *book.Unit:
		return []line{{h, "needs", &it.Needs}, {h, "reset_by", &it.ResetBy}}
	case *book.Signal:
		return []line{{h, "value", &it.Value}, {h, "set", &it.Set}, {h, "reset", &it.Reset}}
	case *book.Function:
		return []line{{h, "works", &it.Works}, {h, "wanted", &it.Wanted}}
	case *book.Alert:
		return []line{{h, "when", &it.When}, {h, "given_by", &it.GivenBy}, {h, "until", &it.Until}, {h, "true_when", &it.TrueWhen}}
	case *book.Indication:
		return []line{{h, "shows", &it.Shows}, {h, "means", &it.Means}, {h, "lit_by", &it.LitBy}}
	case *book.Phase:
		return []line{{h, "begins", &it.Begins}}
	}
	return nil
}

// mutationsOf lists the ways to break one item: what is not an expression first.
func mutationsOf(b *book.Build, item book.Item) (list []mutation) {
	switch it := item.(type) {
	case *book.Unit:
		for _, f := range it.Faults {
			list = append(list, set(&it.Head, otherwise, fmt.Sprintf("fault %s: stops = %t", f.ID, !f.Stops), &f.Stops, !f.Stops))
		}
	case *book.Signal:
		if it.Set != nil {
			list = append(list, set(&it.Head, negate, fmt.Sprintf("initial = %t", !it.Initial), &it.Initial, !it.Initial))
		}
	case *book.Control:
		for _, p := range it.Positions {
			if p != it.Initial {
				list = append(list, set(&it.Head, otherwise, fmt.Sprintf("initial = %q", p), &it.Initial, p))
			}
		}
	case *book.Event:
		list = append(list, members(it)...)
	case *book.Alert:
		list = append(list, alertMutations(b, it)...)
	case *book.Indication:
		list = append(list, indicationMutations(it)...)
	case *book.Flight:
		for _, a := range it.Acts {
			list = append(list, (line{&it.Head, "act " + a.Title, &a.When}).mutations()...)
		}
	}
	for _, l := range lines(item) {
		list = append(list, l.mutations()...)
	}
	return list
}

func members(e *book.Event) (list []mutation) {
	for i, f := range e.Fails {
		rest := slices.Delete(slices.Clone(e.Fails), i, i+1)
		list = append(list, set(&e.Head, otherwise, "no longer fails "+f.String(), &e.Fails, rest))
	}
	return list
}

func alertMutations(b *book.Build, a *book.Alert) (list []mutation) {
	for i, f := range a.Tells {
		rest := slices.Delete(slices.Clone(a.Tells), i, i+1)
		m := set(&a.Head, silence, "no longer tells "+f, &a.Tells, rest)
		m.about = f
		list = append(list, m)
	}
	if len(a.QuietIn) > 0 {
		list = append(list, set(&a.Head, loud, "no quiet_in", &a.QuietIn, nil))
	}
	for _, p := range b.Phases {
		if !slices.Contains(a.QuietIn, p.ID) {
			list = append(list, set(&a.Head, loud, "quiet_in "+p.ID+" too", &a.QuietIn, append(slices.Clone(a.QuietIn), p.ID)))
		}
	}
	if a.TrueWhen != nil {
		list = append(list, set(&a.Head, same, "no true_when", &a.TrueWhen, nil))
	}
	if a.GivenBy != nil || b.Aircraft.AlertsGivenBy != nil {
		list = append(list, set(&a.Head, constYes, "given_by = true", &a.GivenBy, literal(true)))
	}
	list = append(list, set(&a.Head, constNo, "given_by = false", &a.GivenBy, literal(false)))
	if a.RepeatsS > 0 {
		list = append(list, set(&a.Head, timer, "no repeats_s", &a.RepeatsS, 0))
	}
	return list
}

func indicationMutations(i *book.Indication) (list []mutation) {
	if i.Means != nil {
		list = append(list, set(&i.Head, same, "shows = "+i.Means.String(), &i.Shows, i.Means))
		list = append(list, set(&i.Head, same, "means = "+i.Shows.String(), &i.Means, i.Shows))
	}
	if i.LitBy != nil {
		list = append(list, set(&i.Head, constYes, "no lit_by", &i.LitBy, nil))
	}
	list = append(list, set(&i.Head, constNo, "lit_by = false", &i.LitBy, literal(false)))
	for n, f := range i.Tells {
		rest := slices.Delete(slices.Clone(i.Tells), n, n+1)
		m := set(&i.Head, silence, "no longer covers "+f, &i.Tells, rest)
		m.about = f
		list = append(list, m)
	}
	if i.Within > 0 {
		list = append(list, set(&i.Head, timer, "within = 0", &i.Within, 0))
	}
	list = append(list, set(&i.Head, timer, "within = a million", &i.Within, 1e6))
	return list
}

// drawnIn makes an item depend on a failure of the scenario: a function, unit
// or signal that is lost or comes with it, an alert that is given with it.
func drawnIn(item book.Item, ref book.FailureRef) (list []mutation) {
	failed := &book.Expr{Op: book.OpFailed, ID: ref.Unit, Type: book.YesNo}
	if ref.Fault != "" {
		failed = &book.Expr{Op: book.OpFault, ID: ref.Unit, Word: ref.Fault, Type: book.YesNo}
	}
	if a, ok := item.(*book.Alert); ok {
		return []mutation{{head: &a.Head, kind: drawn, text: "when = " + failed.String() + ", and nothing holds it back", apply: func() func() {
			old := *a
			a.When, a.GivenBy, a.Until, a.QuietIn = failed, literal(true), nil, nil
			return func() { *a = old }
		}}}
	}
	works := &book.Expr{Op: book.OpNot, Type: book.YesNo, Args: []*book.Expr{failed}}
	for _, l := range lines(item)[:min(1, len(lines(item)))] {
		e := *l.at
		if e == nil {
			e = literal(true)
		}
		if e.Type != book.YesNo {
			continue
		}
		for _, more := range []*book.Expr{
			{Op: book.OpAnd, Type: book.YesNo, Args: []*book.Expr{e, works}},
			{Op: book.OpOr, Type: book.YesNo, Args: []*book.Expr{e, failed}},
		} {
			m := set(l.head, drawn, l.word+" = "+strings.TrimSpace(more.String()), l.at, more)
			m.where = e.Range
			list = append(list, m)
		}
	}
	return list
}
