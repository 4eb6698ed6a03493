package run

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/geo"
	"knockon/say"
)

// A plan says where a flight goes (docs/meaning.md, section 12). Each of its legs turns
// the flight a microsecond after its moment, and makes the phase current that the
// book names for it. What a leg needs to know of the ground a Router says.

// Manoeuvre is what a leg does.
type Manoeuvre string

// Manoeuvres.
const (
	GoOn   Manoeuvre = "go_on"  // as the book's flight goes
	Divert Manoeuvre = "divert" // to a field that is named
	Return Manoeuvre = "return" // to the field of departure
	Land   Manoeuvre = "land"   // at the nearest field that the router takes

	GoAround Manoeuvre = "go_around" // and another approach to the same runway
	Hold     Manoeuvre = "hold"      // until a time or a mass, then on
	Descend  Manoeuvre = "descend"   // as steeply as the limits allow, then on at that level
	Reject   Manoeuvre = "reject"    // the take-off

	LongEnough Manoeuvre = "long_enough" // on where the flight is going if the runway does; else where another does better
)

// kinds are what the manoeuvres are to the flight.
var kinds = map[Manoeuvre]energy.Kind{
	GoOn: energy.Diverting, Divert: energy.Diverting, Return: energy.Returning, Land: energy.Diverting,
	GoAround: energy.GoingAround, Hold: energy.Holding, Descend: energy.Descending, Reject: energy.Rejecting,
}

// overGround says that a manoeuvre goes to a field.
func (m Manoeuvre) overGround() bool { return m == GoOn || m == Divert || m == Return || m == Land }

// Leg is a part of a plan.
type Leg struct {
	Do   Manoeuvre
	To   string // Divert: the ident of a field, or of a field and one of its runway ends, "QSVA/17"
	At   book.Moment
	When *book.Expr // it begins when this becomes yes, At being ignored

	LevelFt float64   // Descend: pressure altitude
	For     book.Time // Hold: so long
	MassKg  float64   // Hold: until this mass; 0: no such limit

	taken bool // under way: see Action.Taken
	found found
}

// Taken marks a leg as one that was decided under way.
func (l Leg) Taken() Leg { l.taken = true; return l }

// Asked says that the leg was given, and not decided on under way.
func (l Leg) Asked() bool { return !l.taken }

// String is the leg as it is typed, without its moment.
func (l Leg) String() string {
	switch {
	case l.Do == Divert:
		return string(l.Do) + " " + l.To
	case l.Do == Descend:
		return fmt.Sprintf("%s %g", l.Do, l.LevelFt)
	case l.Do == Hold && l.MassKg > 0:
		return fmt.Sprintf("%s %g kg", l.Do, l.MassKg)
	case l.Do == Hold:
		return fmt.Sprintf("%s %g min", l.Do, l.For.Seconds()/60)
	}
	return string(l.Do)
}

// OverGround says that the leg goes to a field.
func (l Leg) OverGround() bool { return l.Do.overGround() }

// Router knows the ground that flights go over.
type Router interface {
	// Track is the way of a book's flight.
	Track(f *book.Flight) (Track, error)
	// Route is the way of a leg from where a flight is. The error says in a
	// pilot's words why there is none.
	Route(l Leg, w Whereabouts) (Route, error)
	// Fields are the ways of a leg to the nearest field, nearest first; the Route of
	// such a leg is the one of them to take where nobody can fly on to see.
	Fields(w Whereabouts) ([]Route, error)
	// Suits says that the field and the runway of a way suit an aircraft in a state,
	// with what is left of it.
	Suits(on Route, w Whereabouts) bool
}

// Track is a line over the ground.
type Track struct{ From, To geo.Place }

// Whereabouts is where a flight is when a leg begins.
type Whereabouts struct {
	Flight *book.Flight
	Place  geo.Place
	Course float64 // true, over the ground there
	LeftM  float64 // of the way to where it was going
	Bound  string  // the field that it was going to on an earlier leg; "": that of the book
	State  energy.State

	Aircraft *energy.Aircraft
	Left     Left // as the systems leave it now
	Whole    Left // as it was dispatched
}

