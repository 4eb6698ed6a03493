package swept

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"knockon/book"
	"knockon/sweep/view"
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
	id := v.Get("build")
	b, ok := p.desk.Book.Build(id)
	if !ok {
		return a, known("build", id, p.builds(""))
	}
	a.build, a.phase, a.layer, a.a, a.b = b, v.Get("phase"), v.Get("layer"), v.Get("a"), v.Get("b")
	if a.flight, err = flightOf(b, v.Get("flight")); err != nil {
		return a, err
	}
	if a.order, err = whole(v, "order", 2, 1, 3); err != nil {
		return a, err
	}
	if a.most, err = whole(v, "most", 8, 1, mostRows); err != nil {
		return a, err
	}
	if a.layer != "" && a.layer != "whole" {
		return a, &fault{"layer is “whole”, or left out."}
	}
	return a, nil
}

func flightOf(b *book.Build, id string) (*book.Flight, error) {
	for _, f := range b.Flights {
		if f.ID == id || id == "" {
			return f, nil
		}
	}
	return nil, known("flight", id, flights(b, ""))
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
func (a asked) with(parts ...string) string {
	v := a.values()
	for i := 0; i < len(parts); i += 2 {
		if parts[i+1] == "" {
			v.Del(parts[i])
		} else {
			v.Set(parts[i], parts[i+1])
		}
	}
	return "/sweep?" + v.Encode()
}

// sweepPage is the page of a sweep.
type sweepPage struct {
	frame
	Builds, Flights, Orders []option
	Hidden                  []option
	Working                 *progress
	Partial                 string
	Stopped                 bool
	Summary                 string
	Lists                   []list
	Phases, Layers          []option
	Map                     *table
	Back                    string // from a part of the map to the whole of it
	More                    string // an address with longer lists
}

// progress is how far a sweep is.
type progress struct {
	Percent int
	Text    string
}

type list struct{ view.List }

func (p *Pages) job(a asked) *job {
	return p.jobs.find(jobKey{a.build.Variant, a.flight.ID, a.order}, a.build, a.flight)
}

func (p *Pages) sweep(r *http.Request) (reply, error) {
	a, err := p.asked(r.URL.Query())
	if err != nil {
		return reply{}, err
	}
	j := p.job(a)
	j.wait(r.Context(), patience)
	s := j.state()
	if s.Err != nil {
		return reply{}, s.Err
	}
	page := p.sweepPage(a, s)
	if !s.Done && !s.Stopped {
		page.Refresh, page.Working = 1, working(s)
		return reply{name: "swept-sweep", data: page}, nil
	}
	if len(s.Sheets) == 0 {
		page.Partial = "No phase was done before it was stopped."
		return reply{name: "swept-sweep", data: page}, nil
	}
	if s.Stopped {
		page.Partial = fmt.Sprintf("Partial: it was stopped when %d of %d phases were done.", len(s.Sheets), len(s.Phases))
	}
	if err := page.fill(a, s); err != nil {
		return reply{}, err
	}
	return reply{name: "swept-sweep", data: page}, nil
}

func (p *Pages) sweepPage(a asked, s state) *sweepPage {
	page := &sweepPage{frame: p.frame("Everything that can go wrong"), Builds: p.builds(a.build.Variant), Flights: flights(a.build, a.flight.ID), Stopped: s.Stopped}
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
	found := view.Of(&s.Swept, a.flight, a.most)
	page.Summary = found.Heading + ". " + found.Setting + "."
	for _, l := range found.Lists {
		page.Lists = append(page.Lists, list{l})
	}
	if a.most < mostRows {
		page.More = a.with("most", strconv.Itoa(min(5*a.most, mostRows)))
	}
	phase := slices.IndexFunc(s.Phases, func(p phaseOf) bool { return p.ID == a.phase })
	if phase < 0 && a.phase != "" {
		return &fault{fmt.Sprintf("The flight has no phase %q.", cut(a.phase))}
	}
	phase = max(phase, 0)
	if phase >= len(s.Sheets) {
		return &fault{"That phase was not done before the sweep was stopped."}
	}
	a.phase = s.Phases[phase].ID
	for i := range s.Sheets {
		id := s.Phases[i].ID
		page.Phases = append(page.Phases, option{ID: id, Title: title(a.build, id), Chosen: i == phase, To: a.with("phase", id) + "#map"})
	}
	return page.draw(a, view.MapOf(&s.Swept, phase))
}

func title(b *book.Build, id string) string {
	if item, ok := b.Item(id); ok {
		return item.Named().Title
	}
	return id
}

// answer is the address of the answer page to a query of a view.
func (l list) Answer(r view.Row) string {
	if r.Query == "" {
		return ""
	}
	return "/?" + r.Query
}

// Some joins what else a row names, if that is not too much.
func (l list) Some(also []string) string {
	if len(also) > 4 {
		return fmt.Sprintf("%s and %d more", strings.Join(also[:4], "; "), len(also)-4)
	}
	return strings.Join(also, "; ")
}

// What says what the further names of a row are.
func (l list) What() string {
	switch l.ID {
	case view.ListGuardians:
		return "Taken away by"
	case view.ListFaces:
		return "Causes"
	}
	return "The same of"
}

func (p *Pages) stop(r *http.Request) (reply, error) {
	a, err := p.asked(form(r))
	if err != nil {
		return reply{}, err
	}
	j := p.job(a)
	j.stop()
	j.wait(r.Context(), 5*time.Second)
	return reply{to: a.with()}, nil
}

func (p *Pages) goOn(r *http.Request) (reply, error) {
	a, err := p.asked(form(r))
	if err != nil {
		return reply{}, err
	}
	p.jobs.goOn(p.job(a), a.order)
	return reply{to: a.with()}, nil
}

// form reads the parts of a posted form; what cannot be read is not there.
func form(r *http.Request) url.Values {
	r.Body = http.MaxBytesReader(nil, r.Body, 1<<16)
	_ = r.ParseForm()
	return r.PostForm
}
