package crew

import (
	"slices"

	"knockon/book"
	"knockon/run"
)

// beliefs are what follows from the alerts that stand now, and from nothing else
// but where the crew's own controls are and which phase it is. What no alert says
// to be down is taken to work; what only a timer, a number or a memory could tell
// is unsure.
type beliefs struct {
	ties   *ties
	stand  []float64 // what is known at any time (ties.known), as it stood
	follow map[[2]*book.Alert]bool
	said   map[string]truth   // unit, function, signal: as an alert says
	failed map[string]bool    // units of which an alert says so
	fault  map[[2]string]bool // the same of faults
	worked map[string]truth   // worked out from these
	open   map[string]bool    // being worked out
}

// believed are the beliefs of this moment. They stay until a control, the phase or
// an alert changes.
func (d *duty) believed() *beliefs {
	if d.sure {
		return d.mind
	}
	d.sure = true
	w := &d.team.ties
	if d.mind == nil || !d.mind.still(d.view) {
		b := &beliefs{ties: w, follow: map[[2]*book.Alert]bool{}, said: map[string]truth{}, failed: map[string]bool{}, fault: map[[2]string]bool{}, worked: map[string]truth{}, open: map[string]bool{}}
		for _, n := range w.known {
			b.stand = append(b.stand, d.view.Value(n))
		}
		for i, c := range d.team.alerts {
			if d.known[i] {
				b.claim(w.claims[c.alert], certain)
			}
		}
		d.mind = b
	}
	return d.mind
}

// still says that all stands as it stood.
func (b *beliefs) still(v run.View) bool {
	for i, n := range b.ties.known {
		if v.Value(n) != b.stand[i] {
			return false
		}
	}
	return true
}

// claim takes down what an expression that is yes, or no, says of the items in it.
// Of what can be so in more than one way nothing is said.
func (b *beliefs) claim(e *book.Expr, is truth) {
	switch e.Op {
	case book.OpRef:
		if was, ok := b.said[e.ID]; ok && was != is {
			is = unsure // two alerts contradict each other
		}
		if b.ties.thread[e.ID] != nil {
			b.said[e.ID] = is
		}
	case book.OpFailed:
		if is == certain {
			b.failed[e.ID] = true
		}
	case book.OpFault:
		if is == certain {
			b.fault[[2]string{e.ID, e.Word}] = true
		}
	case book.OpNot:
		b.claim(e.Args[0], opposite(is))
	case book.OpHeld, book.OpPulse:
		if is == certain {
			b.claim(e.Args[0], is)
		}
	case book.OpAnd, book.OpAll:
		b.claimEach(e, is, certain)
	case book.OpOr, book.OpAny:
		b.claimEach(e, is, ruledOut)
	}
}

func (b *beliefs) claimEach(e *book.Expr, is, when truth) {
	if is != when && len(e.Args) > 1 {
		return
	}
	for _, a := range e.Args {
		b.claim(a, is)
	}
}

func opposite(t truth) truth { return [...]truth{unsure, certain, ruledOut}[t] }

// item is what is believed of a unit, a function or a yes/no signal.
func (b *beliefs) item(id string) truth {
	if t, ok := b.said[id]; ok {
		return t
	}
	if t, ok := b.worked[id]; ok {
		return t
	}
	if b.open[id] { // through a timer, back to itself
		return unsure
	}
	b.open[id] = true
	t := b.work(id, b.ties.thread[id])
	delete(b.open, id)
	b.worked[id] = t
	return t
}

func (b *beliefs) work(id string, t *thread) truth {
	if b.failed[id] || slices.ContainsFunc(t.stops, func(f string) bool { return b.fault[[2]string{id, f}] }) {
		return ruledOut
	}
	switch {
	case t.set != nil && b.truth(t.reset) == certain:
		return ruledOut
	case t.set != nil && b.truth(t.set) == certain:
		return certain
	case t.set != nil || !t.yesNo:
		return unsure
	case t.hangs[0] == nil:
		return certain
	}
	return b.truth(t.hangs[0])
}

// down says that a unit or function does not work as far as is known, or has a
// fault.
func (b *beliefs) down(id string) bool {
	return b.item(id) == ruledOut || b.faulty(id)
}

func (b *beliefs) faulty(id string) bool {
	return slices.ContainsFunc(b.ties.thread[id].faults, func(f string) bool { return b.fault[[2]string{id, f}] })
}

// truth is what is known of a yes/no now.
type truth int8

const (
	unsure truth = iota
	ruledOut
	certain
)

func sureOf(yes bool) truth {
	if yes {
		return certain
	}
	return ruledOut
}

// truth works out a yes/no from the items that it names. What it cannot see
// through, such as timers and comparisons of numbers, is unsure.
func (b *beliefs) truth(e *book.Expr) truth {
	if e == nil || e.Type != book.YesNo {
		return unsure
	}
	switch e.Op {
	case book.OpYesNo:
		return sureOf(e.Num != 0)
	case book.OpRef:
		return b.ref(e.ID)
	case book.OpFailed:
		return b.plainLoss(e.ID)
	case book.OpFault:
		return sureOf(b.fault[[2]string{e.ID, e.Word}])
	case book.OpHeld:
		if b.truth(e.Args[0]) == ruledOut {
			return ruledOut
		}
		return unsure
	case book.OpEq, book.OpNe:
		return b.inPlace(e)
	case book.OpNot:
		return opposite(b.truth(e.Args[0]))
	case book.OpAnd, book.OpAll:
		return b.together(e.Args, ruledOut, certain)
	case book.OpOr, book.OpAny:
		return b.together(e.Args, certain, ruledOut)
	case book.OpAtLeast:
		return b.many(e.Args, int(e.Num))
	case book.OpIf:
		if c := b.truth(e.Args[0]); c != unsure {
			return b.truth(e.Args[1+int(certain-c)])
		}
	}
	return unsure
}

// ref is what is known of an item: alerts that stand and the phase are known.
func (b *beliefs) ref(id string) truth {
	w := b.ties
	if w.thread[id] != nil {
		return b.item(id)
	}
	if n, ok := w.plain[id]; ok {
		return sureOf(b.stand[n] != 0)
	}
	return unsure
}

// plainLoss is whether a unit has failed: nobody can tell that from having lost
// what it needs.
func (b *beliefs) plainLoss(id string) truth {
	switch {
	case b.failed[id]:
		return certain
	case b.said[id] == ruledOut:
		return unsure
	}
	return ruledOut
}

// inPlace works out a comparison of a control with one of its positions.
func (b *beliefs) inPlace(e *book.Expr) truth {
	w, hand, word := b.ties, e.Args[0], e.Args[1]
	if hand.Op == book.OpWord {
		hand, word = word, hand
	}
	n, ok := w.hand[hand.ID]
	if !ok || hand.Op != book.OpRef || word.Op != book.OpWord {
		return unsure
	}
	return sureOf((w.words.WordText(b.stand[n]) == word.Word) == (e.Op == book.OpEq))
}

// together is strong if one of some is, else weak if all are.
func (b *beliefs) together(args []*book.Expr, strong, weak truth) truth {
	all := weak
	for _, a := range args {
		switch b.truth(a) {
		case strong:
			return strong
		case unsure:
			all = unsure
		}
	}
	return all
}

// many is whether so many are.
func (b *beliefs) many(args []*book.Expr, want int) truth {
	var sum [3]int
	for _, a := range args {
		sum[b.truth(a)]++
	}
	switch {
	case sum[certain] >= want:
		return certain
	case sum[ruledOut] > len(args)-want:
		return ruledOut
	}
	return unsure
}
