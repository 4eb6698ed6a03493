package handout

import (
	"regexp"
	"slices"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
	"knockon/ledger"
	"knockon/say"
)

// List is a list that the crew do, with what its lines are worth.
type List struct {
	Title string
	Lines []Line

	Left      int // lines that do something, and the sheet has no room for
	Nothing   int // lines that are come to, and leaving them out does nothing
	Unreached int // lines that the crew do not come to
}

// Line is a line of a list.
type Line struct {
	Number, Says, Worth string

	weight float64 // of what leaving it out brings (worth.Step.Weight)
}

// Rest counts the lines that are not there.
func (l List) Rest() string {
	var parts []string
	for _, p := range []struct {
		n    int
		says string
	}{{l.Left, "more in the appendix"}, {l.Nothing, "of which nothing comes in this model"}, {l.Unreached, "not come to"}} {
		if p.n > 0 {
			parts = append(parts, say.Counted(p.n, "line")+" "+p.says)
		}
	}
	return say.Sentence(say.Capital(strings.Join(parts, "; ")))
}

// procedures are the lists that the crew begin once it has failed, in their order.
func procedures(a *ask.Answer) (list []*book.Procedure) {
	if a.Crew == nil {
		return nil
	}
	calls := slices.Clone(a.Crew.Calls)
	slices.SortStableFunc(calls, func(x, y crew.Call) int { return int(min(max(x.Begun-y.Begun, -1), 1)) })
	for _, c := range calls {
		if c.Procedure != nil && c.Begun != book.Never && c.Begun >= a.Ledger.Strike && !slices.Contains(list, c.Procedure) {
			list = append(list, c.Procedure)
		}
	}
	return list
}

// lists says what each line of the lists is worth, or why nothing is said of them.
func (h *View) lists(a *ask.Answer, b *Beside) {
	called := procedures(a)
	switch {
	case a.Crew == nil:
		h.NoLists = "Hands off: nobody does a list."
	case len(called) == 0:
		h.NoLists = "The crew begin no list because of it."
	case b.NoWorths != "":
		h.NoLists = b.NoWorths
	}
	var idle []string
	for _, p := range called {
		i := slices.IndexFunc(b.Worths, func(w *worth.Worth) bool { return w.Procedure.ID == p.ID })
		if i < 0 {
			continue
		}
		full := listOf(a, b.Worths[i], true)
		h.Worths = append(h.Worths, full)
		if l := listOf(a, b.Worths[i], false); len(l.Lines) > 0 {
			h.Lists = append(h.Lists, l)
		} else {
			idle = append(idle, say.Quoted(p.Title))
		}
	}
	if len(idle) > 0 {
		h.Idle = "No line of " + say.And(idle) + " changes what is lost, told or shown in this model."
	}
	if h.NoLists == "" && len(h.Worths) == 0 {
		h.NoLists = "What the lines of " + say.And(titles(called)) + " are worth was not worked out."
	}
}

func titles(list []*book.Procedure) (names []string) {
	for _, p := range list {
		names = append(names, say.Quoted(p.Title))
	}
	return names
}

// listOf puts a list into words: with every line, or with those that leaving out does
// something.
func listOf(a *ask.Answer, w *worth.Worth, every bool) List {
	l := List{Title: w.Procedure.Title}
	if c := begun(a, w.Procedure); c != nil {
		l.Title += ", begun at " + say.After(c.Begun-a.Ledger.Strike)
	}
	for _, s := range w.Steps {
		switch {
		case every || s.Reached && !s.Nothing && s.Step.Leg == "":
			l.Lines = append(l.Lines, Line{s.Number, worth.Words(a.Course.Build, s.Step), s.Because, s.Weight()})
		case s.Reached:
			l.Nothing++
		default:
			l.Unreached++
		}
	}
	return l
}

// Also names the lists of which the sheet has no line.
func (h *View) Also() string {
	var parts []string
	for _, l := range h.Lists {
		if len(l.Lines) == 0 {
			parts = append(parts, l.Title+" ("+say.Counted(l.Left, "line")+" that "+say.Plural(l.Left, "does", "do")+" something)")
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "In the appendix: " + say.And(parts) + "."
}

func begun(a *ask.Answer, p *book.Procedure) *crew.Call {
	for i := range a.Crew.Calls {
		if c := &a.Crew.Calls[i]; c.Procedure == p && c.Begun != book.Never && c.Begun >= a.Ledger.Strike {
			return c
		}
	}
	return nil
}

// sourcesOf are the sources of what the handout speaks of, each once: what failed, what
// told, the lists, and what the points are about.
func sourcesOf(a *ask.Answer, v *ledger.View, b *Beside) (list []string) {
	build := a.Course.Build
	add := func(id string) {
		item, ok := build.Item(id)
		if !ok {
			return
		}
		if s := strings.TrimSpace(item.Named().Source); s != "" && !slices.Contains(list, s) {
			list = append(list, s)
		}
	}
	for _, k := range a.Scenario.Strikes {
		for _, f := range k.Fail {
			add(f.Unit)
		}
	}
	for _, f := range a.Scenario.Inoperative {
		add(f.Unit)
	}
	for _, w := range b.Worths {
		add(w.Procedure.ID)
	}
	for _, g := range v.Groups {
		if g.ID == ledger.GroupAlerts || g.ID == ledger.GroupHidden || g.ID == ledger.GroupDenied {
			for _, r := range g.Rows {
				add(r.ID)
			}
		}
	}
	return together(list)
}

// numbered is a source with one section number in it.
var numbered = regexp.MustCompile(`^(.*?) (\d\d-\d\d)\b(.*)$`)

// together says sources of one document once, with their sections in order.
func together(list []string) (out []string) {
	sections, order := map[[2]string][]string{}, [][2]string{}
	for _, s := range list {
		m := numbered.FindStringSubmatch(s)
		if m == nil {
			m = []string{"", s, "", ""}
		}
		key := [2]string{m[1], m[3]}
		if sections[key] == nil {
			order = append(order, key)
		}
		sections[key] = append(sections[key], m[2])
	}
	for _, key := range order {
		numbers := sections[key]
		slices.Sort(numbers)
		text := strings.TrimSpace(key[0] + " " + strings.Join(slices.Compact(numbers), ", "))
		out = append(out, text+key[1])
	}
	return out
}
