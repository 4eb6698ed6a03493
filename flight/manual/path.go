package manual

import (
	"math"
	"slices"
	"sort"

	"knockon/book"
	"knockon/flight"
)

// Path is a flight of the book up to a moment and a flight on a manual's numbers
// from there; it is a flight.Path and is frozen. No row says how the roll goes: it
// is an even one to the stop, for the circuit alone.
type Path struct {
	Profile *Profile

	before flight.Path
	since  book.Time
	knots  []book.Time
	starts []book.Time // of the pieces
	from   [2]float64  // elevation and distance at the turn
	touch  book.Time   // of the wheels; the end where it does not land
	icing  [2]float64
	wet    float64
}

var _ flight.Path = (*Path)(nil)

// StateOf is the state of a flight at a moment.
func StateOf(p flight.Path, t book.Time) State {
	of := func(name string) float64 { return p.Value(quantities[name], t) }
	return State{TimeS: t.Seconds(), DistanceM: of("distance_nm") * 1852, AltitudeFt: of("altitude_ft"), MassKg: of("mass_kg"), FuelKg: of("fuel_kg")}
}

var quantities = func() map[string]int {
	m := map[string]int{}
	for i, q := range book.Quantities {
		m[q.Name] = i
	}
	return m
}()

// NewPath joins a profile that begins at a moment of a flight to that flight.
func NewPath(before flight.Path, since book.Time, f *book.Flight, p *Profile) *Path {
	low, _ := f.Number("icing_from_ft")
	high, _ := f.Number("icing_to_ft")
	at := func(name string) float64 { return before.Value(quantities[name], since) }
	q := &Path{Profile: p, before: before, since: since, icing: [2]float64{low, high}, wet: at("runway_wet"),
		from: [2]float64{at("altitude_ft") - at("height_ft"), at("distance_nm") * 1852}}
	for _, t := range before.Knots() {
		if t <= since {
			q.knots = append(q.knots, t)
		}
	}
	q.knots = append(q.knots, since, since+1)
	for i := range p.pieces {
		q.starts = append(q.starts, micros(p.pieces[i].from.TimeS))
		q.knots = append(append(q.knots, q.starts[i]), q.edges(&p.pieces[i])...)
	}
	q.touch = max(micros(p.Last().TimeS), since+1)
	q.knots = append(q.knots, q.touch, q.End())
	if p.End == Arrived {
		q.knots = append(q.knots, q.touch+brakesAfter, q.End()-brakesAfter)
	}
	slices.Sort(q.knots)
	q.knots = slices.Compact(q.knots)
	return q
}

func micros(s float64) book.Time { return book.Time(math.Round(s * 1e6)) }

// edges are the first moments at which a piece is on the other side of a border of
// the icing layer.
func (p *Path) edges(x *piece) (list []book.Time) {
	for _, ft := range p.icing {
		a, b := x.from.AltitudeFt, x.to.AltitudeFt
		u := (ft - a) / (b - a)
		if !(u > 0 && u < 1) {
			continue
		}
		above := func(t book.Time) bool { return x.at(t.Seconds()).AltitudeFt >= ft }
		t := micros(x.from.TimeS+u*(x.to.TimeS-x.from.TimeS)) - 2
		for was := above(t); above(t) == was && t.Seconds() < x.to.TimeS; {
			t++
		}
		list = append(list, t)
	}
	return list
}

// The roll slows down so much, m/s2, and is braked so long after the touchdown
// (common practice).
const (
	slows       = 1.7
	brakesAfter = book.Second
)

// End and Knots are as flight.Path says.
func (p *Path) End() book.Time {
	if p.Profile.End != Arrived {
		return p.touch
	}
	return p.touch + book.AtSeconds(p.landsKt()*knot/slows) + brakesAfter
}

func (p *Path) Knots() []book.Time { return slices.Clone(p.knots) }

// Down is the moment of the touchdown; ok is false where there is none.
func (p *Path) Down() (at book.Time, ok bool) { return p.touch, p.Profile.End == Arrived }

// landsKt is the speed over the ground at the touchdown.
func (p *Path) landsKt() float64 {
	if n := len(p.Profile.pieces); n > 0 {
		return p.Profile.pieces[n-1].overGroundKt()
	}
	return 0
}

// rolls is the speed and the way of the roll.
func (p *Path) rolls(t book.Time) (kt, metres float64) {
	v, s := p.landsKt()*knot, (t - p.touch).Seconds()
	whole := v / slows
	s = min(s, whole)
	return max(v-slows*s, 0) / knot, v*s - slows*s*s/2
}

// pieceAt is the stretch of a moment after the turn; nil if nothing was flown.
func (p *Path) pieceAt(t book.Time) *piece {
	i := sort.Search(len(p.starts), func(i int) bool { return p.starts[i] > t }) - 1
	if len(p.starts) == 0 {
		return nil
	}
	return &p.Profile.pieces[max(i, 0)]
}

