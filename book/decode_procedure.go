package book

import (
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

func (n node) procedure(d *declaration) *Procedure {
	p := &Procedure{Head: n.head(d.id), Steps: n.steps(), Priority: DefaultPriority, Last: n.truth("last")}
	if n.attr("priority") != nil {
		p.Priority = int(n.whole("priority", 1, 99))
	}
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
		FromMemory: n.truth("from_memory"), Sensed: n.truth("sensed"), Compares: n.truth("compares"), WaitS: n.seconds("wait_s"), Because: n.text("because"), Range: n.at,
		Leg: n.oneOf("leg", crewLegs), LegFt: n.number("leg_ft", 0, mostFt), If: n.look("if"), WaitFor: n.look("wait_for"),
		GoTo: n.id("go_to", "procedure"), Leave: n.truth("leave"), Whom: n.oneOf("whom", Told),
	}
	if s.Leave && n.attr("go_to") == nil {
		n.l.add(leavesForNothing(rangeOf(n.attr("leave").SrcRange)))
	}
	if (s.Leg == "descend") != (n.attr("leg_ft") != nil) {
		n.l.add(halfLeg(n.at))
	}
	switch s.Kind {
	case "do":
		s.Set, s.To = n.setting()
		if (n.attr("set") == nil) != (n.attr("to") == nil) {
			n.l.add(halfSetting(n.at))
		}
		n.saysSomething("set", "says")
	case "check":
		s.That = n.look("that")
		n.saysSomething("that", "says")
	case "decide":
		s.That = n.look("that")
		n.saysSomething("that", "says")
		s.Then, s.Else, s.Unknown = n.branch("then"), n.branch("else"), n.branch("unknown")
		if len(s.Then)+len(s.Else)+len(s.Unknown) == 0 {
			n.l.add(noSteps(n.at, "decide"))
		}
	case "tell":
		s.Else = n.branch("else")
	case "later":
		s.In, s.When = n.id("in", "phase"), n.look("when")
		n.waitsForOne()
		s.Then = n.steps()
		if len(s.Then) == 0 {
			n.saysSomething("says", "says")
		}
	}
	return s
}

// crewLegs are what a line of a procedure can have flown.
var crewLegs = []string{"land", "return", "go_around", "reject", "descend", "long_enough"}

// mostFt bounds a level that is descended to.
const mostFt = 60000

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
