package web

import (
	"fmt"
	"net/url"
	"strings"

	"knockon/figure"
	"knockon/ledger"
	"knockon/say"
)

// onlyView is what rows can be chosen by, and what was chosen.
type onlyView struct {
	Facets []facetView
	Carry  []hidden // parts of the address that the search takes along
	Words  string
	Some   bool   // not all rows are shown
	Says   string // which rows are shown, of how many
	None   bool   // no row fits
	Loose  []example
	Whole  string // address with all rows
}

// facetView is one part with its choices.
type facetView struct {
	Title  string
	Values []choiceView
}

// choiceView is one choice: its address takes it in, or leaves it out where it is chosen.
type choiceView struct {
	Title, Address string
	Rows           int
	Chosen         bool
}

// mostWishes bounds how many choices an address may have: more than there are.
const mostWishes = 120

// only reads which rows are wanted. What means nothing is said and left out.
func (q *question) only(v url.Values) (only ledger.Only) {
	for _, part := range ledger.OnlyParts {
		for _, value := range v[part] {
			w := ledger.Wish{Part: part, Value: cut(strings.TrimSpace(value))}
			switch err := (ledger.Only{w}).Check(q.build); {
			case w.Value == "":
			case err != nil:
				q.problem(part, err.Error())
			case len(only) == mostWishes:
				q.problem(part, fmt.Sprintf("at most %d choices of rows; the others were left out", mostWishes))
				return only
			default:
				only = only.With(w)
			}
		}
	}
	return only
}

// onlyQuery writes which rows are shown, to stand behind a question.
func onlyQuery(only ledger.Only) string {
	text := ""
	for _, w := range only {
		text += "&" + w.Part + "=" + url.QueryEscape(w.Value)
	}
	return text
}

// shows writes what of the answer is shown, and how, to stand behind the question.
func (q *question) shows() string {
	text := onlyQuery(q.Only)
	if q.Unfolded {
		text += "&figure=" + unfolded
	}
	return text
}

// withFigure is the question as its address has it, with the figure as it stands.
func (q *question) withFigure() string {
	all := *q
	all.Only = nil
	return q.Query() + all.shows()
}

// rowsOf is the address of a question with some rows, where those begin.
func rowsOf(query string, only ledger.Only) string {
	return "/?" + query + onlyQuery(only) + "#rows"
}

// onlyOf is what the rows of an answer can be chosen by.
func onlyOf(q *question, whole, view *ledger.View) *onlyView {
	query := q.withFigure()
	v := &onlyView{Words: strings.Join(q.Only.Of(ledger.ByWords), " "), Whole: rowsOf(query, nil), Carry: carried(query + onlyQuery(q.Only.Beside(ledger.ByWords)))}
	for _, f := range whole.Facets(q.Only) {
		fv := facetView{Title: f.Title}
		for _, x := range f.Values {
			fv.Values = append(fv.Values, choiceView{x.Title, rowsOf(query, q.Only.Other(x.Wish)), x.Rows, x.Chosen})
		}
		v.Facets = append(v.Facets, fv)
	}
	v.Says = "All " + say.Counted(whole.Rows(), "row") + " are shown."
	if s := view.Shown; s != nil {
		v.Some, v.Says, v.None = true, s.Text()+" What stands above is of the whole answer.", s.Rows == 0
		for _, l := range s.Loose {
			v.Loose = append(v.Loose, example{l.Says + ": " + say.Counted(l.Rows, "row"), rowsOf(query, q.Only.Beside(l.Part))})
		}
	}
	return v
}

// carried are the parts of an address, in their order.
func carried(query string) (list []hidden) {
	for _, part := range strings.Split(query, "&") {
		name, value, ok := strings.Cut(part, "=")
		if text, err := url.QueryUnescape(value); ok && err == nil {
			list = append(list, hidden{name, text})
		}
	}
	return list
}

// shownRows finds the addresses of rows: those of rows that are not shown are on the
// page of the whole answer.
type shownRows struct {
	whole string // "" where all rows are shown
	has   map[string]bool
}

func shownOf(query string, view *ledger.View) shownRows {
	s := shownRows{has: map[string]bool{}}
	if view.Shown == nil {
		return s
	}
	s.whole = "/?" + query
	for _, g := range view.Groups {
		for _, r := range g.Rows {
			s.has["#"+figure.RowID(g.ID, r.ID)] = true
		}
		if len(g.Rows) > 0 {
			s.has["#group-"+g.ID] = true
		}
	}
	return s
}

// at is where a row or a group stands.
func (s shownRows) at(anchor string) string {
	ofRows := strings.HasPrefix(anchor, "#row-") || strings.HasPrefix(anchor, "#group-")
	if s.whole == "" || s.has[anchor] || !ofRows {
		return anchor
	}
	return s.whole + anchor
}

// lead makes the links of a drawing go where its rows are.
func (s shownRows) lead(groups []figure.Group) {
	for _, g := range groups {
		for i := range g.Rows {
			g.Rows[i].Link = s.at(g.Rows[i].Link)
		}
	}
}
