package rescue

// neverMeets says that a set of moves can be no rescue, since it falls into two
// parts of which it is known what they do, and that they do not meet: then the
// function is at each moment what it is with one of them, and neither is one.
func (m *moment) neverMeets(set Set) bool {
	if len(set) < 2 {
		return false
	}
	for i := range set {
		alone := m.knownOf(Set{set[i]})
		rest := m.knownOf(append(append(Set{}, set[:i]...), set[i+1:]...))
		if alone != nil && rest != nil && hopeless(alone, rest) {
			return true
		}
	}
	return false
}

// knownOf is what is known of a set: it was flown, or is a pair that does not meet.
func (m *moment) knownOf(set Set) *outcome {
	if o, ok := m.known[set.key()]; ok || len(set) > 2 {
		return o
	}
	if len(set) == 1 {
		o, err := m.fly(set)
		if err != nil {
			return nil // it comes again when the set is flown
		}
		return o
	}
	a, b := m.knownOf(set[:1]), m.knownOf(set[1:])
	if a == nil || b == nil || !hopeless(a, b) {
		return nil
	}
	return both(a, b)
}

// hopeless says of two sets, none of which is a rescue, that they are none
// together either: up to where the first of them was seen to come to nothing they
// do not meet, and the loss there is not what the other one changes.
func hopeless(a, b *outcome) bool {
	if a.loose() || b.loose() || a.reach.meets(b.reach) {
		return false
	}
	if a.stopped > b.stopped {
		a, b = b, a
	}
	if a.stopped == b.stopped && a.flight && a.own && b.own {
		return false // each may mend what ends the other
	}
	if a.stopped == b.stopped && (a.lost || b.lost) {
		return !a.lost && !b.own || !b.lost && !a.own
	}
	return !a.lost && (a.stopped == b.stopped || !b.own)
}

// both is what two sets that do not meet come to together, up to where the first
// was seen to come to nothing.
func both(a, b *outcome) *outcome {
	if a.stopped > b.stopped {
		a, b = b, a
	}
	o := &outcome{lost: a.lost, stopped: min(a.stopped, b.stopped), own: a.own || b.own, flight: a.flight, reach: a.reach.or(b.reach), first: min(a.first, b.first)}
	return o
}
