package region

import "knockon/run"

// Best is the runway end that a flight goes to where nobody names one; whoever asks, it
// is this one. It is one that suits the aircraft as it is, or else as it would be with
// nothing failed; or else the one with the most room, as far as it stops on any; or else
// that which looks best.
func Best(strips []Strip, w run.Whereabouts) int {
	whole := w
	whole.Left = w.Whole
	for _, as := range []run.Whereabouts{w, whole} {
		if i := fitting(strips, as); i >= 0 {
			return i
		}
	}
	if i := roomiest(strips, whole, func(float64, Strip) bool { return true }); i >= 0 {
		return i
	}
	return Guess(strips)
}

// fitting is the end that is long enough and has no more wind across or from behind than
// may be: the one in use at the destination of the book if it does, else the one with
// the most room; -1 for none.
func fitting(strips []Strip, w run.Whereabouts) int {
	return roomiest(strips, w, func(_ float64, s Strip) bool { return fits(s, w) })
}

// fits says so of one end.
func fits(s Strip, w run.Whereabouts) bool {
	room, stops := room(s, w)
	return stops && room >= 0 && s.CrossKt <= w.Left.CrossKt && s.TailKt <= w.Left.TailKt
}

// roomiest is the first end in use, or else the one with the most room, of those that
// count; -1 for none.
func roomiest(strips []Strip, w run.Whereabouts, counts func(room float64, s Strip) bool) int {
	found, most := -1, 0.0
	for i, s := range strips {
		m, stops := room(s, w)
		switch {
		case !stops || !counts(m, s):
		case s.InUse:
			return i
		case found < 0 || m > most:
			found, most = i, m
		}
	}
	return found
}
