package oracle

import "knockon/book"

// following gives timers, frozen values and, at the start, before values what
// was evaluated, and reports whether any changed: step 4.
func (m *machine) following(start bool) (changed bool) {
	for _, t := range m.timers {
		changed = put(&t.value, t.follow(m, start)) || changed
	}
	for _, f := range m.frozens {
		changed = f.follow(m, start) || changed
	}
	if start {
		for _, b := range m.befores {
			changed = put(&b.value, m.now[b.x.slot]) || changed
		}
	}
	return changed
}

// put stores a value and reports whether it is a new one.
func put(to *float64, value float64) (changed bool) {
	changed = !same(*to, value)
	*to = value
	return changed
}

func (t *timer) follow(m *machine, start bool) float64 {
	x := m.now[t.x.slot]
	since := t.since
	if m.stood[t.x.slot] == 0 {
		since = m.at
	}
	over := start || m.at >= since+t.lasts
	if t.self.op == book.OpPulse {
		return bit(x == 1 && !over)
	}
	return bit(x == 1 && over)
}

func (f *frozen) follow(m *machine, start bool) (changed bool) {
	closed, kept := m.now[f.when.slot] == 1, f.left
	switch {
	case start:
		kept = m.now[f.x.slot]
	case f.wasClosed:
		kept = f.wasKept
	}
	changed = closed != f.closed || closed && !same(kept, f.kept)
	f.closed, f.kept = closed, kept
	return changed
}

// latching gives latches, controls, the phase and the failures on a condition
// their new values, all from this evaluation, and reports whether any changed:
// step 5.
func (m *machine) latching(start bool) (changed bool) {
	for _, l := range m.latches {
		changed = l.turn(m) || changed
	}
	for _, a := range m.acts {
		if a.rise.takes(m, a.when) && !a.set.held {
			changed = put(&a.set.value, a.to) || changed
		}
	}
	if next := int(m.phase.value) + 1; next < len(m.begins) && m.now[m.begins[next].slot] == 1 {
		m.phase.value++
		changed = true
	}
	if !start {
		m.resets()
	}
	for _, st := range m.strikes {
		if st.when != nil && st.rise.takes(m, st.when) {
			st.hit(m.at)
		}
	}
	return m.failures() || changed
}

func (l latch) turn(m *machine) (changed bool) {
	switch {
	case m.now[l.reset.slot] == 1:
		return put(&l.cell.value, 0)
	case m.now[l.set.slot] == 1:
		return put(&l.cell.value, 1)
	}
	return false
}

// resets ends the resettable failures of the units whose reset_by has risen.
func (m *machine) resets() {
	for _, u := range m.units {
		if u.resetBy == nil || !u.reset.takes(m, u.resetBy) {
			continue
		}
		for _, st := range m.strikes {
			for i := range st.units {
				if st.Resettable && st.units[i] == u {
					st.active[i] = false
				}
			}
		}
	}
}

// refresh opens the next instant to everything that happens once in an instant.
func (m *machine) refresh() {
	for _, a := range m.acts {
		a.rise.spent = false
	}
	for _, st := range m.strikes {
		st.rise.spent = false
	}
	for _, u := range m.units {
		u.reset.spent = false
	}
}
