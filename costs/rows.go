package costs

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"knockon/airfield"
	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/flight/energy"
	"knockon/flight/fuel"
	"knockon/flight/geo"
	"knockon/flight/manual"
	"knockon/region"
	"knockon/run"
	"knockon/say"
)

// onRows is a desk that prices on a manual's numbers alone: of a book without drag
// polars. Up to the turn both runs fly the profile of the flight block; from there
// each flies the rows, as its systems leave them, and the circuit flies along.
type onRows struct {
	failed, healthy flown
	path            flight.Path // of the flight as the book gives it
	state           manual.State
	missing         error // why the final reserve is not known
}

// flown is one of the two runs: what happens, with every moment as a time of the
// flight, and how it went up to the turn.
type flown struct {
	scenario run.Scenario
	before   *run.Record
}

// byRows says that a book is priced on a manual's numbers alone.
func byRows(b *book.Build) bool { return b.Performance != nil && !b.Polars() }

// newRows is newDesk for such a book.
func newRows(ctx context.Context, course *run.Course, g *region.Region, q Question) (*desk, error) {
	from, to, err := g.Ends(course.Flight)
	if err != nil {
		return nil, err
	}
	at := func(name string) float64 { return value(course.Path, name, q.At) }
	if at("on_ground") != 0 {
		return nil, onTheGround()
	}
	d := &desk{
		course: course, region: g, rule: q.Rule, whole: q.Whole, facts: course.Build.Aircraft, at: q.At, own: to,
		manual: manual.New(course.Build), rows: &onRows{path: course.Path, state: manual.StateOf(course.Path, q.At)},
	}
	_, d.tellsGear = course.Circuit().Node(circuit.Value{Item: book.EffectID("gear_out")})
	if d.whole == nil {
		if d.whole, err = course.Fly(ctx, q.Scenario); err != nil {
			return nil, err
		}
	}
	if err := d.rows.begin(ctx, d, q.Scenario); err != nil {
		return nil, err
	}
	d.whereabouts(from, to)
	d.rows.reserve(d)
	return d, d.lostBefore(ctx, q.Right)
}

// begin makes the two runs ready.
func (o *onRows) begin(ctx context.Context, d *desk, s run.Scenario) (err error) {
	o.failed.before = d.whole
	if o.failed.scenario, err = timed(ctx, d.course, s); err != nil {
		return err
	}
	o.healthy.scenario = o.failed.scenario.Healthy()
	o.healthy.before, err = d.course.Healthy(ctx, s)
	return err
}

func onTheGround() error {
	return errors.New("the aircraft is on the ground at this moment: the price of a failure counts from the air; ask for a moment between lift-off and touchdown")
}

// value is a quantity of a flight at a moment.
func value(p flight.Path, name string, at book.Time) float64 {
	for i, q := range book.Quantities {
		if q.Name == name {
			return p.Value(i, at)
		}
	}
	return 0
}

// timed is a scenario with every moment as a time of the flight, so that it means
// the same along another way.
func timed(ctx context.Context, c *run.Course, s run.Scenario) (run.Scenario, error) {
	var errs []error
	fix := func(m book.Moment) book.Moment {
		t, err := c.Resolve(ctx, m)
		errs = append(errs, err)
		return book.Moment{Offset: t}
	}
	s.Strikes, s.SetUp, s.Actions = append([]run.Strike(nil), s.Strikes...), append([]run.Action(nil), s.SetUp...), append([]run.Action(nil), s.Actions...)
	for i := range s.Strikes {
		if s.Strikes[i].When == nil {
			s.Strikes[i].At = fix(s.Strikes[i].At)
		}
	}
	for _, list := range [][]run.Action{s.SetUp, s.Actions} {
		for i := range list {
			if list[i].When == nil {
				list[i].At = fix(list[i].At)
			}
			list[i] = list[i].Taken()
		}
	}
	return s, errors.Join(errs...)
}

// until is a scenario without what would fail only after a moment.
func until(s run.Scenario, end book.Time) run.Scenario {
	s.Strikes = slices.DeleteFunc(slices.Clone(s.Strikes), func(k run.Strike) bool { return k.When == nil && k.At.Offset > end })
	return s
}

