package costs

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"slices"
	"sync"

	"knockon/airfield"
	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/flight/energy"
	"knockon/flight/fuel"
	"knockon/flight/geo"
	"knockon/flight/manual"
	"knockon/ledger"
	"knockon/region"
	"knockon/run"
)

// Question is what is to be priced.
type Question struct {
	Scenario run.Scenario
	At       book.Time   // when the crew turn; the failures that came before have come
	Why      string      // why then, where nobody said when; a sentence
	Rule     fuel.Rule   // of the final reserve
	Most     int         // airfields at most, the nearest; 0: 50
	Whole    *run.Record // the scenario flown to the end of its flight, where that is known; nil: it is flown
	Right    *run.Record // what Whole is compared with, where that is known; nil: it is flown where it is needed

	Hand func(*run.Course, run.Scenario) run.Forker // who acts on what happens, on a course; nil: nobody
	Sees []circuit.Node                             // what they look at, as nodes of the course; nil: not known, so all of the build is worked out

	entirely bool // all of the build is worked out on every way, were it for nothing
}

// Costs is the price of a scenario at a moment.
type Costs struct {
	At       book.Time
	Why      string // then, where nobody said when
	Rule     fuel.Rule
	State    energy.State
	Position geo.Place
	Course   float64 // true, over the ground
	Places   []Place // the nearest first
	Left     int     // airfields that are farther, and were not looked at
	Landing  bool    // the approach has begun: only the runway ahead is looked at

	desk *desk
}

// Place is an airfield and what it costs to go there.
type Place struct {
	Airfield airfield.Airfield
	Line     geo.Line // from where the aircraft is
	Own      bool     // it is where the flight was going
	Failed   Side
	Healthy  Side
}

// Changed says that the failures change the verdict.
func (p *Place) Changed() bool { return p.Failed.Good() != p.Healthy.Good() }

// mostPlaces is how many airfields are looked at where nobody says more.
const mostPlaces = 50

// desk is what all places share.
type desk struct {
	course     *run.Course
	region     *region.Region
	rule       fuel.Rule
	whole      *run.Record
	pair                                            // on a course of no more than is read of ways
	entire     func(context.Context) (*pair, error) // the same on the whole course
	before     map[*book.Function][]ledger.LossSpan // losses of the gravest severity in whole
	aircraft   *energy.Aircraft
	facts      *book.Aircraft
	at         book.Time
	from       geo.Place
	where      run.Whereabouts // of the failed aircraft at the turn
	own        airfield.Airfield
	home       string // where the book's flight goes, whose runway is as it gives it; "": all are as reported
	turned     bool   // it is bound elsewhere than the book's flight
	levels     []region.Aloft
	std        flight.Air
	holdKgPerH float64
	cruise     float64 // kg/h
	tellsGear  bool    // the book says when the gear is out
	manual     *manual.Numbers
	rows       *onRows // of a book without drag polars; nil: it has them
}

// Of prices a scenario on a course. The flight must be one that feels the
// systems, with its ends in the region, and in the air at the moment; anything
// else is an error that says what to do.
func Of(ctx context.Context, course *run.Course, region *region.Region, q Question) (*Costs, error) {
	d, err := newDesk(ctx, course, region, q)
	if err != nil {
		return nil, err
	}
	c := &Costs{At: q.At, Why: q.Why, Rule: q.Rule, State: energy.StateAt(d.path(), q.At), Position: d.from, Landing: !d.canDivert(q.At), desk: d}
	if to, ok := region.Find(course.Flight.To); ok {
		c.Course = geo.Between(d.from, to.Place).Start
	}
	c.choose(q.Most)
	return c, d.judgeAll(ctx, c.Places)
}

// path is the flight up to the turn.
func (d *desk) path() flight.Path {
	if d.rows != nil {
		return d.rows.path
	}
	return d.here.Path()
}

// canDivert says that the flight is in the air and not yet on its final approach.
func (d *desk) canDivert(at book.Time) bool {
	if d.rows != nil {
		return value(d.rows.path, "on_ground", at) == 0 && value(d.rows.path, "on_glide_path", at) == 0
	}
	return d.here.Path().CanDivert(at)
}

func newDesk(ctx context.Context, course *run.Course, region *region.Region, q Question) (*desk, error) {
	if byRows(course.Build) {
		return newRows(ctx, course, region, q)
	}
	f := course.Flight
	from, to, err := region.Ends(f)
	if err != nil {
		return nil, err
	}
	held, err := q.hold(ctx, q.narrow(course))
	if err != nil {
		return nil, err
	}
	if !held.here.Path().InAir(q.At) {
		return nil, onTheGround()
	}
	if q.Whole == nil {
		if q.Whole, err = q.whole(ctx, course); err != nil {
			return nil, err
		}
	}
	d := &desk{course: course, region: region, rule: q.Rule, whole: q.Whole, pair: *held, facts: course.Build.Aircraft, at: q.At, own: to, manual: manual.New(course.Build)}
	d.entire = func(ctx context.Context) (*pair, error) { return q.hold(ctx, course) }
	_, d.tellsGear = course.Circuit().Node(circuit.Value{Item: book.EffectID("gear_out")})
	if d.aircraft, err = energy.Decode(d.facts); err != nil {
		return nil, err
	}
	if err := d.place(from, to); err != nil {
		return nil, err
	}
	return d, errors.Join(d.lostBefore(ctx, q.Right), d.burns(ctx))
}

