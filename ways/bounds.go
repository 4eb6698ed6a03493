package ways

import (
	"errors"
	"math"

	"knockon/ways/diagram"
)

// Bounds are what the smallest sets alone tell of the probability Q of the
// condition. If a further failure never makes the condition false and all sets
// are known, Largest <= Q <= Union <= Sum. If only sets up to some order are
// known, Largest <= Q still holds and the others tell nothing about Q.
type Bounds struct {
	Largest float64 `json:"likeliest_set"` // of the probabilities of the sets
	// Union is 1 - product over the sets of (1 - their probability): Q, if the
	// sets shared no event. It is also called the min cut upper bound.
	Union float64 `json:"union"`
	Sum   float64 `json:"sum"` // of the probabilities of the sets, also called rare-event sum
}

// Bounds works out the bounds. It fails if an event has no probability, and for
// a condition that a failure can also prevent.
func (w *Ways) Bounds() (Bounds, error) {
	if err := w.needSums(); err != nil {
		return Bounds{}, err
	}
	if w.parts.Top < 0 {
		q := btof(w.parts.Opposite)
		return Bounds{q, q, q}, nil
	}
	b := Bounds{
		Largest: w.fold(1, (*diagram.Families).Largest)[w.parts.Top],
		Sum:     w.fold(1, (*diagram.Families).Sum)[w.parts.Top],
	}
	b.Union = w.union(b)
	return b, nil
}

var errPrevent = errors.New("a failure can also prevent the condition, so its smallest sets bound nothing")

func (w *Ways) needSums() error {
	if !w.Monotone() {
		return errPrevent
	}
	return w.needChances()
}

// fold joins the probabilities of the events, raised to a power, part by part.
func (w *Ways) fold(power float64, join func(*diagram.Families, diagram.Family, []float64) float64) []float64 {
	value := make([]float64, len(w.found))
	for i, f := range w.found {
		if f.solved == nil {
			value[i] = math.Pow(w.l.Events()[w.parts.List[i].Event].P, power)
			continue
		}
		value[i] = join(f.s, f.sets, byLevel(value, f.setsAt))
	}
	return value
}

// byLevel returns the values of parts, given by part, by level.
func byLevel[T any](value []T, at []int) []T {
	v := make([]T, len(at))
	for level, part := range at {
		v[level] = value[part]
	}
	return v
}

const mostPowers = 400

// union uses -log(1-q) = q + q²/2 + q³/3 + …: the sum of each power over all
// sets needs no list of them. What is cut off is added at its largest, so that
// the result stays an upper bound.
func (w *Ways) union(b Bounds) float64 {
	if b.Largest >= 1 {
		return 1
	}
	log, term := 0.0, b.Sum
	for k := 1.0; ; k++ {
		log += term / k
		rest := term * b.Largest / (k + 1) / (1 - b.Largest)
		if rest <= 1e-17*log || k == mostPowers {
			return min(-math.Expm1(-log-rest), b.Sum)
		}
		term = w.fold(k+1, (*diagram.Families).Sum)[w.parts.Top]
	}
}
