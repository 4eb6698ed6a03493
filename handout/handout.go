// Package handout turns an answer into one sheet of paper to teach from: what happened,
// three points, what was told beside what was true, what each line of the lists is worth,
// what saves the gravest of what nobody knows, and what other phases, builds and a
// deferral make of it.
//
// Invariant: every sentence is of the answer, or of a flight beside it that was answered;
// what was not says so or is left out. What the sheet has no room for is counted (fit.go),
// and nothing on it names the machine that made it.
//
// Start reading at Of; beside.go flies what it takes.
package handout

import (
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/figure"
	"knockon/ledger"
	"knockon/point/vary"
	"knockon/say"
	"knockon/scenario"
)

// View is a handout.
type View struct {
	Title    string   // what was asked
	Case     string   // aircraft, build, flight and conduct
	Book     string   // where the book is from
	Opens    string   // the sentence that the answer opens with
	Keep     []string // three points
	Nothing  string   // why there is none
	Rows     []Row
	More     int // moments that are left out
	Lists    []List
	Idle     string // lists of which no line does anything
	NoLists  string // why there are none
	Rescue   string
	Phases   []vary.Cell
	Notes    []Note // builds, deferral, price
	Lacks    string // what is not worked out
	Sources  string
	Question string // that gives it again
	Caution  string

	Line    figure.Line
	Answer  *ledger.View // for the appendix
	Worths  []List       // all of the lists, for the appendix
	sources []string
}

// Note is a line under a word of its own.
type Note struct{ Title, Text string }

// mostKept is how many points there are.
const mostKept = 3

// Of makes the handout of an answer, whose view has what is worth teaching.
func Of(a *ask.Answer, v *ledger.View, b *Beside) *View {
	h := &View{
		Title: v.Heading, Case: v.Setting, Book: bookOf(a), Caution: book.Caution, Nothing: v.Worth.Nothing,
		Opens:    strings.TrimSpace(strings.Join([]string{v.Forbidden, v.Came(), v.Silent, v.Lead}, " ")),
		Keep:     keep(v),
		Rescue:   b.rescue(v),
		Phases:   b.Phases,
		Notes:    b.notes(a),
		Question: command(a),
		Answer:   v,
	}
	h.Rows, h.More = rowsOf(v, mostRows)
	h.lists(a, b)
	for _, l := range v.NotModelled {
		h.Lacks = strings.TrimSpace(h.Lacks + " " + say.Sentence(l.String()))
	}
	h.sources = sourcesOf(a, v, b)
	h.Line = lineOf(a, v)
	return h.fit()
}

// bookOf says where the book is from.
func bookOf(a *ask.Answer) string {
	x := a.Course.Build.Aircraft
	if x.Source == "" {
		return "Book “" + x.Title + "”; it names no source or revision of its own."
	}
	return "Book “" + x.Title + "”: " + say.Sentence(x.Source)
}

// keep are the first points: they stand in the order of their graveness.
func keep(v *ledger.View) (list []string) {
	for _, p := range v.Worth.Points[:min(mostKept, len(v.Worth.Points))] {
		list = append(list, p.Text)
	}
	return list
}

func lineOf(a *ask.Answer, v *ledger.View) figure.Line {
	line := figure.LineOf(a.Ledger, v)
	line.ID, line.Title = "line", v.Heading
	return line
}

// command is the question as it is typed.
func command(a *ask.Answer) string {
	text := "knockon handout"
	for _, k := range a.Question.Fail {
		for _, f := range k.What {
			text += " " + scenario.Quoted(f)
		}
	}
	return text + a.Question.Options()
}