// Route is how to get to a field.
type Route struct {
	Track   Track
	Field   string // ident
	Name    string
	End     string  // of the runway
	LengthM float64 // landing distance available
	CrossKt float64 // wind across it with gusts, as reported; 0 where nothing is
	Ahead   bool    // it is where the flight is going
	Choice  Choice  // how the field was found
	Flown   int     // to how many fields it was flown on to find it; 0: to none
	Comes   Comes   // how it came down at this one
	Instead string  // the runway that it was bound for, which does not suit it any more; "": that was not asked
	Around  bool    // it went around for it
	Turn    energy.Turn
}

// Turned is a leg whose moment came.
type Turned struct {
	Leg   Leg
	At    book.Time // the flight turns a microsecond later
	Route Route
	Phase string // that it makes current; "": none
	Why   string // it was not flown: why; "": it was

	Taxiing bool // it was rejected before the take-off roll
}

// forced is a phase that a leg makes current.
type forced struct {
	at    book.Time
	phase int
}

// navigation is the part of a pilot that knows where the flight goes.
type navigation struct {
	legs   []pending // by moment; those of one moment as given
	waits  []pending // for their condition
	track  Track
	wholeM float64 // of the track
	known  bool    // the track is
	bound  string
	turns  []Turned

	dispatched Left
	looking    bool // it is flown on only to see how it comes down
}

// pending is a leg whose moment has not come.
type pending struct {
	leg  Leg
	at   book.Time
	when circuit.Node
	was  bool // the condition, at the end of the last moment
}

// PlanError is a plan that does not fit the flight.
type PlanError struct{ err error }

func (e *PlanError) Error() string { return e.err.Error() }
func (e *PlanError) Unwrap() error { return e.err }

// addLegs takes up the plan of a scenario. The error is a *PlanError.
func (p *pilot) addLegs(ctx context.Context) error {
	if len(p.scenario.Plan) > 0 && p.path == nil && !p.course.given {
		return &PlanError{fmt.Errorf("flight %s cannot be flown elsewhere: the aircraft block gives no drag polars and no thrust", p.course.Flight.ID)}
	}
	if p.path == nil { // the path is given: only what the legs did to the phase counts
		for _, f := range p.scenario.forced {
			p.push(f.at, circuit.Input{Strike: -1, End: -1, Control: -1, Phase: f.phase + 1})
		}
		return nil
	}
	p.scenario.forced = nil
	for _, l := range p.scenario.Plan {
		if err := p.addLeg(ctx, l); err != nil {
			return err
		}
	}
	return nil
}

func (p *pilot) addLeg(ctx context.Context, l Leg) (err error) {
	if l.When != nil {
		p.waits = append(p.waits, pending{leg: l, when: p.condition(l.When)})
		return nil
	}
	at := l.At.Offset
	if !l.taken {
		if at, err = p.course.Resolve(ctx, l.At); err != nil {
			return &PlanError{err}
		}
	}
	i, _ := slices.BinarySearchFunc(p.legs, at+1, func(x pending, at book.Time) int { return int(min(max(x.at-at, -1), 1)) })
	p.legs = slices.Insert(p.legs, i, pending{leg: l, at: at})
	return nil
}

// nextLeg is when the next leg with a moment begins.
func (p *pilot) nextLeg() book.Time {
	if len(p.legs) == 0 {
		return book.Never
	}
	return p.legs[0].at
}

// dueLegs takes the legs whose moment or condition has come.
func (p *pilot) dueLegs(m *circuit.Machine) (due []Leg) {
	for len(p.legs) > 0 && p.legs[0].at <= m.Now() {
		due = append(due, p.legs[0].leg)
		p.legs = p.legs[1:]
	}
	left := p.waits[:0]
	for _, w := range p.waits {
		is := m.Value(w.when) != 0
		if is && !w.was {
			due = append(due, w.leg)
			continue
		}
		w.was = is
		left = append(left, w)
	}
	p.waits = left
	return due
}

