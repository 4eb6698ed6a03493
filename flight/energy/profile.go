package energy

import (
	"math"
	"sort"
)

// Event is why a stretch, or a whole flight, ended.
type Event uint8

// The events.
const (
	Arrived      Event = iota // at the place, or the time, that was given
	Dry                       // no fuel is left
	Sinks                     // it cannot stay up, and has met the ground
	TooFar                    // it makes no way over the ground
	Lost                      // it never ends
	NeverStops                // it rolls on
	Stalls                    // its speed has decayed to the stall
	CannotSlow                // it has passed its design dive speed
	levelled                  // the altitude is reached
	sped                      // the speed is reached
	topOfDescent              //
	crossover                 // CAS and Mach number change over
	ceiling                   // it climbs no further
	starved                   // thrust is short
	again                     // time to look again
)

func (e Event) String() string {
	if int(e) < len(eventNames) {
		return eventNames[e]
	}
	return "event"
}

var eventNames = []string{
	"arrived", "runs dry", "cannot stay up", "makes no way", "never ends", "does not stop", "stalls", "cannot slow", "level", "at the wanted speed", "top of descent", "changes over to the Mach number or back", "climbs no further",
	"thrust is short", "looks again",
}

// Mark is an event on the way.
type Mark struct {
	TimeS float64
	Event Event
}

// Profile is a flight as flown. It is frozen once it has been given out.
type Profile struct {
	End   Event
	Marks []Mark

	start  State
	pieces []piece
	tag    tag  // of the pieces to come
	exact  bool // stretches end at whole microseconds
	ground *touched
	now    vector
	t      float64
}

func newProfile(s State) *Profile {
	p := &Profile{start: s, t: s.TimeS}
	p.now = vector{iDistance: s.DistanceM, iAltitude: s.AltitudeFt * feet, iSpeed: s.TASKt * knot, iMass: s.MassKg, iFuel: s.FuelKg}
	return p
}

func (p *Profile) mark(e Event) { p.Marks = append(p.Marks, Mark{p.t, e}) }

// Start and Finish are the first and the last state.
func (p *Profile) Start() State  { return p.start }
func (p *Profile) Finish() State { return p.At(p.t) }

// FuelKg is what was burnt and lost overboard.
func (p *Profile) FuelKg() float64 { return p.start.FuelKg - p.now[iFuel] }

// Seconds is how long it took.
func (p *Profile) Seconds() float64 { return p.t - p.start.TimeS }

// At is the state at a time, which is cut to the profile.
func (p *Profile) At(timeS float64) State {
	t := min(max(timeS, p.start.TimeS), p.t)
	if len(p.pieces) == 0 {
		return p.start
	}
	i := sort.Search(len(p.pieces), func(i int) bool { return p.pieces[i].start > t })
	q := &p.pieces[max(i-1, 0)]
	y := q.at(t - q.start)
	return q.flyer.state(&y, t)
}

func (f *flyer) state(y *vector, t float64) State {
	s := State{TimeS: t, DistanceM: y[iDistance], AltitudeFt: y[iAltitude] / feet, TASKt: y[iSpeed] / knot, MassKg: y[iMass], FuelKg: y[iFuel]}
	if o := f.forces(y); o.full > 0 {
		s.Lever = o.thrust / o.full
	}
	return s
}

// Steps lists the times between which the method made one step each.
func (p *Profile) Steps() []float64 {
	list := []float64{p.start.TimeS}
	for i := range p.pieces {
		list = append(list, p.pieces[i].start+p.pieces[i].length)
	}
	return list
}

// Forces are what acts on the aircraft at a time, in newtons, and the fuel flow.
type Forces struct{ ThrustN, DragN, FuelKgPerS, SinePath, GainMS2 float64 }

// Forces at a time within the profile.
func (p *Profile) Forces(timeS float64) Forces {
	if len(p.pieces) == 0 {
		return Forces{}
	}
	i := sort.Search(len(p.pieces), func(i int) bool { return p.pieces[i].start > timeS })
	q := &p.pieces[max(i-1, 0)]
	y := q.at(math.Min(timeS-q.start, q.length))
	o := q.flyer.forces(&y)
	return Forces{o.thrust, o.drag, o.flow, o.slope, o.gain}
}
