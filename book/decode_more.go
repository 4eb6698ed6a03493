package book

import (
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

func (n node) procedure(d *declaration) *Procedure {
	p := &Procedure{Head: n.head(d.id), Steps: n.steps()}
	if len(p.Steps) == 0 {
		n.l.add(noSteps(n.at, "procedure"))
	}
	return p
}

func (n node) steps() []*Step {
	var steps []*Step
	for _, block := range n.body.Blocks {
		if block.Type != "variant" && slices.Contains(n.kind.blocks, block.Type) {
			steps = append(steps, n.sub(block).step())
		}
	}
	return steps
}

func (n node) step() *Step {
	s := &Step{
		Kind: n.kind.word, Says: n.text("says"), By: n.oneOf("by", []string{"PF", "PM", "both"}),
		FromMemory: n.truth("from_memory"), Sensed: n.truth("sensed"), Because: n.text("because"), Range: n.at,
	}
	switch s.Kind {
	case "do":
		s.Set, s.To = n.setting()
		if (n.attr("set") == nil) != (n.attr("to") == nil) {
			n.l.add(halfSetting(n.at))
		}
		n.saysSomething("set", "says")
	case "check":
		s.That = n.yesNo("that")
		n.saysSomething("that", "says")
	case "decide":
		s.That = n.yesNo("that")
		n.saysSomething("that", "says")
		s.Then, s.Else = n.branch("then"), n.branch("else")
		if len(s.Then)+len(s.Else) == 0 {
			n.l.add(noSteps(n.at, "decide"))
		}
	case "later":
		s.In = n.id("in", "phase")
		s.Then = n.steps()
		if len(s.Then) == 0 {
			n.saysSomething("says", "says")
		}
	}
	return s
}

func (n node) saysSomething(one, other string) {
	if n.attr(one) == nil && n.attr(other) == nil {
		n.l.add(emptyStep(n.at, n.kind.word, one, other))
	}
}

// branch reads the steps of a then or an else.
func (n node) branch(word string) []*Step {
	var steps []*Step
	var first *hclsyntax.Block
	for _, block := range n.body.Blocks {
		if block.Type != word {
			continue
		}
		if first != nil {
			n.l.add(secondBranch(rangeOf(block.TypeRange), word, rangeOf(first.TypeRange)))
			continue
		}
		first = block
		steps = n.sub(block).steps()
	}
	return steps
}

func (n node) flight(d *declaration) *Flight {
	f := &Flight{Head: n.head(d.id), From: n.text("from"), To: n.text("to")}
	for _, known := range FlightNumbers {
		a := n.attr(known.Name)
		if a == nil {
			continue
		}
		value := 0.0
		if known.Name == "runway_wet" {
			value = n.zeroOrOne(known.Name)
		} else {
			value = n.number(known.Name, flightLeast(known.Name), mostNumber)
		}
		f.Numbers = append(f.Numbers, Named{known.Name, value, rangeOf(a.SrcRange)})
	}
	f.Acts = n.acts()
	return f
}

// zeroOrOne reads a yes/no that a flight gives as a number; true and false will do.
func (n node) zeroOrOne(name string) float64 {
	if l, ok := bare(n.attr(name).Expr).(*hclsyntax.LiteralValueExpr); ok && !l.Val.IsNull() && l.Val.Type().FriendlyName() == "bool" {
		if n.truth(name) {
			return 1
		}
		return 0
	}
	return n.whole(name, 0, 1)
}

// flightLeast is the least value of a flight's number: elevations, winds and
// temperatures may be negative.
func flightLeast(name string) float64 {
	switch name {
	case "from_elevation_ft", "to_elevation_ft", "headwind_kt", "isa_deviation_c", "icing_from_ft", "icing_to_ft":
		return -mostNumber
	}
	return 0
}

func (n node) acts() []*Act {
	var acts []*Act
	for _, block := range n.body.Blocks {
		if block.Type != "act" || len(block.Labels) == 0 || block.Labels[0] == "" {
			continue
		}
		sub := n.sub(block)
		a := &Act{Title: block.Labels[0], When: sub.yesNo("when"), Range: sub.at}
		a.Set, a.To = sub.setting()
		acts = append(acts, a)
	}
	return acts
}

// claims decodes the claims. Every claim is the same on all builds, since each
// of its givens says on which build it runs.
func (l *loader) claims(book *Book) {
	for _, d := range l.decls {
		if d.kind.word != "claim" {
			continue
		}
		home := slices.Index(d.on, true)
		if home < 0 {
			continue
		}
		c := l.builders[home].node(d).claim(d, home)
		smooth := &continuity{signals: book.builds[home].Signals}
		expressions(c, func(_ string, e *Expr) { smooth.checkBounds(e, l.add) })
		for i, build := range book.builds {
			if d.on[i] {
				build.Claims = append(build.Claims, c)
				build.items[d.id] = c
			}
		}
	}
}

func (n node) claim(d *declaration, home int) *Claim {
	n.mustHave("")
	c := &Claim{Head: n.head(d.id), Says: n.text("says"), Source: n.text("source")}
	for _, block := range d.block.Body.Blocks {
		if block.Type == "given" {
			c.Given = append(c.Given, n.given(d, block, home))
		}
	}
	if len(c.Given) == 0 {
		g := &Given{Strikes: []*Strike{{Range: n.at}}, Variant: n.away(home), Expect: n.expect(), Range: n.at}
		c.Given = []*Given{g}
		if n.attr("expect") == nil {
			n.l.add(expectsNothing(n.at))
		}
	}
	return c
}

// away names a build unless it is the first.
func (n node) away(home int) string {
	if home == 0 {
		return ""
	}
	return n.b.book.Variants[home].ID
}

func (n node) given(d *declaration, block *hclsyntax.Block, home int) *Given {
	sub := n.sub(block)
	sub.b, home = sub.runsOn(d, home)
	n.b = sub.b
	g := &Given{
		Inoperative: sub.failures("inoperative", "unit"), Variant: n.away(home),
		Flight: sub.id("flight", "flight"), Acts: sub.acts(), Expect: sub.expect(), Range: sub.at,
	}
	if len(block.Labels) > 0 {
		g.Title = block.Labels[0]
	}
	if sub.attr("expect") == nil {
		g.Expect = n.expect()
	}
	g.Strikes = append(g.Strikes, sub.strike())
	for _, also := range block.Body.Blocks {
		if also.Type == "also" {
			g.Strikes = append(g.Strikes, sub.sub(also).strike())
		}
	}
	if sub.attr("expect") == nil && n.attr("expect") == nil {
		n.l.add(expectsNothing(sub.at))
	}
	return g
}

// runsOn finds the build on which a given runs.
func (n node) runsOn(d *declaration, home int) (*builder, int) {
	a := n.attr("variant")
	if a == nil {
		return n.l.builders[home], home
	}
	id, ok := n.bareID(a.Expr, "variant")
	at := rangeOf(a.Expr.Range())
	if !ok || !n.l.isVariant(at, id, n.b.book) {
		return n.l.builders[home], home
	}
	i := n.b.variantIndex(id)
	if !d.on[i] {
		n.l.add(claimNotThere(at, d.id, id))
		return n.l.builders[home], home
	}
	return n.l.builders[i], i
}

func (n node) strike() *Strike {
	s := &Strike{
		Fail: n.failures("fail", "unit", "event"), At: n.moment("at"), When: n.yesNo("when"),
		ForS: n.seconds("for_s"), Resettable: n.truth("resettable"), Range: n.at,
	}
	if when := n.attr("when"); when != nil && n.attr("at") != nil {
		n.l.add(atAndWhen(rangeOf(when.NameRange)))
	}
	return s
}

func (n node) moment(name string) string {
	text := n.text(name)
	if text == "" {
		return ""
	}
	if _, problem := parseMoment(text, n.b.phases()); problem != "" {
		n.l.add(badMoment(rangeOf(n.attr(name).Expr.Range()), text, problem))
	}
	return text
}

func (n node) expect() []*Expr {
	a := n.attr("expect")
	if a == nil {
		return nil
	}
	var expect []*Expr
	for _, e := range elements(a.Expr) {
		expect = append(expect, n.b.expectation(e))
	}
	if len(expect) == 0 {
		n.l.add(emptyList(rangeOf(a.Expr.Range()), "expect"))
	}
	return expect
}

// expectation checks one element of expect.
func (b *builder) expectation(n hclsyntax.Expression) *Expr {
	c := checker{scope: b, report: b.add, claims: true}
	e := c.check(n)
	c.want(e, YesNo, "expect")
	if bad := needsMoment(e); bad != nil {
		b.add(noMoment(bad.Range))
	}
	return e
}
