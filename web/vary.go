package web

import (
	"context"
	"net/http"
	"runtime"
	"time"

	"knockon/book"
	"knockon/ledger"
	"knockon/point/vary"
)

// variedView is what other runs make of an answer: a place kept for each line, and the
// lines once they are there.
type variedView struct {
	Query  string
	Page   string   // address of the page of them
	Axes   []string // one line each
	Saves  bool     // a rescue is looked for
	Lines  []variedLine
	Rescue *variedLine
}

// variedLine is a line with the page that shows both runs, or all rescues.
type variedLine struct {
	ledger.Varied
	To, Says string // the address of more, and its words; "" there is none
}

// How long a page flies other runs, and looks for what saves the gravest loss.
const (
	variedWithin = 3 * time.Second
	savedWithin  = 6 * time.Second
)

// places are what a page keeps for the lines of an answer.
func places(query string, a *kept) *variedView {
	return &variedView{Query: query, Page: "/vary?" + query, Axes: vary.Axes(a.Answer), Saves: vary.Breaks(a.Answer) || vary.Grave(a.Ledger) != nil}
}

// variedPage is the page of them, for who has no script.
type variedPage struct {
	Aircraft, Title, Heading, Caution, Address, Back, JSON string
	*variedView
}

// varies answers GET /vary.
func (s *Site) varies(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	v := places(q.Query(), a)
	v.Lines, v.Rescue = s.varied(r.Context(), q, a), s.saved(r.Context(), q, a)
	return s.frame.Page("vary", &variedPage{Aircraft: q.shelf.title(), Title: "With other runs: " + a.view.Heading, Heading: a.view.Heading, Caution: book.Caution,
		Address: site(r) + "/vary?" + q.Query(), Back: "/?" + q.Query(), JSON: "/vary.json?" + q.Query(), variedView: v})
}

// variesPart answers GET /vary/part, variesRescue GET /vary/rescue: what the page of an
// answer puts into the places kept for it.
func (s *Site) variesPart(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	return s.frame.Page("vary-lines", s.varied(r.Context(), q, a))
}

func (s *Site) variesRescue(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	return s.frame.Page("vary-line", s.saved(r.Context(), q, a))
}

// variesJSON answers GET /vary.json.
func (s *Site) variesJSON(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	out := struct {
		Question string         `json:"question"`
		Lines    []variedLine   `json:"with_other_runs"`
		Rescue   *ledger.Varied `json:"rescue,omitempty"`
	}{Question: "/?" + q.Query(), Lines: s.varied(r.Context(), q, a)}
	if x := s.saved(r.Context(), q, a); x != nil {
		out.Rescue = &x.Varied
	}
	return asJSON(out)
}

// varied flies the other runs, once for each answer that is kept if there was time for
// all of them.
func (s *Site) varied(ctx context.Context, q *question, a *kept) (list []variedLine) {
	a.varying.Lock()
	defer a.varying.Unlock()
	lines := a.varied
	if lines == nil {
		short, stop := context.WithTimeout(ctx, s.variedWithin)
		defer stop()
		if lines = vary.Of(short, a.Answer, runtime.GOMAXPROCS(0)); short.Err() == nil {
			a.varied = lines
		}
	}
	for _, x := range lines {
		l := variedLine{Varied: x}
		if x.Change != "" {
			l.To, l.Says = besideOf(q, x.Change), "side by side"
		}
		list = append(list, l)
	}
	return list
}

// saved looks for what saves the gravest loss that nobody knows of; nil where there is
// none.
func (s *Site) saved(ctx context.Context, q *question, a *kept) *variedLine {
	a.saving.Lock()
	defer a.saving.Unlock()
	if a.saves == nil {
		short, stop := context.WithTimeout(ctx, s.savedWithin)
		defer stop()
		x, ok := vary.Saves(short, a.Answer, runtime.GOMAXPROCS(0))
		switch {
		case !ok:
			return nil
		case short.Err() != nil:
			return rescueLine(q, x)
		}
		a.saves = &x
	}
	return rescueLine(q, *a.saves)
}

func rescueLine(q *question, x ledger.Varied) *variedLine {
	row := flightRow
	if len(x.Covers) > 0 {
		row = "loss-" + x.Covers[0].ID
	}
	return &variedLine{Varied: x, To: "/rescue?" + q.Query() + "&row=" + row, Says: "every way, and until when"}
}
