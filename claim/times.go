package claim

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/say"
)

// never is what first and last give for a moment that does not come.
const never = 1_000_000

// times is when a yes/no is yes from the strike on. A moment counts as a
// microsecond here, so that a value of no duration and the last moment of the
// flight are stretches like any other: [strike, end), end being one
// microsecond after the flight.
type times struct {
	node   circuit.Node
	strike book.Time
	end    book.Time
	from   []circuit.Span // cut to [strike, end)
	starts int            // how many of them began at the strike or later, not counting the start of the flight
}

func newTimes(r *circuit.Trace, n circuit.Node, strike book.Time) times {
	t := times{node: n, strike: strike, end: r.End + 1}
	list := r.Spans(n)
	for i, s := range list {
		if i == len(list)-1 && s.To == r.End && r.At(n, r.End) != 0 {
			s.To = t.end
		}
		if s.To <= strike && s.From < strike {
			continue
		}
		if s.From >= strike && !(s.From == 0 && i == 0 && r.Initial(n) != 0) {
			t.starts++
		}
		t.from = append(t.from, circuit.Span{From: max(s.From, strike), To: s.To})
	}
	return t
}

func (t times) rises() int { return t.starts }

func (t times) last() float64 {
	if len(t.from) == 0 {
		return -1
	}
	if to := t.from[len(t.from)-1].To; to < t.end {
		return (to - t.strike).Seconds()
	}
	return never
}

func (t times) seconds() float64 {
	var sum book.Time
	for _, s := range t.from {
		sum += min(s.To, t.end-1) - s.From
	}
	return sum.Seconds()
}

// throughout says that it is yes at every moment of [from, to), or at from if
// that is all there is.
func (t times) throughout(from, to book.Time) bool {
	for _, s := range t.from {
		if s.From <= from && (s.To > from || s.From == from) {
			return s.To >= to
		}
	}
	return false
}

// firstNo is the first moment from a moment on at which it is no.
func (t times) firstNo(from book.Time) book.Time {
	for _, s := range t.from {
		if s.From <= from && s.To > from {
			return s.To
		}
	}
	return from
}

func (t times) clock(at book.Time) string { return say.After(at - t.strike) }

func (t times) firstTime() string {
	if len(t.from) == 0 {
		return "never yes"
	}
	return "yes at " + t.clock(t.from[0].From)
}

func (t times) firstNot() string {
	if t.throughout(t.strike, t.end) {
		return "yes throughout"
	}
	return "no at " + t.clock(t.firstNo(t.strike))
}
