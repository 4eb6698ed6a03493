package web

import (
	"net/http"
	"net/url"

	"knockon/book"
	"knockon/snapshot"
)

// snapshotPage is a moment of an answer.
type snapshotPage struct {
	Title, Aircraft, Caution, Address string

	*snapshot.View // nil: there is none
	Problems       []problem
	Moment         string    // as it was typed
	Moments        []example // the beginnings of the phases
	Hidden         []hidden
	Back, JSON     string
}

// snapshots answers GET /snapshot.
func (s *Site) snapshots(r *http.Request) (reply, error) {
	q, a, v, err := s.taken(r)
	p := &snapshotPage{Title: "At one moment", Aircraft: q.shelf.title(), Caution: book.Caution, View: v, Problems: q.Problems, Moment: cut(r.URL.Query().Get("moment")), Address: site(r) + r.URL.RequestURI()}
	if wrong, ours := theirs(err); ours {
		p.Problems, err = append(p.Problems, wrong), nil
	}
	if err != nil {
		return reply{}, err
	}
	if a != nil {
		p.Moments, p.Back, p.Hidden = momentsOf(q, a), "/?"+q.Query(), q.hidden()
	}
	if v != nil {
		p.Title, p.JSON = "At "+v.At.Clock+", "+v.At.After+" from the failure", "/snapshot.json?"+r.URL.RawQuery
	}
	rep, err := s.frame.Page("snapshot", p)
	if len(p.Problems) > 0 {
		rep.Status = http.StatusBadRequest
	}
	return rep, err
}

// snapshotsJSON answers GET /snapshot.json.
func (s *Site) snapshotsJSON(r *http.Request) (reply, error) {
	q, _, v, err := s.taken(r)
	switch {
	case err != nil:
		return reply{}, err
	case len(q.Problems) > 0:
		return reply{}, &fault{Status: http.StatusBadRequest, Text: q.Problems[0].Text}
	case v == nil:
		return reply{}, &fault{Status: http.StatusBadRequest, Text: "Say what fails."}
	}
	return asJSON(v)
}

// taken is the moment of an address in the answer to its question; without a moment,
// that of the failure.
func (s *Site) taken(r *http.Request) (q *question, a *kept, v *snapshot.View, err error) {
	values := r.URL.Query()
	text := cut(values.Get("moment"))
	values.Del("moment")
	q = s.parse(values)
	q.unknown(values)
	if len(q.What) == 0 || q.fatal {
		return q, nil, nil, nil
	}
	if a, err = q.shelf.kept.both(r.Context(), q.typed()); err != nil {
		return q, nil, nil, err
	}
	at := a.Ledger.Strike
	if text != "" {
		if at, err = snapshot.When(r.Context(), a.Answer, text); err != nil {
			return q, a, nil, err
		}
	}
	return q, a, snapshot.Of(a.Answer, at), nil
}

// momentsOf are the failure and the beginnings of the phases, as this flight flew them.
func momentsOf(q *question, a *kept) (list []example) {
	to := func(says string, at book.Time) {
		list = append(list, example{says, "/snapshot?" + q.Query() + "&moment=" + url.QueryEscape(book.Moment{Offset: at}.String())})
	}
	to("when it fails", a.Ledger.Strike)
	for _, p := range a.Here.Phases() {
		if p.From > a.Ledger.Strike {
			to(q.build.Title(p.ID), p.From)
		}
	}
	return list
}

// hidden are the parts of a question for a form that asks more.
func (q *question) hidden() (list []hidden) {
	values, _ := url.ParseQuery(q.Query())
	for _, part := range parts {
		for _, v := range values[part] {
			list = append(list, hidden{part, v})
		}
	}
	return list
}
