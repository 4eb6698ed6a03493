package energy

import (
	"fmt"

	"knockon/book"
	"knockon/flight"
	"knockon/flight/roll"
)

// Mission is a flight of the book that is flown with drag and thrust from the
// start to the stand, whatever the systems do to it. It is frozen.
type Mission struct {
	a              *Aircraft
	plan           Plan
	massKg, fuelKg float64
	distanceM      float64
	fromFt, toFt   float64
	rotateKt       float64
	icing          [2]float64 // ft
	wet            bool
	home           roll.Runway // of the book
	fromKt         float64     // from ahead on the runway of departure
	fromCode       roll.Code   // of the runway of departure
	out, in        []taxi
	there          *Diversion // nil: to the destination of the book
	starts, ends   float64    // m: where a diversion begins, and where its runway is
	decisionKt     float64    // of the take-off
	levelFt, capFt float64    // the level of the book, and the one that a descent left
	circuit        bool       // the runway is flown to by a circuit
	rounds         int        // how often it went around
	hold           Turn
	rejected       bool // the take-off
	taxiing        bool // when it was rejected
}

// taxi is a leg on the ground in even time.
type taxi struct {
	seconds, toKt float64
	braking       bool
}

const taxiKt = 15.0

// NewMission makes a flight ready to be flown. The numbers of the flight must
// be ones that flight.Plan accepts, or flight.Fits where a question supposes some.
func NewMission(f *book.Flight, b *book.Aircraft) (*Mission, error) {
	if err := fits(f, b); err != nil {
		return nil, err
	}
	a, err := Decode(b)
	if err != nil {
		return nil, err
	}
	of := func(name string) float64 { v, _ := f.Number(name); return v }
	m := &Mission{
		a: a, plan: PlanOf(f), massKg: of("takeoff_mass_kg"), fuelKg: of("fuel_kg"), distanceM: of("distance_nm") * 1852,
		fromFt: of("from_elevation_ft"), toFt: of("to_elevation_ft"), rotateKt: of("rotate_kt"), fromKt: of("from_headwind_kt"),
		icing: [2]float64{of("icing_from_ft"), of("icing_to_ft")}, home: RunwayOf(f), wet: RunwayOf(f).Code < dryCode, fromCode: codeOf(f, "from_runway_code"),
		out: taxiOut(60 * of("taxi_out_min")), in: taxiIn(60 * of("taxi_in_min")),
	}
	m.levelFt, m.capFt, m.decisionKt = m.plan.CruiseFt, book.NoLimit, m.rotateKt
	if v, given := f.Number("decision_kt"); given {
		m.decisionKt = min(v, m.rotateKt)
	}
	if m.massKg > a.MaxTakeoffMassKg {
		return nil, fmt.Errorf("flight %q: takeoff_mass_kg is %g, above max_takeoff_mass_kg of %g", f.ID, m.massKg, a.MaxTakeoffMassKg)
	}
	return m, nil
}

// fits asks of a flight of the book that its fuel lasts by its plan; what a question
// supposes of a flight may run dry on the way.
func fits(f *book.Flight, b *book.Aircraft) error {
	if f != nil && f.Supposed != "" {
		return flight.Fits(f, b)
	}
	_, err := flight.Plan(f, b)
	return err
}

// Aircraft are the coefficients that it is flown with.
func (m *Mission) Aircraft() *Aircraft { return m.a }

func taxiOut(seconds float64) []taxi {
	if seconds == 0 {
		return nil
	}
	stand, change := min(10, seconds/5), min(15, seconds/5)
	return []taxi{{stand, 0, false}, {change, taxiKt, false}, {seconds - 2*stand - 2*change, taxiKt, false}, {change, 0, true}, {stand, 0, false}}
}

