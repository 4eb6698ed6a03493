package crew

import (
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// ties are which item hangs on which, as far as alerts are concerned: an alert
// follows from another while what it says is down through something that the
// other says is down, by way of units and functions that do not work. Of an
// expression only that is followed which can hold its present value: of an "and"
// that is no not what is yes, of an "or" that is yes not what is no.
type ties struct {
	claims map[*book.Alert]*book.Expr // what an alert speaks of
	thread map[string]*thread
	failed map[string]circuit.Node
	fault  map[[2]string]circuit.Node
	hand   map[string]circuit.Node // the position of a control
	words  *circuit.Circuit
}

// thread is a unit, a function or a signal.
type thread struct {
	node   circuit.Node // its value
	firm   bool         // a unit or function: it works, or it is down
	faults []circuit.Node
	hangs  []*book.Expr
	yesNo  bool

	set, reset *book.Expr // of a signal that remembers
}

func newTies(b *book.Build, c *circuit.Circuit) ties {
	w := ties{claims: map[*book.Alert]*book.Expr{}, thread: map[string]*thread{}, failed: map[string]circuit.Node{}, fault: map[[2]string]circuit.Node{}, hand: map[string]circuit.Node{}, words: c}
	for _, k := range b.Controls {
		w.hand[k.ID] = nodeOf(c, k.ID, circuit.Main)
	}
	for _, u := range b.Units {
		t := &thread{node: nodeOf(c, u.ID, circuit.Main), firm: true, yesNo: true, hangs: []*book.Expr{u.Needs}}
		w.failed[u.ID] = nodeOf(c, u.ID, circuit.Failed)
		for _, f := range u.Faults {
			n := nodeOf(c, u.ID, circuit.Aspect(f.ID))
			t.faults, w.fault[[2]string{u.ID, f.ID}] = append(t.faults, n), n
		}
		w.thread[u.ID] = t
	}
	for _, f := range b.Functions {
		w.thread[f.ID] = &thread{node: nodeOf(c, f.ID, circuit.Main), firm: true, yesNo: true, hangs: []*book.Expr{f.Works}}
	}
	for _, s := range b.Signals {
		w.thread[s.ID] = &thread{node: nodeOf(c, s.ID, circuit.Main), yesNo: s.Type == book.YesNo, hangs: []*book.Expr{s.Value}, set: s.Set, reset: s.Reset}
	}
	for _, a := range b.Alerts {
		if w.claims[a] = a.TrueWhen; a.TrueWhen == nil {
			w.claims[a] = a.When
		}
	}
	return w
}

func nodeOf(c *circuit.Circuit, id string, a circuit.Aspect) circuit.Node {
	n, ok := c.Node(circuit.Value{Item: id, Aspect: a})
	if !ok {
		return circuit.None
	}
	return n
}

// follows says that what an alert says is down now because of what another says,
// and not the other way round.
func (d *duty) follows(a, cause *book.Alert) bool {
	return a != cause && d.reaches(a, cause) && !d.reaches(cause, a)
}

func (d *duty) reaches(from, to *book.Alert) bool {
	w := &d.team.ties
	target := map[string]bool{}
	w.claims[to].Walk(func(e *book.Expr) {
		if t := w.thread[e.ID]; t != nil && isRef(e) {
			target[e.ID] = !t.firm || d.down(t)
		}
	})
	seen, found := map[string]bool{}, false
	var visit func(id string)
	visit = func(id string) {
		t := w.thread[id]
		if t == nil || found || seen[id] || t.firm && !d.down(t) {
			return
		}
		seen[id], found = true, target[id]
		for _, e := range t.hangs {
			if !t.firm || d.truth(e) != certain {
				d.holding(e, visit)
			}
		}
		d.remembered(t, visit)
	}
	d.holding(w.claims[from], visit)
	return found
}

// remembered visits what can hold a signal that remembers at what it is: a no what
// keeps it from being set, and what resets it; a yes what sets it, unless that has
// passed and is no more.
func (d *duty) remembered(t *thread, visit func(id string)) {
	yes := d.yes(t.node)
	if t.set != nil && (!yes || d.truth(t.set) != ruledOut) {
		d.holding(t.set, visit)
	}
	if t.reset != nil && !yes && d.truth(t.reset) != ruledOut {
		d.holding(t.reset, visit)
	}
}

func isRef(e *book.Expr) bool {
	return e.Op == book.OpRef || e.Op == book.OpFailed || e.Op == book.OpFault
}

// down says that a unit or function does not work, or has a fault.
func (d *duty) down(t *thread) bool {
	return !d.yes(t.node) || slices.ContainsFunc(t.faults, d.yes)
}

// holding visits the items that can hold an expression at its present value.
func (d *duty) holding(e *book.Expr, visit func(id string)) {
	if e == nil {
		return
	}
	if isRef(e) {
		visit(e.ID)
		return
	}
	skip := unsure
	switch all := d.truth(e); {
	case (e.Op == book.OpAnd || e.Op == book.OpAll) && all == ruledOut:
		skip = certain
	case (e.Op == book.OpOr || e.Op == book.OpAny) && all == certain:
		skip = ruledOut
	}
	for i, a := range e.Args {
		if skip != unsure && d.truth(a) == skip || e.Op == book.OpIf && d.otherWay(e, i) {
			continue
		}
		d.holding(a, visit)
	}
}

// otherWay says that argument i of a choice is the one not taken.
func (d *duty) otherWay(e *book.Expr, i int) bool {
	c := d.truth(e.Args[0])
	return i == 1 && c == ruledOut || i == 2 && c == certain
}

// truth is what is known of a yes/no now.
type truth int8

const (
	unsure truth = iota
	ruledOut
	certain
)

func known(yes bool) truth {
	if yes {
		return certain
	}
	return ruledOut
}

// truth works out a yes/no from the items that it names. What it cannot see
// through, such as timers and comparisons of numbers, is unsure.
func (d *duty) truth(e *book.Expr) truth {
	if e == nil || e.Type != book.YesNo {
		return unsure
	}
	w := &d.team.ties
	switch e.Op {
	case book.OpYesNo:
		return known(e.Num != 0)
	case book.OpRef:
		if t := w.thread[e.ID]; t != nil && t.yesNo {
			return known(d.yes(t.node))
		}
	case book.OpFailed:
		return known(d.yes(w.failed[e.ID]))
	case book.OpFault:
		return known(d.yes(w.fault[[2]string{e.ID, e.Word}]))
	case book.OpHeld:
		if d.truth(e.Args[0]) == ruledOut {
			return ruledOut
		}
		return unsure
	case book.OpEq, book.OpNe:
		return d.inPlace(e)
	case book.OpNot:
		return [...]truth{unsure, certain, ruledOut}[d.truth(e.Args[0])]
	case book.OpAnd, book.OpAll:
		return d.together(e.Args, ruledOut, certain)
	case book.OpOr, book.OpAny:
		return d.together(e.Args, certain, ruledOut)
	case book.OpIf:
		if c := d.truth(e.Args[0]); c != unsure {
			return d.truth(e.Args[1+int(certain-c)])
		}
	}
	return unsure
}

// inPlace works out a comparison of a control with one of its positions.
func (d *duty) inPlace(e *book.Expr) truth {
	w, hand, word := &d.team.ties, e.Args[0], e.Args[1]
	if hand.Op == book.OpWord {
		hand, word = word, hand
	}
	n, ok := w.hand[hand.ID]
	if !ok || hand.Op != book.OpRef || word.Op != book.OpWord {
		return unsure
	}
	return known((w.words.WordText(d.view.Value(n)) == word.Word) == (e.Op == book.OpEq))
}

// together is strong if one of some is, else weak if all are.
func (d *duty) together(args []*book.Expr, strong, weak truth) truth {
	all := weak
	for _, a := range args {
		switch d.truth(a) {
		case strong:
			return strong
		case unsure:
			all = unsure
		}
	}
	return all
}
