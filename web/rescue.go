package web

import (
	"fmt"
	"net/http"
	"strings"

	"knockon/book"
	"knockon/crew"
	"knockon/rescue"
)

// rescuePage is what can be done about one loss of an answer, one move at a
// time: sets of more take longer than a page may.
type rescuePage struct {
	Aircraft, Title, Heading string
	Caution, Address, Back   string
	View                     *rescue.View
	Command                  string // that looks for sets of more
}

// rescue answers GET /rescue: the loss of a row.
func (s *Site) rescue(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	key := r.URL.Query().Get("row")
	if !strings.HasPrefix(key, "loss-") {
		return reply{}, &fault{Status: http.StatusNotFound, Text: fmt.Sprintf("Only a loss can be rescued, and %q is none.", cut(key))}
	}
	f, err := find(a, key)
	if err != nil {
		return reply{}, err
	}
	found, err := rescue.Of(r.Context(), a.Course, rescue.Question{Scenario: a.Scenario, Function: f.row.ID, Order: 1}, nil)
	if err != nil {
		return reply{}, err
	}
	team, err := crew.NewTeam(a.Course.Build, a.Course.Flight, crew.Setting{})
	if err != nil {
		return reply{}, err
	}
	if err := found.WithCrew(r.Context(), team, a.Scenario, 1); err != nil {
		return reply{}, err
	}
	p := &rescuePage{Aircraft: a.Course.Build.Aircraft.Title, Title: "What saves it: " + f.row.Title, Heading: f.row.Title, Caution: book.Caution,
		Back: "/?" + q.Query() + "#" + "row-" + key, View: found.View(), Command: "knockon rescue " + f.row.ID + " --order 3"}
	p.Address = site(r) + "/rescue?" + q.Query() + "&row=" + key
	return s.frame.Page("rescue", p)
}
