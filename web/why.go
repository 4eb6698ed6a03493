package web

import (
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/figure"
	"knockon/figure/layout"
	"knockon/ledger"
	"knockon/say"
	"knockon/why"
)

// whyView is why one row is so.
type whyView struct {
	Title   string // of the row
	Asks    string // "Why is … lost?"
	When    string
	Root    *stepView
	Picture template.HTML
	SVG     string // address of the picture
	Silent  []silentView
	NoAlert bool // no alert of the book tells of this loss
}

// stepView is a step in words, with the steps that cause it.
type stepView struct {
	Label, Says, Note, Source string
	Kind                      string
	Again                     bool // its causes stand above
	Because                   []*stepView
}

// silentView is an alert that would tell of a loss, and why it does not.
type silentView struct {
	Message, Level string
	When           string
	Root           *stepView
}

// rowKey names a row in an address: its kind and its item.
func rowKey(group, item string) string {
	return strings.TrimPrefix(figure.RowID(group, ""), "row-") + item
}

func (s *Site) rowView(r *http.Request, q *question, a *kept, group string, row ledger.Row) (rowView, error) {
	key := rowKey(group, row.ID)
	v := rowView{Row: row, Anchor: figure.RowID(group, row.ID), Key: key, Shown: row.Spans}
	if len(row.Spans) > mostSpans+1 {
		v.Shown, v.Hidden = row.Spans[:mostSpans], len(row.Spans)-mostSpans
	}
	if slices.Contains(q.Open, key) || slices.Contains(q.Open, openAll) {
		chain, err := s.whyView(r, q, a, key)
		if err != nil {
			return v, err
		}
		v.Chain = chain
	}
	return v, nil
}

// why answers GET /why: the chain of one row.
func (s *Site) why(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	view, err := s.whyView(r, q, a, r.URL.Query().Get("row"))
	if err != nil {
		return reply{}, err
	}
	return s.frame.Page("why", view)
}

// asked parses and answers a request that needs a whole question.
func (s *Site) asked(r *http.Request) (*question, *kept, error) {
	values := r.URL.Query()
	if len(values) == 0 {
		values = s.opening
	}
	q := s.parse(values)
	if len(q.Problems) > 0 {
		return nil, nil, &fault{Status: http.StatusBadRequest, Text: q.Problems[0].Part + ": " + q.Problems[0].Text}
	}
	if len(q.What) == 0 {
		return nil, nil, &fault{Status: http.StatusBadRequest, Text: "Nothing fails in this question: add fail= and what fails."}
	}
	a, err := q.shelf.kept.answer(r.Context(), q.typed())
	return q, a, err
}

// finding is a row, and the value and moment that explain it.
type finding struct {
	group ledger.Group
	row   ledger.Row
	value circuit.Value
	at    book.Time
	asks  string
}

var questions = map[string]struct {
	aspect circuit.Aspect
	asks   string
}{
	"loss":  {circuit.Main, "Why is it lost?"},
	"wrong": {circuit.Wrong, "Why does it show wrong?"},
	"dark":  {circuit.Lit, "Why is it dark?"},
	"false": {circuit.False, "Why is it false?"},
	"held":  {circuit.HeldBack, "Why is it held back?"},
	"alert": {circuit.Main, "Why is it given?"},
	"kept":  {circuit.Main, "Why does it still work?"},
}

// rowOf looks a row up by its key.
func rowOf(a *kept, key string) (finding, error) {
	for _, g := range a.view.Groups {
		for _, row := range g.Rows {
			if rowKey(g.ID, row.ID) != key {
				continue
			}
			kind, _, _ := strings.Cut(key, "-")
			f := finding{group: g, row: row, value: circuit.Value{Item: row.ID, Aspect: questions[kind].aspect}, asks: questions[kind].asks}
			f.at = momentOf(a, g.ID, row)
			return f, nil
		}
	}
	return finding{}, &fault{Status: http.StatusNotFound, Text: fmt.Sprintf("This answer has no row %q.", cut(key))}
}

// momentOf is when a row begins to be so: a loss that has several stretches is
// explained at the first of the class that it is sorted under.
func momentOf(a *kept, group string, row ledger.Row) book.Time {
	for _, sp := range row.Spans {
		if sp.Class == row.Class && sp.Mattered == row.Mattered {
			return sp.From.Time
		}
	}
	if len(row.Spans) > 0 {
		return row.Spans[0].From.Time
	}
	if group == ledger.GroupKept {
		for _, k := range a.Ledger.Kept {
			if k.Function.ID == row.ID {
				return k.At
			}
		}
	}
	return a.Ledger.Strike
}

