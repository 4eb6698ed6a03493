// Package beside turns the answers to two questions into what differs between them:
// another phase, another build, with and without a deferral, hands off and by the
// book, one failure more.
//
// Invariant: each of the two is the usual answer to its question; nothing is worked
// out here but which of their rows differ. What is alike is counted and not listed;
// each item that either answer has under a kind is in one list or in one count.
//
// Start reading at Of; what a second question is, is other.go.
package beside

import (
	"slices"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/ledger"
	"knockon/say"
	"knockon/scenario"
)

// View is two answers side by side. Text, JSON, page and print are made from it.
type View struct {
	Says     string    `json:"says"` // how much differs, in a sentence
	First    Side      `json:"first"`
	Second   Side      `json:"second"`
	Sections []Section `json:"sections"` // those with something in them
	Alike    []Count   `json:"alike"`
	Caution  string    `json:"caution"`
}

// Side is one of the two.
type Side struct {
	Label    string         `json:"label"` // what it is that the other is not
	Heading  string         `json:"heading"`
	Setting  string         `json:"setting"`
	Opens    string         `json:"opens"` // what its answer opens with
	Ends     string         `json:"ends"`  // how its flight ends
	Question scenario.Typed `json:"question"`
}

// Section is what differs of one kind, the worst first.
type Section struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Rows  []Row  `json:"rows"`
}

// Row is something that differs, with what it is in each; "" is not there.
type Row struct {
	Kind   string `json:"kind"`
	ID     string `json:"id"`
	Title  string `json:"title"`
	Rank   string `json:"rank,omitempty"`
	First  string `json:"first"`
	Second string `json:"second"`
}

// Count is how much is alike of one kind.
type Count struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Count int    `json:"count"`
}

// kind is what is laid side by side: the rows of some groups of an answer.
type kind struct {
	id, only, otherwise, alike string
	groups, also               []string // also: what may stand in the cell of the other
	cell                       func(group string, r ledger.Row) string
}

// called are the groups of what is lost when it is called for.
var called = []string{ledger.GroupHidden, ledger.GroupDenied, ledger.GroupInUse, ledger.GroupLate, ledger.GroupFollows, ledger.GroupNoticed, ledger.GroupTold}

// kinds in their order. Only has %s for the label of a side.
var kinds = []kind{
	{"lost", "Lost only %s", "Lost both times, and known otherwise or more than a minute apart", "lost and known in the same way",
		called, []string{ledger.GroupIdle}, lostCell},
	{"idle", "Lost only %s, but not called for", "", "lost but not called for", []string{ledger.GroupIdle}, nil, nil},
	{"concluded", "A false conclusion only %s", "", "false conclusions", []string{ledger.GroupConcluded}, nil, nil},
	{"alerts", "Announced only %s", "Announced both times, more than a minute apart", "alerts announced", []string{ledger.GroupAlerts}, nil, clockCell},
	{"false", "A false alarm only %s", "", "false alarms", []string{ledger.GroupFalse}, nil, clockCell},
	{"held", "Held back only %s", "", "alerts held back", []string{ledger.GroupHeld}, nil, nil},
	{"wrong", "Shown wrong only %s", "", "indications wrong", []string{ledger.GroupWrong}, nil, clockCell},
	{"dark", "Dark only %s", "", "indications dark", []string{ledger.GroupDark}, nil, clockCell},
}

// apartS is how far apart two moments are that are said to differ, as in the sentences
// about the other conduct.
const apartS = 60

// Of lays two answers side by side.
func Of(a, b *ask.Answer) *View {
	x, y := a.Ledger.View(), b.Ledger.View()
	v := &View{First: side(a, x), Second: side(b, y), Sections: []Section{}, Alike: []Count{}, Caution: book.Caution}
	v.First.Label, v.Second.Label = labels(a, b)
	if x.Unanswered != "" && x.Ended.Arrived || y.Unanswered != "" && y.Ended.Arrived {
		v.Says = strings.TrimSpace("The two are not laid side by side, since one is not answered. " + x.Unanswered + " " + y.Unanswered)
		return v
	}
	for _, k := range kinds {
		v.add(k, x, y)
	}
	v.Says = v.sentence()
	if x.Unanswered != "" || y.Unanswered != "" {
		v.Says += " That is as far as each is flown: one of them has no full answer."
	}
	return v
}

func side(a *ask.Answer, v *ledger.View) Side {
	return Side{Heading: v.Heading, Setting: v.Setting, Opens: opens(v), Ends: ends(v), Question: a.Question}
}

// opens is what an answer opens with, in sentences.
func opens(v *ledger.View) string {
	list := []string{v.Landing, v.Unanswered, v.Silent, v.None()}
	for _, s := range v.Sayings() {
		var rows []string
		for _, r := range s.Rows {
			rows = append(rows, say.Lower(r.Title)+" ("+r.Clock+")")
		}
		text := s.Says + ": " + strings.Join(rows, "; ")
		if s.More > 0 {
			text += " and " + say.Counted(s.More, "more", "more")
		}
		list = append(list, text+".")
	}
	return strings.Join(slices.DeleteFunc(list, func(s string) bool { return s == "" }), " ")
}

