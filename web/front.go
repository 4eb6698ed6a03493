package web

import (
	"context"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"knockon/book"
	"knockon/find"
	"knockon/first"
	"knockon/ledger"
	"knockon/say"
	"knockon/scenario"
)

// frontPage is what the bare address shows.
type frontPage struct {
	Title, Aircraft, Caution string
	Example                  string // of what can be typed
	Search                   string
	Case                     *caseView // nil: the book has no question to open with
	Questions                []example
	Chosen                   string // by which rule
}

// caseView is an answer in its first sentences.
type caseView struct {
	Title, Lead string
	Spoken      []sayingView
	Points      []ledger.Point
	More        int // points that are left for the answer
	To          string
	Crew        string // address of what a crew by the book do
	Alike       string // address of what looks the same; "" where that cannot be asked
}

// Limits of the front page, which is to be one screen.
const (
	openQuestions = 6
	openPoints    = 3
)

// front answers the bare address: the opening case, questions to begin with, and the
// search.
func (s *Site) front(r *http.Request) (reply, error) {
	sh := s.shelves[0]
	p := &frontPage{Title: "What a failure takes away", Aircraft: sh.title(), Caution: book.Caution}
	list, err := s.begins(r.Context(), sh)
	if err != nil {
		return reply{}, err
	}
	q := s.parse(s.opening)
	if len(s.opening) == 0 && len(list) > 0 {
		q, list = s.asking(sh, list[0].Asks), list[1:]
	}
	for _, f := range list {
		p.Questions = append(p.Questions, example{f.Says, "/?" + s.asking(sh, f.Asks).Query()})
	}
	if len(list) > 0 {
		p.Chosen = "Chosen by rule: by turns the heaviest single failures of a sweep, each in its worst phase, hands off, and the heaviest claims that the book makes about itself; no failure twice."
	}
	if len(q.What) > 0 {
		p.Example = sh.example(q)
		if p.Case, err = s.openCase(r.Context(), q); err != nil {
			return reply{}, err
		}
	}
	return s.frame.Page("front", p)
}

// openCase is the answer to a question in its first sentences.
func (s *Site) openCase(ctx context.Context, q *question) (*caseView, error) {
	a, err := q.shelf.kept.both(ctx, q.typed())
	if err != nil {
		return nil, err
	}
	var opens answerView
	opens.opens(a.view, shownRows{})
	c := &caseView{Title: a.view.Heading, Lead: opens.Lead, Spoken: opens.Spoken, To: "/?" + q.Query(), Crew: "/crew?" + q.Query()}
	if q.asksMore() == "" {
		c.Alike = "/alike?" + q.Query()
	}
	if w := a.view.Worth; w != nil {
		c.Points = w.Points[:min(len(w.Points), openPoints)]
		c.More = len(w.Points) - len(c.Points)
	}
	return c, nil
}

// begins are the questions of a book to begin with, worked out once. Their sweep takes
// a second or two, behind the door of the prices.
func (s *Site) begins(ctx context.Context, sh *shelf) (list []first.Question, err error) {
	if b, _ := sh.desk.Book.BuildNamed(""); b == nil || len(b.Flights)*len(b.Phases) == 0 {
		return nil, nil // nothing can be swept
	}
	sh.opening.Lock()
	defer sh.opening.Unlock()
	if sh.opens == nil {
		err = s.pricing.Do(ctx, func(ctx context.Context) (err error) {
			sh.opens, err = first.Of(ctx, sh.desk, openQuestions)
			return err
		})
	}
	return sh.opens, err
}

// asking is a question as a page has it.
func (s *Site) asking(sh *shelf, t scenario.Typed) *question {
	q := &question{shelf: sh, Out: t.Out, Build: t.Build, Flight: t.Flight, Crew: t.Crew}
	q.build, _ = sh.desk.Book.BuildNamed(t.Build)
	if len(t.Fail) > 0 {
		q.Strike = t.Fail[0]
	}
	return q
}

