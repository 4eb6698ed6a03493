package ledger

import (
	"slices"
	"strings"

	"knockon/say"
)

// Mail is an answer in five lines: what happens, what is told, what is not, what to do
// about it and by when, what it depends on. The last two are of other runs, which
// somebody must have asked for (Worth.Others).
func (v *View) Mail() [5]string {
	return [5]string{
		"What happens: " + join(v.Heading, v.Forbidden, v.Came()),
		"What is told: " + v.toldOf(),
		"What is not: " + join(v.Silent, v.Lead),
		"What to do: " + v.toDo(),
		"What it depends on: " + v.dependsOn(),
	}
}

func join(list ...string) string {
	return strings.Join(slices.DeleteFunc(list, func(s string) bool { return s == "" }), " ")
}

// mostMailed is how many alerts, and how many points, a line of a mail names.
const mostMailed = 3

// toldOf names the alerts, and counts what they tell.
func (v *View) toldOf() string {
	var given []string
	told := 0
	for _, g := range v.Groups {
		switch g.ID {
		case GroupTold:
			told = len(g.Rows)
		case GroupAlerts:
			for _, r := range g.Rows {
				given = append(given, say.Quoted(r.Title)+say.Ahead(" ", r.clock()))
			}
		}
	}
	if len(given) == 0 {
		return "no alert is given."
	}
	more := len(given) - mostMailed
	given = given[:min(mostMailed, len(given))]
	if more > 0 {
		given = append(given, say.Counted(more, "more alert"))
	}
	return say.And(given) + "; " + say.Counted(told, "lost function") + " " + say.Plural(told, "is", "are") + " told by name."
}

func (r Row) clock() string {
	if len(r.Spans) == 0 {
		return ""
	}
	return r.Spans[0].From.Clock
}

// toDo is what saves the gravest of what nobody knows.
func (v *View) toDo() string {
	for _, x := range v.Worth.Others {
		if x.Axis == "rescue" {
			return x.Text
		}
	}
	if v.Unanswered != "" {
		return "cannot be said: the question has no full answer."
	}
	return "nothing that is lost when it is called for is hidden or denied, so that no rescue was looked for."
}

// dependsOn are the points of other runs.
func (v *View) dependsOn() string {
	var list []string
	open := 0
	for _, x := range v.Worth.Others {
		switch {
		case x.Axis == "rescue":
		case x.Open:
			open++
		case x.Point && len(list) < mostMailed:
			list = append(list, x.Text)
		}
	}
	if open > 0 {
		list = append(list, "What some of the other runs would make of it was not answered.")
	}
	if len(list) == 0 {
		return "no other run makes a difference to what is lost when it is called for."
	}
	return strings.Join(list, " ")
}
