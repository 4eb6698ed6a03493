package costs

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"knockon/airfield"
	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
	"knockon/flight/energy"
	"knockon/flight/fuel"
	"knockon/flight/geo"
	"knockon/flight/manual"
	"knockon/flight/roll"
	"knockon/region"
	"knockon/run"
	"knockon/say"
	"knockon/why"
)

// Side is a diversion to a place, failed or healthy.
type Side struct {
	Ending    energy.Event // why it did not arrive, if it did not
	Arrives   bool
	Minutes   float64 // to touchdown, or to its end
	FuelKg    float64 // burnt and lost until then
	LandsKg   float64 // fuel at touchdown
	ReserveKg float64 // final reserve of the rule
	MassKg    float64 // at touchdown
	GearUp    bool    // at touchdown
	BrakesMJ  float64 // what the brakes take up to the stop
	MostMJ    float64 // and the most that they can; 0: not given
	LegUp     bool    // not all legs are down and locked at touchdown
	ShortNM   float64 // of the way, where it does not arrive; negative: beyond the place
	Refused   string  // why it could not be turned to the place, in a pilot's words; "": it was

	Landings []Landing // of every runway end that counts; the first is that flown
	Ceiling  Need      // cloud base
	Seeing   Need      // visibility
	Lapses   []Lapse   // grave functions that are gone before touchdown
	Lacking  []string  // numbers that effects need here and the book does not give
	Reasons  []Reason  // against the place; the first binds

	Unsaid error // why the manual does not say how the way there goes

	record *run.Record
	rows   *manual.Path // the way, where it is flown on a manual's numbers
	way    energy.Diversion
	right  *run.Record // along the same way with nothing failed, once it was needed
}

// Need is a number that an approach needs and what the weather has.
type Need struct {
	Least, Has float64
	Known      bool // the weather says
}

// Short says that the weather is known and is not good enough.
func (n Need) Short() bool { return n.Known && n.Has < n.Least }

// Reason is why a place is no good.
type Reason struct{ Kind, Text string }

// Kinds of reasons, in the order in which they bind.
const (
	NoArrival = "arrival"
	Time      = "time"
	Gear      = "gear"
	Approach  = "approach"
	Surface   = "surface"
	Crosswind = "crosswind"
	Tailwind  = "tailwind"
	Length    = "runway"
	Brakes    = "brakes"
	Reserve   = "reserve"
	Lacking   = "lacking" // a number that the book does not give: the place is not judged
	Near      = "near"    // alone: the place is not judged
)

// Unjudged says that the place cannot be worked out: it is too near, or the book
// lacks a number for it.
func (s *Side) Unjudged() bool {
	return len(s.Reasons) > 0 && (s.Reasons[0].Kind == Near || s.Reasons[0].Kind == Lacking)
}

// Good says that nothing speaks against the place.
func (s *Side) Good() bool { return len(s.Reasons) == 0 }

// Path is the diversion as flown with drag and thrust.
func (s *Side) Path() *energy.Path { return s.record.Path().(*energy.Path) }

// Flown is the diversion as flown, and until when in the air; lands is false where
// there is no touchdown.
func (s *Side) Flown() (path flight.Path, until book.Time, lands bool) {
	if s.rows != nil {
		until, lands = s.rows.Down()
		return s.rows, until, lands
	}
	p := s.Path()
	if until, _, lands = p.Touchdown(); !lands {
		until = p.End()
	}
	return p, until, lands
}

// Record is the run of the diversion, from the turn on.
func (s *Side) Record() *run.Record { return s.record }

// judge flies a held run to a place: to the end that a plan goes to which names none, and
// to another only if something speaks against that one and nothing against the other.
// The healthy run goes first.
func (d *desk) judge(ctx context.Context, h *run.Held, p *Place) (s Side, err error) {
	strips := d.strips(p.Airfield)
	if len(strips) == 0 {
		return s, fmt.Errorf("%s has no runway", p.Airfield.Ident)
	}
	healthy := &p.Healthy
	if h == d.there {
		healthy = &s
	}
	first := d.end(h, strips)
	for range 2 {
		if s, err = d.fly(ctx, h, p, strips[first]); err != nil || !s.Arrives {
			return s, err
		}
		s.Landings = d.landings(&s, p.Airfield, strips, first)
		d.byManual(&s, healthy)
		other := s.elsewhere()
		if other < 0 {
			break
		}
		first = other
	}
	return s, nil
}

// end is the runway end that a flight goes to where nobody names one.
func (d *desk) end(h *run.Held, strips []region.Strip) int {
	w := d.where
	if h == d.there {
		w.Left = w.Whole
	}
	return region.Best(strips, w)
}

