package manual

import (
	"errors"
	"fmt"

	"knockon/say"
)

// mover flies along a table.
type mover struct {
	f      *flyer
	table  *Table
	rate   string  // column of the climb or descent rate; "" is level
	up     float64 // 1 or -1
	stopFt float64 // where climb or descent ends
	stepS  float64
	thrust float64
}

// Typical thrust of climb, cruise, descent and approach, percent of take-off thrust:
// the circuit may ask for it, and no price does (as in the profile of flight.Plan).
const climbPct, cruisePct, descentPct, approachPct = 90.0, 30.0, 5.0, 45.0

// errNoWay says that the wind is as strong as the aircraft is fast.
var errNoWay = errors.New(string(NoWay))

func (f *flyer) mover(kind string, stopFt float64) (*mover, error) {
	t, err := f.n.table(kind, "", "the flight")
	m := &mover{f: f, table: t, stepS: climbStepS, stopFt: stopFt, thrust: descentPct}
	switch kind {
	case "climb":
		m.rate, m.up, m.thrust = "climb_ft_per_min", 1, climbPct
	case "descent":
		m.rate, m.up = "descent_ft_per_min", -1
	default:
		m.stepS, m.thrust = cruiseStepS, cruisePct
	}
	return m, err
}

// enRoute picks what is flown to or at the level that is wanted and left.
func (f *flyer) enRoute(working float64) (*mover, error) {
	level := max(min(f.plan.CruiseFt, f.s.MostFt), f.gate())
	climb, cruise := "climb", "cruise"
	if working < f.n.Engines {
		ceiling, err := f.ceilingFt()
		if err != nil {
			return nil, err
		}
		level, climb, cruise = min(level, ceiling), "engine_out", "engine_out"
	}
	switch off := f.now.AltitudeFt - level; {
	case off > atLevelFt:
		return f.mover("descent", level)
	case off < -atLevelFt && f.climbs(climb):
		m, err := f.mover(climb, level)
		if m != nil {
			m.rate, m.up, m.stepS, m.thrust = "climb_ft_per_min", 1, climbStepS, climbPct
		}
		return m, err
	case off >= -atLevelFt:
		f.now.AltitudeFt = level
	}
	return f.mover(cruise, 0)
}

// climbs says that there are rows to climb by. With one engine and none the flight
// stays at the level where it is.
func (f *flyer) climbs(kind string) bool {
	t, ok := f.n.From.Table(kind, "")
	return !ok || t.Column("climb_ft_per_min") >= 0
}

// ceilingFt is the ceiling with one engine at the mass.
func (f *flyer) ceilingFt() (float64, error) {
	t, err := f.n.table("engine_out", "", "flight with one engine")
	if err != nil {
		return 0, err
	}
	v, err := t.Read(At{AltitudeFt: f.now.AltitudeFt, MassKg: f.now.MassKg})
	ft, _ := t.Get(&v, "ceiling_ft")
	return ft, err
}

// rate is how fast a state changes, for each second.
type rate struct{ metres, feet, kg float64 }

func (m *mover) at(s State) (r rate, err error) {
	f := m.f
	v, err := m.table.Read(At{AltitudeFt: s.AltitudeFt, MassKg: s.MassKg})
	if err != nil {
		return r, err
	}
	r.metres = (m.table.speed(&v, s.AltitudeFt, f.s.MostKt, f.plan.Air) - f.plan.Wind(s.AltitudeFt)) * knot
	if r.metres <= knot {
		return r, errNoWay
	}
	flow, _ := m.table.Get(&v, "fuel_kg_per_h")
	r.kg = (flow*f.s.FuelRatio + f.s.LeakKgPerH) / 3600
	if m.rate != "" {
		ftPerMin, _ := m.table.Get(&v, m.rate)
		r.feet = m.up * ftPerMin / 60
	}
	return r, nil
}

func (s State) after(r rate, seconds float64) State {
	return State{s.TimeS + seconds, s.DistanceM + r.metres*seconds, s.AltitudeFt + r.feet*seconds, s.MassKg - r.kg*seconds, s.FuelKg - r.kg*seconds}
}

// move flies so long, by the midpoint rule, but to the level where it ends, and to
// where toGo becomes 0. A midpoint beyond the level is at the level.
func (m *mover) move(s State, seconds float64, toGo func(State) float64) (State, error) {
	next, err := m.midpoint(s, seconds)
	if err != nil {
		return s, err
	}
	if m.rate != "" && m.up*(next.AltitudeFt-m.stopFt) > 0 {
		if seconds, next, err = m.toLevel(s, seconds, next); err != nil {
			return s, err
		}
	}
	if toGo == nil || toGo(next) >= 0 {
		return next, nil
	}
	return m.toTheWay(s, seconds, toGo)
}

func (m *mover) midpoint(s State, seconds float64) (State, error) {
	r, err := m.at(s)
	if err != nil {
		return s, err
	}
	mid := s.after(r, seconds/2)
	if m.rate != "" && m.up*(mid.AltitudeFt-m.stopFt) > 0 {
		mid.AltitudeFt = m.stopFt
	}
	if r, err = m.at(mid); err != nil {
		return s, err
	}
	return s.after(r, seconds), nil
}

