package energy

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/flight/roll"
)

// touched is the landing of a flight, from touchdown on. It is frozen; a change of
// the configuration makes a new one.
type touched struct {
	at      float64  // s
	was     *touched // before the last change; nil: there was none
	since   float64  // s: when that change came
	spinS   float64  // time that the wheels take
	landing roll.Landing
	rolled  roll.Roll
	turning bool    // the wheels turn from the first
	spoolS  float64 // time that the engines take to idle
	turn    float64 // s after touchdown: the wheels begin to turn
	brake   float64 // s after touchdown: the brakes can come
	last    level
	others  []roll.Change // of spoilers and reverse
	wanted  []roll.Change // of the brakes, when the configurations want them
}

// spin is how much of the ground speed the wheels have.
func (g *touched) spin(now float64) float64 {
	if g.turning {
		return 1
	}
	return min(1, max(0, (now-g.at-g.turn)/g.spinS))
}

func (g *touched) knots() []book.Time {
	return []book.Time{book.AtSeconds(g.at), book.AtSeconds(g.at + g.turn), book.AtSeconds(g.at + g.turn + g.spinS), book.AtSeconds(g.at + g.brake)}
}

// Landing is the landing of the flight and how it was rolled: on from where it is slow
// enough for the taxi as well, to the stop. ok is false where the flight never touched
// down on its runway.
func (p *Path) Landing() (l roll.Landing, r roll.Roll, ok bool) {
	if g := p.flown.ground; g != nil {
		return g.landing, g.rolled, true
	}
	return l, r, false
}

// Touchdown is the moment of the touchdown, and the state then.
func (p *Path) Touchdown() (at book.Time, s State, ok bool) {
	if g := p.flown.ground; g != nil {
		at = book.AtSeconds(g.at)
		return at, StateAt(p, at), true
	}
	return 0, s, false
}

// strip is the runway that is landed on: that of the diversion, or that of the book.
func (m *Mission) strip() roll.Runway {
	if m.there != nil {
		return m.there.Runway
	}
	return m.home
}

// RunwayOf is the runway that a flight of the book lands on at its destination: of
// the elevation, the wind and the wetness that the flight gives.
func RunwayOf(f *book.Flight) roll.Runway {
	of := func(name string) float64 { v, _ := f.Number(name); return v }
	r := roll.Runway{AltitudeFt: of("to_elevation_ft"), Air: PlanOf(f).Air, HeadwindKt: of("to_headwind_kt"), Code: codeOf(f, "to_runway_code")}
	if _, given := f.Number("to_runway_code"); !given && of("runway_wet") != 0 {
		r.Code = wetCode
	}
	return r
}

// codeOf is the condition code that a flight gives for a runway; dry where it gives none.
func codeOf(f *book.Flight, name string) roll.Code {
	if v, given := f.Number(name); given {
		return roll.Code(v)
	}
	return dryCode
}

// The codes of a runway of which no more is known than whether it is wet.
const (
	dryCode roll.Code = 6
	wetCode roll.Code = 5
)

// taxisOn says that the flight does not stop on the runway but taxies on from it.
func (m *Mission) taxisOn() bool { return m.there == nil && len(m.in) > 1 }

// rollOut rolls to the stop, or to the speed of the taxi, with the configuration as it
// is, and has been.
func (g *missionGuide) rollOut() Event {
	p := g.p
	if p.ground == nil {
		p.ground = g.firstTouch()
	} else {
		p.ground = p.ground.changed(g.a.levels(g.shape()), p.t)
	}
	head := g.m.strip().HeadwindKt
	g.wind = func(*vector) float64 { return head }
	g.layTrack()
	switch {
	case !p.ground.rolled.Stops:
		return NeverStops
	case g.m.taxisOn():
		return g.next(legTaxiIn)
	}
	g.next(legStand)
	if g.m.rejected {
		return g.even(stayS, 0, idleTaxiLever)
	}
	return g.even(standS, 0, idleTaxiLever)
}

// standS is how long a diversion stands at its end: an arbitrary tail after the stop.
const standS = 5.0

