package web

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"sync"

	"knockon/ask"
	"knockon/book"
	"knockon/costs"
	"knockon/figure/bill"
	"knockon/figure/png"
	"knockon/flight/fuel"
)

// costsPage is what the price of an answer is made of.
type costsPage struct {
	Aircraft, Title, Caution, Address string
	Back                              string // address of the answer
	Query                             string
	Hidden                            []hidden
	Turn                              string
	Rules                             []option
	To                                []option
	Adding                            []option
	Problems                          []problem
	Priced                            *pricedView
}

// pricedView is the price itself.
type pricedView struct {
	*costs.View
	Full   string // address of the whole page
	JSON   string
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

// picture is a figure with its files.
type picture struct {
	Wide, Narrow template.HTML
	Caption      string
	SVG, PNG     string
}

// priceQuestion is what an address asks of the costs.
type priceQuestion struct {
	ask.Price
	To, Adding string
}

func priceOf(v url.Values) priceQuestion {
	p := priceQuestion{Price: ask.Price{Turn: cut(v.Get("turn")), Rule: cut(v.Get("reserve"))}, To: strings.ToUpper(cut(v.Get("to"))), Adding: v.Get("adding")}
	if !slices.Contains(bill.Measures, p.Adding) {
		p.Adding = ""
	}
	return p
}

// query writes it behind the query of the question.
func (p priceQuestion) query(question string) string {
	for _, part := range []struct{ name, value string }{{"turn", p.Turn}, {"reserve", p.Rule}, {"to", p.To}, {"adding", p.Adding}} {
		if part.value != "" {
			question += "&" + part.name + "=" + url.QueryEscape(part.value)
		}
	}
	return question
}

// priceKeeper keeps the last prices, which the pictures of a page ask for again.
type priceKeeper struct {
	mu    sync.Mutex
	byKey map[string]*costs.Costs
	order []string
}

const mostPrices = 12

func (k *priceKeeper) price(ctx context.Context, a *kept, region *costs.Region, p ask.Price) (*costs.Costs, error) {
	key := fmt.Sprintf("%s %#v", a.key, p)
	k.mu.Lock()
	c := k.byKey[key]
	k.mu.Unlock()
	if c != nil {
		return c, nil
	}
	c, err := a.Costs(ctx, region, p)
	if err != nil {
		return nil, err
	}
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.byKey[key] == nil {
		k.order = append(k.order, key)
	}
	k.byKey[key] = c
	if len(k.order) > mostPrices {
		delete(k.byKey, k.order[0])
		k.order = k.order[1:]
	}
	return c, nil
}

// costs answers GET /costs: the whole page.
func (s *Site) costs(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	want := priceOf(r.URL.Query())
	p := s.costsPage(r, q, a, want)
	c, err := s.prices.price(r.Context(), a, s.setting.Region, want.Price)
	if text, ours := theirs(err); ours {
		p.Problems = append(p.Problems, text)
	} else if err != nil {
		return reply{}, err
	} else if err := s.fillCosts(r, q, a, c, want, p); err != nil {
		return reply{}, err
	}
	rep, err := s.render("costs", p)
	if len(p.Problems) > 0 {
		rep.status = http.StatusBadRequest
	}
	return rep, err
}

func (s *Site) costsPage(r *http.Request, q *question, a *kept, want priceQuestion) *costsPage {
	p := &costsPage{
		Aircraft: q.shelf.title(), Title: "What it costs: " + a.view.Heading, Caution: book.Caution, Back: "/?" + q.Query(), Query: q.Query(), Turn: want.Turn,
		Address: strings.Replace(q.address(r), "/?"+q.Query(), "/costs?"+want.query(q.Query()), 1),
	}
	for _, rule := range fuel.Rules() {
		p.Rules = append(p.Rules, option{rule.Name, rule.Title, rule.Name == want.Rule})
	}
	values, _ := url.ParseQuery(q.Query())
	for _, name := range []string{"book", "fail", "out", "build", "flight", "at", "when", "for", "resettable", "act"} {
		for _, v := range values[name] {
			p.Hidden = append(p.Hidden, hidden{name, v})
		}
	}
	return p
}

// fillCosts puts a price into its page, with one airfield in full: that asked
// for, or the nearest.
func (s *Site) fillCosts(r *http.Request, q *question, a *kept, c *costs.Costs, want priceQuestion, p *costsPage) error {
	v := pricedOf(q, a, c, want)
	p.Priced = v
	if len(c.Places) == 0 {
		return nil
	}
	if want.To == "" {
		want.To = c.Places[0].Airfield.Ident
	}
	failed, healthy, err := c.Boundaries(r.Context())
	if err != nil {
		return err
	}
	v.Map = drawn(bill.Map(c, failed, healthy), "map", want.query(q.Query()))
	parts, ok, err := c.Attribute(r.Context(), want.To)
	if err != nil {
		return err
	}
	if !ok {
		p.Problems = append(p.Problems, problem{"to", fmt.Sprintf("%s is not among the airfields that were looked at", want.To)})
		return nil
	}
	for i := range v.Rows {
		v.Rows[i].Chosen = v.Rows[i].Ident == want.To
		p.To = append(p.To, option{v.Rows[i].Ident, v.Rows[i].Name, v.Rows[i].Chosen})
		if v.Rows[i].Chosen {
			v.Chosen = chosenOf(c, &c.Places[i], v.Rows[i].RowView, parts.View(), want, q.Query())
		}
	}
	return nil
}

func pricedOf(q *question, a *kept, c *costs.Costs, want priceQuestion) *pricedView {
	v := &pricedView{View: c.View(a.view.Heading), Full: "/costs?" + want.query(q.Query()), JSON: "/costs.json?" + want.query(q.Query())}
	for _, row := range v.View.Rows {
		to := want
		to.To = row.Ident
		v.Rows = append(v.Rows, pricedRow{RowView: row, Link: "/costs?" + to.query(q.Query()) + "#place"})
	}
	return v
}

func chosenOf(c *costs.Costs, p *costs.Place, row costs.RowView, parts *costs.AttributionView, want priceQuestion, query string) *chosenView {
	v := &chosenView{RowView: row, Parts: parts}
	if roll, ok := bill.Roll(p); ok {
		roll.ID = "roll"
		drawn := drawn(roll, "roll", want.query(query))
		v.Roll = &drawn
	}
	f := bill.Fuel(c, p)
	f.ID = "fuel"
	v.Fuel = drawn(f, "fuel", want.query(query))
	for _, measure := range bill.Measures {
		w, _ := bill.Steps(parts, measure)
		if len(w.Parts) == 0 {
			continue
		}
		w.ID = "steps-" + measure
		want.Adding = measure
		v.Steps = append(v.Steps, drawn(w, "steps", want.query(query)))
	}
	return v
}

// figured is a picture of any kind.
type figured interface {
	Wide() string
	Narrow() string
	Caption() string
}

func drawn(f figured, name, query string) picture {
	return picture{
		Wide: template.HTML(f.Wide()), Narrow: template.HTML(f.Narrow()), Caption: f.Caption(), // package figure escapes what it draws
		SVG: "/costs/" + name + ".svg?" + query, PNG: "/costs/" + name + ".png?" + query,
	}
}

// costsPart answers GET /costs/part: the table alone, for the page of the answer.
func (s *Site) costsPart(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	want := priceOf(r.URL.Query())
	c, err := s.prices.price(r.Context(), a, s.setting.Region, want.Price)
	if text, ours := theirs(err); ours {
		return s.render("costs-none", text)
	}
	if err != nil {
		return reply{}, err
	}
	return s.render("costs-part", pricedOf(q, a, c, want))
}

// costsJSON answers GET /costs.json.
func (s *Site) costsJSON(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	want := priceOf(r.URL.Query())
	c, err := s.prices.price(r.Context(), a, s.setting.Region, want.Price)
	if err != nil {
		return reply{}, err
	}
	out := struct {
		Question string                 `json:"question"`
		Costs    *costs.View            `json:"costs"`
		Parts    *costs.AttributionView `json:"attribution,omitempty"`
	}{Question: "/costs?" + want.query(q.Query()), Costs: c.View(a.view.Heading)}
	if want.To != "" {
		parts, ok, err := c.Attribute(r.Context(), want.To)
		if err != nil {
			return reply{}, err
		}
		if !ok {
			return reply{}, &fault{http.StatusNotFound, "There is no airfield " + want.To + " among those that were looked at."}
		}
		out.Parts = parts.View()
	}
	body, err := json.MarshalIndent(out, "", "  ")
	return reply{kind: kindJSON, body: append(body, '\n')}, err
}

// costsPicture answers GET /costs/NAME.svg and .png.
func (s *Site) costsPicture(r *http.Request) (reply, error) {
	name, ext, _ := strings.Cut(r.PathValue("file"), ".")
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	want := priceOf(r.URL.Query())
	c, err := s.prices.price(r.Context(), a, s.setting.Region, want.Price)
	if err != nil {
		return reply{}, err
	}
	svg, err := s.costsSVG(r, c, name, want)
	if err != nil {
		return reply{}, err
	}
	file := strings.ToLower(q.Flight+"-"+name) + "." + ext
	switch ext {
	case "svg":
		return reply{kind: kindSVG, body: []byte(svg), name: file}, nil
	case "png":
		var b bytes.Buffer
		if err := png.Write(&b, svg, pngScale); err != nil {
			return reply{}, err
		}
		return reply{kind: "image/png", body: b.Bytes(), name: file}, nil
	}
	return reply{}, errNoPicture
}

// pngScale is pixels per point: sharp in print.
const pngScale = 3

var errNoPicture = &fault{http.StatusNotFound, "There is no such picture."}

func (s *Site) costsSVG(r *http.Request, c *costs.Costs, name string, want priceQuestion) (string, error) {
	if name == "map" {
		failed, healthy, err := c.Boundaries(r.Context())
		return bill.Map(c, failed, healthy).SVG(), err
	}
	i := slices.IndexFunc(c.Places, func(p costs.Place) bool { return p.Airfield.Ident == want.To || want.To == "" })
	if i < 0 {
		return "", errNoPicture
	}
	p := &c.Places[i]
	switch name {
	case "roll":
		if roll, ok := bill.Roll(p); ok {
			return roll.SVG(), nil
		}
	case "fuel":
		return bill.Fuel(c, p).SVG(), nil
	case "steps":
		parts, ok, err := c.Attribute(r.Context(), p.Airfield.Ident)
		if err != nil || !ok {
			return "", errors.Join(err, errNoPicture)
		}
		if w, ok := bill.Steps(parts.View(), want.Adding); ok {
			return w.SVG(), nil
		}
	}
	return "", errNoPicture
}
