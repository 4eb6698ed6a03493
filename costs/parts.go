package costs

import (
	"context"
	"errors"
	"runtime"
	"slices"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/roll"
	"knockon/region"
	"knockon/run"
	"knockon/why"
)

// Attribution is what each thing that the systems do differently adds to the
// price of one place. All of it counts on the runway end that the failed aircraft
// flew to.
type Attribution struct {
	Place           Place
	End             string // runway end
	Healthy, Failed Totals
	Parts           []Part
	Unparted        bool // on a manual's numbers what each thing adds is not worked out
}

// Totals are what a diversion takes.
type Totals struct {
	FuelKg, Minutes, RequiredM float64
	Arrives, Stops             bool
}

// Part is one thing that the systems do differently, and what it adds.
type Part struct {
	ID, Title string
	Functions []*book.Function // that are lost and force it
	Back      Totals           // failed, with this alone as if nothing had failed
	Alone     Totals           // healthy, with this alone as it is
}

// effectPart is a group of effects that an instructor thinks of as one.
type effectPart struct {
	id, title string
	effects   []string
	take      func(to, from *energy.Config)
}

var effectParts = []effectPart{
	{"engines", "Thrust of the engines", []string{"engine_left_ratio", "engine_right_ratio"}, func(to, from *energy.Config) { to.Engines = from.Engines }},
	{"thrust_frozen", "Thrust that stands", []string{"thrust_frozen"}, func(to, from *energy.Config) { to.Frozen = from.Frozen }},
	{"thrust_closed", "Levers that close", []string{"thrust_closed"}, func(to, from *energy.Config) { to.Closed = from.Closed }},
	{"high_idle", "Higher idle", []string{"high_idle"}, func(to, from *energy.Config) { to.HighIdle = from.HighIdle }},
	{"gear", "Landing gear in the airflow", []string{"gear_out"}, func(to, from *energy.Config) { to.GearOut = from.GearOut }},
	{"flaps", "Slats and flaps", []string{"flap_setting"}, func(to, from *energy.Config) { to.Setting = from.Setting }},
	{"speed_brakes", "Speed brakes", []string{"speed_brakes_ratio"}, func(to, from *energy.Config) { to.SpeedBrakes = from.SpeedBrakes }},
	{"extra_drag", "Doors and panels in the airflow", []string{"extra_drag_ratio"}, func(to, from *energy.Config) { to.ExtraDrag = from.ExtraDrag }},
	{"ice", "Ice on the wing", []string{"wing_iced"}, func(to, from *energy.Config) { to.Iced = from.Iced }},
	{"airspeed", "Airspeed that is left", []string{"most_airspeed_kt"}, func(to, from *energy.Config) { to.MostKt = from.MostKt }},
	{"level", "Level that is left", []string{"most_altitude_ft"}, func(to, from *energy.Config) { to.MostFt = from.MostFt }},
	{"leak", "Fuel lost overboard", []string{"fuel_leak_kg_per_h"}, func(to, from *energy.Config) { to.LeakKgPerS = from.LeakKgPerS }},
	{"spoilers", "Ground spoilers", []string{"ground_spoilers_ratio"}, func(to, from *energy.Config) { to.GroundSpoilers = from.GroundSpoilers }},
	{"brakes", "Wheel brakes", []string{"brakes_ratio"}, func(to, from *energy.Config) { to.Brakes = from.Brakes }},
	{"anti_skid", "Anti-skid", []string{"anti_skid"}, func(to, from *energy.Config) { to.AntiSkid = from.AntiSkid }},
	{"reverse", "Reverse thrust", []string{"reverse_left", "reverse_right"}, func(to, from *energy.Config) { to.Reverse = from.Reverse }},
}

// Attribute says what each thing adds to the price of a place: by giving it back
// alone, and by taking it alone. What the parts given back do not add up to is
// the interaction.
func (c *Costs) Attribute(ctx context.Context, ident string) (*Attribution, bool, error) {
	for _, p := range c.Places {
		if p.Airfield.Ident == ident {
			a, err := c.desk.attribute(ctx, p)
			return a, err == nil, err
		}
	}
	return nil, false, nil
}

func (d *desk) attribute(ctx context.Context, p Place) (*Attribution, error) {
	if d.rows != nil {
		return d.rows.whole(d, p), nil
	}
	on := d.flownTo(&p)
	a := &Attribution{Place: p, End: on.End.Ident}
	differ := make([]bool, len(effectParts))
	watch := func(c []energy.Config) energy.Config {
		for i := range effectParts {
			differ[i] = differ[i] || effectParts[i].differs(c)
		}
		return c[0]
	}
	entire, err := d.entire(ctx)
	if err != nil {
		return nil, err
	}
	records, failed, err := d.total(ctx, p, on, watch, entire, asFailed)
	if err != nil {
		return nil, err
	}
	a.Failed = failed
	if _, a.Healthy, err = d.total(ctx, p, on, func(c []energy.Config) energy.Config { return c[1] }, &d.pair, asHealthy); err != nil {
		return nil, err
	}
	if a.Parts, err = d.parts(ctx, p, on, differ, a); err != nil {
		return nil, err
	}
	for i := range a.Parts {
		a.Parts[i].Functions = d.behind(records, partNamed(a.Parts[i].ID))
	}
	return a, nil
}