// whole flies to the end of the flight as it would go on.
func (q Question) whole(ctx context.Context, c *run.Course) (*run.Record, error) {
	if q.Hand == nil {
		return c.Fly(ctx, q.Scenario)
	}
	return c.FlyWith(ctx, q.Scenario, q.hand(c))
}

// hand is who acts: somebody who is told that the flight goes elsewhere, as it
// does from the turn on, and has it turned nowhere before.
func (q Question) hand(c *run.Course) run.Forker {
	s := q.Scenario
	s.Plan = append(slices.Clone(s.Plan), run.Leg{Do: run.Divert, At: book.Moment{Offset: q.At}})
	return q.Hand(c, s)
}

// place finds where the aircraft is.
func (d *desk) place(from, to airfield.Airfield) error {
	w, err := d.here.Whereabouts(region.Router{Region: d.region})
	d.from, d.where = w.Place, w
	if bound, ok := d.region.Find(w.Bound); ok {
		d.own, d.turned = bound, true
	}
	d.home = to.Name
	dev, _ := d.course.Flight.Number("isa_deviation_c")
	d.std = flight.Air{DeviationC: dev}
	d.levels = d.region.Winds(d.course.Flight, from.Place, to.Place)
	return err
}

// burns works out the flows that final reserves are counted in.
func (d *desk) burns(ctx context.Context) error {
	flows, err := d.here.Path().FlowsAt(ctx, d.at, d.course.Flight)
	d.holdKgPerH, d.cruise = flows.Hold, flows.Cruise
	return err
}

// choose lists the airfields that are looked at.
func (c *Costs) choose(most int) {
	d := c.desk
	if most <= 0 {
		most = mostPlaces
	}
	if c.Landing {
		c.Places = []Place{{Airfield: d.own, Line: geo.Between(d.from, d.own.Place), Own: true}}
		return
	}
	usable := d.region.Airfields.Where(func(a airfield.Airfield) bool { return len(a.Runways) > 0 })
	for _, h := range usable.Nearest(d.from, most) {
		c.Places = append(c.Places, Place{Airfield: h.Airfield, Line: h.Line, Own: h.Airfield.Ident == d.own.Ident})
	}
	c.Left = usable.Len() - len(c.Places)
}

// judgeAll judges all places, on all processors.
func (d *desk) judgeAll(ctx context.Context, places []Place) error {
	errs := make([]error, len(places))
	next := make(chan int)
	var wg sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(places)) {
		wg.Go(func() {
			for i := range next {
				errs[i] = d.judgeBoth(ctx, &places[i])
			}
		})
	}
	for i := range places {
		next <- i
	}
	close(next)
	wg.Wait()
	return errors.Join(errs...)
}

// caught makes an error of a slip of the program on a goroutine of its own, which
// would end the whole process: defer caught(&err).
func caught(err *error) {
	if p := recover(); p != nil {
		*err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
	}
}

func (d *desk) judgeBoth(ctx context.Context, p *Place) (err error) {
	defer caught(&err)
	if d.rows != nil {
		return d.judgeRows(ctx, p)
	}
	if p.Healthy, err = d.judge(ctx, d.there, p); err != nil { // first: the manual's factors count from its landings
		return err
	}
	if p.Failed, err = d.judge(ctx, d.here, p); err != nil {
		return err
	}
	p.Healthy.weigh()
	if err = d.weigh(ctx, &p.Failed); err != nil {
		return err
	}
	failed, healthy := d.lacking(&p.Failed, &p.Healthy), d.lacking(&p.Healthy, &p.Failed)
	p.Failed.miss(failed)
	p.Healthy.miss(healthy)
	return d.near(ctx, p)
}

// roomM is more way than any approach takes.
const roomM = 100 * geo.MetresPerNM

// near finds a place that is too near to fly an approach from here: with nothing
// failed the gear is not out at touchdown, and over a longer way it would be.
// Neither side of it is judged.
func (d *desk) near(ctx context.Context, p *Place) error {
	if !p.Healthy.Arrives || !p.Healthy.GearUp || !d.here.Path().CanDivert(d.at) {
		return nil
	}
	far := p.Healthy.way
	far.DistanceM += roomM
	r, err := d.there.Divert(ctx, far)
	if err != nil {
		return err
	}
	if s := d.read(r, p.Airfield); s.Arrives && !s.GearUp {
		p.tooNear()
	}
	return nil
}

func (p *Place) tooNear() {
	why := []Reason{{Near, "too near to fly an approach from here"}}
	p.Failed.Reasons, p.Healthy.Reasons = why, why
}