// explain finds a row of an answer and why it is so.
func explain(a *kept, key string) (finding, *why.Step, error) {
	f, err := rowOf(a, key)
	if err != nil {
		return f, nil, err
	}
	root, ok := a.Explain(f.value, f.at)
	if !ok {
		return f, nil, &fault{Status: http.StatusNotFound, Text: fmt.Sprintf("The row %q has no value to explain.", cut(key))}
	}
	return f, root, nil
}

func (s *Site) whyView(r *http.Request, q *question, a *kept, key string) (*whyView, error) {
	f, root, err := explain(a, key)
	if err != nil {
		return nil, err
	}
	when := moments(a)
	v := &whyView{Title: f.row.Title, Asks: f.asks, When: when(root.At), Root: stepViewOf(root, root, when, map[*why.Step]bool{})}
	v.SVG = "/why.svg?" + q.Query() + "&row=" + url.QueryEscape(key)
	chain := chainOf(f, root, when)
	v.Picture = template.HTML(chain.Part(s.place(r, chain)))
	v.silence(a, f, when)
	return v, nil
}

// place lays a chain out; where the graph library does not, the plain way does.
func (s *Site) place(r *http.Request, c figure.Chain) layout.Plan {
	plan, err := s.setting.Layout.Place(r.Context(), c.Graph())
	if err != nil {
		s.setting.Log.Warn("a chain is placed in the plain way", "error", err)
	}
	return plan
}

func chainOf(f finding, root *why.Step, when func(book.Time) string) figure.Chain {
	chain := figure.ChainOf(root, when)
	chain.ID, chain.Title = "chain-"+rowKey(f.group.ID, f.row.ID), f.row.Title+": "+say.Lower(f.asks)
	chain.Foot = []string{book.Caution}
	return chain
}

// moments says moments of an answer in words: from the failure on, and the phase.
func moments(a *kept) func(book.Time) string {
	return func(t book.Time) string {
		d := t - a.Ledger.Strike
		if d < 0 {
			return say.Clock(t) + " into the flight"
		}
		return say.After(d) + " (" + a.Course.Build.Title(a.Here.PhaseAt(t)) + ")"
	}
}

func stepViewOf(s, root *why.Step, when func(book.Time) string, seen map[*why.Step]bool) *stepView {
	v := &stepView{Label: s.Label, Says: s.Says, Kind: string(s.Kind), Note: s.Note(root, when)}
	if s.Where.Line > 0 {
		v.Source = fmt.Sprintf("%s:%d", s.Where.File, s.Where.Line)
	}
	if v.Again = seen[s] && len(s.Because) > 0; v.Again {
		return v
	}
	seen[s] = true
	for _, b := range slices.Concat(s.Because, s.While) {
		v.Because = append(v.Because, stepViewOf(b, root, when, seen))
	}
	return v
}

// silence adds, for a loss that no alert tells of in time, why the alerts that
// could tell of it do not.
func (v *whyView) silence(a *kept, f finding, when func(book.Time) string) {
	if f.row.Kind != "function" || f.row.Class == "" || f.row.Class == ledger.Told.String() {
		return
	}
	at := min(f.at+ledger.ToldWithin(a.Course.Build.Aircraft), a.Here.End)
	v.NoAlert = true
	for _, alert := range a.Course.Build.Alerts {
		if !slices.Contains(alert.Tells, f.row.ID) {
			continue
		}
		v.NoAlert = false
		value := circuit.Value{Item: alert.ID}
		n, _ := a.Here.Circuit().Node(value)
		if a.Here.At(n, at) != 0 {
			continue
		}
		root, ok := a.Explain(value, at)
		if ok {
			v.Silent = append(v.Silent, silentView{alert.Message, alert.Level, when(root.At), stepViewOf(root, root, when, map[*why.Step]bool{})})
		}
	}
}

// whyPicture answers GET /why.svg.
func (s *Site) whyPicture(r *http.Request) (reply, error) {
	_, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	f, root, err := explain(a, r.URL.Query().Get("row"))
	if err != nil {
		return reply{}, err
	}
	chain := chainOf(f, root, moments(a))
	return svgFile(chain.SVG(s.place(r, chain)), "why-"+f.row.ID+".svg"), nil
}

// linePicture answers GET /line.svg.
func (s *Site) linePicture(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	return svgFile(lineOf(q.address(r), q, a).SVG(), "line.svg"), nil
}