// parts flies every part that differs, on all processors; one that makes no
// difference to the price is left out.
func (d *desk) parts(ctx context.Context, p Place, on region.Strip, differ []bool, a *Attribution) (list []Part, err error) {
	found, errs := make([]Part, len(effectParts)), make([]error, len(effectParts))
	var wg sync.WaitGroup
	turn := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range effectParts {
		if differ[i] {
			wg.Go(func() {
				turn <- struct{}{}
				defer func() { <-turn }()
				found[i], errs[i] = d.part(ctx, p, on, &effectParts[i])
			})
		}
	}
	wg.Wait()
	for i, part := range found {
		if differ[i] && (part.Back != a.Failed || part.Alone != a.Healthy) {
			list = append(list, part)
		}
	}
	return list, errors.Join(errs...)
}

func partNamed(id string) *effectPart {
	for i := range effectParts {
		if effectParts[i].id == id {
			return &effectParts[i]
		}
	}
	return nil
}

// differs says that two configurations are not alike in a part.
func (e *effectPart) differs(c []energy.Config) bool {
	mixed := c[0]
	e.take(&mixed, &c[1])
	return mixed != c[0]
}

func (d *desk) part(ctx context.Context, p Place, on region.Strip, e *effectPart) (part Part, err error) {
	defer caught(&err)
	part = Part{ID: e.id, Title: e.title}
	mix := func(base, from int) run.Mix {
		return func(c []energy.Config) energy.Config {
			mixed := c[base]
			e.take(&mixed, &c[from])
			return mixed
		}
	}
	if _, part.Back, err = d.total(ctx, p, on, mix(0, 1), &d.pair, asFailed); err != nil {
		return part, err
	}
	_, part.Alone, err = d.total(ctx, p, on, mix(1, 0), &d.pair, asHealthy)
	return part, err
}

// flownTo is the runway end that the failed aircraft flew to.
func (d *desk) flownTo(p *Place) region.Strip {
	strips := d.strips(p.Airfield)
	if len(p.Failed.Landings) > 0 {
		return strips[p.Failed.Landings[0].strip]
	}
	return strips[region.Guess(strips)]
}

// Whose way the two runs take: that of the failed one, where lists of its crew can
// turn it, or that of the one in which nothing failed.
const (
	asFailed = iota
	asHealthy
)

// total flies both runs together to a runway end and says what it took.
func (d *desk) total(ctx context.Context, p Place, on region.Strip, mix run.Mix, held *pair, as int) (records []*run.Record, t Totals, err error) {
	if as == asFailed && d.course.CanTurn() {
		records, err = run.GoTogether(ctx, d.leg(p.Airfield, on), mix, held.here, held.there)
	} else {
		records, err = run.Together(ctx, d.diversion(&p, on), mix, held.here, held.there)
	}
	if err != nil {
		return nil, t, err
	}
	s := d.read(records[0], p.Airfield)
	t = Totals{FuelKg: s.FuelKg, Minutes: s.Minutes, Arrives: s.Arrives}
	if in, _, ok := s.Path().Landing(); ok {
		if rolled, _, err := roll.Careful(in); err == nil {
			t.RequiredM, t.Stops = roll.AtArrival(rolled.TotalM), rolled.Stops
		}
	}
	return records, t, nil
}

// behind lists the lost functions that a part stands for: those that its
// explanation passes through, or that fail for the same reasons.
func (d *desk) behind(records []*run.Record, e *effectPart) (list []*book.Function) {
	here, there := records[0], records[1]
	for _, name := range e.effects {
		v := circuit.Value{Item: book.EffectID(name)}
		n, ok := here.Circuit().Node(v)
		if !ok {
			continue
		}
		for _, at := range here.Instants() {
			if at <= there.End && here.At(n, at) != there.At(n, at) {
				if root, ok := why.Compare(here, there, v, at); ok {
					list = appendNew(list, d.functionsOf(records, root, at)...)
				}
				break
			}
		}
	}
	return list
}

func appendNew(list []*book.Function, more ...*book.Function) []*book.Function {
	for _, f := range more {
		if !slices.Contains(list, f) {
			list = append(list, f)
		}
	}
	return list
}

// functionsOf lists the functions that are lost at a moment and named in an
// explanation; where it names none, those that are lost because of an item that
// stands at the top of it.
func (d *desk) functionsOf(records []*run.Record, root *why.Step, at book.Time) (list []*book.Function) {
	top := map[string]bool{}
	for _, s := range root.Because {
		top[s.Value.Item] = true
		for _, b := range s.Because {
			top[b.Value.Item] = true
		}
	}
	delete(top, "")
	named := items(root, map[*why.Step]bool{}, map[string]bool{})
	var alike []*book.Function
	for _, f := range d.course.Build.Functions {
		v := circuit.Value{Item: f.ID}
		n, ok := records[0].Circuit().Node(v)
		if !ok || records[0].At(n, at) != 0 || records[1].At(n, at) == 0 {
			continue
		}
		if named[f.ID] {
			list = append(list, f)
		} else if cause, ok := why.Compare(records[0], records[1], v, at); ok && slices.ContainsFunc(cause.Because, func(s *why.Step) bool { return top[s.Value.Item] }) {
			alike = append(alike, f)
		}
	}
	if len(list) == 0 {
		return alike
	}
	return list
}

func items(s *why.Step, seen map[*why.Step]bool, found map[string]bool) map[string]bool {
	if !seen[s] {
		seen[s] = true
		found[s.Value.Item] = true
		for _, b := range s.Because {
			items(b, seen, found)
		}
	}
	return found
}
