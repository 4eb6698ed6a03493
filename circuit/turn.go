package circuit

import (
	"slices"

	"knockon/book"
)

// NewLiveCourse lays a circuit on a flight that a run will leave at once, so
// that nothing is worked out beforehand. Results are those of NewCourse.
func NewLiveCourse(c *Circuit, reals Reals, knots []book.Time, step book.Time) *Course {
	return liveFrom(c, reals, knots, step, knots[0], nil)
}

// NewLedCourse is NewLiveCourse of a flight that another run flew, which was on a
// course in the end: what it found holds here too. Results are the same.
func NewLedCourse(c *Circuit, reals Reals, knots []book.Time, step book.Time, last *Course) *Course {
	k := NewLiveCourse(c, reals, knots, step)
	if last.c == c {
		k.spells = last.spells
	}
	return k
}

// liveFrom is the same for what comes after a moment; before it the flight is the
// one on which the spells are.
func liveFrom(c *Circuit, reals Reals, knots []book.Time, step, from book.Time, spells []spell) *Course {
	if step <= 0 {
		step = DefaultStep
	}
	k := &Course{c: c, reals: reals, knots: knots, step: step, live: true, spells: append(slices.Clip(spells), c.newSpell(from))}
	k.yesNoMoves(from)
	slices.Sort(k.moves)
	k.moves = slices.Compact(k.moves)
	return k
}

// Turn puts the machine on another flight from now on. Up to the present
// moment, that included, it must have the values of the flight so far; what
// jumps must do so later. It is known up to end, where it has no knot unless the
// flight ends there.
func (m *Machine) Turn(reals Reals, knots []book.Time, end book.Time) {
	step := m.course.step
	if m.stride > 0 {
		step = m.stride
	}
	spells := m.course.spells
	if m.alone {
		spells = nil
	}
	m.course = liveFrom(m.c, reals, knots, step, m.now, spells)
	m.course.known = end
	m.reals, m.turned = reals, m.now
	clear(m.memo)
	clear(m.levels)
	clear(m.sums)
	clear(m.grown)
	clear(m.glances)
	m.stretch++
}

// Board puts the machine on a course that another machine of the circuit was
// turned onto at this moment: as Turn does, with what is known of it.
func (m *Machine) Board(k *Course) {
	m.course, m.reals, m.turned = k, k.reals, m.now
	clear(m.memo)
	clear(m.levels)
	clear(m.sums)
	clear(m.grown)
	clear(m.glances)
	m.stretch++
}

// Extend says more of the flight that the machine turned onto: it has the same
// values as far as it was known.
func (m *Machine) Extend(reals Reals, knots []book.Time, end book.Time) {
	k := &Course{c: m.c, reals: reals, knots: knots, step: m.course.step, live: true, spells: m.course.spells, known: end}
	k.yesNoMoves(m.now)
	slices.Sort(k.moves)
	k.moves = slices.Compact(k.moves)
	m.course, m.reals = k, reals
	m.stretch++
}

// Alone says that no other run will be led along the flight of this machine, so
// that nothing need be kept for it.
func (m *Machine) Alone() { m.alone = true }

// Stride sets how far apart searches look at first, from the next Turn on.
// Results do not depend on it.
func (m *Machine) Stride(step book.Time) { m.stride = step }

// A live course is searched ahead piece by piece: a run often turns again soon
// after it has turned, and what was found beyond is then lost.
const (
	leastAhead = 15 * book.Second
	mostAhead  = 240 * book.Second
)

// nextLive looks ahead as far as the last turn lies back, and on until it finds
// something, no farther than until.
func (m *Machine) nextLive(until book.Time) book.Time {
	for from := m.now; ; {
		to := min(until, from+min(max(from-m.turned, leastAhead), mostAhead))
		if t := m.crossingUpTo(to); t != book.Never || to == until {
			return t
		}
		from = to
	}
}

// Course returns the course that the machine is on.
func (m *Machine) Course() *Course { return m.course }

// Circuit returns the circuit that the machine runs.
func (m *Machine) Circuit() *Circuit { return m.c }

// glance is what the flight said about a moment: several tests in turn ask for
// the same quantities at the same moments.
type glance struct {
	at   book.Time
	have uint64 // quantities that are in v, as bits
	v    [mostQuantities]float64
}

const (
	glances        = 32
	mostQuantities = 32
)

// slotOf is where one of so many, a power of two, is kept for a moment.
func slotOf(t book.Time, of uint64) uint64 { return uint64(t) * 0x9e3779b97f4a7c15 >> 32 & (of - 1) }

// real is the value of a quantity of the flight.
func (m *Machine) real(q int, t book.Time) float64 {
	g := &m.glances[slotOf(t, glances)]
	if g.at != t {
		g.at, g.have = t, 0
	}
	if bit := uint64(1) << q; g.have&bit == 0 {
		g.have |= bit
		g.v[q] = m.reals.Value(q, t)
	}
	return g.v[q]
}
