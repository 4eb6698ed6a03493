package book

// UnitsBehind lists the units that a control reaches: those that read it, or read a
// signal that does. A function or an effect that reads it as well, but for those units,
// makes it reach more than units: then none is listed.
func (b *Build) UnitsBehind(control string) (units []string) {
	reached := b.signalsBehind(control)
	for _, f := range b.Functions {
		if namesAny(f.Works, reached) {
			return nil
		}
	}
	for _, e := range b.Effects {
		if namesAny(e.Value, reached) {
			return nil
		}
	}
	for _, u := range b.Units {
		if namesAny(u.Needs, reached) || namesAny(u.ResetBy, reached) {
			units = append(units, u.ID)
		}
	}
	return units
}

// signalsBehind are a control and the signals that read it, directly or not.
func (b *Build) signalsBehind(control string) map[string]bool {
	reached := map[string]bool{control: true}
	for grown := true; grown; {
		grown = false
		for _, x := range b.Signals {
			if !reached[x.ID] && (namesAny(x.Value, reached) || namesAny(x.Set, reached) || namesAny(x.Reset, reached)) {
				reached[x.ID], grown = true, true
			}
		}
	}
	return reached
}

// namesAny says that an expression names one of some items.
func namesAny(e *Expr, items map[string]bool) (found bool) {
	e.Walk(func(e *Expr) { found = found || e.Op == OpRef && items[e.ID] })
	return found
}