// whereabouts puts the aircraft on the geodesic between the ends of the flight, in
// proportion to the way flown.
func (d *desk) whereabouts(from, to airfield.Airfield) {
	f := d.course.Flight
	nm, _ := f.Number("distance_nm")
	line := geo.Between(from.Place, to.Place)
	done := 1 - d.rows.leftM(d.at)/(nm*geo.MetresPerNM)
	d.from, _ = geo.Along(from.Place, line.Start, line.Metres*min(max(done, 0), 1))
	dev, _ := f.Number("isa_deviation_c")
	d.std, d.levels = flight.Air{DeviationC: dev}, d.region.Winds(f, from.Place, to.Place)
}

// pastThresholdM is how far behind the threshold a path of 3 degrees over it at 50
// ft meets the ground (14 CFR 25.125: 50 ft).
var pastThresholdM = 50 * 0.3048 / math.Tan(3*math.Pi/180)

// leftM is how far the touchdown of the flight is.
func (o *onRows) leftM(at book.Time) float64 {
	return value(o.path, "to_go_nm", at)*geo.MetresPerNM + pastThresholdM
}

// reserve works out the flows in which the rule counts, as far as the manual says.
func (o *onRows) reserve(d *desk) {
	ft, _ := d.course.Flight.Number("cruise_altitude_ft")
	needs := func(b fuel.Burn) bool { return d.rule.FinalReserveKg(b) > 0 }
	if needs(fuel.Burn{HoldKgPerH: 1}) {
		d.holdKgPerH, o.missing = d.manual.Holding(o.state.MassKg)
	}
	if needs(fuel.Burn{CruiseKgPerH: 1}) && o.missing == nil {
		d.cruise, o.missing = d.manual.Cruise(ft, o.state.MassKg)
	}
}

// judge flies one of the two runs to a place: to the end that looks best, and again
// if another turns out to be better.
func (o *onRows) judge(ctx context.Context, d *desk, who flown, p *Place) (s Side, err error) {
	strips := d.strips(p.Airfield)
	if len(strips) == 0 {
		return s, fmt.Errorf("%s has no runway", p.Airfield.Ident)
	}
	first := region.Guess(strips)
	for range 2 {
		if s, err = o.fly(ctx, d, who, p, strips[first]); err != nil || !s.Arrives {
			return s, err
		}
		s.Landings = o.landings(d, &s, strips, first)
		best := 0
		for i := range s.Landings {
			if s.Landings[i].better(&s.Landings[best]) {
				best = i
			}
		}
		if best == 0 {
			break
		}
		first = s.Landings[best].strip
	}
	return s, nil
}

// mostChanges is how often the systems may change what a flight on the rows feels.
const mostChanges = 60

// fly flies the rows to a runway end, and the circuit along. When what the systems
// leave changes, the rest is flown with that, until nothing changes any more.
func (o *onRows) fly(ctx context.Context, d *desk, who flown, p *Place, on region.Strip) (s Side, err error) {
	plan := manual.Plan{Air: d.std, DistanceM: p.Line.Metres, FieldFt: on.Ground.AltitudeFt, Wind: flight.Over(on.Ground.AltitudeFt, on.Ground.HeadwindKt, region.Along(d.levels, region.Direction(p.Line, d.from)))}
	plan.CruiseFt, _ = d.course.Flight.Number("cruise_altitude_ft")
	if p.Own {
		plan.DistanceM = o.leftM(d.at)
	}
	now, since := o.systems(d, who.before, d.at), d.at
	prof := manual.Divert(d.manual, now, o.state, plan)
	for range mostChanges {
		path := manual.NewPath(o.path, d.at, d.course.Flight, prof)
		r, err := d.course.Along(path).Fly(ctx, until(who.scenario, path.End()))
		if err != nil {
			return s, err
		}
		at, next, found := o.change(d, r, since, now)
		if !found {
			return o.read(d, r, p.Airfield), nil
		}
		prof, now, since = prof.Leave(d.manual, next, at.Seconds()), next, at
	}
	return s, fmt.Errorf("on the way to %s the systems change more than %d times what a flight on the manual's numbers feels", p.Airfield.Ident, mostChanges)
}