// stayS is the same of a flight that did not take off: long enough for its crew to do
// their lists (an assumption).
const stayS = 300.0

// firstTouch makes the landing of a flight that touches down now, or the roll of a
// take-off that is rejected now.
func (g *missionGuide) firstTouch() *touched {
	r := g.m.strip()
	t := &touched{at: g.p.t, since: g.p.t, spinS: g.a.SpinUpS, landing: roll.Landing{Airframe: g.a.Airframe(g.c, r), Runway: r, MassKg: g.p.now[iMass]}}
	if g.m.rejected {
		t.landing.FromKt = max(g.overGroundKt(), 1e-3)
		t.turning = true
		if !g.m.taxiing { // the engines give take-off thrust yet
			t.last.levers, t.spoolS = 1, spoolDownS
			t.others = []roll.Change{{Device: roll.Levers, To: 1}}
		}
	} else {
		t.landing.ThresholdKt = g.thresholdKt()
	}
	t.add(g.a.levels(g.shape()), 0)
	return t
}

func (g *missionGuide) overGroundKt() float64 {
	return (g.p.now[iSpeed] - g.wind(&g.p.now)*knot) / knot
}

// afterS is just after the first moment: of two changes at one the later counts.
const afterS = 1e-6

// spoolDownS is how long the engines take from take-off thrust to idle (common practice).
const spoolDownS = 3.0

// thresholdKt is the airspeed over the threshold: that of the final approach, or
// the one there was where the flight came in faster.
func (g *missionGuide) thresholdKt() float64 {
	wanted := g.speedOnFinal()
	if flared := g.p.tag.flaredKt; flared > wanted+2*nearKt {
		return flared
	}
	return wanted
}

// known is the landing as it was known at a moment: nil before touchdown.
func (t *touched) known(at book.Time) *touched {
	for t != nil && book.AtSeconds(t.since) > at {
		t = t.was
	}
	return t
}

// changed is the same landing with other devices from now on.
func (t *touched) changed(l level, now float64) *touched {
	n := *t
	n.was, n.since = t, now
	n.others, n.wanted = slices.Clone(t.others), slices.Clone(t.wanted)
	n.add(l, max(0, now-t.at))
	return &n
}

// add notes how far the devices are out from a moment on, and rolls.
func (t *touched) add(l level, s float64) {
	t.note(l, s)
	t.rolled, _ = roll.Stop(t.landing) // a senseless landing does not stop
}

// note makes the landing one with the devices out so far from a moment on.
func (t *touched) note(l level, s float64) {
	put := func(list []roll.Change, d roll.Device, was, to, over, first float64) []roll.Change {
		if was == to {
			return list
		}
		return append(list, roll.Change{Device: d, At: max(s, first), Over: over, To: to})
	}
	t.others = put(t.others, roll.Spoilers, t.last.spoilers, l.spoilers, spoilerOverS, 0)
	t.others = put(t.others, roll.Levers, t.last.levers, l.levers, t.spoolS, min(t.spoolS, afterS))
	t.others = put(t.others, roll.Engines, t.last.engines, l.engines, 0, 0)
	t.others = put(t.others, roll.Reverse, t.last.reverse, l.reverse, reverseOverS, roll.Transition(0, 2))
	t.wanted = put(t.wanted, roll.Brakes, t.last.brakes, l.brakes, brakeOverS, 0)
	t.last = l
	t.wheels(s)
	t.landing.Changes = slices.Clone(t.others)
	for _, c := range t.wanted {
		c.At = max(c.At, t.brake)
		t.landing.Changes = append(t.landing.Changes, c)
	}
}

// wheels works out when the wheels turn and the brakes can come, if that is not
// past: with what the other devices do, and no brakes before.
func (t *touched) wheels(now float64) {
	if now > 0 && now >= t.turn {
		return
	}
	if t.turning {
		t.brake = roll.Transition(0, 1)
		return
	}
	free := t.landing
	free.Changes = t.others
	t.turn = microsecond(roll.WheelsTurn(free))
	t.brake = roll.Transition(0, 1)
	if t.turn > 0 {
		t.brake = max(t.brake, t.turn+t.spinS)
	}
	t.brake = microsecond(t.brake)
}

