package circuit

import (
	"slices"

	"knockon/book"
)

// NewLiveCourse lays a circuit on a flight that a run will leave at once, so
// that nothing is worked out beforehand. Results are those of NewCourse.
func NewLiveCourse(c *Circuit, reals Reals, knots []book.Time, step book.Time) *Course {
	if step <= 0 {
		step = DefaultStep
	}
	k := &Course{c: c, reals: reals, knots: knots, step: step, live: true}
	k.yesNoMoves()
	slices.Sort(k.moves)
	k.moves = slices.Compact(k.moves)
	return k
}

// Turn puts the machine on another flight from now on. Up to the present
// moment, that included, it must have the values of the flight so far; what
// jumps must do so later.
func (m *Machine) Turn(reals Reals, knots []book.Time) {
	m.course = NewLiveCourse(m.c, reals, knots, m.course.step)
	m.reals = reals
	clear(m.memo)
	clear(m.sums)
}

// horizon is how far ahead a live course is searched at once: a run often turns
// again soon.
const horizon = 60 * book.Second

// nextLive looks ahead piece by piece, no farther than until.
func (m *Machine) nextLive(until book.Time) book.Time {
	for from := m.now; ; {
		to := min(until, (from/horizon+1)*horizon)
		if t := m.crossingUpTo(to); t != book.Never || to == until {
			return t
		}
		from = to
	}
}

// Circuit returns the circuit that the machine runs.
func (m *Machine) Circuit() *Circuit { return m.c }