// Value gives a quantity at a moment; see flight.Path.
func (p *Path) Value(q int, t book.Time) float64 {
	x := p.pieceAt(t)
	if t <= p.since || x == nil {
		return p.before.Value(q, min(t, p.since))
	}
	t = min(t, p.End())
	s := x.at(t.Seconds())
	if t >= p.touch {
		s = p.Profile.Last()
	}
	if v, ok := p.onTheRoll(book.Quantities[q].Name, t); ok {
		return v
	}
	ft, tas := s.AltitudeFt, x.tasKt(p.Profile.Plan)
	air := p.Profile.Plan.Air
	switch book.Quantities[q].Name {
	case "time_s":
		return t.Seconds()
	case "on_ground":
		return yes(p.down(t))
	case "height_ft":
		return (1 - yes(p.down(t))) * max(0, ft-p.ground(s.DistanceM))
	case "altitude_ft":
		return ft
	case "airspeed_kt":
		return air.CASOfTAS(tas, ft)
	case "true_airspeed_kt":
		return tas
	case "mach":
		return tas / air.SoundKt(ft)
	case "ground_speed_kt":
		return x.overGroundKt()
	case "vertical_speed_ft_per_min":
		return (x.to.AltitudeFt - x.from.AltitudeFt) / x.seconds() * 60
	case "air_temperature_c":
		return air.TemperatureC(ft)
	case "total_temperature_c":
		return flight.TotalC(air.TemperatureC(ft), tas/air.SoundKt(ft), 1)
	}
	return p.other(book.Quantities[q].Name, x, s, t)
}

func (p *Path) other(name string, x *piece, s State, t book.Time) float64 {
	switch name {
	case "icing":
		return yes(s.AltitudeFt >= p.icing[0] && s.AltitudeFt < p.icing[1] && p.icing[0] < p.icing[1] && !p.down(t))
	case "thrust_pct":
		return x.thrust
	case "mass_kg":
		return s.MassKg
	case "fuel_kg":
		return max(0, s.FuelKg)
	case "distance_nm":
		return s.DistanceM / 1852
	case "to_go_nm":
		return max(0, p.Profile.AimM-s.DistanceM) / 1852
	case "on_glide_path":
		return yes(x.stage == approaching)
	case "headwind_kt":
		return p.Profile.Plan.Wind(s.AltitudeFt)
	case "runway_wet":
		return p.wet
	}
	return 0 // braking, wheel_speed_kt
}

// down says that the wheels are on the ground.
func (p *Path) down(t book.Time) bool {
	return t >= p.touch && (p.Profile.End == Arrived || p.Profile.End == Short)
}

// onTheRoll is what is different on the roll.
func (p *Path) onTheRoll(name string, t book.Time) (v float64, ok bool) {
	if t < p.touch || p.Profile.End != Arrived {
		return 0, false
	}
	kt, metres := p.rolls(t)
	ft, air := p.Profile.Plan.FieldFt, p.Profile.Plan.Air
	tas := max(kt+p.Profile.Plan.Wind(ft), 0)
	switch name {
	case "ground_speed_kt", "wheel_speed_kt":
		return kt, true
	case "true_airspeed_kt":
		return tas, true
	case "airspeed_kt":
		return air.CASOfTAS(tas, ft), true
	case "mach":
		return tas / air.SoundKt(ft), true
	case "total_temperature_c":
		return flight.TotalC(air.TemperatureC(ft), tas/air.SoundKt(ft), 1), true
	case "distance_nm":
		return (p.Profile.Last().DistanceM + metres) / 1852, true
	case "vertical_speed_ft_per_min", "on_glide_path":
		return 0, true
	case "thrust_pct":
		return descentPct, true
	case "braking":
		return yes(t >= p.touch+brakesAfter), true
	}
	return 0, false
}

func (x *piece) seconds() float64 { return max(x.to.TimeS-x.from.TimeS, 1e-6) }

func (x *piece) overGroundKt() float64 {
	return (x.to.DistanceM - x.from.DistanceM) / x.seconds() / knot
}

// tasKt is the true airspeed on the stretch.
func (x *piece) tasKt(plan Plan) float64 {
	return x.overGroundKt() + plan.Wind((x.from.AltitudeFt+x.to.AltitudeFt)/2)
}

// ground is the elevation below: evenly from that at the turn to the runway's.
func (p *Path) ground(metres float64) float64 {
	part := min(max((metres-p.from[1])/max(p.Profile.AimM-p.from[1], 1), 0), 1)
	return p.from[0] + part*(p.Profile.Plan.FieldFt-p.from[0])
}

func yes(b bool) float64 {
	if b {
		return 1
	}
	return 0
}
