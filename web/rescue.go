package web

import (
	"cmp"
	"context"
	"fmt"
	"html/template"
	"net/http"
	"runtime"
	"strings"
	"time"

	"knockon/book"
	"knockon/figure/deadline"
	"knockon/rescue"
	"knockon/scenario"
)

// rescuePage is what can be done about one loss of an answer: up to two moves, or
// one where two take longer than a page may.
type rescuePage struct {
	Aircraft, Title, Heading string
	Caution, Address, Back   string
	View                     *rescue.View
	Wide, Narrow             template.HTML // the ways as bars; "" where there are none
	LineSVG                  string
	Looked                   string // how many moves were looked for, and why no more
	Short                    bool   // fewer than two
	Command                  string // that looks for sets of more
}

// rescueWithin is how long a page looks for sets of two before it is content with
// single moves.
const rescueWithin = 6 * time.Second

// rescue answers GET /rescue: the loss of a row.
func (s *Site) rescue(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	key := r.URL.Query().Get("row")
	if key == flightRow {
		return s.rescued(r, q, a, key, "", "The flight")
	}
	if !strings.HasPrefix(key, "loss-") {
		return reply{}, &fault{Status: http.StatusNotFound, Text: fmt.Sprintf("Which loss is to be saved? row=%s names none. Open one in the answer, and go on from there.", cut(key))}
	}
	f, err := rowOf(a, key)
	if err != nil {
		return reply{}, err
	}
	return s.rescued(r, q, a, key, f.row.ID, f.row.Title)
}

// flightRow stands in an address for the row of a loss: it is the flight, which
// breaks off, that is to arrive.
const flightRow = "flight"

// rescued is the page of a function; "" is the flight.
func (s *Site) rescued(r *http.Request, q *question, a *kept, key, function, title string) (reply, error) {
	p := &rescuePage{Aircraft: a.Course.Build.Aircraft.Title, Title: "What saves it: " + title, Heading: title, Caution: book.Caution,
		Back: "/?" + q.Query() + "#row-" + key, Command: strings.Join(strings.Fields("knockon rescue "+function), " ") + typed(q.typed()) + " --order "}
	if function == "" {
		p.Back = "/?" + q.Query() + "#lead"
	}
	p.Address = site(r) + "/rescue?" + q.Query() + "&row=" + key
	found, err := p.look(r.Context(), a, function, s.rescueWithin)
	if err != nil {
		return reply{}, err
	}
	p.Command += p.larger()
	if err := found.WithCrew(r.Context(), a.Desk.TeamOf(a.Course, a.Question), a.Scenario, runtime.GOMAXPROCS(0)); err != nil {
		return reply{}, err
	}
	p.View = found.View()
	line, drawn := barsOf(p.View)
	if line.Foot = []string{"This page: " + p.Address}; r.URL.Path == pictureOfRescue {
		return svgFile(line.SVG(), cmp.Or(function, flightRow)+"-saved.svg"), nil
	}
	if drawn {
		p.Wide, p.Narrow = template.HTML(line.Wide()), template.HTML(line.Narrow()) // package figure escapes what it draws
		p.LineSVG = pictureOfRescue + "?" + r.URL.RawQuery
	}
	return s.frame.Page("rescue", p)
}

// pictureOfRescue is the path of the picture that stands alone.
const pictureOfRescue = "/rescue.svg"

// barsOf is the picture of the ways that count.
func barsOf(v *rescue.View) (l deadline.Line, drawn bool) {
	l = deadline.Line{ID: "deadline", Title: v.Title + ": " + v.Verdict}
	if v.Stage == nil || len(v.Rescues) == 0 {
		return l, false
	}
	l.From, l.To, l.LostText = v.Stage.From.S, v.Stage.To.S, v.Stage.Why
	for _, p := range v.Stage.Phases {
		l.Phases = append(l.Phases, deadline.Phase{Title: p.Title, From: p.From.S, To: p.To.S})
	}
	for _, h := range v.Stage.Heights {
		l.Heights = append(l.Heights, deadline.Height(h))
	}
	l.Lost = stretches(v.Stage.Lost)
	for _, w := range v.Rescues {
		l.Bars = append(l.Bars, deadline.Bar{Moves: w.Short, In: stretches(w.Windows), Until: w.Until, Open: w.Windows[len(w.Windows)-1].Open, Cost: w.Price, Cheap: len(w.Costs) == 0})
	}
	return l, true
}

func stretches(list []rescue.Stay) (all []deadline.Stretch) {
	for _, s := range list {
		all = append(all, deadline.Stretch{From: s.From.S, To: s.To.S})
	}
	return all
}

// look looks for sets of two, and for single moves if those take too long.
func (p *rescuePage) look(ctx context.Context, a *kept, function string, within time.Duration) (*rescue.Answer, error) {
	ask := rescue.Question{Scenario: a.Scenario, Function: function, Order: 2, Workers: runtime.GOMAXPROCS(0)}
	p.Looked = "Up to two moves are looked for here."
	short, stop := context.WithTimeout(ctx, within)
	defer stop()
	found, err := rescue.Of(short, a.Course, ask, nil)
	if err == nil || short.Err() == nil || ctx.Err() != nil {
		return found, err
	}
	ask.Order = 1
	p.Looked, p.Short = "Single moves only are looked for here: sets of two take longer than a page may.", true
	return rescue.Of(ctx, a.Course, ask, nil)
}

// typed is a question as the options of a command, hands off.
func typed(q scenario.Typed) string {
	q.Crew = ""
	text := ""
	for _, f := range q.Fail[0].What {
		text += " --fail " + scenario.Quoted(f)
	}
	return text + q.Options()
}

// larger is up to how many moves a command looks for, beyond this page.
func (p *rescuePage) larger() string {
	if p.Short {
		return "2"
	}
	return "3"
}
