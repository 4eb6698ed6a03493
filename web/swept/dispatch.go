package swept

import (
	"context"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"time"

	"knockon/book"
	"knockon/dispatch"
	"knockon/scenario"
	"knockon/web/door"
	"knockon/web/frame"
)

// dispatches is the door of what is one failure away: a phase takes some ten seconds, and
// a server waits for a page no longer than a minute.
var dispatches = door.Setting{AtWork: 1, Waiting: 20, Patience: 12 * time.Second, Limit: 42 * time.Second}

// everyPhase is where the next failure strikes if it may strike in any; unless an address
// says where, only the deferrals are read.
const everyPhase = "every"

// dispatchPage is whether it may go with something broken.
type dispatchPage struct {
	common
	Items, Found string
	Can          []option // what the book's deferrals are about
	Builds       []option
	Flights      []option
	Phases       []option
	Thorough     bool
	Every        bool
	View         *dispatch.View
	Breaks       []dispatchBreak
	Groups       []dispatchGroup
	None         string   // that the book has no deferrals
	Look         []option // where the next failure may strike, for what is then one failure away
	Command      string   // that looks for it in every phase
}

// dispatchBreak is a finding; To: the answer page, "" where none shows the same.
type dispatchBreak struct {
	dispatch.BreakView
	To string
}

// dispatchGroup is what is one failure away, of one severity.
type dispatchGroup struct {
	Head string
	Rows []dispatch.AwayView
}

// dispatch answers GET /dispatch.
func (p *Pages) dispatch(r *http.Request) (reply, error) {
	v := r.URL.Query()
	a, err := p.asked(without(v, "most", "phase", "layer", "order"))
	if err != nil {
		return reply{}, err
	}
	for _, part := range []string{"item", "in", "found"} {
		if len(v.Get(part)) > mostWords {
			return reply{}, frame.Wrong("What is inoperative, a moment and a day have at most %d characters.", mostWords)
		}
	}
	page := p.dispatchPage(a, v)
	if len(v["item"]) == 0 || page.Items == "" {
		return p.frame.Page("swept-dispatch", page)
	}
	q := dispatch.Question{Items: strings.Split(page.Items, ", "), Build: a.build.Variant, Flight: flightOf(a, v), In: v.Get("in"), Found: v.Get("found"), Thorough: page.Thorough, Acts: p.desk.Acting}
	if q.In == "" {
		err = p.verdict(page, a, q)
	} else {
		err = p.goes.Do(r.Context(), func(ctx context.Context) error {
			if q.In == everyPhase {
				q.In = ""
			}
			answer, err := dispatch.Of(ctx, p.desk.Courses, q)
			if err == nil {
				page.show(a.build, answer.View())
			}
			return err
		})
	}
	if err != nil {
		return reply{}, err
	}
	return p.frame.Page("swept-dispatch", page)
}

// verdict shows what the deferrals say, and leads to what is then one failure away.
func (p *Pages) verdict(page *dispatchPage, a asked, q dispatch.Question) error {
	answer, err := dispatch.Verdict(p.desk.Courses, q)
	if err != nil {
		return err
	}
	page.show(a.build, answer.View())
	if !page.View.Goes {
		return nil
	}
	for _, f := range page.Phases {
		to := url.Values{"build": {q.Build}, "flight": {q.Flight}, "item": q.Items, "in": {f.ID}}
		if q.Found != "" {
			to.Set("found", q.Found)
		}
		page.Look = append(page.Look, option{Title: f.Title, To: "/dispatch?" + to.Encode()})
	}
	page.Command = "knockon dispatch " + strings.Join(q.Items, " ") + " --build " + q.Build + " --flight " + scenario.Quoted(q.Flight)
	return nil
}

// flightOf is the flight with what is supposed of it.
func flightOf(a asked, v url.Values) string {
	_, supposed, more := strings.Cut(cut(v.Get("flight")), ",")
	if !more {
		return a.flight.ID
	}
	return a.flight.ID + "," + supposed
}

func (p *Pages) dispatchPage(a asked, v url.Values) *dispatchPage {
	page := &dispatchPage{common: p.common("May it go with that broken?"), Found: v.Get("found"), Thorough: v.Get("thorough") == "yes",
		Builds: p.builds(a.build.Variant), Flights: flights(a.build, a.flight.ID)}
	var items []string
	for _, text := range v["item"] {
		for _, i := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' }) {
			if !slices.Contains(items, i) {
				items = append(items, i)
			}
		}
	}
	page.Items = strings.Join(items, ", ")
	page.Every = v.Get("in") == everyPhase
	for _, f := range a.build.Phases {
		page.Phases = append(page.Phases, option{ID: f.ID, Title: f.Title, Chosen: f.ID == v.Get("in")})
	}
	for _, x := range a.build.Deferrals {
		for _, f := range x.Items {
			q := url.Values{"build": {a.build.Variant}, "flight": {a.flight.ID}, "item": {f.String()}}
			page.Can = append(page.Can, option{ID: f.String(), Title: a.build.FailureTitle(f.String()), To: "/dispatch?" + q.Encode()})
		}
	}
	if len(page.Can) == 0 {
		page.None = "The book has no deferrals: with anything broken, it does not go."
	}
	return page
}

// show takes an answer in.
func (p *dispatchPage) show(b *book.Build, v *dispatch.View) {
	p.View, p.Title = v, v.Title
	for _, x := range v.Breaks {
		p.Breaks = append(p.Breaks, dispatchBreak{x, answerTo(b, v, x)})
	}
	for _, s := range v.Severities() {
		p.Groups = append(p.Groups, dispatchGroup{dispatch.Head(s), v.Of(s)})
	}
}

// answerTo is the answer page of the first failure of a finding at its moment; "" of
// one that has none, or whose controls are held.
func answerTo(b *book.Build, v *dispatch.View, x dispatch.BreakView) string {
	if v.Held || len(x.Failures) == 0 || x.At == "" || x.Step > 5 {
		return ""
	}
	fail := x.Failures[:1]
	if x.Step == 4 {
		fail = x.Failures
	}
	return "/?" + url.Values{"build": {b.Variant}, "flight": {v.Flown}, "out": v.Items, "fail": fail, "at": {x.At}, "crew": {"none"}}.Encode()
}
