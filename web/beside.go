package web

import (
	"net/http"
	"net/url"
	"slices"
	"strings"

	"knockon/beside"
	"knockon/book"
	"knockon/say"
	"knockon/scenario"
)

// besidePage is two answers side by side, or what can be chosen for the second.
type besidePage struct {
	Title, Aircraft, Caution, Address string

	*beside.View      // nil: nothing was chosen
	FirstTo, SecondTo string
	Asks              string // what the first question is; "" there is none
	Problems          []problem
	Choices           []choices
	Hidden            []hidden
	JSON              string
}

// choices are second questions of one kind.
type choices struct {
	Title string
	List  []example
}

// besides answers GET /beside.
func (s *Site) besides(r *http.Request) (reply, error) {
	q, v, err := s.laid(r)
	p := &besidePage{Title: "Side by side", Aircraft: q.shelf.title(), Caution: book.Caution, View: v, Problems: q.Problems, Address: site(r) + r.URL.RequestURI()}
	if wrong, ours := theirs(err); ours {
		p.Problems, err = append(p.Problems, wrong), nil
	}
	if err != nil {
		return reply{}, err
	}
	if len(q.What) > 0 && !q.fatal {
		p.Asks, p.Choices, p.FirstTo = q.asks(), besideChoices(q), "/?"+q.Query()
		p.Hidden = q.hidden()
	}
	if v != nil {
		second := s.asking(q.shelf, v.Second.Question)
		p.Title, p.SecondTo = "Side by side: "+v.First.Label+", "+v.Second.Label, "/?"+second.Query()
		p.JSON = "/beside.json?" + r.URL.RawQuery
	}
	rep, err := s.frame.Page("beside", p)
	if len(p.Problems) > 0 {
		rep.Status = http.StatusBadRequest
	}
	return rep, err
}

// besidesJSON answers GET /beside.json.
func (s *Site) besidesJSON(r *http.Request) (reply, error) {
	q, v, err := s.laid(r)
	switch {
	case err != nil:
		return reply{}, err
	case len(q.Problems) > 0:
		return reply{}, &scenario.Trouble{Part: q.Problems[0].Part, Text: q.Problems[0].Text}
	case v == nil:
		return reply{}, &fault{Status: http.StatusBadRequest, Text: "Say what fails, and what is otherwise: other=at%3Dcruise, other=crew%3Dnone."}
	}
	return asJSON(v)
}

// laid lays the question of an address beside what the address says is otherwise; the
// view is nil where one of the two is missing.
func (s *Site) laid(r *http.Request) (*question, *beside.View, error) {
	values := r.URL.Query()
	changes := slices.DeleteFunc(slices.Clone(values["other"]), func(c string) bool { return strings.TrimSpace(c) == "" })
	values.Del("other")
	q := s.parse(values)
	q.unknown(values)
	if len(q.What) == 0 || q.fatal || len(changes) == 0 {
		return q, nil, nil
	}
	typed, err := beside.Other(q.typed(), changes[:min(len(changes), len(beside.Parts))])
	if err != nil {
		return q, nil, err
	}
	a, err := q.shelf.kept.both(r.Context(), q.typed())
	if err != nil {
		return q, nil, err
	}
	b, err := q.shelf.kept.both(r.Context(), typed)
	if err != nil {
		return q, nil, err
	}
	return q, beside.Of(a.Answer, b.Answer), nil
}

// asks says in few words what a question asks.
func (q *question) asks() string {
	var list []string
	for _, f := range q.What {
		list = append(list, q.build.FailureTitle(f))
	}
	text := say.And(list) + " " + say.Plural(len(list), "fails", "fail")
	if m, err := book.ParseMoment(q.At, q.build); err == nil && q.When == "" {
		text += " at " + m.Spoken(q.build)
	}
	return text + "."
}

// besideOf is the address of a question beside another that is otherwise so.
func besideOf(q *question, change string) string {
	return "/beside?" + q.Query() + "&other=" + url.QueryEscape(change)
}

// pace is the same question with a crew at the other pace.
func pace(q *question, to func(says, change string) example) example {
	if q.Crew == scenario.Slowly {
		return to("a crew at the usual pace", "crew=by_the_book")
	}
	return to("a crew at half the pace", "crew=slowly")
}

// besideChoices are what a question is most often laid beside.
func besideChoices(q *question) (list []choices) {
	add := func(title string, more []example) {
		if len(more) > 0 {
			list = append(list, choices{title, more})
		}
	}
	to := func(says, change string) example {
		return example{says, besideOf(q, change)}
	}
	if q.Crew == scenario.Nobody {
		add("Who acts", []example{to("a crew by the book", "crew=by_the_book")})
	} else {
		add("Who acts", []example{to("hands off", "crew=none"), pace(q, to)})
	}
	var out, less, builds, phases []example
	if len(q.Out) > 0 {
		out = append(out, to("nothing inoperative", "out=none"))
	}
	if len(q.What) > 1 {
		for _, f := range q.What {
			less = append(less, to("without "+say.Lower(q.build.FailureTitle(f)), "without="+f))
		}
	}
	for _, v := range q.shelf.desk.Book.Variants {
		if v.ID != q.Build {
			builds = append(builds, to(v.Title, "build="+v.ID))
		}
	}
	if m, err := book.ParseMoment(q.At, q.build); err == nil && q.When == "" {
		for _, ph := range q.build.Phases {
			if ph.ID != m.Phase {
				at := book.Moment{Phase: ph.ID, Offset: max(m.Offset, 0)}
				if m.Phase == "" {
					at.Offset = 0
				}
				phases = append(phases, to(ph.Title, "at="+at.String()))
			}
		}
	}
	add("At dispatch", out)
	add("One failure less", less)
	add("Which build", builds)
	add("When", phases)
	return list
}
