package vary

import (
	"slices"
	"strings"

	"knockon/ledger"
	"knockon/say"
)

// joint is what is lost only where several of the things that are broken are so.
type joint struct {
	needs []string // each of which, left out, spares it
	lost  []shift
}

// together says what it takes several of the broken things for: what is lost, and is not
// as soon as any one of them is left out.
func (s speaker) together(all []*other) ledger.Varied {
	v := ledger.Varied{Axis: Set, Covers: []ledger.Ref{}}
	list := slices.DeleteFunc(slices.Clone(all), func(o *other) bool { return o.Less == "" })
	full := func(o *other) bool { return s.answered(o) && o.got.Here.Ending().Arrived() }
	if s.open(s.Answer) != "" || !s.Here.Ending().Arrived() {
		v.Open, v.Text = true, "Which of the failures it takes together cannot be said: the question has no full answer."
		return v
	}
	if len(list) == 0 {
		v.Open, v.Text = true, "Which of the failures it takes together is not asked where things fail at several moments."
		return v
	}
	open := len(list) - len(slices.DeleteFunc(slices.Clone(list), func(o *other) bool { return !full(o) }))
	list = slices.DeleteFunc(list, func(o *other) bool { return !full(o) })
	if j := s.heaviest(list); j != nil {
		v.Point, v.Covers = true, changes{less: j.lost}.refs()
		v.Text = "It takes " + say.And(j.needs) + " together for this: " + named(j.lost) + "."
		return v
	}
	v.Text = "No loss needs two of the failures together."
	if open > 0 {
		v.Open, v.Text = true, "Which of the failures it takes together is not known: "+say.Counted(open, "flight")+" with one of them less "+say.Plural(open, "is", "are")+" not answered."
	}
	return v
}

// heaviest is the joint loss that weighs most; nil if nothing needs two things.
func (s speaker) heaviest(list []*other) (best *joint) {
	var all []*joint
	for _, x := range called(s.Ledger) {
		var needs []string
		for _, o := range list {
			if mattering(o.got.Ledger, x.Function.ID) == nil {
				needs = append(needs, o.Less)
			}
		}
		if len(needs) < 2 {
			continue
		}
		i := slices.IndexFunc(all, func(j *joint) bool { return strings.Join(j.needs, "\n") == strings.Join(needs, "\n") })
		if i < 0 {
			i, all = len(all), append(all, &joint{needs: needs})
		}
		all[i].lost = append(all[i].lost, shift{here: x})
	}
	for _, j := range all {
		slices.SortStableFunc(j.lost, heavierFirst)
		if best == nil || weight(j.lost) > weight(best.lost) {
			best = j
		}
	}
	return best
}
