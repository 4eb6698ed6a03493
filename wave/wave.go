// Package wave turns the losses of a ledger into waves: what goes at about one time
// for one reason (docs/meaning.md, section 6a).
//
// Invariant: every loss of the ledger is in one wave, and a wave's cause is something
// that each of its losses hangs on: as in the run without the failures, it would have
// spared them.
//
// Start reading at Of.
package wave

import (
	"maps"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/why"
)

// Gap is how long after the one before it a loss still belongs to the same time;
// Few is how many losses a cause must have to make a wave of them.
const (
	Gap = 10 * book.Second
	Few = 3
)

// Wave is a group of losses.
type Wave struct {
	At     book.Time
	Cause  *why.Need // nil: the failures themselves
	Hand   *why.Need // a control moved by hand that all of it hangs on; nil if there is none
	Later  bool      // the cause made a wave before: these are later, from the same
	Losses []*ledger.Loss
}

// loss is one with what it hangs on.
type loss struct {
	*ledger.Loss
	at    book.Time
	needs []why.Need
	cause *why.Need
	later bool
}

// Of parts the losses of a ledger, first by time and then by cause; in order of time,
// the largest first.
func Of(l *ledger.Ledger) (waves []Wave) {
	all := losses(l)
	earlier := []circuit.Node{}
	for first := 0; first < len(all); {
		last := first + 1
		for last < len(all) && all[last].at-all[last-1].at <= Gap {
			last++
		}
		stretch := all[first:last]
		chosen := choose(stretch)
		settle(stretch, chosen, earlier)
		waves = append(waves, gather(stretch)...)
		earlier = append(earlier, chosen...)
		first = last
	}
	return waves
}

// losses lists them by the start of the first stretch that mattered, else of the first.
func losses(l *ledger.Ledger) (list []*loss) {
	needs := why.NewNeeds(l.Here.Trace, l.There.Trace)
	for i := range l.Losses {
		x := &loss{Loss: &l.Losses[i], at: Start(&l.Losses[i])}
		v := circuit.Value{Item: x.Function.ID}
		x.needs = slices.DeleteFunc(needs.Of(v, x.at), func(n why.Need) bool { return n.Value == v || !sayable(n) })
		list = append(list, x)
	}
	slices.SortStableFunc(list, func(a, b *loss) int { return int(a.at - b.at) })
	return list
}

// Hands are the controls that somebody moved and that losses hang on, by their ids.
func Hands(l *ledger.Ledger) map[*ledger.Loss][]string {
	hands := map[*ledger.Loss][]string{}
	for _, x := range losses(l) {
		for _, n := range x.needs {
			if n.Hand {
				hands[x.Loss] = append(hands[x.Loss], n.Value.Item)
			}
		}
	}
	return hands
}

// Start is the start of the first stretch of a loss that mattered, else of its first.
func Start(x *ledger.Loss) book.Time {
	if k := slices.IndexFunc(x.Spans, func(s ledger.LossSpan) bool { return s.Mattered }); k >= 0 {
		return x.Spans[k].From
	}
	return x.Spans[0].From
}

// sayable says that a need is an item that people know by its title: not what the
// language works out of one.
func sayable(n why.Need) bool {
	switch n.Value.Aspect {
	case circuit.Wanted, circuit.Believed, circuit.Possible, circuit.HeldBack, circuit.False,
		circuit.ByText, circuit.ByLight, circuit.BySound, circuit.Lit, circuit.Means, circuit.Wrong, circuit.Noticed:
		return false
	}
	return n.Value.Item != ""
}

// choose gives each loss the nearest that it hangs on and that enough others of the
// stretch take too, and lists what was chosen.
func choose(stretch []*loss) (chosen []circuit.Node) {
	barred := map[circuit.Node]bool{}
	for {
		shared := sharing(stretch, barred)
		takers := map[circuit.Node][]*loss{}
		for _, x := range stretch {
			if n := x.nearest(shared); x.cause == nil && n != nil {
				takers[n.Node] = append(takers[n.Node], x)
			}
		}
		if len(takers) == 0 {
			return chosen
		}
		chosen = append(chosen, take(takers, barred)...)
	}
}

