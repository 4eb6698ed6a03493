package worth

import (
	"knockon/book"
	"knockon/circuit"
)

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