// example is a question as somebody would type it into the search: without what its
// titles have in brackets, if it is understood without.
func (sh *shelf) example(q *question) string {
	short := spokenQuestion(q, func(title string) string { title, _, _ = strings.Cut(title, " ("); return title })
	if v := sh.names.Read(short); v.Asks && slices.Equal(v.Question.Fail[0].What, q.What) && slices.Equal(v.Question.Out, q.Out) {
		return short
	}
	return spokenQuestion(q, func(title string) string { return title })
}

func spokenQuestion(q *question, short func(title string) string) string {
	var fails, out []string
	for _, f := range q.What {
		fails = append(fails, say.Lower(short(q.build.FailureTitle(f))))
	}
	for _, f := range q.Out {
		out = append(out, say.Lower(short(q.build.FailureTitle(f))))
	}
	text := strings.Join(fails, " and ")
	if m, err := book.ParseMoment(q.At, q.build); err == nil && m.Phase != "" {
		text += " in the " + say.Lower(q.build.Title(m.Phase))
	}
	return text + say.Ahead(" with ", strings.Join(out, " and ")+map[bool]string{true: " deferred"}[len(out) > 0])
}

// findPage is how a text was understood.
type findPage struct {
	Title, Aircraft, Caution string
	*find.View
	Search  string
	Book    string
	Rows    []foundPart
	Near    []example // what was perhaps meant by what was not understood
	Case    *caseView
	Trouble string // why what was understood cannot be answered
	JSON    string
	All     string // the list of all that can fail
}

// foundPart is a part with addresses of its other meanings.
type foundPart struct {
	find.Part
	Instead []example
}

func (s *Site) found(r *http.Request) (*shelf, *find.View, error) {
	values := r.URL.Query()
	for part := range values {
		if part != "q" && part != "book" {
			return nil, nil, &fault{Status: http.StatusBadRequest, Text: say.Sentence("there is " + say.No("part", cut(part), []string{"q", "book"}))}
		}
	}
	sh := s.shelves[0]
	if id := values.Get("book"); id != "" {
		if sh = s.shelf(id); sh == nil {
			return nil, nil, &fault{Status: http.StatusBadRequest, Text: say.Sentence("there is " + say.No("book", cut(id), s.books()))}
		}
	}
	return sh, sh.names.Read(values.Get("q")), nil
}

// findJSON answers GET /find.json.
func (s *Site) findJSON(r *http.Request) (reply, error) {
	_, v, err := s.found(r)
	if err != nil {
		return reply{}, err
	}
	return asJSON(v)
}

// find answers GET /find: how a text was understood, with the first sentences of the
// answer.
func (s *Site) find(r *http.Request) (reply, error) {
	sh, v, err := s.found(r)
	if err != nil {
		return reply{}, err
	}
	p := &findPage{Title: "What you look for", Aircraft: sh.title(), Caution: book.Caution, View: v, Search: v.Text, JSON: "/find.json?" + r.URL.RawQuery, All: "/ask"}
	if !sh.first {
		p.Book, p.All = sh.id, "/ask?book="+url.QueryEscape(sh.id)
	}
	for _, part := range v.Parts {
		row := foundPart{Part: part}
		for _, c := range part.Others {
			row.Instead = append(row.Instead, example{c.Title, "/?" + s.asking(sh, c.Question).Query()})
		}
		p.Rows = append(p.Rows, row)
	}
	for _, w := range v.Strange {
		if w.Near != "" {
			again := url.Values{"q": {strings.Replace(v.Text, w.Word, w.Near, 1)}}
			p.Near = append(p.Near, example{w.Near, "/find?" + again.Encode()})
		}
	}
	if v.Asks {
		p.Case, err = s.openCase(r.Context(), s.asking(sh, v.Question))
		if wrong, ours := theirs(err); ours {
			p.Trouble, err = wrong.Text, nil
		}
	}
	if err != nil {
		return reply{}, err
	}
	return s.frame.Page("find", p)
}
