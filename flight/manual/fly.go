package manual

import (
	"errors"
	"math"

	"knockon/flight"
)

// State is where a flight is. Time and distance count from its start.
type State struct{ TimeS, DistanceM, AltitudeFt, MassKg, FuelKg float64 }

// Systems is what the systems leave of a flight on a manual's numbers.
type Systems struct {
	Left, Right    float64 // share of the thrust that each side gives
	MostFt, MostKt float64
	LeakKgPerH     float64
	FuelRatio      float64 // of the manual's factors
	Setting        string  // of slats and flaps; "" is the usual one of a landing
}

// Plan is how the crew mean to fly.
type Plan struct {
	Air       flight.Air
	Wind      func(ft float64) float64 // from ahead, kt; nil: none
	DistanceM float64                  // over the ground to the touchdown
	CruiseFt  float64
	FieldFt   float64 // pressure altitude of the runway
}

// Ending is how a flight ends.
type Ending string

// The ways to end.
const (
	Arrived Ending = "arrived"
	Dry     Ending = "out of fuel"
	Short   Ending = "glides to the ground"
	NoWay   Ending = "makes no way against the wind"
	Unsaid  Ending = Notion
)

// Constants of the flight that no row gives.
const (
	gateFt      = 1500.0            // above the runway: where the final approach begins
	glideAngle  = 3 * math.Pi / 180 // of the final approach
	climbStepS  = 30.0              // of climb and descent
	cruiseStepS = 120.0
	atLevelFt   = 1.0  // nearer than this a level is reached
	mostSteps   = 4000 // of one flight; an hour of cruise takes 30
	feet        = 0.3048
	knot        = 1852.0 / 3600
)

type stage uint8

const (
	enRoute stage = iota
	descending
	approaching
)

// piece is a stretch on which everything changes evenly.
type piece struct {
	from, to State
	stage    stage
	thrust   float64 // typical, percent of take-off thrust
}

// Profile is a flight as flown.
type Profile struct {
	End   Ending
	Err   error // why the manual does not say: End is Unsaid
	Plan  Plan
	AimM  float64 // distance at which the touchdown lies, turns to lose height included
	start State

	pieces []piece
}

// Last is the last state of a flight.
func (p *Profile) Last() State {
	if len(p.pieces) == 0 {
		return p.start
	}
	return p.pieces[len(p.pieces)-1].to
}

// Divert flies from a state over a distance to a touchdown: up or down to the
// level of the plan, or the highest that is left, along the rows of the climb and
// the descent; the cruise; the descent; and a final approach of 3 degrees from
// 1,500 ft above the runway. A way that is too short for the descent is lengthened
// to what it takes: height is lost in turns. With one engine the level is at most
// the ceiling of the engine_out rows, and with no engine it glides.
func Divert(n *Numbers, s Systems, from State, plan Plan) *Profile {
	return begin(n, s, from, plan, from.DistanceM+max(plan.DistanceM, 0), enRoute)
}

// Leave flies on from a moment with other systems.
func (p *Profile) Leave(n *Numbers, s Systems, timeS float64) *Profile {
	var before []piece
	for i := range p.pieces {
		x := p.pieces[i]
		if x.to.TimeS < timeS {
			before = append(before, x)
			continue
		}
		at := x.at(timeS)
		x.to = at
		q := begin(n, s, at, p.Plan, p.AimM, x.stage)
		q.start, q.pieces = p.start, append(append(before, x), q.pieces...)
		return q
	}
	return p
}

func begin(n *Numbers, s Systems, from State, plan Plan, aim float64, at stage) *Profile {
	if plan.Wind == nil {
		plan.Wind = func(float64) float64 { return 0 }
	}
	f := &flyer{n: n, s: s, plan: plan, now: from, aim: aim, stage: at}
	f.run()
	return &Profile{End: f.end, Err: f.err, Plan: plan, AimM: f.aim, start: from, pieces: f.pieces}
}

// at is the state at a time within a piece.
func (x *piece) at(timeS float64) State {
	if x.to.TimeS <= x.from.TimeS {
		return x.to
	}
	u := min(max((timeS-x.from.TimeS)/(x.to.TimeS-x.from.TimeS), 0), 1)
	mix := func(a, b float64) float64 { return a + u*(b-a) }
	return State{timeS, mix(x.from.DistanceM, x.to.DistanceM), mix(x.from.AltitudeFt, x.to.AltitudeFt), mix(x.from.MassKg, x.to.MassKg), mix(x.from.FuelKg, x.to.FuelKg)}
}