// change is the first moment after another at which the systems leave something else
// of the flight.
func (o *onRows) change(d *desk, r *run.Record, after book.Time, was manual.Systems) (at book.Time, now manual.Systems, found bool) {
	down, _ := r.Path().(*manual.Path).Down()
	for _, t := range r.Instants() {
		if t <= after || t >= down {
			continue
		}
		if now = o.systems(d, r, t); now != was {
			return t, now, true
		}
	}
	return 0, was, false
}

// systems is what the systems leave of the flight at a moment.
func (o *onRows) systems(d *desk, r *run.Record, at book.Time) manual.Systems {
	of := func(name string) float64 { return effect(r, name, at+1) }
	return manual.Systems{
		Left: min(max(of("engine_left_ratio"), 0), 1), Right: min(max(of("engine_right_ratio"), 0), 1),
		MostFt: of("most_altitude_ft"), MostKt: of("most_airspeed_kt"), LeakKgPerH: max(of("fuel_leak_kg_per_h"), 0),
		FuelRatio: d.factors(r, at+1).Fuel, Setting: setting(r, at+1),
	}
}

// endings are the ways to end of a flight on the rows, as those of one with drag.
var endings = map[manual.Ending]energy.Event{manual.Arrived: energy.Arrived, manual.Dry: energy.Dry, manual.Short: energy.Sinks, manual.NoWay: energy.TooFar}

// read reads off a record what a way took.
func (o *onRows) read(d *desk, r *run.Record, a airfield.Airfield) (s Side) {
	path := r.Path().(*manual.Path)
	down, ok := path.Down()
	last := path.Profile.Last()
	s.record, s.rows, s.Ending = r, path, endings[path.Profile.End]
	s.Arrives = ok && r.Fault == nil
	if s.Unsaid = path.Profile.Err; !ok {
		s.ShortNM = (path.Profile.AimM - last.DistanceM) / 1852
	}
	s.Minutes, s.FuelKg = (down-d.at).Seconds()/60, o.state.FuelKg-last.FuelKg
	s.LandsKg, s.MassKg = last.FuelKg, last.MassKg
	s.ReserveKg = d.rule.FinalReserveKg(fuel.Burn{CruiseKgPerH: d.cruise, HoldKgPerH: d.holdKgPerH})
	s.GearUp = ok && effect(r, "gear_out", down) == 0 && d.tellsGear
	s.LegUp = ok && effect(r, "gear_locked", down) == 0
	s.approach(d, a, down)
	return s
}

// landings are the landings on every end, the one that was flown to first.
func (o *onRows) landings(d *desk, s *Side, strips []region.Strip, flown int) (list []Landing) {
	list = append(list, o.landing(d, s, &strips[flown], flown))
	for i := range strips {
		if i != flown {
			list = append(list, o.landing(d, s, &strips[i], i))
		}
	}
	return list
}

func (o *onRows) landing(d *desk, s *Side, on *region.Strip, number int) Landing {
	down := s.down()
	l := d.onStrip(s.record, on, down, number)
	l.ByRows = true
	if l.Code == noLanding {
		return l
	}
	var base float64
	base, l.Unsaid = d.manual.LandingM(setting(s.record, down), manual.At{
		Code: float64(l.Code), AltitudeFt: on.Ground.AltitudeFt, MassKg: s.MassKg, HeadwindKt: on.Ground.HeadwindKt,
	})
	if l.Unsaid == nil {
		f := d.factors(s.record, down)
		l.stopsAt(base*f.Landing + f.AddsM)
	}
	return l
}

// judgeRows judges both sides of a place.
func (d *desk) judgeRows(ctx context.Context, p *Place) (err error) {
	if p.Failed, err = d.rows.judge(ctx, d, d.rows.failed, p); err != nil {
		return err
	}
	if p.Healthy, err = d.rows.judge(ctx, d, d.rows.healthy, p); err != nil {
		return err
	}
	p.Healthy.weigh()
	if err = d.weigh(ctx, &p.Failed); err != nil {
		return err
	}
	p.Failed.miss(append(d.uncovered(&p.Failed, &p.Healthy), d.rows.unsaid()...))
	p.Healthy.miss(d.rows.unsaid())
	return d.rows.near(ctx, d, p)
}

