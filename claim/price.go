package claim

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/airfield"
	"knockon/ask"
	"knockon/book"
	"knockon/costs"
	"knockon/region"
	"knockon/say"
)

// bill is what the airfields that a given asks about cost.
type bill struct {
	costs *costs.Costs
	err   error
}

// price answers what a claim asks about an airfield: what costs says of it.
func (f *finder) price(e *book.Expr) (float64, error) {
	p, err := f.place(e.Args[0].Word)
	if err != nil {
		return 0, err
	}
	s := &p.Failed
	switch e.Word {
	case "open":
		return f.note(yes(s.Good()), stands(p)), nil
	case "closed":
		bound := !s.Good() && !s.Unjudged()
		return f.note(yes(bound && (len(e.Args) == 1 || s.Reasons[0].Kind == e.Args[1].Word)), stands(p)), nil
	case "lands_on":
		if len(s.Landings) == 0 {
			return f.note(0, stands(p)), nil
		}
		return f.note(yes(s.Landings[0].End == e.Args[1].Word), p.Airfield.Ident+": runway "+s.Landings[0].End), nil
	case "short_of":
		v := 0.0
		if !s.Arrives {
			v = math.Abs(s.ShortNM)
		}
		return f.note(v, fmt.Sprintf("%s: %.1f NM", p.Airfield.Ident, v)), nil
	}
	return f.amount(e.Word, p)
}

// amount is a number of the way to an airfield; of an extra one what the failed
// aircraft takes beyond the healthy.
func (f *finder) amount(word string, p *costs.Place) (float64, error) {
	unit, of := amountOf(word)
	v, ok := of(&p.Failed)
	if !ok {
		return 0, fmt.Errorf("%s: there is no such number", stands(p))
	}
	if strings.HasPrefix(word, "extra_") {
		h, ok := of(&p.Healthy)
		if !ok {
			return 0, fmt.Errorf("%s: with nothing failed there is no such number", p.Airfield.Ident)
		}
		v -= h
	}
	return f.note(v, fmt.Sprintf("%s: %.1f %s", p.Airfield.Ident, v, unit)), nil
}

// amountOf is the unit of a number, and where it stands.
func amountOf(word string) (unit string, of func(*costs.Side) (float64, bool)) {
	switch {
	case strings.HasSuffix(word, "fuel"), word == "fuel_to":
		return "kg", func(s *costs.Side) (float64, bool) { return s.FuelKg, s.Arrives }
	case strings.Contains(word, "minutes"):
		return "min", func(s *costs.Side) (float64, bool) { return s.Minutes, s.Arrives }
	case word == "manual_landing_at":
		return "m", func(s *costs.Side) (float64, bool) {
			return landing(s, func(l *costs.Landing) (float64, bool) { return l.ManualM, l.ManualM > 0 })
		}
	}
	return "m", func(s *costs.Side) (float64, bool) {
		return landing(s, func(l *costs.Landing) (float64, bool) { return l.RequiredM, l.Stops })
	}
}

// landing is a number of the landing on the runway end that is flown to.
func landing(s *costs.Side, of func(*costs.Landing) (float64, bool)) (float64, bool) {
	if len(s.Landings) == 0 {
		return 0, false
	}
	return of(&s.Landings[0])
}

// stands says whether an airfield is good, and why not.
func stands(p *costs.Place) string {
	s := &p.Failed
	switch {
	case s.Good():
		return p.Airfield.Ident + " is open"
	case s.Unjudged():
		return p.Airfield.Ident + " is not worked out: " + s.Reasons[0].Text
	}
	var texts []string
	for _, r := range s.Reasons {
		texts = append(texts, r.Kind+", "+r.Text)
	}
	return p.Airfield.Ident + " is closed: " + strings.Join(texts, "; ")
}

// place finds an airfield in the bill of the given.
func (f *finder) place(named string) (*costs.Place, error) {
	if f.bill == nil {
		f.bill = &bill{}
		f.bill.costs, f.bill.err = f.priced()
	}
	if f.bill.err != nil {
		return nil, f.bill.err
	}
	a, ok := f.ground.Find(named)
	if !ok {
		return nil, errors.New(say.No("airfield", named, f.idents()))
	}
	list := f.bill.costs.Places
	i := slices.IndexFunc(list, func(p costs.Place) bool { return p.Airfield.Ident == a.Ident })
	if i < 0 {
		return nil, fmt.Errorf("%s was not looked at: the approach has begun, or it has no runway", a.Ident)
	}
	return &list[i], nil
}

func (f *finder) idents() (list []string) {
	for a := range f.ground.Airfields.All() {
		list = append(list, a.Ident)
	}
	return list
}

// priced works out what the airfields cost that the given names, and those that the
// flight goes between, and no others.
func (f *finder) priced() (*costs.Costs, error) {
	if f.ground == nil {
		return nil, errors.New("the airfields are not known: put a folder called airfields into the book's, or name one with --airfields")
	}
	asked := map[string]bool{}
	for _, e := range f.given.Expect {
		e.Walk(func(x *book.Expr) {
			if fn, ok := book.ClaimFunctionNamed(x.Word); ok && x.Op == book.OpLedger && fn.Asks == book.AsksPrice {
				if a, ok := f.ground.Find(x.Args[0].Word); ok {
					asked[a.Ident] = true
				}
			}
		})
	}
	if from, to, err := f.ground.Ends(f.a.Course.Flight); err == nil {
		asked[from.Ident], asked[to.Ident] = true, true
	}
	bound, _ := f.bound()
	asked[bound] = true
	g := &region.Region{Reports: f.ground.Reports, Conditions: f.ground.Conditions, Aloft: f.ground.Aloft}
	g.Airfields = f.ground.Airfields.Where(func(a airfield.Airfield) bool { return asked[a.Ident] })
	return f.a.Costs(f.ctx, g, ask.Price{Turn: f.given.Turn, Most: max(1, len(asked))})
}
