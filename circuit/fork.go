package circuit

import (
	"maps"
	"slices"

	"knockon/circuit/smooth"
)

// Fork gives a machine in the same state, which goes its own way from here on.
// Both may then be used at once, each by one goroutine.
func (m *Machine) Fork() *Machine { return m.ForkInto(nil) }

// ForkInto does that in the room of a machine that nobody uses any more; nil: in
// room of its own.
func (m *Machine) ForkInto(over *Machine) *Machine {
	if over == nil || over.c != m.c {
		over = &Machine{}
	}
	n, o := *m, over
	n.val, n.settled, n.left = again(o.val, m.val), again(o.settled, m.settled), again(o.left, m.left)
	n.kept, n.keptNow = again(o.kept, m.kept), again(o.keptNow, m.keptNow)
	n.base, n.origin, n.trial = again(o.base, m.base), again(o.origin, m.origin), again(o.trial, m.trial)
	n.isTouch, n.open, n.openNow, n.rose = again(o.isTouch, m.isTouch), again(o.open, m.open), again(o.openNow, m.openNow), again(o.rose, m.rose)
	n.struck, n.held, n.trying = again(o.struck, m.struck), again(o.held, m.held), again(o.trying, m.trying)
	n.fired, n.firedF, n.firedR = again(o.fired, m.fired), again(o.firedF, m.firedF), again(o.firedR, m.firedR)
	n.since, n.timerX = again(o.since, m.since), again(o.timerX, m.timerX)
	n.baseAt, n.originAt = again(o.baseAt, m.baseAt), again(o.originAt, m.originAt)
	n.signs, n.dirty, n.touched, n.moves = again(o.signs, m.signs), again(o.dirty, m.dirty), again(o.touched, m.touched), again(o.moves, m.moves)
	n.glances, n.flows, n.levels = again(o.glances, m.glances), again(o.flows, m.flows), again(o.levels, m.levels)
	n.memo, n.sums = again(o.memo, m.memo), again(o.sums, m.sums)
	n.warned, n.restless = maps.Clone(m.warned), maps.Clone(m.restless)
	n.Struck, n.Warnings = again(o.Struck, m.Struck), slices.Clone(m.Warnings)
	n.grown, n.active = make([][]smooth.Arc, len(m.grown)), make([][]bool, len(m.active))
	for i, list := range m.grown {
		n.grown[i] = slices.Clip(list) // what is added goes elsewhere
	}
	for i, a := range m.active {
		n.active[i] = slices.Clone(a)
	}
	n.blank(m, o)
	return &n
}

// blank takes what a machine need not remember: room, which holds nothing.
func (m *Machine) blank(from, over *Machine) {
	m.key, m.summed, m.ran, m.calm, m.sights = over.key[:0], over.summed[:0], over.ran[:0], over.calm, over.sights
	if len(m.calm) != len(from.calm) {
		m.calm = make([][]flow, len(from.calm))
	}
	for i := range m.sights {
		m.sights[i].of = -1
	}
}

// again is a copy of a list, in the room of one that is not read any more.
func again[T any](room, list []T) []T {
	if list == nil {
		return nil
	}
	return append(room[:0], list...)
}