// turn begins the legs of a moment: the first that can be flown stands. turned
// says that one was.
func (p *pilot) turn(m *circuit.Machine, now energy.Config) (turned bool) {
	for _, l := range p.dueLegs(m) {
		l, goes := p.asked(m, l, now)
		if !goes {
			continue
		}
		t := Turned{Leg: l, At: m.Now()}
		err := p.begins(m, &t, now)
		switch {
		case turned:
			t.Why = "another turn came at the same moment, and stands"
		case err != nil:
			t.Why = err.Error()
		default:
			turned = true
			p.elsewhere(m, &t, now)
		}
		p.turns = append(p.turns, t)
	}
	return turned
}

// begins finds the way of a leg for a flight as the systems now leave it. The error
// says in a pilot's words why it cannot be flown.
func (p *pilot) begins(m *circuit.Machine, t *Turned, now energy.Config) error {
	err := p.route(m, t, now)
	switch {
	case err != nil || !t.Leg.OverGround():
		return err
	case p.onItsWay(t.Route):
		return fmt.Errorf("it goes to %s already, to runway %s", t.Route.Name, t.Route.End)
	case t.Route.Ahead:
		return nil
	}
	return p.tooLow(t.At, t.Route, now)
}

// onItsWay says that an earlier leg leads to that runway end.
func (p *pilot) onItsWay(on Route) bool {
	for _, t := range slices.Backward(p.turns) {
		if t.Why == "" && t.Leg.OverGround() {
			return t.Route.Field == on.Field && t.Route.End == on.End && p.bound == on.Field
		}
	}
	return false
}

// noTurnFt is the height below which an aircraft without thrust is not turned
// (common practice).
const noTurnFt = 1000

// lowFt is the height below which it is turned to a field only if it reaches it, with
// its turns: from higher up it goes the way that leads nearest (common practice).
const lowFt = 5000

// tooLow says why a flight as the systems now leave it cannot be turned.
func (p *pilot) tooLow(at book.Time, on Route, now energy.Config) error {
	height := p.path.Value(quantity("height_ft"), at)
	switch {
	case now.Engines != [2]float64{} || height >= lowFt:
		return nil
	case height < noTurnFt:
		return errors.New("no engine gives thrust, and it is too low to turn: straight ahead is all that is left")
	case p.path.Turn(at, on.Turn, now).Ending() != energy.Arrived:
		return fmt.Errorf("no engine gives thrust, and a glide from %s ft with its turns does not reach %s: straight ahead is all that is left", say.Whole(height), on.Name)
	}
	return nil
}

// leastAboveFt is how far above the ground a flight goes down to (14 CFR 91.119(b), from memory).
const leastAboveFt = 1000

// fits says why a flight in a state, so high above the ground, cannot do what a leg
// asks for: nil where it can.
func (l Leg) fits(s energy.State, heightFt float64) error {
	ground := s.AltitudeFt - heightFt
	switch {
	case l.Do == Descend && s.AltitudeFt <= l.LevelFt:
		return errors.New("the flight is not above that level")
	case l.Do == Descend && l.LevelFt < ground+leastAboveFt:
		return fmt.Errorf("%.0f ft is less than %d ft above the ground", l.LevelFt, leastAboveFt)
	case l.Do == Hold && l.MassKg > 0 && s.MassKg <= l.MassKg:
		return fmt.Errorf("its mass is %.0f kg already", s.MassKg)
	case l.Do == Hold && l.MassKg > 0 && l.MassKg <= s.MassKg-s.FuelKg:
		return fmt.Errorf("without fuel its mass is still %.0f kg", s.MassKg-s.FuelKg)
	}
	return nil
}

