package run

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
)

// Ending is how a run ended. This is the one place that says so: whatever shows a
// record asks it first, since a run that broke off answers nothing about what
// would have come after.
type Ending struct {
	How How
	At  book.Time // the last moment of the record
	Why string    // in a pilot's words, after "the flight breaks off …:"; "" where it arrived
}

// How is how a run ended.
type How string

// The ways to end.
const (
	Arrived      How = "arrived" // it was flown to its end
	NeverSettles How = "never_settles"
	NotFlyable   How = "not_flyable" // by what the book's aircraft block says
	OutOfFuel    How = "out_of_fuel"
	CannotStayUp How = "cannot_stay_up"
	MakesNoWay   How = "makes_no_way"
	NoWayOn      How = "no_way_on" // the model finds none
	DoesNotStop  How = "does_not_stop"
	Stalled      How = "stalls"
	CannotSlow   How = "cannot_slow"
)

// Arrived says that the flight was flown to its end.
func (e Ending) Arrived() bool { return e.How == Arrived }

// hows are the ways to end of a flight with drag and thrust.
var hows = map[energy.Event]How{
	energy.Arrived: Arrived, energy.Dry: OutOfFuel, energy.Sinks: CannotStayUp, energy.TooFar: MakesNoWay, energy.Lost: NoWayOn, energy.NeverStops: DoesNotStop, energy.Stalls: Stalled, energy.CannotSlow: CannotSlow,
}

// Ending is how this run ended.
func (r *Record) Ending() Ending {
	e := Ending{How: hows[r.Ended], At: r.End}
	var lost *Uncontrolled
	switch {
	case errors.As(r.Fault, &lost):
		e.How, e.Why = NotFlyable, lost.Error()
	case r.Fault != nil:
		e.How, e.Why = NeverSettles, r.restless()
	case e.How == CannotStayUp:
		e.Why = "it cannot stay up and meets the ground" + r.before() + r.thrust()
	case e.How == OutOfFuel:
		e.Why = "the fuel is used up" + r.before() + r.neverEnough()
	case e.How == MakesNoWay:
		e.Why = "it makes no way over the ground" + r.before()
	case e.How == Stalled:
		e.Why = "with its thrust levers closed it slows down to the stall" + r.before()
	case e.How == CannotSlow:
		e.Why = "with thrust that nobody takes off it grows faster than its limits, up to the speed that the aircraft is built to bear" + r.before()
	case e.How == DoesNotStop:
		e.Why = "it does not come to a stop on the ground"
	case e.How == NoWayOn:
		e.Why = "the model finds no way to fly on" + r.before() + r.thrust()
	}
	return e
}

// mostRestless is how many items of a loop are named.
const mostRestless = 12

// restless names what never settles.
func (r *Record) restless() string {
	var loop *circuit.Unsettled
	if !errors.As(r.Fault, &loop) {
		return r.Fault.Error()
	}
	var names []string
	for _, id := range loop.Items {
		names = append(names, r.Course.Build.Title(id))
	}
	if n := len(names); n > mostRestless {
		names = append(names[:mostRestless], fmt.Sprintf("%d more", n-mostRestless))
	}
	return "these keep changing each other and never settle: " + strings.Join(names, ", ")
}

// nearStart is how far along its way a flight is nearer to what it left than to what it
// goes to.
const nearStart = 50.0 // NM

// before says how far before its runway a flight ended, or how near to where it took
// off.
func (r *Record) before() string {
	nm := r.path.Value(quantity("to_go_nm"), r.End)
	flown := r.path.Value(quantity("to_go_nm"), 0) - nm
	switch {
	case nm < 1:
		return ""
	case flown >= 0 && flown < min(nearStart, nm) && !r.sent():
		return fmt.Sprintf(" %.1f NM along its way", flown)
	}
	return fmt.Sprintf(" %.0f NM before %s", nm, r.Bound())
}

// sent says that a leg to a field was flown.
func (r *Record) sent() bool {
	return slices.ContainsFunc(r.Turns, func(t Turned) bool { return t.Why == "" && t.Leg.OverGround() })
}

// neverEnough says of a flight whose fuel does not last with nothing failed where that
// ends.
func (r *Record) neverEnough() string {
	own, live := r.Course.Path.(*energy.Path)
	if !live || own.Ending() != energy.Dry {
		return ""
	}
	return fmt.Sprintf("; it does not last with nothing failed either, but ends %.0f NM before where the flight goes", own.Value(quantity("to_go_nm"), own.End()))
}

func quantity(name string) int {
	for i, q := range book.Quantities {
		if q.Name == name {
			return i
		}
	}
	return -1
}

// thrust says what thrust was left at the end.
func (r *Record) thrust() string {
	if r.Course.mission == nil {
		return ""
	}
	switch c := r.Effects(r.Course.mission.Aircraft(), r.End); {
	case c.Engines == [2]float64{}:
		return ", with no engine giving thrust"
	case c.Engines[0] == 0 || c.Engines[1] == 0:
		return ", with one side giving thrust"
	}
	return ""
}
