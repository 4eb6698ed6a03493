package circuit

import (
	"maps"
	"slices"

	"knockon/circuit/smooth"
)

// Fork gives a machine in the same state, which goes its own way from here on.
// Both may then be used at once, each by one goroutine.
func (m *Machine) Fork() *Machine {
	n := *m
	for _, p := range []*[]float64{&n.val, &n.settled, &n.left, &n.kept, &n.keptNow, &n.base, &n.origin} {
		*p = slices.Clone(*p)
	}
	for _, p := range []*[]bool{&n.isTouch, &n.open, &n.openNow, &n.rose, &n.struck, &n.held, &n.fired, &n.firedF, &n.firedR} {
		*p = slices.Clone(*p)
	}
	n.since, n.timerX = slices.Clone(m.since), slices.Clone(m.timerX)
	n.baseAt, n.originAt = slices.Clone(m.baseAt), slices.Clone(m.originAt)
	n.signs = slices.Clone(m.signs)
	n.dirty, n.touched, n.moves = slices.Clone(m.dirty), slices.Clone(m.touched), slices.Clone(m.moves)
	n.glances = slices.Clone(m.glances)
	n.flows, n.key, n.sights = slices.Clone(m.flows), nil, nil
	n.levels = slices.Clone(m.levels)
	n.memo, n.sums = slices.Clone(m.memo), slices.Clone(m.sums)
	n.calm = make([][]flow, len(m.calm))
	n.grown, n.trial, n.trying = make([][]smooth.Arc, len(m.grown)), slices.Clone(m.trial), slices.Clone(m.trying)
	n.active = make([][]bool, len(m.active))
	for i, a := range m.active {
		n.active[i] = slices.Clone(a)
	}
	n.warned, n.restless = maps.Clone(m.warned), maps.Clone(m.restless)
	n.Struck, n.Warnings = slices.Clone(m.Struck), slices.Clone(m.Warnings)
	return &n
}
