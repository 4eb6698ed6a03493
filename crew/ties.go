package crew

import (
	"knockon/book"
	"knockon/circuit"
)

// ties are which item hangs on which, as far as alerts are concerned: an alert
// follows from another while what it says can be down through something that the
// other says is down, by way of units and functions that are believed to be down. Of
// an expression only that is followed which can hold its value: of an "and" that is
// no not what is yes, of an "or" that is yes not what is no. What the crew know of
// values are their beliefs (beliefs.go): what is true and told by no alert has no
// part in it.
type ties struct {
	claims map[*book.Alert]*book.Expr // what an alert speaks of
	thread map[string]*thread
	known  []circuit.Node // where controls stand, phases and alerts: known at any time
	hand   map[string]int // the position of a control, in known
	plain  map[string]int // phases and alerts, in known
	words  *circuit.Circuit
}

// thread is a unit, a function or a signal.
type thread struct {
	firm   bool     // a unit or function: it works, or it is down
	faults []string // of a unit
	stops  []string // those of them with which it does not work
	hangs  []*book.Expr
	yesNo  bool

	set, reset *book.Expr // of a signal that remembers
}

func newTies(b *book.Build, c *circuit.Circuit) ties {
	w := ties{claims: map[*book.Alert]*book.Expr{}, thread: map[string]*thread{}, hand: map[string]int{}, plain: map[string]int{}, words: c}
	for _, k := range b.Controls {
		w.hand[k.ID] = w.knows(k.ID)
	}
	for _, p := range b.Phases {
		w.plain[p.ID] = w.knows(p.ID)
	}
	for _, u := range b.Units {
		w.thread[u.ID] = unitThread(u)
	}
	for _, f := range b.Functions {
		w.thread[f.ID] = &thread{firm: true, yesNo: true, hangs: []*book.Expr{f.Works}}
	}
	for _, s := range b.Signals {
		w.thread[s.ID] = &thread{yesNo: s.Type == book.YesNo, hangs: []*book.Expr{s.Value}, set: s.Set, reset: s.Reset}
	}
	for _, a := range b.Alerts {
		w.plain[a.ID] = w.knows(a.ID)
		if w.claims[a] = a.TrueWhen; a.TrueWhen == nil {
			w.claims[a] = a.When
		}
	}
	return w
}

func unitThread(u *book.Unit) *thread {
	t := &thread{firm: true, yesNo: true, hangs: []*book.Expr{u.Needs}}
	for _, f := range u.Faults {
		if t.faults = append(t.faults, f.ID); f.Stops {
			t.stops = append(t.stops, f.ID)
		}
	}
	return t
}

// knows notes an item that the crew know at any time.
func (w *ties) knows(id string) int {
	n, _ := w.words.Node(circuit.Value{Item: id})
	w.known = append(w.known, n)
	return len(w.known) - 1
}

// follows says that what an alert says can be down now because of what another
// says, and not the other way round.
func (d *duty) follows(a, cause *book.Alert) bool {
	b := d.believed()
	pair := [2]*book.Alert{a, cause}
	known, ok := b.follow[pair]
	if !ok {
		known = a != cause && b.reaches(a, cause) && !b.reaches(cause, a)
		b.follow[pair] = known
	}
	return known
}

func (b *beliefs) reaches(from, to *book.Alert) bool {
	w := b.ties
	target := map[string]bool{}
	w.claims[to].Walk(func(e *book.Expr) {
		if t := w.thread[e.ID]; t != nil && isRef(e) {
			target[e.ID] = !t.firm || b.down(e.ID)
		}
	})
	seen, found := map[string]bool{}, false
	var visit func(id string)
	visit = func(id string) {
		t := w.thread[id]
		if t == nil || found || seen[id] || t.firm && !b.down(id) {
			return
		}
		seen[id], found = true, target[id]
		if t.firm && b.item(id) != ruledOut { // it works, with a fault, which comes from nothing
			return
		}
		for _, e := range t.hangs {
			if !t.firm || b.truth(e) != certain {
				b.holding(e, visit)
			}
		}
		b.latched(id, t, visit)
	}
	b.holding(w.claims[from], visit)
	return found
}

// latched visits what can hold a signal that remembers at what it is: a no what
// keeps it from being set, and what resets it; a yes what sets it, unless that has
// passed and is no more.
func (b *beliefs) latched(id string, t *thread, visit func(id string)) {
	if t.set == nil {
		return
	}
	yes := b.item(id)
	if yes != certain || b.truth(t.set) != ruledOut {
		b.holding(t.set, visit)
	}
	if yes != certain && b.truth(t.reset) != ruledOut {
		b.holding(t.reset, visit)
	}
}

func isRef(e *book.Expr) bool {
	return e.Op == book.OpRef || e.Op == book.OpFailed || e.Op == book.OpFault
}

// holding visits the items that can hold an expression at its present value.
func (b *beliefs) holding(e *book.Expr, visit func(id string)) {
	if e == nil {
		return
	}
	if isRef(e) {
		visit(e.ID)
		return
	}
	skip := unsure
	switch all := b.truth(e); {
	case (e.Op == book.OpAnd || e.Op == book.OpAll) && all == ruledOut:
		skip = certain
	case (e.Op == book.OpOr || e.Op == book.OpAny) && all == certain:
		skip = ruledOut
	}
	for i, a := range e.Args {
		if skip != unsure && b.truth(a) == skip || e.Op == book.OpIf && b.otherWay(e, i) {
			continue
		}
		b.holding(a, visit)
	}
}

// otherWay says that argument i of a choice is the one not taken.
func (b *beliefs) otherWay(e *book.Expr, i int) bool {
	c := b.truth(e.Args[0])
	return i == 1 && c == ruledOut || i == 2 && c == certain
}
