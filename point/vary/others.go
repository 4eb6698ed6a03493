package vary

import (
	"slices"
	"strings"

	"knockon/ask"
	"knockon/beside"
	"knockon/book"
	"knockon/say"
	"knockon/scenario"
)

// others are the questions beside that of an answer, those first that matter most where
// time is short. A question in which things fail at several moments has only those that
// change nothing of it.
func others(a *ask.Answer) (list []*other) {
	q := a.Question
	add := func(axis, change, says string) *other {
		o := &other{Axis: axis, Change: change, Says: says}
		if asks, err := beside.Other(q, []string{change}); err == nil {
			o.Question = asks
			list = append(list, o)
		}
		return o
	}
	if q.ByTheBook() {
		add(Conduct, "crew="+scenario.Nobody, "Hands off")
		if !q.Slowly() {
			add(Pace, "crew="+scenario.Slowly, "With a crew who take twice as long over everything")
		}
	} else {
		add(Conduct, "crew="+scenario.ByTheBook, "With a crew by the book")
	}
	all := members(a)
	for _, u := range units(all) {
		if rest := without(all, u); len(rest) > 0 {
			add(Guard, "fail="+strings.Join(rest, ","), "With "+name(a, u)+" in order").Less = name(a, u)
		}
	}
	list = append(list, inoperative(a, len(units(all)) == 1)...)
	for _, v := range a.Course.Build.Book.Variants {
		if v.ID != a.Course.Build.Variant {
			add(Build, "build="+v.ID, "On "+say.Quoted(short(v.Title)))
		}
	}
	for _, m := range moments(a) {
		add(Phase, "at="+m.String(), "Where it fails "+when(m, a.Course.Build))
	}
	return list
}

// inoperative are the questions with nothing inoperative, with one thing less so, and,
// where one unit fails, with what is inoperative failing alone.
func inoperative(a *ask.Answer, alone bool) (list []*other) {
	out := a.Question.Out
	if len(out) == 0 {
		return nil
	}
	none := a.Question
	none.Out = nil
	list = append(list, &other{Axis: Deferral, Change: "out=none", Says: "With all in order at dispatch", Question: none})
	for i, o := range out {
		if len(out) == 1 {
			list[0].Less = name(a, o)
			break
		}
		less := a.Question
		less.Out = slices.Delete(slices.Clone(out), i, i+1)
		list = append(list, &other{Axis: Set, Less: name(a, o), Question: less})
	}
	if alone {
		k := none.Fail[0]
		k.What = out
		none.Fail = []scenario.Strike{k}
		list = append(list, &other{Axis: Set, Less: name(a, members(a)[0]), Question: none})
	}
	return list
}

// name is that of the unit of a failure, in a sentence.
func name(a *ask.Answer, ref string) string {
	return say.Lower(a.Course.Build.Title(units([]string{ref})[0]))
}

// parts counts what a question breaks: the units that fail, and what is inoperative.
func parts(a *ask.Answer) int { return len(units(members(a))) + len(a.Question.Out) }

// members are the failures of the question one by one, those of events among them.
func members(a *ask.Answer) (list []string) {
	for _, k := range a.Scenario.Strikes {
		for _, f := range k.Fail {
			if e, ok := a.Course.Build.Item(f.Unit); ok {
				if e, ok := e.(*book.Event); ok {
					for _, m := range e.Fails {
						list = append(list, m.String())
					}
					continue
				}
			}
			list = append(list, f.String())
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// units are those of a list of failures.
func units(refs []string) (list []string) {
	for _, r := range refs {
		if id, _, _ := strings.Cut(r, "."); !slices.Contains(list, id) {
			list = append(list, id)
		}
	}
	return list
}

// without are all failures that are not of a unit.
func without(all []string, unit string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(m string) bool { return units([]string{m})[0] == unit })
}

// moments are those as far into each other phase of the flight.
func moments(a *ask.Answer) (list []book.Moment) {
	k := a.Question.Fail[0]
	m, err := book.ParseMoment(k.At, a.Course.Build)
	if err != nil || k.When != "" {
		return nil
	}
	for _, p := range a.Course.Build.Phases {
		if p.ID != m.Phase {
			at := book.Moment{Phase: p.ID, Offset: max(m.Offset, 0)}
			if m.Phase == "" {
				at.Offset = 0
			}
			list = append(list, at)
		}
	}
	return list
}

func when(m book.Moment, b *book.Build) string {
	if m.Offset > 0 {
		return m.Spoken(b)
	}
	return "at " + m.Spoken(b)
}

// short is a title up to its first comma or colon.
func short(title string) string {
	if i := strings.IndexAny(title, ",:"); i > 0 {
		return title[:i]
	}
	return title
}
