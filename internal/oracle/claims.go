package oracle

import "knockon/book"

// claim is what an alert says of an item or a way of failing: that it is so, or not so.
type claim struct {
	Aspect
	yes bool
}

// claims are all that an alert claims while it is right, each once.
func claims(b *book.Build, a *book.Alert) []claim {
	c := &claimer{build: b, seen: map[claim]bool{}}
	e := a.TrueWhen
	if e == nil {
		e = a.When
	}
	c.expr(e, true)
	for _, ref := range a.ClaimsDown {
		if ref.Fault != "" {
			c.claim(claim{Aspect{ref.Unit, Fault(ref.Fault)}, true})
		} else {
			c.item(ref.Unit, false)
		}
	}
	return c.list
}

type claimer struct {
	build *book.Build
	seen  map[claim]bool
	list  []claim
}

func (c *claimer) claim(x claim) (first bool) {
	first = !c.seen[x]
	if c.seen[x] = true; first {
		c.list = append(c.list, x)
	}
	return first
}

// expr claims what it forces that e is yes, or no.
func (c *claimer) expr(e *book.Expr, yes bool) {
	switch e.Op {
	case book.OpRef:
		c.item(e.ID, yes)
	case book.OpNot:
		c.expr(e.Args[0], !yes)
	case book.OpFailed:
		c.way(Aspect{e.ID, Failed}, yes)
	case book.OpFault:
		c.way(Aspect{e.ID, Fault(e.Word)}, yes)
	case book.OpAnd, book.OpAll:
		c.all(e, yes, yes || len(e.Args) == 1)
	case book.OpOr, book.OpAny:
		c.all(e, yes, !yes || len(e.Args) == 1)
	case book.OpAtLeast:
		c.all(e, yes, yes && int(e.Num) == len(e.Args) || !yes && e.Num == 1)
	case book.OpHeld, book.OpPulse:
		c.all(e, yes, yes)
	}
}

// all claims each operand, where all are forced.
func (c *claimer) all(e *book.Expr, yes, forced bool) {
	for _, a := range e.Args {
		if forced {
			c.expr(a, yes)
		}
	}
}

func (c *claimer) way(a Aspect, yes bool) {
	if yes {
		c.claim(claim{a, true})
	}
}

// item claims an item, and what its own expression then forces.
func (c *claimer) item(id string, yes bool) {
	switch x, _ := c.build.Item(id); x := x.(type) {
	case *book.Unit:
		if c.claim(claim{Aspect{id, Works}, yes}) && yes && x.Needs != nil {
			c.expr(x.Needs, true)
		}
	case *book.Function:
		if c.claim(claim{Aspect{id, Works}, yes}) {
			c.expr(x.Works, yes)
		}
	case *book.Signal:
		if x.Value != nil && x.Value.Type != book.YesNo {
			return
		}
		if c.claim(claim{Aspect{id, Value}, yes}) && x.Value != nil {
			c.expr(x.Value, yes)
		}
	}
}
