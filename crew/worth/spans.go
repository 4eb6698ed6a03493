package worth

import (
	"knockon/book"
	"knockon/circuit"
)

// beyond gives the moments in a that are not in b; both in order.
func beyond(a, b []circuit.Span) (rest []circuit.Span) {
	for _, s := range a {
		from := s.From
		for _, o := range b {
			if o.To <= from || o.From >= s.To {
				continue
			}
			if o.From > from {
				rest = append(rest, circuit.Span{From: from, To: o.From})
			}
			from = max(from, o.To)
		}
		if from < s.To {
			rest = append(rest, circuit.Span{From: from, To: s.To})
		}
	}
	return rest
}

// within gives the moments in both.
func within(a, b []circuit.Span) (both []circuit.Span) {
	for _, s := range a {
		for _, o := range b {
			if from, to := max(s.From, o.From), min(s.To, o.To); from < to {
				both = append(both, circuit.Span{From: from, To: to})
			}
		}
	}
	return both
}

func overlap(s circuit.Span, list []circuit.Span) bool {
	return len(within([]circuit.Span{s}, list)) > 0
}

func sum(list []circuit.Span) (t book.Time) {
	for _, s := range list {
		t += s.Length()
	}
	return t
}

// shifted is how far the stretches of two flights may lie apart and still be the
// same: what a crew does a little later or earlier comes a little later or
// earlier, and nobody learns anything from that.
const shifted = 30 * book.Second

// alike says that two flights have the same stretches, shifted at most.
func alike(a, b []circuit.Span) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if far(a[i].From, b[i].From) || far(a[i].To, b[i].To) {
			return false
		}
	}
	return true
}

func far(a, b book.Time) bool { return a-b > shifted || b-a > shifted }