// elsewhere is a runway end that nothing speaks against, where something does against
// the one that was flown to: of several the best; -1 for none.
func (s *Side) elsewhere() int {
	if len(s.Landings) == 0 || len(s.Landings[0].reasons()) == 0 {
		return -1
	}
	best := 0
	for i := range s.Landings {
		if s.Landings[i].better(&s.Landings[best]) {
			best = i
		}
	}
	if len(s.Landings[best].reasons()) > 0 {
		return -1
	}
	return s.Landings[best].strip
}

// fly flies a held run to a runway end.
func (d *desk) fly(ctx context.Context, h *run.Held, p *Place, on region.Strip) (s Side, err error) {
	to := d.diversion(p, on)
	r, err := d.goes(ctx, h, p, on, to)
	if err != nil {
		return s, err
	}
	s = d.read(r, p.Airfield)
	s.way = to
	return s, nil
}

// wind is that aloft along the way to a place by height: on the flight's own way the book's.
func (d *desk) wind(p *Place) func(ft float64) float64 {
	if !d.turned && d.region.Home(d.course.Flight, p.Airfield) {
		return region.Ahead(d.course.Flight)
	}
	return region.Along(d.levels, region.Direction(p.Line, d.from))
}

// goes flies a held run to a runway end: the one with the failures as a leg of its
// plan, with whoever acts in it.
func (d *desk) goes(ctx context.Context, h *run.Held, p *Place, on region.Strip, to energy.Diversion) (*run.Record, error) {
	if h != d.here || !d.course.CanTurn() {
		return h.Divert(ctx, to)
	}
	return h.Goes(ctx, d.leg(p.Airfield, on))
}

// leg is the turn to a runway end.
func (d *desk) leg(a airfield.Airfield, on region.Strip) run.Leg {
	return run.Leg{Do: run.Divert, To: a.Ident + "/" + on.End.Ident, At: book.Moment{Offset: d.at}}
}

// diversion is the way to a runway end.
func (d *desk) diversion(p *Place, on region.Strip) energy.Diversion {
	to := energy.Diversion{DistanceM: p.Line.Metres, Wind: d.wind(p), Runway: on.Ground}
	if p.Own {
		to.DistanceM = d.here.Path().LeftM(d.at)
	}
	return to
}

// read reads off a record what a diversion took.
func (d *desk) read(r *run.Record, a airfield.Airfield) (s Side) {
	s.record = r
	path := s.Path()
	down, state, ok := path.Touchdown()
	if s.Ending = path.Ending(); !ok {
		down = path.End()
		state = energy.StateAt(path, down)
		s.ShortNM = path.LeftM(down) / 1852
		if s.Refused = refusal(r, d.at); s.Refused != "" {
			s.ShortNM = d.away(path, down, a) / geo.MetresPerNM
		}
	}
	start := energy.StateAt(path, d.at)
	s.Arrives = ok && r.Fault == nil
	s.Minutes, s.FuelKg = (down-d.at).Seconds()/60, start.FuelKg-state.FuelKg
	s.LandsKg, s.MassKg = state.FuelKg, state.MassKg
	s.ReserveKg = d.rule.FinalReserveKg(fuel.Burn{CruiseKgPerH: d.cruise, HoldKgPerH: d.holdKgPerH})
	s.GearUp = ok && effect(r, "gear_out", down) == 0 && d.tellsGear
	s.BrakesMJ, s.MostMJ, _ = r.BrakeEnergy()
	s.LegUp = ok && effect(r, "gear_locked", down) == 0
	s.approach(d, a, down)
	return s
}

// refusal is why the leg to a place could not be flown; "": it was.
func refusal(r *run.Record, turn book.Time) string {
	for _, t := range r.Turns {
		if t.At == turn && t.Leg.Do == run.Divert {
			return t.Why
		}
	}
	return ""
}

// away is how far a place is, in metres, from where a flight that was not turned to it
// is at a moment: straight on from the turn.
func (d *desk) away(path *energy.Path, at book.Time, a airfield.Airfield) float64 {
	flown := d.here.Path().LeftM(d.at) - path.LeftM(at)
	end, _ := geo.Along(d.from, d.where.Course, flown)
	return geo.Between(end, a.Place).Metres
}

// approach notes what an approach needs, and the weather.
func (s *Side) approach(d *desk, a airfield.Airfield, down book.Time) {
	r, w := s.record, d.region.Reports[a.Ident]
	ceiling := w.CeilingFt()
	s.Ceiling = Need{effect(r, "least_ceiling_ft", down), ceiling.Value, ceiling.Given}
	s.Seeing = Need{effect(r, "least_visibility_m", down), w.Visibility.Metres, w.Visibility.Given && !w.Visibility.OrMore}
}

// effect is a number that the systems leave, just before a moment.
func effect(r *run.Record, name string, at book.Time) float64 {
	n, ok := r.Circuit().Node(circuit.Value{Item: book.EffectID(name)})
	if !ok {
		kind, _ := book.EffectNamed(name)
		return kind.Default
	}
	return r.Before(n, at)
}