func taxiIn(seconds float64) []taxi {
	if seconds == 0 {
		return []taxi{{5, 0, false}}
	}
	stand, change := min(5, seconds/4), min(15, seconds/4)
	return []taxi{{seconds - stand - change, taxiKt, false}, {change, 0, true}, {stand, 0, false}}
}

// tag says what a piece of a flight is.
type tag struct {
	leg      leg
	taxi     int     // leg of the taxi
	until    float64 // s: end of a timed leg
	onGlide  bool
	braking  bool
	liftOff  float64 // s; the wheels run down from then on
	liftOffV float64 // m/s over the ground
	touch    float64 // s: touchdown
	detour   float64 // m: way added to that of the mission
	held     float64 // m of it in holds: cannot be cut again
	flaredKt float64 // airspeed at which the flare began
	pause    float64 // m: where a hold began; 0: it makes way
	watched  bool    // the descent fits into the way that is left
}

// leg is a part of a flight.
type leg uint8

const (
	legTaxiOut leg = iota
	legSpool       // the take-off roll begins
	legRoll
	legRotate
	legFirstClimb
	legClimb
	legCruise
	legDescent
	legHold
	legEmergency // down as steeply as the limits allow
	legGate      // level, and slowing, until the final path is met
	legFinal     // down the path
	legFlare
	legTouch // the wheels spin up, nothing brakes yet
	legBrake
	legTaxiIn
	legStand
)

func (l leg) ground() bool { return l < legFirstClimb || l > legFlare }

// Fly flies the mission with one configuration throughout.
func (m *Mission) Fly(c Config) *Path {
	s := State{AltitudeFt: m.fromFt, TASKt: m.fromKt, MassKg: m.massKg, FuelKg: m.fuelKg}
	p := newProfile(s)
	p.exact = true
	g := m.guide(c, p)
	for i, l := range m.out { // the fuel of the book is that at brake release
		burnt := g.taxiFlow(i == 0) * l.seconds
		p.now[iMass], p.now[iFuel] = p.now[iMass]+burnt, p.now[iFuel]+burnt
	}
	return g.rest()
}

// Leave gives the path that is the same up to t, and from the next microsecond
// on is flown with another configuration.
func (p *Path) Leave(t book.Time, c Config) *Path { return p.LeaveAhead(t, c).Whole() }

// LeaveAhead does the same, and leaves the path open.
func (p *Path) LeaveAhead(t book.Time, c Config) *Path {
	return p.keep(p.mission.guide(c, p.upTo(t)).ahead((t + leastAhead).Seconds()))
}

// upTo is the same flight up to t, ready to be flown on a microsecond later.
func (p *Path) upTo(t book.Time) *Profile {
	q := newProfile(State{})
	q.exact = true
	q.ground = p.flown.ground.known(t)
	i := p.pieceAt(t)
	q.pieces = p.flown.pieces[: i+1 : i+1] // pieces never change: what is flown on is put behind a copy
	was := &p.flown.pieces[i]
	s := t.Seconds()
	q.now, q.tag = was.at(s-was.start), was.tag
	q.t = (t + 1).Seconds()
	q.start = was.flyer.state(&q.now, s)
	return q
}

// guide is the crew of a mission. They keep to speeds that they see before them,
// but fly on at the level of the book: what a failure means for the level is
// theirs to find out. On a diversion they keep to the level that they know.
func (m *Mission) guide(c Config, p *Profile) *missionGuide {
	if m.there == nil {
		c.MostFt = book.NoLimit
	}
	s := State{TimeS: p.t, DistanceM: p.now[iDistance], AltitudeFt: p.now[iAltitude] / feet, TASKt: p.now[iSpeed] / knot, MassKg: p.now[iMass], FuelKg: p.now[iFuel], Lever: p.start.Lever}
	g := newGuide(m.a, c, s, m.plan)
	g.p, g.wind, g.floor = p, m.breeze(), min(m.fromFt, m.toFt)*feet-1
	g.plan.Landing = c
	return &missionGuide{guide: g, m: m}
}
