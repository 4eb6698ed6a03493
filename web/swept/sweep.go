package swept

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"knockon/book"
	"knockon/sweep"
	"knockon/sweep/view"
	"knockon/web/frame"
)

// asked is what an address asks of a sweep.
type asked struct {
	build  *book.Build
	flight *book.Flight
	order  int
	phase  string
	layer  string
	most   int
	a, b   string // chapters or units
}

// mostRows bounds a list of findings.
const mostRows = 200

func (p *Pages) asked(v url.Values) (a asked, err error) {
	b, err := p.desk.Book.BuildNamed(cut(v.Get("build")))
	if err != nil {
		return a, unknown(err)
	}
	a.build, a.phase, a.layer, a.a, a.b = b, v.Get("phase"), v.Get("layer"), v.Get("a"), v.Get("b")
	own, _, _ := strings.Cut(cut(v.Get("flight")), ",") // all failures are flown on the book's own flight
	if a.flight, err = b.FlightNamed(own); err != nil {
		return a, unknown(err)
	}
	if a.order, err = whole(v, "order", 2, 1, 3); err != nil {
		return a, err
	}
	if a.most, err = whole(v, "most", 8, 1, mostRows); err != nil {
		return a, err
	}
	if a.layer != "" && a.layer != "whole" {
		return a, frame.Wrong("layer is “whole”, or left out.")
	}
	return a, nil
}

// values is the address that asks the same.
func (a asked) values() url.Values {
	v := url.Values{}
	set := func(part, text string) {
		if text != "" {
			v.Set(part, text)
		}
	}
	set("build", a.build.Variant)
	set("flight", a.flight.ID)
	set("order", strconv.Itoa(a.order))
	set("phase", a.phase)
	set("layer", a.layer)
	return v
}

// with changes parts of an address: part, text, part, text.
func (a asked) with(parts ...string) string { return a.on("/sweep", parts...) }

// on is with, on another page.
func (a asked) on(page string, parts ...string) string {
	v := a.values()
	for i := 0; i < len(parts); i += 2 {
		if parts[i+1] == "" {
			v.Del(parts[i])
		} else {
			v.Set(parts[i], parts[i+1])
		}
	}
	return page + "?" + v.Encode()
}

// sweepPage is the page of a sweep.
type sweepPage struct {
	common
	Builds, Flights, Orders []option
	Hidden                  []option
	Begin                   string // what is said beside the button that begins it; "": it has begun
	Instead                 bool   // beginning lets another sweep go
	Elsewhere               option // the sweep that is in the way; To: its page
	Working                 *progress
	Partial                 string
	Stopped                 bool
	Open, Summary           string // Open: of which sets not everything is known
	Lists                   []list
	Phases, Layers          []option
	Map                     *table
	Back                    string // from a part of the map to the whole of it
	More                    string // an address with longer lists
}

// progress is how far a work is.
type progress struct {
	Percent int
	Text    string
}

type list struct{ view.List }

func (a asked) key() jobKey { return jobKey{a.build.Variant, a.flight.ID, a.order} }

// sweep answers GET /sweep: what was found, or how far it is, or a button that
// begins it. It begins nothing itself, so an address can be given away.
func (p *Pages) sweep(r *http.Request) (reply, error) {
	a, err := p.asked(r.URL.Query())
	if err != nil {
		return reply{}, err
	}
	j := p.jobs.look(a.key())
	if j == nil {
		page := p.sweepPage(a, state{})
		p.offer(page, a)
		return p.frame.Page("swept-sweep", page)
	}
	j.work().Wait(r.Context(), patience)
	s := j.state()
	if errors.Is(s.Err, sweep.ErrNoPhases) {
		return reply{}, frame.Wrong("%s", "The flight "+a.flight.ID+": "+s.Err.Error()+".")
	}
	if s.Err != nil {
		return reply{}, s.Err
	}
	page := p.sweepPage(a, s)
	if !s.Done && !s.Stopped {
		page.Refresh, page.Working = 1, working(s)
		return p.frame.Page("swept-sweep", page)
	}
	if s.Found == nil {
		page.Partial = "No phase was done before it was stopped."
		return p.frame.Page("swept-sweep", page)
	}
	if s.Stopped {
		page.Partial = fmt.Sprintf("Partial: it was stopped when %d of %d phases were done.", len(s.Sheets), len(s.Phases))
	}
	if err := page.fill(a, s); err != nil {
		return reply{}, err
	}
	return p.frame.Page("swept-sweep", page)
}

func (p *Pages) sweepPage(a asked, s state) *sweepPage {
	page := &sweepPage{common: p.common("Everything that can go wrong"), Builds: p.builds(a.build.Variant), Flights: flights(a.build, a.flight.ID), Stopped: s.Stopped}
	for n, title := range []string{"one failure", "two failures together", "three failures together"} {
		page.Orders = append(page.Orders, option{ID: strconv.Itoa(n + 1), Title: title, Chosen: n+1 == a.order})
	}
	for _, part := range []string{"build", "flight", "order"} {
		page.Hidden = append(page.Hidden, option{ID: part, Title: a.values().Get(part)})
	}
	return page
}

func working(s state) *progress {
	p := &progress{Text: "It waits for another sweep."}
	if s.All == 0 {
		return p
	}
	share := float64(s.Sets) / float64(s.All)
	p.Percent = int(100 * share)
	p.Text = fmt.Sprintf("%d of %d phases; %.0f sets a second", len(s.Sheets), len(s.Phases), float64(s.Sets)/max(s.Took.Seconds(), 1e-3))
	if share > 0.02 {
		left := time.Duration(float64(s.Took) * (1 - share) / share).Round(time.Second)
		p.Text += fmt.Sprintf("; about %s left", left)
	}
	return p
}

// fill writes what was found.
func (page *sweepPage) fill(a asked, s state) error {
	page.Open, page.Summary = s.Found.Open, s.Found.Heading+". "+s.Found.Setting+"."
	for _, l := range s.Found.Lists {
		l.Rows = l.Rows[:min(len(l.Rows), a.most)]
		page.Lists = append(page.Lists, list{l})
	}
	if a.most < mostRows {
		page.More = a.with("most", strconv.Itoa(min(5*a.most, mostRows)))
	}
	phase := slices.IndexFunc(s.Phases, func(p phaseOf) bool { return p.ID == a.phase })
	if phase < 0 && a.phase != "" {
		return frame.Wrong("The flight has no phase %q.", cut(a.phase))
	}
	phase = max(phase, 0)
	if phase >= len(s.Maps) {
		return frame.Wrong("That phase was not done before the sweep was stopped.")
	}
	a.phase = s.Phases[phase].ID
	for i := range s.Maps {
		id := s.Phases[i].ID
		page.Phases = append(page.Phases, option{ID: id, Title: a.build.Title(id), Chosen: i == phase, To: a.with("phase", id) + "#map"})
	}
	return page.draw(a, s.Maps[phase])
}

// answer is the address of the answer page to a query of a view.
func (l list) Answer(r view.Row) string {
	if r.Query == "" {
		return ""
	}
	return "/?" + r.Query
}
