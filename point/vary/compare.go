package vary

import (
	"cmp"
	"slices"

	"knockon/ledger"
	"knockon/point"
)

// shift is a loss that is otherwise in the other answer; nil is not lost there when it is
// called for.
type shift struct{ here, there *ledger.Loss }

// changes are what differs between two answers of what is lost when it is called for, by
// kind, the heaviest first.
type changes struct {
	more    []shift // lost only there
	less    []shift // lost only here
	clearer []shift // nobody knows of it here, or too late; there people do
	darker  []shift // the other way round
}

// compare lays the losses of one ledger beside those of another.
func compare(a, b *ledger.Ledger) (c changes) {
	for _, x := range called(a) {
		s := shift{here: x, there: mattering(b, x.Function.ID)}
		switch {
		case s.there == nil:
			c.less = append(c.less, s)
		case !known(x) && known(s.there):
			c.clearer = append(c.clearer, s)
		case known(x) && !known(s.there):
			c.darker = append(c.darker, s)
		}
	}
	for _, y := range called(b) {
		if mattering(a, y.Function.ID) == nil {
			c.more = append(c.more, shift{there: y})
		}
	}
	for _, list := range c.kinds() {
		slices.SortStableFunc(list, heavierFirst)
	}
	return c
}

func heavierFirst(s, t shift) int { return cmp.Compare(t.weight(), s.weight()) }

func (c changes) kinds() [4][]shift { return [4][]shift{c.more, c.less, c.clearer, c.darker} }

// weight is how much of all changes.
func (c changes) weight() (sum float64) {
	for _, list := range c.kinds() {
		sum += weight(list)
	}
	return sum
}

// worse is how much is added, less what is taken away.
func (c changes) worse() float64 {
	return weight(c.more) + weight(c.darker) - weight(c.less) - weight(c.clearer)
}

func weight(list []shift) (sum float64) {
	for _, s := range list {
		sum += s.weight()
	}
	return sum
}

// weight of a shift is by how much the loss is heavier in one of the two.
func (s shift) weight() float64 {
	d := heft(s.here) - heft(s.there)
	return max(d, -d)
}

func heft(x *ledger.Loss) float64 {
	if x == nil {
		return 0
	}
	return point.Heft(x)
}

// loss is the one that there is.
func (s shift) loss() *ledger.Loss {
	if s.here != nil {
		return s.here
	}
	return s.there
}

func called(l *ledger.Ledger) (list []*ledger.Loss) {
	for i := range l.Losses {
		if l.Losses[i].Mattered {
			list = append(list, &l.Losses[i])
		}
	}
	return list
}

func mattering(l *ledger.Ledger, id string) *ledger.Loss {
	if x := l.Loss(id); x != nil && x.Mattered {
		return x
	}
	return nil
}

// known says that people know of a loss in time.
func known(x *ledger.Loss) bool {
	switch x.Word() {
	case ledger.Hidden, ledger.Denied, ledger.InUse, ledger.Late:
		return false
	}
	return true
}