// near is desk.near for a flight on the rows.
func (o *onRows) near(ctx context.Context, d *desk, p *Place) error {
	if !p.Healthy.Arrives || !p.Healthy.GearUp || !d.canDivert(d.at) {
		return nil
	}
	far := *p
	far.Own, far.Line.Metres = false, p.Line.Metres+roomM
	s, err := o.judge(ctx, d, o.healthy, &far)
	if err == nil && s.Arrives && !s.GearUp {
		p.tooNear()
	}
	return err
}

// uncovered names the effects that the failures change and that no standing factor
// of the manual covers: what they do is then left out of the price.
func (d *desk) uncovered(failed, healthy *Side) (list []string) {
	for _, e := range d.course.Build.Effects {
		a, b := failed.acts(e, d.at), healthy.acts(e, d.at)
		if a == b || max(a-b, b-a) <= lacksFrom && min(a, b) > 0 || !book.Factored(e.Name) {
			continue
		}
		if text := d.covers(failed, e); text != "" {
			list = append(list, fmt.Sprintf("what %s does: %s (%s:%d)", e.Name, text, e.Range.File, e.Range.Line))
		}
	}
	return list
}

// covers says why no factor stands for an effect; "" if one does.
func (d *desk) covers(s *Side, e *book.Effect) string {
	var ids []string
	for _, f := range d.manual.From.Covering(e.Name) {
		n, ok := s.record.Circuit().Node(circuit.Value{Item: book.FactorID(f.ID)})
		if ok && slices.ContainsFunc(s.record.Instants(), func(t book.Time) bool { return t >= d.at && s.record.At(n, t) != 0 }) || s.record.At(n, d.at) != 0 {
			return ""
		}
		ids = append(ids, f.ID)
	}
	if len(ids) == 0 {
		return "no factor of the performance block covers it"
	}
	return say.Plural(len(ids), "the factor that covers it does not stand: ", "none of the factors that cover it stands: ") + say.And(ids)
}

// unsaid is why the final reserve is not known.
func (o *onRows) unsaid() []string {
	if o.missing == nil {
		return nil
	}
	return []string{"the final reserve: " + o.missing.Error()}
}

// notes say what the numbers rest on.
func (o *onRows) notes(d *desk) []string {
	p := d.manual.From
	list := []string{
		fmt.Sprintf("There are no drag polars: time, fuel and landing distance are those of the manual's rows (%s; %s:%d), in a straight line between two rows and never beyond them.", p.Source, p.Range.File, p.Range.Line),
		"Failures act through the manual's factors, its rows for one engine and none, and what is left of level and airspeed. Slowing down takes no time. Landing distances have 15 percent on top.",
	}
	for _, t := range p.Tables {
		if t.Kind != "landing" {
			continue
		}
		var without []string
		for _, c := range []struct{ column, says string }{{"altitude_ft", "elevation (read up to 1,000 ft)"}, {"headwind_kt", "headwind (no credit is taken)"}} {
			if t.Column(c.column) < 0 {
				without = append(without, c.says)
			}
		}
		list = append(list, fmt.Sprintf("The rows of %s are taken as they stand for %s.", t.Name(), say.And(append(without, "temperature", "slope"))))
	}
	return list
}

// whole is the price of a place without its parts.
func (o *onRows) whole(d *desk, p Place) *Attribution {
	total := func(s *Side) Totals {
		t := Totals{FuelKg: s.FuelKg, Minutes: s.Minutes, Arrives: s.Arrives}
		if len(s.Landings) > 0 {
			t.RequiredM, t.Stops = s.Landings[0].RequiredM, s.Landings[0].Stops
		}
		return t
	}
	return &Attribution{Place: p, End: d.flownTo(&p).End.Ident, Healthy: total(&p.Healthy), Failed: total(&p.Failed), Unparted: true}
}