// toLevel shortens a step to the level, which it meets exactly.
func (m *mover) toLevel(s State, seconds float64, next State) (float64, State, error) {
	var err error
	for range 20 {
		if diff := next.AltitudeFt - m.stopFt; diff < 1e-7 && diff > -1e-7 {
			break
		}
		seconds *= (m.stopFt - s.AltitudeFt) / (next.AltitudeFt - s.AltitudeFt)
		if next, err = m.midpoint(s, seconds); err != nil {
			return 0, s, err
		}
	}
	next.AltitudeFt = m.stopFt
	return seconds, next, nil
}

// toTheWay halves a step down to where the descent must begin, to a microsecond.
func (m *mover) toTheWay(s State, seconds float64, toGo func(State) float64) (State, error) {
	low, high := 0.0, seconds
	for high-low > 1e-6 {
		mid := (low + high) / 2
		next, err := m.midpoint(s, mid)
		if err != nil {
			return s, err
		}
		if toGo(next) >= 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return m.midpoint(s, high)
}

// approach is the final approach, after what is left of the way at its height.
func (f *flyer) approach() error {
	t, err := f.n.table("approach", f.s.Setting, "the final approach")
	if err != nil {
		return err
	}
	need := f.approachM(f.now)
	if level := f.left() - need; level > 1 {
		return f.along(t, min(level, levelStepM), 0)
	}
	steps := 5.0
	each, down := f.left()/steps, (f.now.AltitudeFt-f.plan.FieldFt)/steps
	for range int(steps) {
		if err := f.along(t, each, down); err != nil || f.end != "" {
			return err
		}
	}
	f.pieces[len(f.pieces)-1].to.AltitudeFt, f.end = f.plan.FieldFt, Arrived
	f.now.AltitudeFt = f.plan.FieldFt
	return nil
}

// levelStepM is how long a level stretch at the height of the approach is at most.
const levelStepM = 6 * 1852.0

// along flies so far over the ground at the approach speed, and so far down.
func (f *flyer) along(t *Table, metres, down float64) error {
	v, err := t.Read(At{MassKg: f.now.MassKg})
	if err != nil {
		return err
	}
	ft := f.now.AltitudeFt - down/2
	over := (t.speed(&v, ft, f.s.MostKt, f.plan.Air) - f.plan.Wind(ft)) * knot
	if over <= knot {
		return errNoWay
	}
	flow, _ := t.Get(&v, "fuel_kg_per_h")
	f.add(f.now.after(rate{over, -down * over / max(metres, 1e-9), (flow*f.s.FuelRatio + f.s.LeakKgPerH) / 3600}, metres/over), approachPct)
	return nil
}

// glideStepFt is the height of a step of a glide.
const glideStepFt = 500.0

// glide flies with no engine to the ground. Height that is left over at the
// runway is lost in turns; without it the flight ends short.
func (f *flyer) glide() error {
	t, err := f.n.table("glide", "", "flight with no engine")
	if err != nil {
		return err
	}
	for f.now.AltitudeFt > f.plan.FieldFt {
		height := f.now.AltitudeFt - f.plan.FieldFt
		if err := f.sink(t, height, max(height-glideStepFt, 0)); err != nil || f.end != "" {
			return err
		}
	}
	f.end = Arrived
	if f.left() > 1 {
		f.end = Short
	} else {
		f.aim = f.now.DistanceM
	}
	return nil
}

// sink glides from one height above the runway to another.
func (f *flyer) sink(t *Table, from, to float64) error {
	a, err := glideNM(t, from)
	if err != nil {
		return err
	}
	b, err := glideNM(t, to)
	if err != nil {
		return err
	}
	v, err := t.Read(At{HeightFt: max(to, t.rows[0][t.keys[0]])})
	if err != nil {
		return err
	}
	ft := f.plan.FieldFt + (from+to)/2
	tas := t.speed(&v, ft, f.s.MostKt, f.plan.Air)
	seconds := (a - b) / tas * 3600
	r := rate{(tas - f.plan.Wind(ft)) * knot, (to - from) / seconds, f.s.LeakKgPerH / 3600}
	if r.metres <= 0 {
		return errNoWay
	}
	f.add(f.now.after(r, seconds), 0)
	if f.end == Dry { // no engine burns: what leaks away stops nothing
		f.end = ""
	}
	return nil
}

// glideNM is how far a glide goes in still air from a height: 0 from the ground.
func glideNM(t *Table, height float64) (float64, error) {
	if height == 0 {
		return 0, nil
	}
	first := &t.rows[0]
	low, _ := t.Get(first, "height_ft")
	if far, _ := t.Get(first, "distance_nm"); height < low {
		return far * height / low, nil
	}
	v, err := t.Read(At{HeightFt: height})
	far, _ := t.Get(&v, "distance_nm")
	return far, err
}

// ReachNM is how far a glide goes in still air from a height above the ground.
func (n *Numbers) ReachNM(height float64) (float64, error) {
	t, err := n.table("glide", "", "flight with no engine")
	if err != nil {
		return 0, err
	}
	return glideNM(t, height)
}

// CeilingFt is the ceiling with one engine at a mass.
func (n *Numbers) CeilingFt(massKg float64) (float64, error) {
	f := &flyer{n: n, now: State{MassKg: massKg}}
	return f.ceilingFt()
}

func share(part float64) string { return fmt.Sprintf("%s percent", say.Whole(100*part)) }
