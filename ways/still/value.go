package still

import (
	"maps"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ways/logic"
)

// value is what a node is, by which failures there are.
type value struct {
	yes logic.Term // of a yes/no
	// choices of a number or a word, by rising number; exactly one of their
	// conditions holds.
	choices []choice
	lost    string // the item whose number could not be followed, "" if it was
}

// is says that a value is the other, in the same terms.
func (v value) is(w value) bool {
	return v.yes == w.yes && v.lost == w.lost && slices.Equal(v.choices, w.choices)
}

type choice struct {
	number float64
	when   logic.Term
}

// The most choices that a number may have, and the most combinations of its
// operands' choices that are worked out for it.
const (
	mostChoices      = 64
	mostCombinations = 2048
)

func (p *picture) constant(n circuit.Node, v float64) value {
	if p.c.Type(n) != book.YesNo {
		return value{choices: []choice{{v, logic.True}}}
	}
	if v != 0 {
		return value{yes: logic.True}
	}
	return value{yes: logic.False}
}

// split returns a value as choices; a yes/no as 0 and 1.
func (p *picture) split(n circuit.Node) []choice {
	v := &p.value[n]
	if p.c.Type(n) != book.YesNo {
		return v.choices
	}
	switch v.yes {
	case logic.False:
		return []choice{{0, logic.True}}
	case logic.True:
		return []choice{{1, logic.True}}
	}
	return []choice{{0, v.yes.Not()}, {1, v.yes}}
}

// gather makes a value of a node from choices that may repeat a number.
func (p *picture) gather(n circuit.Node, all []choice) value {
	conditions := map[float64][]logic.Term{}
	for _, c := range all {
		conditions[c.number] = append(conditions[c.number], c.when)
	}
	if p.c.Type(n) == book.YesNo {
		return value{yes: p.l.Or(conditions[1]...)}
	}
	var v value
	for _, number := range slices.Sorted(maps.Keys(conditions)) {
		if when := p.l.Or(conditions[number]...); when != logic.False {
			v.choices = append(v.choices, choice{number, when})
		}
	}
	if len(v.choices) > mostChoices {
		return value{lost: p.item(n)}
	}
	return v
}

func (p *picture) item(n circuit.Node) string {
	item, _, _ := p.c.Source(n)
	if item == "" {
		return "a number of its own"
	}
	return item
}

// pick is a when cond is yes, and otherwise b.
func (p *picture) pick(n circuit.Node, cond logic.Term, a, b value) value {
	switch {
	case cond == logic.True:
		return a
	case cond == logic.False:
		return b
	case a.lost != "":
		return a
	case b.lost != "":
		return b
	case p.c.Type(n) == book.YesNo:
		return value{yes: p.l.If(cond, a.yes, b.yes)}
	}
	var all []choice
	for _, c := range a.choices {
		all = append(all, choice{c.number, p.l.And(cond, c.when)})
	}
	for _, c := range b.choices {
		all = append(all, choice{c.number, p.l.And(cond.Not(), c.when)})
	}
	return p.gather(n, all)
}

// plain works out a node for each combination of its operands' choices.
func (p *picture) plain(n circuit.Node, args []circuit.Node) value {
	lists := make([][]choice, len(args))
	combinations := 1
	for i, a := range args {
		lists[i] = p.split(a)
		combinations *= max(len(lists[i]), 1)
		if combinations > mostCombinations {
			return value{lost: p.item(n)}
		}
	}
	var all []choice
	numbers := make([]float64, len(args))
	whens := make([]logic.Term, len(args))
	var combine func(i int)
	combine = func(i int) {
		if i == len(args) {
			if when := p.l.And(slices.Clone(whens)...); when != logic.False {
				all = append(all, choice{p.calc.Value(n, numbers), when})
			}
			return
		}
		for _, c := range lists[i] {
			numbers[i], whens[i] = c.number, c.when
			combine(i + 1)
		}
	}
	combine(0)
	return p.gather(n, all)
}
