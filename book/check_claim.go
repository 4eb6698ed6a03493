package book

import (
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// ledger checks a function of a claim. Inside it the ordinary language holds:
// what is observed cannot itself be a finding.
func (c *checker) ledger(n *hclsyntax.FunctionCallExpr) *Expr {
	f, _ := ClaimFunctionNamed(n.Name)
	e := &Expr{Op: OpLedger, Word: n.Name, Type: f.Type, Unit: f.Unit, Range: rangeOf(n.Range())}
	if least, most := f.count(); !c.args(n, least, most) {
		return e
	}
	for i, form := range f.Forms(len(n.Args)) {
		e.Args = append(e.Args, c.ledgerArgument(n.Args[i], form, n.Name))
	}
	return e
}

func (c *checker) ledgerArgument(n hclsyntax.Expression, form, by string) *Expr {
	at := rangeOf(n.Range())
	if kinds := argumentForms[form].kinds; kinds != nil {
		id, kind := c.named(n, kinds...)
		a := &Expr{Op: OpRef, ID: id, Range: at}
		if kind != "" && kind != "indication" && kind != "procedure" {
			a.Type = YesNo
		}
		return a
	}
	switch form {
	case "x":
		return c.event(n, by)
	case "e":
		return c.observed(n, by)
	case "n", "t":
		s, ok := c.constant(n, by)
		if ok && form == "n" && !isDuration(s) {
			c.report(badDuration(at, by))
		}
		return &Expr{Op: OpNumber, Type: Number, Num: s, Range: at}
	case "o":
		k, ok := c.constant(n, by)
		if ok && k != 1 && k != 2 && k != 3 {
			c.report(badOrder(at))
		}
		return &Expr{Op: OpNumber, Type: Number, Num: k, Range: at}
	case "v":
		a := c.check(n)
		c.want(a, Number, by)
		return a
	}
	return c.claimWord(n, form, by)
}

// observed checks what a claim looks at on the flight.
func (c *checker) observed(n hclsyntax.Expression, by string) *Expr {
	c.claims = false
	a := c.check(n)
	c.claims = true
	c.want(a, YesNo, by)
	return a
}

// event checks what comes at a moment: a call of an event, or what is observed.
func (c *checker) event(n hclsyntax.Expression, by string) *Expr {
	if call, ok := n.(*hclsyntax.FunctionCallExpr); ok {
		if f, ok := ClaimFunctionNamed(call.Name); ok && f.Asks == AsksEvent {
			return c.ledger(call)
		}
	}
	return c.observed(n, by)
}

// claimWord checks a text: the number of a line may be written without quotes.
func (c *checker) claimWord(n hclsyntax.Expression, form, by string) *Expr {
	at := rangeOf(n.Range())
	text, ok := textOf(bare(n))
	if form == "s" && !ok {
		var k float64
		if k, ok = c.constant(n, by); ok {
			text = formatNumber(k)
		}
	}
	words := map[string][]string{"g": Legs, "h": Endings, "k": Reasons}[form]
	switch {
	case form == "s" && !ok:
	case !ok && !isBroken(n):
		c.report(wantsQuoted(at, by))
	case ok && text == "":
		c.report(emptyText(at, by))
	case ok && words != nil && !slices.Contains(words, text):
		c.report(notOneOf(at, by, text, words))
	case ok && form == "m":
		text = c.move(at, text)
	}
	return &Expr{Op: OpWord, Type: Word, Word: text, Range: at}
}

// move checks a control and one of its positions, and gives them without spaces.
func (c *checker) move(at Range, text string) string {
	id, position, ok := strings.Cut(text, "=")
	id, position = strings.TrimSpace(id), strings.TrimSpace(position)
	if !ok {
		c.report(noMove(at, text))
		return text
	}
	s, ok := c.find(at, id, "control")
	switch {
	case !ok:
	case s.kind != "control":
		c.report(wrongKind(at, id, s.kind, "control"))
	case !slices.Contains(s.words, position):
		c.report(unknownPosition(at, id, position, s.words))
	}
	return id + "=" + position
}

// findLines finds the lines of procedures that an expectation names, and puts
// what a line that goes out by itself looks at behind its number.
func (b *builder) findLines(e *Expr) {
	e.Walk(func(x *Expr) {
		if f, _ := ClaimFunctionNamed(x.Word); x.Op != OpLedger || len(x.Args) != 2 || f.Args != "l,s" {
			return
		}
		p, ok := b.build.items[x.Args[0].ID].(*Procedure)
		if !ok || x.Args[1].Word == "" {
			return
		}
		line, ok := p.Line(x.Args[1].Word)
		switch {
		case !ok:
			b.add(noLine(x.Args[1].Range, p, x.Args[1].Word))
		case x.Word != "ticks":
		case line.senses() == nil:
			b.add(notSensed(x.Args[1].Range, p, x.Args[1].Word, line))
		default:
			x.Args = append(x.Args, line.senses())
		}
	})
}

// senses is what a line looks at that goes out by itself; nil: it does not.
func (s *Step) senses() *Expr {
	switch {
	case !s.Sensed:
		return nil
	case s.Set != "":
		return &Expr{Op: OpEq, Type: YesNo, Args: []*Expr{{Op: OpRef, ID: s.Set, Type: Word}, {Op: OpWord, Type: Word, Word: s.To}}, Range: s.Range}
	}
	return s.That
}

// needsMoment finds the first value in a claim that is read without saying at
// which moment, nil if there is none.
func needsMoment(e *Expr) *Expr {
	switch e.Op {
	case OpLedger:
		if e.Word == "about" && len(e.Args) > 0 {
			return needsMoment(e.Args[0])
		}
		return nil
	case OpInvalid, OpFact:
		return nil
	case OpRef, OpReal, OpFault, OpFailed, OpHeld, OpPulse, OpBefore, OpFrozen, OpTotal, OpCount:
		return e
	}
	for _, a := range e.Args {
		if found := needsMoment(a); found != nil {
			return found
		}
	}
	return nil
}
