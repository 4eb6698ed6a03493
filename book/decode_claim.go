package book

import (
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

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
	c := &Claim{Head: n.head(d.id), Says: n.text("says")}
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
		Flight: sub.id("flight", "flight"), SetUps: sub.acts("set_up"), Acts: sub.acts("act"), Expect: sub.expect(), Range: sub.at,
		Crew: sub.oneOf("crew", Conducts), Plan: sub.plan(), Turn: sub.moment("turn"),
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
	n.oneMoment("A failure")
	return s
}

// oneMoment complains of something that comes at a moment and on a condition.
func (n node) oneMoment(what string) {
	if when := n.attr("when"); when != nil && n.attr("at") != nil {
		n.l.add(atAndWhen(rangeOf(when.NameRange), what))
	}
}

func (n node) moment(name string) string {
	text := n.text(name)
	if text == "" {
		return ""
	}
	if _, problem := parseMoment(text, n.b.build.Phases); problem != "" {
		n.l.add(badMoment(rangeOf(n.attr(name).Expr.Range()), text, problem))
	}
	return text
}

// plan reads where the flight goes, each leg as it is typed.
func (n node) plan() (legs []PlanLeg) {
	a := n.attr("plan")
	if a == nil {
		return nil
	}
	for _, e := range elements(a.Expr) {
		text, ok := n.wordOf(e, "plan")
		if !ok {
			continue
		}
		l, err := ParseLeg(text, n.b.build)
		if err != nil {
			n.l.add(badLeg(rangeOf(e.Range()), text, err))
			continue
		}
		l.Range = rangeOf(e.Range())
		legs = append(legs, l)
	}
	if len(elements(a.Expr)) == 0 {
		n.l.add(emptyList(rangeOf(a.Expr.Range()), "plan"))
	}
	return legs
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
	b.findLines(e)
	return e
}
