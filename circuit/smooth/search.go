package smooth

import (
	"math"

	"knockon/book"
)

// Look is a comparison at one moment: whether it is another than it was when
// the search began, and by how much its sides differ.
type Look struct {
	At     book.Time
	Differ bool
	By     float64
}

// Comparison is what a search looks at.
type Comparison interface {
	// Look evaluates it at a moment.
	Look(at book.Time) Look
	// Corner is the next moment after from at which something in it may bend
	// sharply.
	Corner(from book.Time) book.Time
}

// First returns the first moment after from, not after until, at which a
// comparison differs, or Never. It looks from one corner to the next and
// divides wherever the comparison might turn.
func First(c Comparison, from, until book.Time) book.Time {
	for a := c.Look(from); from < until; {
		b := c.Look(min(c.Corner(from), until))
		if t := Between(c, a, b); t != book.Never {
			return t
		}
		from, a = b.At, b
	}
	return book.Never
}

// fine is the shortest stretch that is divided to look for a double crossing.
const fine = 10 * book.Second / 1000

// Between finds the first moment after a, not after b, at which the comparison
// differs. A stretch over which the margin runs nearly straight is not divided.
func Between(c Comparison, a, b Look) book.Time {
	if b.At-a.At <= 1 {
		if b.Differ {
			return b.At
		}
		return book.Never
	}
	mid := c.Look(a.At + (b.At-a.At)/2)
	if mid.Differ {
		return Between(c, a, mid)
	}
	if b.At-a.At <= fine || straight(a, mid, b) {
		if b.Differ {
			return bisect(c, mid.At, b.At)
		}
		return book.Never
	}
	if t := Between(c, a, mid); t != book.Never {
		return t
	}
	return Between(c, mid, b)
}

func straight(a, mid, b Look) bool {
	bend := math.Abs(mid.By - (a.By+b.By)/2)
	near := min(math.Abs(a.By), math.Abs(b.By), math.Abs(mid.By))
	return bend <= 1e-9*(math.Abs(a.By)+math.Abs(b.By)) || 4*bend <= near
}

// bisect narrows (same, differ] to the first microsecond that differs.
func bisect(c Comparison, lo, hi book.Time) book.Time {
	for hi-lo > 1 {
		if mid := lo + (hi-lo)/2; c.Look(mid).Differ {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}
