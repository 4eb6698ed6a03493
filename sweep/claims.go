package sweep

import (
	"context"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
	"knockon/span"
)

// claimed is something that alerts claim, and the nodes that decide when it is held
// (docs/meaning.md, section 5a).
type claimed struct {
	by   []telling
	is   circuit.Node
	yes  bool
	item int32 // in the web
	way  int   // in which the told run holds it
	put  book.FailureRef
}

// bundleClaims lists what alerts claim, each once.
func (p *program) bundleClaims() {
	p.web = known.WebOf(p.course)
	voices, at := known.VoicesOf(p.course), map[known.Claim]*claimed{}
	for _, a := range p.course.Build.Alerts {
		for _, c := range voices.Of(a) {
			if at[c] == nil {
				v, yes := c.Value()
				item, _ := p.web.Number(c.Item())
				at[c] = &claimed{is: p.named(v.Item, v.Aspect), yes: yes, item: item, put: c.Put()}
				p.claims = append(p.claims, at[c])
			}
			at[c].by = append(at[c].by, telling{p.named(a.ID, circuit.Main), p.named(a.ID, circuit.False)})
		}
	}
	for _, f := range p.course.Build.Functions {
		n, _ := p.web.Number(f.ID)
		p.itemOf = append(p.itemOf, n)
	}
	p.claims = slices.DeleteFunc(p.claims, func(c *claimed) bool { return c.is == circuit.None })
	for i, c := range p.claims {
		nodes := []circuit.Node{c.is}
		for _, t := range c.by {
			nodes = append(nodes, t.given, t.falsely)
		}
		p.add(bundle{what: aClaim, index: i, claim: c}, nodes)
	}
}

// listen lays out the circuit of the told runs.
func (p *program) listen(quiet run.Scenario) error {
	if len(p.claims) == 0 {
		return nil
	}
	k, err := p.course.Holding(known.VoicesOf(p.course).Items)
	if err != nil {
		return err
	}
	there, err := k.Healthy(context.Background(), quiet)
	if err != nil {
		return err
	}
	if p.told, err = layOut(k, there); err != nil {
		return err
	}
	p.told.web = p.web
	for _, id := range p.web.Items() {
		n := circuit.None
		if item, _ := k.Build.Item(id); !isControl(item) {
			n = p.told.named(id, circuit.Main)
			p.told.watch(n)
		}
		p.told.items = append(p.told.items, n)
	}
	p.told.finish()
	ways := k.Circuit().Ways()
	for _, c := range p.claims {
		c.way = slices.Index(ways, c.put)
	}
	return nil
}

// isControl: nobody's hands move one in a sweep, so none passes anything on.
func isControl(item book.Item) bool {
	_, is := item.(*book.Control)
	return is
}

// function is the number of a function that has a number in the web; -1 for others.
func (p *program) function(item int32) int32 {
	return int32(slices.Index(p.itemOf, item))
}

// watch has what a node is noted.
func (p *program) watch(n circuit.Node) {
	if p.place[n] < 0 {
		p.place[n] = int32(len(p.watched))
		p.watched = append(p.watched, n)
	}
}

// held gives when what alerts claim is held in a lane.
func (v view) held(c *claimed) span.Set {
	var right span.Set
	for _, t := range c.by {
		right = right.Or(ledger.LongEnough(v.right(t)))
	}
	if len(right) == 0 {
		return nil
	}
	so := func(lane int) span.Set {
		is := span.Lasting(v.spansOf(c.is, lane))
		if c.yes {
			return is
		}
		return span.Set{{From: v.o.begin.at - 1, To: v.o.e.p.end}}.Minus(is)
	}
	return known.Held(right, so(v.lane), so(0))
}
