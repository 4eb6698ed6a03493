package proof

import (
	"math"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/say"
)

// sign is something that a crew can look at: an alert, an indication, a control.
type sign struct {
	id, title string
	kind      Kind
	within    float64    // of a number
	shows     *book.Expr // of an indication
	node, lit circuit.Node
}

// Kind of a sign, in the order in which they are preferred: what comes by itself
// before what is looked for.
type Kind uint8

// Kinds.
const (
	Alert Kind = iota
	Indication
	Control
)

func (k Kind) String() string { return [...]string{"alert", "indication", "control"}[k] }

// seen is what a sign shows: whether it can be read, and the value.
type seen struct {
	lit   bool
	value float64
}

// signsOf lists the signs of a build in the order of preference.
func signsOf(b *book.Build, c *circuit.Circuit) (list []sign) {
	add := func(kind Kind, id, title string, within float64, shows *book.Expr) {
		if n, ok := c.Node(circuit.Value{Item: id}); ok {
			lit, has := c.Node(circuit.Value{Item: id, Aspect: circuit.Lit})
			if !has {
				lit = circuit.None
			}
			list = append(list, sign{id, title, kind, within, shows, n, lit})
		}
	}
	for _, a := range b.Alerts {
		add(Alert, a.ID, a.Message, 0, nil)
	}
	for _, i := range b.Indications {
		add(Indication, i.ID, i.Title, i.Within, i.Shows)
	}
	for _, k := range b.Controls {
		add(Control, k.ID, k.Title, 0, nil)
	}
	return list
}

// look reads all signs of a record at a moment.
func look(r *run.Record, signs []sign, at book.Time) []seen {
	list := make([]seen, len(signs))
	for i, s := range signs {
		if list[i].lit = s.lit == circuit.None || r.At(s.lit, at) != 0; list[i].lit {
			list[i].value = r.At(s.node, at)
		}
	}
	return list
}

// readable is the least part of a number by which two readings must differ for
// people to tell them apart, where the indication does not say (assumption).
const readable = 0.02

// differ says that people can tell two looks at a sign apart.
func (s sign) differ(number bool, a, b seen) bool {
	switch {
	case a.lit != b.lit:
		return true
	case !a.lit:
		return false
	case !number:
		return a.value != b.value
	}
	return math.Abs(a.value-b.value) > max(s.within, readable*max(math.Abs(a.value), math.Abs(b.value)))
}

// text is what a look at a sign shows, as a person reads it.
func (s sign) text(c *circuit.Circuit, v seen) string {
	kind := c.Type(s.node)
	switch {
	case !v.lit:
		return "dark"
	case kind == book.Number && s.shows != nil:
		return say.Quantity(v.value, s.shows.Unit)
	case kind == book.Word:
		return c.WordText(v.value)
	case s.kind == Alert && v.value != 0:
		return "given"
	case s.kind == Alert:
		return "not given"
	case v.value != 0:
		return "on"
	}
	return "off"
}
