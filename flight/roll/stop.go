package roll

import "math"

// Roll is a landing as it comes out.
type Roll struct {
	AirM        float64 // from the threshold to touchdown
	TouchdownKt float64 // ground speed
	TotalM      float64 // from the threshold to the stop, or to where Stops gave up
	Seconds     float64 // from touchdown
	BrakeJ      float64 // energy taken up by the brakes
	Stops       bool    // false: still rolling after ten minutes or twenty kilometres
	Events      []Event
	Track       []Point
}

// Event is something that happens in the roll.
type Event struct {
	What string // "touchdown", a device's name, "wheels turn", "tyres grip", "reverse out", "stop"
	Point
}

// Point is a moment of the roll.
type Point struct {
	Seconds float64 // after touchdown
	Metres  float64 // from the threshold
	Kt      float64 // over the ground
}

const (
	longestStep = 0.5 // s
	longestRoll = 600.0
	farthest    = 20000.0
	mostSteps   = 20000
	stopped     = 1e-9 // m/s
)

// Stop works out a landing roll from the threshold to the stop: the air
// distance of AC 25-32, then forces on a point mass, with every jump of a force
// located. A senseless landing gives an error that names each senseless number.
func Stop(l Landing) (Roll, error) { return stop(l, longestStep) }

func stop(l Landing, step float64) (Roll, error) {
	if err := l.check(); err != nil {
		return Roll{}, err
	}
	air, touchdown := l.begin()
	r := Roll{AirM: air, TouchdownKt: touchdown, Events: make([]Event, 0, 12), Track: make([]Point, 0, 128)}
	s := newRolling(&l, &r)
	s.longest = step
	s.run(schedule(l.Changes))
	r.TotalM, r.Seconds, r.BrakeJ = air+s.now.x, s.now.t, s.now.work
	if r.Stops {
		s.event("stop")
	}
	return r, nil
}

// WheelsTurn is how many seconds after touchdown standing water keeps the wheels from
// turning: 0 where there is none, or where they do not turn within the roll, or of a
// senseless landing. It is the event of Stop, without what comes after it.
func WheelsTurn(l Landing) float64 {
	if fluidArea(l.Runway.Fluid, l.Airframe.Wheels) <= 0 || l.check() != nil {
		return 0
	}
	air, touchdown := l.begin()
	r := Roll{AirM: air, TouchdownKt: touchdown}
	s := newRolling(&l, &r)
	s.longest, s.last = longestStep, wheelsTurn
	s.run(schedule(l.Changes))
	if e := r.Events[len(r.Events)-1]; e.What == wheelsTurn {
		return e.Seconds
	}
	return 0
}

const wheelsTurn = "wheels turn"

// Careful is Stop for the runway's code, or for a better code if the landing
// takes longer on that: by the published figures a code may come out a little
// shorter than the one above it at high touchdown speeds, and no worse runway
// should look better. The second value is the code that decided.
func Careful(l Landing) (Roll, Code, error) {
	worst, err := Stop(l)
	decided := l.Runway.Code
	for code := l.Runway.Code + 1; code <= 6 && err == nil; code++ {
		better := l
		better.Runway.Code = code
		var r Roll
		if r, err = Stop(better); err == nil && longer(&r, &worst) {
			worst, decided = r, code
		}
	}
	return worst, decided, err
}

func longer(a, b *Roll) bool {
	if a.Stops != b.Stops {
		return b.Stops
	}
	return a.TotalM > b.TotalM
}

// state is what is integrated.
type state struct{ t, x, v, work float64 }

// rolling is a roll under way.
type rolling struct {
	*body
	roll    *Roll
	now     state
	phase   phase
	marks   []mark
	longest float64 // s, step
	last    string  // event after which nobody asks
}

// mark is a speed at which something jumps.
type mark struct {
	v     float64 // m/s
	what  string
	apply func(*phase)
}

func newRolling(l *Landing, r *Roll) *rolling {
	s := &rolling{body: newBody(l), roll: r, now: state{v: r.TouchdownKt / knotsPerMS}}
	s.phase = phase{floating: !math.IsInf(s.grip.limit, 1), reversing: true}
	s.marks = s.speedMarks()
	s.event("touchdown")
	return s
}

// speedMarks lists the speeds at which something jumps, highest first.
func (s *rolling) speedMarks() []mark {
	a, r := &s.landing.Airframe, &s.landing.Runway
	var all []mark
	add := func(kt float64, what string, apply func(*phase)) {
		m := mark{kt / knotsPerMS, what, apply}
		i := len(all)
		for i > 0 && all[i-1].v < m.v {
			i--
		}
		all = append(all[:i], append([]mark{m}, all[i:]...)...)
	}
	add(s.grip.bend(), "", func(*phase) {})
	if s.phase.floating {
		add(s.grip.limit, "tyres grip", func(p *phase) { p.floating = false })
	}
	if s.fluid > 0 {
		psi, gravity := a.Tyres.PSI, r.Fluid.Gravity
		add(Hydroplaning(psi, gravity), "", func(p *phase) { p.ploughing = true })
		add(SpinUp(psi/gravity), wheelsTurn, func(*phase) {})
	}
	if a.ReverseOutKt > 0 {
		add(a.ReverseOutKt, "reverse out", func(p *phase) { p.reversing = false })
	}
	return all
}

func (s *rolling) point() Point {
	return Point{s.now.t, s.roll.AirM + s.now.x, s.now.v * knotsPerMS}
}

func (s *rolling) event(what string) {
	s.roll.Events = append(s.roll.Events, Event{what, s.point()})
}
