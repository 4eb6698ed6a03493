package web

import (
	"context"
	"fmt"
	"net/url"
	"slices"
	"strings"
	"sync"

	"knockon/ask"
	"knockon/costs"
	"knockon/figure/bill"
	"knockon/region"
)

// priceQuestion is what an address asks of the costs.
type priceQuestion struct {
	ask.Price
	To, Adding string
}

func priceOf(v url.Values) priceQuestion {
	p := priceQuestion{Price: ask.Price{Turn: strings.TrimSpace(cut(v.Get("turn"))), Rule: cut(v.Get("reserve"))}, To: strings.ToUpper(cut(v.Get("to"))), Adding: v.Get("adding")}
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

// priced is a price with what has been worked out from it: a page, its files
// and the page of the next airfield ask for the same again.
type priced struct {
	*costs.Costs
	turn chan struct{} // whoever works something out or reads what was

	bounds *[2]costs.Boundary
	parts  map[string]*costs.AttributionView
	latest []costs.Latest
}

// hold waits for the turn.
func (p *priced) hold(ctx context.Context) error {
	select {
	case p.turn <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (p *priced) leave() { <-p.turn }

// boundaries are how far the failed and the healthy aircraft can go.
func (p *priced) boundaries(ctx context.Context) (failed, healthy costs.Boundary, err error) {
	if err := p.hold(ctx); err != nil {
		return failed, healthy, err
	}
	defer p.leave()
	if p.bounds == nil {
		if failed, healthy, err = p.Boundaries(ctx); err != nil {
			return failed, healthy, err
		}
		p.bounds = &[2]costs.Boundary{failed, healthy}
	}
	return p.bounds[0], p.bounds[1], nil
}

// attribute says what each loss adds on the way to an airfield; ok is false for
// one that was not looked at.
func (p *priced) attribute(ctx context.Context, ident string) (v *costs.AttributionView, ok bool, err error) {
	if err := p.hold(ctx); err != nil {
		return nil, false, err
	}
	defer p.leave()
	if v, ok = p.parts[ident]; ok {
		return v, true, nil
	}
	a, ok, err := p.Attribute(ctx, ident)
	if err != nil || !ok {
		return nil, false, err
	}
	v = a.View()
	p.parts[ident] = v
	return v, true, nil
}

// until gives the last moment at which each airfield is still good.
func (p *priced) until(ctx context.Context, a *kept, region *region.Region) (list []costs.Latest, err error) {
	if err := p.hold(ctx); err != nil {
		return nil, err
	}
	defer p.leave()
	if p.latest == nil {
		p.latest, err = a.When(ctx, region, p.Costs)
	}
	return p.latest, err
}

// priceKeeper keeps the last prices.
type priceKeeper struct {
	mu     sync.Mutex
	byKey  map[string]*priced
	order  []string // the oldest first
	places int      // of all that are kept
}

// mostPlaces is of how many airfields together the prices are kept: each holds
// its flights, of some two megabytes.
const mostPlaces = 120

func newPriceKeeper() *priceKeeper { return &priceKeeper{byKey: map[string]*priced{}} }

// price gives the price of an answer, kept or new.
func (k *priceKeeper) price(ctx context.Context, q *question, a *kept, region *region.Region, p ask.Price) (*priced, error) {
	key := fmt.Sprintf("%s %s %#v", q.shelf.id, a.key, p)
	k.mu.Lock()
	found := k.byKey[key]
	k.mu.Unlock()
	if found != nil {
		return found, nil
	}
	c, err := a.Costs(ctx, region, p)
	if err != nil {
		return nil, err
	}
	return k.keep(key, c), nil
}

func (k *priceKeeper) keep(key string, c *costs.Costs) *priced {
	k.mu.Lock()
	defer k.mu.Unlock()
	if p := k.byKey[key]; p != nil { // somebody asked the same meanwhile
		return p
	}
	p := &priced{Costs: c, turn: make(chan struct{}, 1), parts: map[string]*costs.AttributionView{}}
	k.byKey[key], k.order = p, append(k.order, key)
	for k.places += len(c.Places); k.places > mostPlaces && len(k.order) > 1; k.order = k.order[1:] {
		k.places -= len(k.byKey[k.order[0]].Places)
		delete(k.byKey, k.order[0])
	}
	return p
}
