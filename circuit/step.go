package circuit

import (
	"strings"

	"knockon/book"
)

// step describes a point.
func (x *explainer) step(p point, v Value, k Kind) *Step {
	o := &x.c.ops[p.n]
	value := x.value(p)
	s := &Step{
		Value: v, Kind: k, At: x.here.instants[p.i], Yes: o.kind == book.YesNo && value != 0,
		Where: o.where, Label: x.c.label(p.n, v), Says: x.c.says(p.n, v, value),
	}
	if item, ok := x.c.Build.Item(v.Item); ok {
		s.Where = item.Named().Range
	}
	if !x.c.smooth[p.n] {
		if i := x.here.lastChange(p.n, p.i); i >= 0 {
			s.Since = x.here.changes[i].At
		}
	}
	return s
}

// label is what a person calls a node.
func (c *Circuit) label(n Node, v Value) string {
	item, ok := c.Build.Item(v.Item)
	if !ok {
		return c.bareLabel(n)
	}
	title := item.Named().Title
	if u, ok := item.(*book.Unit); ok && v.Aspect != Main && v.Aspect != Failed {
		for _, f := range u.Faults {
			if Aspect(f.ID) == v.Aspect {
				return title + ": " + f.Title
			}
		}
	}
	if a, ok := item.(*book.Alert); ok {
		return "alert “" + a.Message + "”"
	}
	return title
}

// bareLabel names a node that has no item: by the text it was written as.
func (c *Circuit) bareLabel(n Node) string {
	o := &c.ops[n]
	switch {
	case o.code == cReal:
		return book.Quantities[int(o.num)].Title
	case o.code == cPhase:
		return "phase of flight"
	case o.expr != nil:
		return o.expr.String()
	}
	return strings.ReplaceAll(o.item, "_", " ")
}

// says puts a value into words that fit the kind of thing it is.
func (c *Circuit) says(n Node, v Value, value float64) string {
	if c.ops[n].kind != book.YesNo {
		return c.Text(n, value)
	}
	item, ok := c.Build.Item(v.Item)
	if !ok {
		return c.Text(n, value)
	}
	words := [2]string{"no", "yes"}
	switch item.(type) {
	case *book.Unit:
		words = [2]string{"does not work", "works"}
		if v.Aspect == Failed {
			words = [2]string{"has not failed", "has failed"}
		}
	case *book.Function:
		words = [2]string{"is lost", "works"}
	case *book.Alert:
		words = [2]string{"is not given", "is given"}
	case *book.Phase:
		words = [2]string{"is not the phase", "is the phase"}
	}
	if said, ok := aspectWords[v.Aspect]; ok {
		words = said
	} else if v.Aspect != Main && v.Aspect != Failed {
		words = [2]string{"no", "yes"}
	}
	return words[int(value)]
}

// aspectWords say the values of an item beside its main one.
var aspectWords = map[Aspect][2]string{
	Wanted:   {"is not called for", "is called for"},
	Believed: {"is not due", "is due"},
	Possible: {"cannot be given", "can be given"},
	HeldBack: {"is not held back", "is held back"},
	False:    {"is not false", "is false"},
	Lit:      {"is dark", "is lit"},
	Wrong:    {"shows right", "shows wrong"},
}
