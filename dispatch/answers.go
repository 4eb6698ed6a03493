package dispatch

import "knockon/book"

// answersNot says that all units that read a control, directly or through signals,
// are inoperative, and that there are such units.
func (s *survey) answersNot(control string) bool {
	units := unitsBehind(s.Build, control)
	for _, u := range units {
		if !(facts{out: s.Relief.Items}).broken(book.FailureRef{Unit: u}) {
			return false
		}
	}
	return len(units) > 0
}

// unitsBehind lists the units that a control reaches: those that read it, or read a
// signal that does. A function or an indication that reads it as well, but for those
// units, makes it reach more than units: then none is listed.
func unitsBehind(b *book.Build, control string) (units []string) {
	reached := map[string]bool{control: true}
	for grown := true; grown; {
		grown = false
		for _, x := range b.Signals {
			if !reached[x.ID] && (reads(x.Value, reached) || reads(x.Set, reached) || reads(x.Reset, reached)) {
				reached[x.ID], grown = true, true
			}
		}
	}
	for _, u := range b.Units {
		if reads(u.Needs, reached) || reads(u.ResetBy, reached) {
			units = append(units, u.ID)
		}
	}
	for _, f := range b.Functions {
		if reads(f.Works, reached) {
			return nil
		}
	}
	for _, e := range b.Effects {
		if reads(e.Value, reached) {
			return nil
		}
	}
	return units
}

// reads says that an expression names one of some items.
func reads(e *book.Expr, items map[string]bool) (found bool) {
	e.Walk(func(e *book.Expr) { found = found || e.Op == book.OpRef && items[e.ID] })
	return found
}