// layTrack lays the rest of the roll as pieces of the path.
func (g *missionGuide) layTrack() {
	p, t := g.p, g.p.ground
	head := g.m.strip().HeadwindKt * knot
	f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: law{pathGiven: true, lever: idleTaxiLever}}
	flow := f.forces(&p.now).flow + g.c.LeakKgPerS
	since := p.t - t.at
	if since < 1e-6 {
		p.now[iSpeed] = t.rolled.TouchdownKt*knot + head
	}
	p.tag.leg = legBrake
	first := p.now[iDistance] - t.metresAt(since)
	for _, k := range g.track() {
		if h := k.Seconds - since; h > 1e-6 {
			g.lay(f, h, flow, first+k.Metres, k.Kt*knot+head, since >= t.brake-1e-7)
			since = k.Seconds
		}
	}
	p.t = math.Round((t.at+microsecond(since))*1e6) / 1e6
	p.now[iSpeed] = head
	if g.m.taxisOn() {
		p.now[iSpeed] += taxiKt * knot
	}
}

// track is the roll as far as the flight follows it.
func (g *missionGuide) track() []roll.Point {
	r := &g.p.ground.rolled
	if !g.m.taxisOn() || !r.Stops {
		return r.Track
	}
	for i, k := range r.Track {
		if k.Kt > taxiKt {
			continue
		}
		was := roll.Point{Metres: r.AirM, Kt: r.TouchdownKt}
		if i > 0 {
			was = r.Track[i-1]
		}
		return append(slices.Clone(r.Track[:i]), slowed(was, k))
	}
	return r.Track
}

// slowed is where on a piece of even deceleration the speed of the taxi is reached.
func slowed(was, is roll.Point) roll.Point {
	if was.Kt <= taxiKt {
		return was
	}
	u := (was.Kt - taxiKt) / (was.Kt - is.Kt)
	way := (was.Kt - (was.Kt-is.Kt)*u/2) * u / ((was.Kt + is.Kt) / 2)
	return roll.Point{Seconds: was.Seconds + u*(is.Seconds-was.Seconds), Metres: was.Metres + way*(is.Metres-was.Metres), Kt: taxiKt}
}

// lay adds a piece on which the speed changes evenly.
func (g *missionGuide) lay(f *flyer, h, flow, metres, speed float64, braking bool) {
	p := g.p
	p.tag.braking = braking
	q := piece{start: p.t, length: h, y: p.now, flyer: f, tag: p.tag}
	head := g.m.strip().HeadwindKt * knot
	gain := (speed - p.now[iSpeed]) / h
	q.dy = vector{iDistance: p.now[iSpeed] - head, iSpeed: gain, iMass: -flow, iFuel: -flow}
	q.z, q.dz = along(&q.y, &q.dy, h), q.dy
	q.z[iDistance], q.z[iSpeed], q.dz[iDistance] = metres, speed, speed-head
	p.pieces = append(p.pieces, q)
	p.now, p.t = q.z, nearWhole(p.t+h)
	p.tag.braking = false
}

// metresAt is how far from the threshold the roll is at a time after touchdown.
func (t *touched) metresAt(s float64) float64 {
	was := roll.Point{Metres: t.rolled.AirM, Kt: t.rolled.TouchdownKt}
	for _, k := range t.rolled.Track {
		if h := k.Seconds - was.Seconds; k.Seconds >= s {
			if h == 0 {
				return k.Metres
			}
			u := (s - was.Seconds) / h
			even := (was.Kt + (k.Kt-was.Kt)*u/2) * u / (was.Kt + (k.Kt-was.Kt)/2) // part of the way at an even deceleration
			return was.Metres + even*(k.Metres-was.Metres)
		}
		was = k
	}
	return math.Max(was.Metres, t.rolled.AirM)
}

// nearWhole makes a time that is all but a whole microsecond one, so that what
// jumps there jumps at its knot.
func nearWhole(s float64) float64 {
	if r := math.Round(s*1e6) / 1e6; math.Abs(r-s) < 2e-9 {
		return r
	}
	return s
}
