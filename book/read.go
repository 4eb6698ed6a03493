package book

import (
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// yesNo reads an expression that must be a yes/no; nil if it is not there.
func (n node) yesNo(name string) *Expr { return n.typed(name, YesNo) }

// quantity reads an expression that must be a number; nil if it is not there.
func (n node) quantity(name string) *Expr { return n.typed(name, Number) }

func (n node) typed(name string, t Type) *Expr {
	e := n.value(name)
	if e != nil && e.Type != Unknown && e.Type != t {
		n.l.add(wrongType(e, t, name))
	}
	return e
}

// value reads an expression of any type; nil if it is not there.
func (n node) value(name string) *Expr {
	a := n.attr(name)
	if a == nil {
		return nil
	}
	return n.b.expr(a.Expr, n.l.add)
}

// bareID reads an id; what is said of a kind is used in messages only.
func (n node) bareID(e hclsyntax.Expression, kinds string) (id string, ok bool) {
	names, ok := namesOf(bare(e))
	if ok && len(names) == 1 {
		return names[0], true
	}
	if text, isText := textOf(bare(e)); isText {
		n.l.add(quotedID(rangeOf(e.Range()), text))
	} else if !isBroken(e) {
		n.l.add(wantsID(rangeOf(e.Range()), kinds))
	}
	return "", false
}

// item reads the id of an item of one of some kinds.
func (n node) item(e hclsyntax.Expression, kinds ...string) (id string, ok bool) {
	id, ok = n.bareID(e, strings.Join(kinds, " or "))
	if !ok {
		return "", false
	}
	return id, n.isKind(rangeOf(e.Range()), id, kinds...)
}

// isKind reports an id that is not there or is of the wrong kind.
func (n node) isKind(at Range, id string, kinds ...string) bool {
	c := checker{scope: n.b, report: n.l.add}
	s, ok := c.find(at, id, kinds...)
	if ok && !slices.Contains(kinds, s.kind) {
		n.l.add(wrongKind(at, id, s.kind, strings.Join(kinds, " or ")))
		return false
	}
	return ok
}

func (n node) id(name, kind string) string {
	a := n.attr(name)
	if a == nil {
		return ""
	}
	id, _ := n.item(a.Expr, kind)
	return id
}

func (n node) ids(name, kind string) []string {
	a := n.attr(name)
	if a == nil {
		return nil
	}
	var ids []string
	for _, e := range elements(a.Expr) {
		id, ok := n.item(e, kind)
		switch {
		case !ok:
		case slices.Contains(ids, id):
			n.l.add(listedTwice(rangeOf(e.Range()), id))
		default:
			ids = append(ids, id)
		}
	}
	return ids
}

// failures reads a list of units and faults; of events too if kinds has them.
func (n node) failures(name string, kinds ...string) []FailureRef {
	a := n.attr(name)
	if a == nil {
		return nil
	}
	if len(elements(a.Expr)) == 0 {
		n.l.add(emptyList(rangeOf(a.Expr.Range()), name))
	}
	var refs []FailureRef
	for _, e := range elements(a.Expr) {
		f, ok := n.failure(e, kinds)
		switch {
		case !ok:
		case slices.ContainsFunc(refs, func(g FailureRef) bool { return f.String() == g.String() }):
			n.l.add(listedTwice(f.Range, f.String()))
		default:
			refs = append(refs, f)
		}
	}
	return refs
}

func (n node) failure(e hclsyntax.Expression, kinds []string) (f FailureRef, ok bool) {
	at := rangeOf(e.Range())
	names, ok := namesOf(bare(e))
	if !ok || len(names) != 2 {
		id, ok := n.item(e, kinds...)
		return FailureRef{Unit: id, Range: at}, ok
	}
	c := checker{scope: n.b, report: n.l.add}
	found := c.fault(at, names[0], names[1])
	return FailureRef{Unit: names[0], Fault: names[1], Range: at}, found.Op == OpFault
}

// setting reads set and to: a control and one of its positions.
func (n node) setting() (control, position string) {
	set, to := n.attr("set"), n.attr("to")
	if set == nil || to == nil {
		return "", ""
	}
	control, ok := n.item(set.Expr, "control")
	position, fine := n.wordOf(to.Expr, "to")
	if !ok || !fine {
		return control, position
	}
	if s := n.b.symbol(control); !slices.Contains(s.words, position) {
		n.l.add(unknownPosition(rangeOf(to.Expr.Range()), control, position, s.words))
	}
	return control, position
}
