package beside

import (
	"fmt"
	"slices"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/say"
	"knockon/scenario"
)

// Parts that a second question may say otherwise.
var Parts = []string{"at", "build", "flight", "crew", "out", "fail", "and", "without", "plan"}

// Other is a question with some of it otherwise: "at=cruise", "build=second_series",
// "crew=none", "out=none" (nothing inoperative) or "out=tr_left", "fail=gen_left",
// "and=gen_left" (one failure more), "without=gen_left", "plan=return" or "plan=none". The
// error is a *scenario.Trouble.
func Other(q scenario.Typed, changes []string) (scenario.Typed, error) {
	if len(changes) == 0 {
		return q, &scenario.Trouble{Part: "other", Text: "say what is otherwise, such as at=cruise, build=ID, crew=none, out=none, and=gen_left"}
	}
	if len(q.Fail) != 1 {
		return q, &scenario.Trouble{Part: "other", Text: "a question in which something fails once can be laid beside another"}
	}
	q.Fail = slices.Clone(q.Fail)
	k := &q.Fail[0]
	for _, c := range changes {
		part, value, ok := strings.Cut(c, "=")
		part, value = strings.TrimSpace(part), strings.TrimSpace(value)
		if !ok {
			return q, &scenario.Trouble{Part: "other", Text: fmt.Sprintf("%q: write part=value, such as at=cruise", c)}
		}
		switch part {
		case "at":
			k.At, k.When = value, ""
		case "build":
			q.Build = value
		case "flight":
			q.Flight = value
		case "crew":
			q.Crew = value
		case "out":
			q.Out = listed(value)
		case "plan":
			q.Plan = listed(value)
		case "fail":
			k.What = listed(value)
		case "and":
			k.What = append(slices.Clone(k.What), missing(k.What, listed(value))...)
		case "without":
			k.What = missing(listed(value), k.What)
		default:
			return q, &scenario.Trouble{Part: "other", Text: say.No("part", part, Parts)}
		}
	}
	if len(k.What) == 0 {
		return q, &scenario.Trouble{Part: "other", Text: "nothing fails then; leave something that does"}
	}
	return q, nil
}

func listed(value string) (list []string) {
	for _, v := range strings.Split(value, ",") {
		if v = strings.TrimSpace(v); v != "" && v != "none" {
			list = append(list, v)
		}
	}
	return list
}

func missing(have, more []string) []string {
	return slices.DeleteFunc(slices.Clone(more), func(s string) bool { return slices.Contains(have, s) })
}

// labels say what each of two questions is that the other is not.
func labels(a, b *ask.Answer) (first, second string) {
	var x, y []string
	add := func(one, other string) {
		if one != other {
			x, y = append(x, one), append(y, other)
		}
	}
	p, q := a.Question, b.Question
	add(fails(a), fails(b))
	add(when(a), when(b))
	add(out(a), out(b))
	add("on "+say.Quoted(title(a.Course.Build.Book.Variants, a.Course.Build.Variant)), "on "+say.Quoted(title(b.Course.Build.Book.Variants, b.Course.Build.Variant)))
	add("on the flight "+say.Quoted(a.Course.Flight.Title), "on the flight "+say.Quoted(b.Course.Flight.Title))
	add(conduct(p), conduct(q))
	add(plan(p), plan(q))
	if len(x) == 0 {
		return "the first time", "the second time"
	}
	return strings.Join(x, ", "), strings.Join(y, ", ")
}

// title is that of a build, up to its first comma or colon.
func title(list []*book.Variant, id string) string {
	for _, v := range list {
		if v.ID == id {
			if i := strings.IndexAny(v.Title, ",:"); i > 0 {
				return v.Title[:i]
			}
			return v.Title
		}
	}
	return id
}

func fails(a *ask.Answer) string {
	return "when " + say.And(failures(a, a.Question.Fail[0].What)) + say.Plural(len(a.Question.Fail[0].What), " fails", " fail")
}

func failures(a *ask.Answer, refs []string) (list []string) {
	for _, r := range refs {
		list = append(list, say.Lower(a.Course.Build.FailureTitle(strings.TrimSpace(r))))
	}
	return list
}

func when(a *ask.Answer) string {
	k := a.Question.Fail[0]
	if k.When != "" {
		return "when " + k.When
	}
	m, err := book.ParseMoment(k.At, a.Course.Build)
	if err != nil {
		return "at " + k.At
	}
	return "at " + m.Spoken(a.Course.Build)
}

func out(a *ask.Answer) string {
	if len(a.Question.Out) == 0 {
		return "with nothing inoperative"
	}
	return "with " + say.And(failures(a, a.Question.Out)) + " inoperative"
}

func conduct(q scenario.Typed) string {
	if q.ByTheBook() {
		return "by the book"
	}
	return "hands off"
}

func plan(q scenario.Typed) string {
	if len(q.Plan) == 0 {
		return "flown on as planned"
	}
	return "with " + say.And(q.Plan)
}