// route finds the way of a leg.
func (p *pilot) route(m *circuit.Machine, t *Turned, now energy.Config) error {
	l, kind := t.Leg, kinds[t.Leg.Do]
	if err := l.fits(energy.StateAt(p.path, t.At), p.path.Value(quantity("height_ft"), t.At)); err != nil {
		return err
	}
	if !l.Do.overGround() {
		t.Route = Route{Track: p.track, Field: p.bound, Turn: energy.Turn{Kind: kind, LevelFt: l.LevelFt, UntilMassKg: l.MassKg}}
		if l.For > 0 {
			t.Route.Turn.UntilS = (t.At + l.For).Seconds()
		}
		t.Taxiing = p.path.Taxiing(t.At)
		return p.path.CanTurn(t.At, kind)
	}
	r := p.course.router
	if r == nil {
		return errors.New("the airfields are not known")
	}
	w, err := p.whereabouts(r, m, t.At, now)
	switch {
	case err != nil:
	case l.Do == Land && l.To == "":
		err = p.nearest(m, t, w)
	default:
		t.Route, err = r.Route(l, w)
		t.Route.Choice, t.Route.Flown, t.Route.Comes = l.found.choice, l.found.flown, l.found.comes
		t.Route.Instead, t.Route.Around = l.found.instead, l.found.around
	}
	t.Route.Turn.Kind = kind
	if err == nil && t.Route.Ahead && p.path.Value(quantity("on_glide_path"), t.At) != 0 && !p.path.CanDivert(t.At) {
		err = fmt.Errorf("its final approach to %s has begun, where it lands; for another runway it goes around first", t.Route.Name)
	}
	if err != nil || t.Route.Ahead && p.path.InAir(t.At) {
		return err
	}
	return p.path.CanTurn(t.At, kind)
}

// whereabouts is where the flight is.
func (p *pilot) whereabouts(r Router, m *circuit.Machine, at book.Time, now energy.Config) (w Whereabouts, err error) {
	if err := p.locate(r); err != nil {
		return w, err
	}
	w = Whereabouts{
		Flight: p.course.Flight, LeftM: p.path.LeftM(at), Bound: p.bound, State: energy.StateAt(p.path, at),
		Aircraft: p.course.mission.Aircraft(), Left: p.leaves(m, at, now), Whole: p.dispatched,
	}
	line := geo.Between(p.track.From, p.track.To)
	done := min(max(1-w.LeftM/p.wholeM, 0), 1)
	w.Place, w.Course = geo.Along(p.track.From, line.Start, line.Metres*done)
	return w, nil
}

// locate puts the flight on the track of the book.
func (p *pilot) locate(r Router) (err error) {
	if p.known {
		return nil
	}
	if p.track, err = r.Track(p.course.Flight); err != nil {
		return err
	}
	nm, _ := p.course.Flight.Number("distance_nm")
	p.wholeM, p.known = nm*geo.MetresPerNM, true
	return nil
}

// elsewhere turns the flight onto a leg.
func (p *pilot) elsewhere(m *circuit.Machine, t *Turned, now energy.Config) {
	if t.Route.Ahead {
		p.leave(m, p.path.DivertAhead(m.Now(), t.Route.Turn.To, now), now)
	} else {
		p.leave(m, p.path.TurnAhead(m.Now(), t.Route.Turn, now), now)
	}
	if t.Leg.Do.overGround() {
		p.track, p.bound, p.wholeM = t.Route.Track, t.Route.Field, p.path.LeftM(m.Now())
	}
	if k := p.course.phaseAfter(t.Leg.Do); k >= 0 {
		t.Phase = p.course.Build.Phases[k].ID
		at := m.Now() + 1
		p.push(at, circuit.Input{Strike: -1, End: -1, Control: -1, Phase: k + 1})
		p.scenario.forced = append(p.scenario.forced, forced{at, k})
	}
}

// phaseAfter is the phase that the book names for a leg; -1 for none.
func (c *Course) phaseAfter(m Manoeuvre) int {
	return slices.IndexFunc(c.Build.Phases, func(p *book.Phase) bool { return slices.Contains(p.After, string(m)) })
}

// unflown are the legs whose moment or condition had not come when the flight was
// over.
func (p *pilot) unflown() (list []Turned) {
	for _, x := range p.legs {
		list = append(list, Turned{Leg: x.leg, At: x.at, Why: "the flight is over by then"})
	}
	for _, x := range p.waits {
		list = append(list, Turned{Leg: x.leg, At: p.path.End(), Why: "what it waits for has not come by the end of the flight"})
	}
	return list
}
