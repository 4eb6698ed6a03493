package rescue

import (
	"slices"

	"knockon/circuit"
)

// ask flies the run without moves, and asks which sets of controls could help at all.
func (m *moment) ask() (err error) {
	m.number = map[string]int{}
	var all []int
	for _, c := range m.Controls {
		i, _, _ := m.web.c.Control(c.ID, c.Positions[0])
		m.number[c.ID] = i
		all = append(all, i)
	}
	slices.Sort(all)
	m.lanes, m.asks = make([][][]int, m.most+1), make([]how, m.most+1)
	for n := 1; n <= m.most; n++ {
		m.lanes[n] = append(slices.Clone(m.lanes[n-1]), choose(all, n)...)
	}
	m.plain, err = m.try(m.ctx, m.thin, m.stem.at, nil, m.asking(append(slices.Clone(m.lanes[m.most]), all)))
	m.all = all
	m.foresee()
	return err
}

// foresee asks, if the function is lost and wanted at the moment, which sets of
// controls could bring it back at all.
func (m *moment) foresee() {
	if m.f == flight {
		return
	}
	b := from(m.loss, m.stem.at)
	here := func(s circuit.Span) bool { return s.From < m.stem.at && s.To > m.stem.at }
	if len(b) == 0 || b[0].From > m.stem.at || !slices.ContainsFunc(m.lines[m.f].wantedThere, here) {
		return
	}
	lanes := append(slices.Clone(m.lanes[m.most]), m.all)
	f := newFuture(m.web, m.stem.here, lanes)
	m.lost = map[string]bool{}
	for i, lane := range lanes {
		m.lost[laneOf(slices.Clone(lane)...)] = !f.works(i)
	}
}

// choose lists the ways to take n of a list.
func choose(list []int, n int) (all [][]int) {
	if n == 0 {
		return [][]int{nil}
	}
	for i := range list {
		for _, rest := range choose(list[i+1:], n-1) {
			all = append(all, append([]int{list[i]}, rest...))
		}
	}
	return all
}

// howToFly a set: what could be made of it is asked as long as it may be a part of
// another.
func (m *moment) howToFly(set Set) how {
	k := m.most - len(set)
	if k <= 0 {
		return how{}
	}
	if m.asks[k].doubt == nil {
		m.asks[k] = m.asking(m.lanes[k])
	}
	return m.asks[k]
}

// asking is how to fly moves of which is asked what further controls could do.
func (m *moment) asking(lanes [][]int) how {
	return how{read: true, lanes: lanes, doubt: newDoubt(m.web, m.stem.here, lanes)}
}

// useless says that it is proven of a set that it does not help: some of its moves
// come to nothing, and the controls of the others could not change that.
func (m *moment) useless(set Set) bool {
	if m.lost[laneOf(m.numbers(set)...)] || !m.plain.helped(m.numbers(set)) {
		return true
	}
	list := parts(set)
	slices.SortStableFunc(list, func(a, b Set) int { return len(a) - len(b) }) // what is flown most cheaply, and known most often
	for _, part := range list {
		o, _ := m.fly(part)
		if o != nil && !o.helped(m.numbers(without(set, part))) {
			return true
		}
	}
	return false
}

// helped says that further controls may make a rescue of it. One that breaks off
// breaks off all the same where they leave the flight as it is.
func (o *outcome) helped(controls []int) bool {
	switch {
	case o.doubt == nil:
		return true
	case o.broke && !o.doubt.bends(controls...):
		return false
	}
	return o.loose() || o.doubt.helps(controls...)
}

func (m *moment) numbers(set Set) (list []int) {
	for _, p := range set {
		list = append(list, m.number[p.Control.ID])
	}
	return list
}

func without(set, part Set) (rest Set) {
	for _, p := range set {
		if !slices.Contains(part, p) {
			rest = append(rest, p)
		}
	}
	return rest
}