// flyer is the crew.
type flyer struct {
	n     *Numbers
	s     Systems
	plan  Plan
	now   State
	aim   float64
	stage stage
	end   Ending
	err   error

	pieces []piece
}

// run flies stretch after stretch until the flight ends.
func (f *flyer) run() {
	working, err := f.working()
	for range mostSteps {
		switch {
		case errors.Is(err, errNoWay):
			f.end = NoWay
		case err != nil:
			f.end, f.err = Unsaid, err
		case f.end != "":
		case working == 0:
			err = f.glide()
			continue
		case f.stage == approaching:
			err = f.approach()
			continue
		case f.stage == descending:
			err = f.descend()
			continue
		default:
			err = f.fly(working)
			continue
		}
		return
	}
	f.end = NoWay
}

// working is how many engines give thrust; an engine that gives some of it is in
// no manual.
func (f *flyer) working() (float64, error) {
	count := f.n.Engines / 2 * (f.s.Left + f.s.Right)
	if count == f.n.Engines || count == f.n.Engines-1 || count == 0 {
		return count, nil
	}
	return 0, &Missing{f.n.From, "table", "flight with " + share(count/f.n.Engines) + " of the thrust"}
}

func (f *flyer) left() float64 { return f.aim - f.now.DistanceM }

func (f *flyer) gate() float64 { return f.plan.FieldFt + gateFt }

// fly is a stretch of climb, cruise or the way down to a lower level.
func (f *flyer) fly(working float64) error {
	m, err := f.enRoute(working)
	if err != nil {
		return err
	}
	need, err := f.needM(f.now)
	if err != nil {
		return err
	}
	if f.left() <= need {
		f.aim = f.now.DistanceM + need
		f.stage = descending
		return nil
	}
	var trouble error
	toGo := func(s State) float64 {
		need, err := f.needM(s)
		if err != nil {
			trouble = err
			return 1
		}
		return f.aim - s.DistanceM - need
	}
	err = f.stretch(m, toGo)
	if trouble != nil {
		return trouble
	}
	return err
}

// descend is a stretch of the last descent; once it is down the approach begins.
// Where less way is left than the approach takes it is lengthened, and what is
// more is flown level.
func (f *flyer) descend() error {
	if f.now.AltitudeFt > f.gate()+1e-6 {
		m, err := f.mover("descent", f.gate())
		if err != nil {
			return err
		}
		return f.stretch(m, nil)
	}
	f.stage = approaching
	if need := f.approachM(f.now); f.left() < need || f.left() < need+1 {
		f.aim = f.now.DistanceM + need
	}
	return nil
}

// needM is how far over the ground the descent and the approach take from a state.
func (f *flyer) needM(s State) (float64, error) {
	from := s.DistanceM
	if s.AltitudeFt <= f.gate() {
		return f.approachM(s), nil
	}
	m, err := f.mover("descent", f.gate())
	if err != nil {
		return 0, err
	}
	for s.AltitudeFt > f.gate()+1e-6 {
		if s, err = m.move(s, climbStepS, nil); err != nil {
			return 0, err
		}
	}
	return s.DistanceM - from + f.approachM(s), nil
}

func (f *flyer) approachM(s State) float64 {
	return max(s.AltitudeFt-f.plan.FieldFt, 0) * feet / math.Tan(glideAngle)
}

// stretch flies one step, to where something ends it.
func (f *flyer) stretch(m *mover, toGo func(State) float64) error {
	next, err := m.move(f.now, m.stepS, toGo)
	if err != nil {
		return err
	}
	f.add(next, m.thrust)
	return nil
}

// add flies to a state; the tanks may be empty before.
func (f *flyer) add(next State, thrust float64) {
	x := piece{from: f.now, to: next, stage: f.stage, thrust: thrust}
	if next.FuelKg <= 0 {
		x.to = x.at(f.now.TimeS + (next.TimeS-f.now.TimeS)*f.now.FuelKg/(f.now.FuelKg-next.FuelKg))
		x.to.FuelKg, f.end = 0, Dry
	}
	f.pieces, f.now = append(f.pieces, x), x.to
}
