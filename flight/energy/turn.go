package energy

import (
	"errors"
	"fmt"

	"knockon/book"
	"knockon/flight/roll"
)

// Kind is what a crew make of the flight from a moment on.
type Kind uint8

// The kinds of turns.
const (
	Diverting   Kind = iota // to another runway, straight in where there is room
	Returning               // to a near one, by a circuit
	GoingAround             // and by a circuit to the same runway again
	Holding                 // until a time or a mass, then on
	Descending              // as steeply as the limits allow, then on
	Rejecting               // the take-off; on the taxi out it stops where it is
)

func (k Kind) String() string {
	return [...]string{"divert", "return", "go around", "hold", "descend", "reject the take-off"}[k]
}

// Turn is one of these with its numbers.
type Turn struct {
	Kind        Kind
	To          Diversion // of Diverting, Returning and Rejecting (its runway is the one rolled on)
	LevelFt     float64   // of Holding (0: the one there is) and Descending; pressure altitude
	UntilS      float64   // of Holding, seconds of the flight; 0: no such limit
	UntilMassKg float64   // of Holding; 0: no such limit
}

// mostRounds is how often a flight goes around.
const mostRounds = 5

// CanTurn says in a pilot's words why a turn cannot be flown at a moment; nil where
// it can.
func (p *Path) CanTurn(t book.Time, k Kind) error {
	if t < 0 || t >= p.End() {
		return errors.New("the flight is over")
	}
	x, _ := p.at(t)
	l := x.tag.leg
	switch k {
	case Rejecting:
		return p.canReject(t, x)
	case GoingAround:
		return p.canGoAround(t, x)
	}
	switch {
	case l.ground():
		return errors.New("the flight is on the ground")
	case l == legFinal || l == legFlare:
		return errors.New("the final approach has begun: land or go around first")
	}
	return nil
}

func (p *Path) canGoAround(t book.Time, x *piece) error {
	l := x.tag.leg
	down := l == legTouch || l == legBrake
	switch {
	case p.mission.rounds >= mostRounds:
		return fmt.Errorf("it has gone around %d times: no more is looked at", mostRounds)
	case l.ground() && !down, p.mission.rejected:
		return errors.New("the flight is on the ground")
	case l < legGate:
		return errors.New("no approach has begun")
	case p.mission.a.running(x.flyer.c) == 0:
		return errors.New("no engine gives thrust: a go-around cannot be flown")
	case down && t >= book.AtSeconds(x.tag.touch+roll.Transition(0, 2)):
		return errors.New("the landing roll has begun: with reverse selected it is landed")
	}
	return nil
}

// Taxiing says that the flight is on its way out to the take-off at a moment.
func (p *Path) Taxiing(t book.Time) bool {
	x, _ := p.at(t)
	return x.tag.leg < legSpool
}

// canReject asks for a take-off roll below the decision speed, or for the taxi
// before it, which then ends where the aircraft stops.
func (p *Path) canReject(t book.Time, x *piece) error {
	kt := p.motionNow(qAirspeedKt, t)
	switch l := x.tag.leg; {
	case p.mission.rejected:
		return errors.New("the take-off is rejected already")
	case l > legRotate:
		return errors.New("the flight is past its take-off roll")
	case l == legRotate || kt >= p.mission.decisionKt:
		return fmt.Errorf("at %.0f kt the take-off is continued: the decision speed is %.0f kt", kt, p.mission.decisionKt)
	}
	return nil
}

func (p *Path) motionNow(q int, t book.Time) float64 {
	x, s := p.at(t)
	v, _ := p.motion(q, x, s)
	return v
}

// TurnAhead gives the path that is the same up to t, that included, and is then
// flown as the turn says, with the given configuration; it is open, as that of
// DivertAhead. A turn that CanTurn refuses leaves the flight as it is.
func (p *Path) TurnAhead(t book.Time, turn Turn, c Config) *Path {
	if p.CanTurn(t, turn.Kind) != nil {
		return p
	}
	q := p.upTo(t)
	if p.mission.Aircraft().running(&c) == 0 && p.InAir(t) {
		turn.To.DistanceM += p.arcsM(t, turn.To, &c)
	}
	m := p.mission.turned(turn, q, p.below(t))
	g := m.guide(c, q)
	g.makeRoom()
	path := g.ahead((t + leastAhead).Seconds())
	path.before, path.since = p, t
	return path.joined()
}

// arcsM is by how much the turns onto a way and onto the runway make a glide longer.
func (p *Path) arcsM(t book.Time, to Diversion, c *Config) float64 {
	a, s, air := p.mission.Aircraft(), StateAt(p, t), p.mission.plan.Air
	low := s
	low.AltitudeFt = min(s.AltitudeFt, to.Runway.AltitudeFt+slowGlideFt)
	return a.arcM(s, air, c, to.TurnDeg) + a.arcM(low, air, c, to.AlignDeg)
}

// Turn does the same to the end.
func (p *Path) Turn(t book.Time, turn Turn, c Config) *Path { return p.TurnAhead(t, turn, c).Whole() }

// below is the surface that the flight is over at a moment.
func (p *Path) below(t book.Time) surface {
	x, s := p.at(t)
	return p.mission.below(x.part(iDistance, s))
}

// turned is the mission from a turn on; it begins the leg that the turn asks for.
func (m *Mission) turned(turn Turn, q *Profile, under surface) *Mission {
	here := q.now[iDistance]
	switch turn.Kind {
	case Diverting, Returning:
		n := m.diverted(turn.To, here, under)
		n.circuit = turn.Kind == Returning || turn.To.DistanceM < finalM
		n.inCircuit(q)
		if l := q.tag.leg; l > legFirstClimb {
			q.next(legClimb)
		}
		q.tag.detour, q.tag.held, q.tag.pause = 0, 0, 0 // the way counts from here
		return n
	case GoingAround:
		return m.goneAround(q)
	case Holding:
		return m.held(turn, q)
	case Descending:
		return m.descended(turn, q)
	}
	return m.rejecting(turn, q)
}