// lostFrom is when a yes/no that is yes at a moment becomes no for good before
// the last one.
func lostFrom(r *run.Record, n circuit.Node, from, last book.Time) (at book.Time, lost bool) {
	if r.At(n, from) == 0 || r.At(n, last) != 0 {
		return 0, false
	}
	for _, ch := range r.History(n) {
		if ch.At > last {
			break
		}
		at = ch.At
	}
	return at, true
}

// runsOut names the quantity that ran out where a function was lost, if one is
// among its causes.
func runsOut(here *run.Record, f *book.Function, from, at book.Time) string {
	root, ok := why.Compare(here, nil, circuit.Value{Item: f.ID}, at)
	if !ok {
		return ""
	}
	seen := map[*why.Step]bool{}
	var look func(s *why.Step) string
	look = func(s *why.Step) string {
		if seen[s] {
			return ""
		}
		seen[s] = true
		if n, ok := here.Circuit().Node(s.Value); ok && s.Value.Item != "" && falls(here, n, from, at) {
			return s.Label
		}
		for _, b := range s.Because {
			if what := look(b); what != "" {
				return what
			}
		}
		return ""
	}
	return look(root)
}

// falls says that a number that is added up over time is less than it was: a
// battery, a tank.
func falls(r *run.Record, n circuit.Node, from, at book.Time) bool {
	_, remembers := r.Circuit().Reads(n)
	return remembers && !r.Steady(n) && r.At(n, at) < r.At(n, from)
}

// fatal lists the lapses that count against a place, the first one first.
func (s *Side) fatal() (list []Lapse) {
	for _, l := range s.Lapses {
		if l.Fatal {
			list = append(list, l)
		}
	}
	slices.SortStableFunc(list, func(a, b Lapse) int { return cmp.Compare(a.Needed, b.Needed) })
	return list
}

// where says where a flight that does not arrive ends. One that cannot come down
// flies on over the place.
func (s *Side) where() string {
	switch {
	case s.Refused != "":
		return fmt.Sprintf("%s NM from it", say.Whole(s.ShortNM))
	case s.ShortNM < 0:
		return fmt.Sprintf("%s NM beyond it", say.Whole(-s.ShortNM))
	}
	return fmt.Sprintf("%s NM short of it", say.Whole(s.ShortNM))
}

// ends says how a flight ends that does not arrive.
func (s *Side) ends() string {
	switch s.Ending {
	case energy.Sinks:
		return "cannot stay up and meets the ground"
	case energy.Dry:
		return "runs out of fuel"
	}
	return s.Ending.String() + ","
}

// weighArrival says why the flight does not arrive.
func (s *Side) weighArrival() {
	text := s.ends() + " " + s.where()
	if s.Refused != "" {
		text = s.Refused + "; it " + text
	}
	s.Reasons = append(s.Reasons, Reason{NoArrival, text})
}

// weigh collects the reasons against a place, the binding one first.
func (s *Side) weigh() {
	add := func(kind, text string, args ...any) {
		s.Reasons = append(s.Reasons, Reason{kind, fmt.Sprintf(text, args...)})
	}
	if s.record.Fault != nil {
		add(NoArrival, "the flight breaks off on the way: %s", s.record.Ending().Why)
		return
	}
	if s.Unsaid != nil {
		add(Lacking, "%v", s.Unsaid)
		return
	}
	if !s.Arrives {
		s.weighArrival()
		return
	}
	if list := s.fatal(); len(list) > 0 {
		l := list[0]
		add(Time, "%s: %s, %.0f min before touchdown", l.Function.Title, l.when(), s.Minutes-l.Needed)
	}
	if s.GearUp {
		add(Gear, "the gear is not out at touchdown")
	} else if s.LegUp {
		add(Gear, "the gear is not all down and locked at touchdown")
	}
	if s.Ceiling.Short() {
		add(Approach, "cloud base %s ft; the approach that is left needs %s ft", say.Whole(s.Ceiling.Has), say.Whole(s.Ceiling.Least))
	}
	if s.Seeing.Short() {
		add(Approach, "visibility %s m; the approach that is left needs %s m", say.Whole(s.Seeing.Has), say.Whole(s.Seeing.Least))
	}
	if len(s.Landings) > 0 {
		s.Reasons = append(s.Reasons, s.Landings[0].reasons()...)
	}
	if s.MostMJ > 0 && s.BrakesMJ > s.MostMJ {
		add(Brakes, "the brakes take up %s MJ to the stop, more than the %s MJ that they can", say.Whole(s.BrakesMJ), say.Whole(s.MostMJ))
	}
	if s.LandsKg < s.ReserveKg {
		add(Reserve, "lands with %s kg; the final reserve is %s kg", say.Whole(s.LandsKg), say.Whole(s.ReserveKg))
	}
}

// noLanding is the condition code on which no landing is made.
const noLanding = roll.Code(0)
