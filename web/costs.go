package web

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/url"
	"slices"

	"knockon/book"
	"knockon/costs"
	"knockon/figure/bill"
	"knockon/flight/fuel"
)

// price is a question about the price of an answer, with that price.
type price struct {
	q    *question
	a    *kept
	want priceQuestion
	*priced
}

// price works out the price that a request asks for. Where the question is
// understood but cannot be priced it comes back without one, with the error.
func (s *Site) price(r *http.Request) (*price, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return nil, err
	}
	p := &price{q: q, a: a, want: priceOf(r.URL.Query())}
	p.priced, err = s.prices.price(r.Context(), q, a, s.setting.Region, p.want.Price)
	return p, err
}

// query is that of the price, for an address.
func (p *price) query() string { return p.want.query(p.q.Query()) }

// address is the whole address of the price.
func (p *price) address(r *http.Request) string { return site(r) + "/costs?" + p.query() }

// chosen is the place of the airfield that is shown in full: the one that was
// asked for, or the nearest; -1 where there is none such.
func (p *price) chosen() int {
	return slices.IndexFunc(p.Places, func(place costs.Place) bool {
		return p.want.To == "" || place.Airfield.Ident == p.want.To
	})
}

// costsPage is what the page of a price is made of.
type costsPage struct {
	Aircraft, Title, Caution, Address string

	Back     string // address of the answer
	Hidden   []hidden
	Turn     string
	Rules    []option
	To       []option
	Problems []problem
	Priced   *pricedView
}

// pricedView is the price itself.
type pricedView struct {
	*costs.View
	Full   string // address of the whole page
	JSON   string
	Until  string // address of until when each airfield is good; "" where there is nothing to put off
	Rows   []pricedRow
	Map    picture
	Chosen *chosenView
}

// pricedRow is an airfield with the address that shows it in full.
type pricedRow struct {
	costs.RowView
	Link   string
	Chosen bool
}

// chosenView is one airfield in full.
type chosenView struct {
	costs.RowView
	Parts *costs.AttributionView
	Roll  *picture
	Fuel  picture
	Steps []picture
}

// costs answers GET /costs: the whole page.
func (s *Site) costs(r *http.Request) (reply, error) {
	p, err := s.price(r)
	if p == nil {
		return reply{}, err
	}
	page := p.page(r)
	if text, ours := theirs(err); ours {
		page.Problems = append(page.Problems, text)
	} else if err != nil {
		return reply{}, err
	} else if err := p.fill(r, page); err != nil {
		return reply{}, err
	}
	rep, err := s.frame.Page("costs", page)
	if len(page.Problems) > 0 {
		rep.Status = http.StatusBadRequest
	}
	return rep, err
}

// page is the page without the price.
func (p *price) page(r *http.Request) *costsPage {
	page := &costsPage{
		Aircraft: p.q.shelf.title(), Title: "What it costs: " + p.a.view.Asked, Caution: book.Caution,
		Address: p.address(r), Back: "/?" + p.q.Query(), Turn: p.want.Turn,
	}
	for _, rule := range fuel.Rules() {
		page.Rules = append(page.Rules, option{rule.Name, rule.Title, rule.Name == p.want.Rule})
	}
	values, _ := url.ParseQuery(p.q.Query())
	for _, name := range []string{"book", "fail", "out", "build", "flight", "at", "when", "for", "resettable", "set", "act", "crew", "plan"} {
		for _, v := range values[name] {
			page.Hidden = append(page.Hidden, hidden{name, v})
		}
	}
	return page
}

// fill puts the price into its page, with one airfield in full.
func (p *price) fill(r *http.Request, page *costsPage) error {
	v := p.view()
	page.Priced = v
	if len(p.Places) == 0 {
		return nil
	}
	failed, healthy, err := p.boundaries(r.Context())
	if err != nil {
		return err
	}
	m := bill.Map(p.Costs, failed, healthy)
	m.ID = "map"
	v.Map = drawn(m, "map", p.query())
	chosen := p.chosen()
	for i, row := range v.Rows {
		v.Rows[i].Chosen = i == chosen
		page.To = append(page.To, option{row.Ident, row.Name, i == chosen})
	}
	if chosen < 0 {
		page.Problems = append(page.Problems, problem{"to", fmt.Sprintf("%q is not among the airfields that were looked at", p.want.To)})
		return nil
	}
	v.Chosen, err = p.inFull(r, chosen, v.Rows[chosen].RowView)
	return err
}

// view is the price in words, without pictures.
func (p *price) view() *pricedView {
	v := &pricedView{View: p.View(p.a.view.Asked), Full: "/costs?" + p.query(), JSON: "/costs.json?" + p.query()}
	if !p.Landing {
		v.Until = "/costs/until?" + p.query()
	}
	to := *p
	for _, row := range v.View.Rows {
		to.want.To = row.Ident
		v.Rows = append(v.Rows, pricedRow{RowView: row, Link: "/costs?" + to.query() + "#place"})
	}
	return v
}

// inFull is one airfield with its pictures.
func (p *price) inFull(r *http.Request, i int, row costs.RowView) (*chosenView, error) {
	parts, _, err := p.attribute(r.Context(), row.Ident)
	if err != nil {
		return nil, err
	}
	v := &chosenView{RowView: row, Parts: parts}
	to := *p
	to.want.To = row.Ident
	if roll, ok := bill.Roll(&p.Places[i]); ok {
		roll.ID = "roll"
		drawn := drawn(roll, "roll", to.query())
		v.Roll = &drawn
	}
	f := bill.Fuel(p.Costs, &p.Places[i])
	f.ID = "fuel"
	v.Fuel = drawn(f, "fuel", to.query())
	for _, measure := range bill.Measures {
		w, _ := bill.Steps(parts, measure)
		if len(w.Parts) == 0 {
			continue
		}
		w.ID, to.want.Adding = "steps-"+measure, measure
		v.Steps = append(v.Steps, drawn(w, "steps", to.query()))
	}
	return v, nil
}

// costsPart answers GET /costs/part: the table alone, for the page of the answer.
func (s *Site) costsPart(r *http.Request) (reply, error) {
	p, err := s.price(r)
	if text, ours := theirs(err); ours {
		return s.frame.Page("costs-none", text)
	}
	if err != nil {
		return reply{}, err
	}
	return s.frame.Page("costs-part", p.view())
}

// costsJSON answers GET /costs.json.
func (s *Site) costsJSON(r *http.Request) (reply, error) {
	p, err := s.price(r)
	if err != nil {
		return reply{}, err
	}
	out := struct {
		Question string                 `json:"question"`
		Costs    *costs.View            `json:"costs"`
		Parts    *costs.AttributionView `json:"attribution,omitempty"`
	}{Question: "/costs?" + p.query(), Costs: p.View(p.a.view.Asked)}
	if p.want.To != "" {
		var ok bool
		if out.Parts, ok, err = p.attribute(r.Context(), p.want.To); err != nil {
			return reply{}, err
		}
		if !ok {
			return reply{}, &fault{Status: http.StatusNotFound, Text: "There is no airfield " + p.want.To + " among those that were looked at."}
		}
	}
	return asJSON(out)
}

func asJSON(v any) (reply, error) {
	body, err := json.MarshalIndent(v, "", "  ")
	return reply{Kind: kindJSON, Body: append(body, '\n')}, err
}