func ends(v *ledger.View) string {
	if v.Ended.Arrived {
		return "The flight arrives, " + say.Lasts(v.Ended.At.Time) + " after it began."
	}
	return "The flight breaks off at " + v.Ended.At.Clock + " from the failure: " + v.Ended.Why + "."
}

// placed is a row with the group that it is in.
type placed struct {
	group string
	ledger.Row
}

func rowsOf(v *ledger.View, groups []string) (list []placed) {
	for _, g := range v.Groups {
		if slices.Contains(groups, g.ID) {
			for _, r := range g.Rows {
				list = append(list, placed{g.ID, r})
			}
		}
	}
	return list
}

// rows are those of a kind. What is lost when nobody calls for it does not count as
// such where the other answer has it lost when it is called for.
func (k kind) rows(v, other *ledger.View) []placed {
	list := rowsOf(v, k.groups)
	if k.id != "idle" {
		return list
	}
	lost := rowsOf(other, called)
	return slices.DeleteFunc(list, func(r placed) bool { _, is := find(lost, r); return is })
}

func find(list []placed, r placed) (placed, bool) {
	i := slices.IndexFunc(list, func(p placed) bool { return p.Kind == r.Kind && p.ID == r.ID })
	if i < 0 {
		return placed{}, false
	}
	return list[i], true
}

// add sorts the rows of a kind into those of the first only, of the second only, those
// that are otherwise, and the count of the others.
func (v *View) add(k kind, x, y *ledger.View) {
	first, second := k.rows(x, y), k.rows(y, x)
	beside := func(other *ledger.View, r placed) *placed {
		if p, ok := find(rowsOf(other, k.also), r); ok {
			return &p
		}
		return nil
	}
	only := [2][]Row{}
	var otherwise []Row
	alike := 0
	for _, r := range first {
		switch s, both := find(second, r); {
		case !both:
			only[0] = append(only[0], k.row(&r, beside(y, r)))
		case k.otherwise != "" && differ(k, r, s):
			otherwise = append(otherwise, k.row(&r, &s))
		default:
			alike++
		}
	}
	for _, s := range second {
		if _, both := find(first, s); !both {
			only[1] = append(only[1], k.row(beside(x, s), &s))
		}
	}
	put := func(id, title string, rows []Row) {
		if len(rows) > 0 {
			v.Sections = append(v.Sections, Section{k.id + "-" + id, title, rows})
		}
	}
	put("first", strings.Replace(k.only, "%s", v.First.Label, 1), only[0])
	put("second", strings.Replace(k.only, "%s", v.Second.Label, 1), only[1])
	put("otherwise", k.otherwise, otherwise)
	if alike > 0 {
		v.Alike = append(v.Alike, Count{k.id, k.alike, alike})
	}
}

// differ says that a row of both is known otherwise, or begins more than a minute apart
// as counted from the failure.
func differ(k kind, a, b placed) bool {
	if a.group != b.group {
		return true
	}
	if len(a.Spans) == 0 || len(b.Spans) == 0 {
		return false
	}
	d := a.Spans[0].From.AfterS - b.Spans[0].From.AfterS
	return max(d, -d) > apartS
}

func (k kind) row(a, b *placed) (r Row) {
	one := a
	if one == nil {
		one = b
	}
	r = Row{Kind: one.Kind, ID: one.ID, Title: one.Title, Rank: one.Rank}
	cell := func(p *placed) string {
		switch {
		case p == nil:
			return ""
		case k.cell == nil:
			return "yes"
		}
		return k.cell(p.group, p.Row)
	}
	r.First, r.Second = cell(a), cell(b)
	return r
}

// lostCell says how a loss is known, and from when it is lost.
func lostCell(group string, r ledger.Row) string {
	if group == ledger.GroupIdle {
		return "lost, but not called for"
	}
	return string(r.Known) + say.Ahead(", from ", began(r))
}

func clockCell(_ string, r ledger.Row) string { return say.Ahead("from ", began(r)) }

func began(r ledger.Row) string {
	if len(r.Spans) == 0 {
		return ""
	}
	return r.Spans[0].From.Clock
}

// sentence says how much differs of what is lost.
func (v *View) sentence() string {
	count := func(id string) int {
		for _, s := range v.Sections {
			if s.ID == id {
				return len(s.Rows)
			}
		}
		return 0
	}
	alike := 0
	for _, c := range v.Alike {
		if c.ID == "lost" {
			alike = c.Count
		}
	}
	a, b, o := count("lost-first"), count("lost-second"), count("lost-otherwise")
	if a+b+o == 0 {
		text := "The same is lost both times, and known in the same way"
		if alike == 0 {
			text = "Nothing that is called for is lost either time"
		}
		switch {
		case len(v.Sections) > 0:
			return text + "; what else differs stands below."
		case v.First.Opens+v.First.Ends != v.Second.Opens+v.Second.Ends:
			return text + "; how each begins and ends stands below."
		}
		return text + "; nothing else differs."
	}
	var parts []string
	add := func(n int, text string) {
		if n > 0 {
			parts = append(parts, say.Whole(float64(n))+" "+text)
		}
	}
	add(a, "lost only "+v.First.Label)
	add(b, "lost only "+v.Second.Label)
	add(o, "known otherwise or at another time")
	add(alike, "alike")
	return say.Capital(strings.Join(parts, "; ")) + "."
}
