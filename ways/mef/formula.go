package mef

import (
	"knockon/say"
	"knockon/ways/logic"
)

// formula builds a formula that stands in gate g.
func (b *reader) formula(e *element, g *definition) logic.Term {
	l := b.model.Logic
	switch e.name {
	case "gate", "basic-event", "house-event", "event":
		return b.reference(e, g)
	case "constant":
		return b.constant(e)
	}
	args := b.arguments(e, g)
	switch e.name {
	case "and":
		return l.And(args...)
	case "or":
		return l.Or(args...)
	case "not":
		return b.fixed(e, args, 1, func() logic.Term { return args[0].Not() })
	case "xor":
		return l.Xor(args...)
	case "iff":
		return b.iff(args)
	case "nand":
		return l.And(args...).Not()
	case "nor":
		return l.Or(args...).Not()
	case "imply":
		return b.fixed(e, args, 2, func() logic.Term { return l.Or(args[0].Not(), args[1]) })
	case "atleast":
		return l.AtLeast(b.integer(e, "min"), args...)
	case "cardinality":
		least, most := b.integer(e, "min"), b.integer(e, "max")
		return l.And(l.AtLeast(least, args...), l.AtLeast(most+1, args...).Not())
	}
	b.fail(e.err("<%s> is no formula", e.name))
	return logic.False
}

func (b *reader) arguments(e *element, g *definition) []logic.Term {
	content := e.content()
	if len(content) == 0 {
		b.fail(e.err("<%s> has no arguments", e.name))
	}
	args := make([]logic.Term, len(content))
	for i, c := range content {
		args[i] = b.formula(c, g)
	}
	return args
}

func (b *reader) fixed(e *element, args []logic.Term, want int, make func() logic.Term) logic.Term {
	if len(args) != want {
		b.fail(e.err("<%s> has %s; it must have %d", e.name, say.Counted(len(args), "argument"), want))
		return logic.False
	}
	return make()
}

// iff joins from left to right: the standard gives it for two arguments and
// says that it is associative.
func (b *reader) iff(args []logic.Term) logic.Term {
	if len(args) == 0 {
		return logic.False
	}
	t := args[0]
	for _, a := range args[1:] {
		t = b.model.Logic.Xor(t, a).Not()
	}
	return t
}

// reference builds what an event element refers to.
func (b *reader) reference(e *element, g *definition) logic.Term {
	name := b.needName(e)
	d := b.find(name, g.scope)
	kind := e.name
	if kind == "event" {
		kind = e.attr("type")
	}
	switch {
	case name == "":
		return logic.False
	case d == nil && (kind == "basic-event" || kind == ""):
		return b.model.Logic.Event(name)
	case d == nil:
		b.fail(e.err("%s %s is not defined", kind, name))
		return logic.False
	case kind != "" && kind != d.kind:
		b.fail(e.err("%s is defined as a %s, in line %d, and used as a %s", name, d.kind, d.line, kind))
		return logic.False
	}
	return b.referent(e, d)
}

func (b *reader) referent(e *element, d *definition) logic.Term {
	switch d.kind {
	case "basic-event":
		return b.basic(d)
	case "house-event":
		return b.house(d)
	case "gate":
		d.used = true
		if d.state == open {
			b.fail(e.err("gate %s is made from itself", d.name))
			return logic.False
		}
		return b.gate(d)
	}
	b.fail(e.err("%s is a %s, no event", d.name, d.kind))
	return logic.False
}