// sharing counts the losses without a cause that hang on each, where they are enough.
func sharing(stretch []*loss, barred map[circuit.Node]bool) map[circuit.Node]int {
	shared := map[circuit.Node]int{}
	for _, x := range stretch {
		for _, n := range x.needs {
			if x.cause == nil && !barred[n.Node] {
				shared[n.Node]++
			}
		}
	}
	for n, count := range shared {
		if count < Few {
			delete(shared, n)
		}
	}
	return shared
}

// nearest is the nearest need among some; of those as near, the one most shared, then
// the first in the book.
func (x *loss) nearest(shared map[circuit.Node]int) (best *why.Need) {
	for i := range x.needs {
		n := &x.needs[i]
		switch {
		case shared[n.Node] == 0:
		case best == nil || n.Far < best.Far:
			best = n
		case n.Far == best.Far && (shared[n.Node] > shared[best.Node] || shared[n.Node] == shared[best.Node] && n.Node < best.Node):
			best = n
		}
	}
	return best
}

// take makes causes of what enough losses took; where nothing is, what fewest took is
// barred, so that they look farther.
func take(takers map[circuit.Node][]*loss, barred map[circuit.Node]bool) (chosen []circuit.Node) {
	fewest := circuit.None
	for _, n := range slices.Sorted(maps.Keys(takers)) {
		if len(takers[n]) >= Few {
			chosen = append(chosen, n)
			for _, x := range takers[n] {
				x.take(n)
			}
		}
		if fewest == circuit.None || len(takers[n]) < len(takers[fewest]) {
			fewest = n
		}
	}
	if len(chosen) == 0 {
		barred[fewest] = true
	}
	return chosen
}

func (x *loss) take(n circuit.Node) {
	x.cause = &x.needs[slices.IndexFunc(x.needs, func(o why.Need) bool { return o.Node == n })]
}

// settle gives what is left the nearest cause of the stretch, else of an earlier one.
func settle(stretch []*loss, chosen, earlier []circuit.Node) {
	for _, x := range stretch {
		if x.cause == nil {
			x.cause = x.nearest(marked(chosen))
		}
		if x.cause == nil {
			x.cause = x.nearest(marked(earlier))
		}
		x.later = x.cause != nil && slices.Contains(earlier, x.cause.Node)
	}
}

func marked(list []circuit.Node) map[circuit.Node]int {
	m := map[circuit.Node]int{}
	for _, n := range list {
		m[n] = 1
	}
	return m
}

// gather makes waves of a stretch, the largest first.
func gather(stretch []*loss) (waves []Wave) {
	for _, x := range stretch {
		k := slices.IndexFunc(waves, func(w Wave) bool { return same(w.Cause, x.cause) })
		if k < 0 {
			k = len(waves)
			waves = append(waves, Wave{At: x.at, Cause: x.cause, Later: x.later})
		}
		waves[k].Losses = append(waves[k].Losses, x.Loss)
	}
	for i := range waves {
		waves[i].Hand = hand(stretch, waves[i].Cause)
	}
	slices.SortStableFunc(waves, func(a, b Wave) int { return len(b.Losses) - len(a.Losses) })
	return waves
}

// hand is the control that somebody moved and that all losses of a cause hang on.
func hand(stretch []*loss, cause *why.Need) *why.Need {
	var of []*loss
	for _, x := range stretch {
		if same(x.cause, cause) {
			of = append(of, x)
		}
	}
	for i, n := range of[0].needs {
		if n.Hand && !slices.ContainsFunc(of, func(x *loss) bool { return !x.hangs(n.Node) }) {
			return &of[0].needs[i]
		}
	}
	return nil
}

func (x *loss) hangs(n circuit.Node) bool {
	return slices.ContainsFunc(x.needs, func(o why.Need) bool { return o.Node == n })
}

func same(a, b *why.Need) bool {
	return a == nil && b == nil || a != nil && b != nil && a.Node == b.Node
}
