package run

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/flight/geo"
)

// A line of a list may ask whether the runway that the flight is bound for still does
// (docs/meaning.md, section 12). Where it does not, and another is better as flown, the
// flight goes there, and goes around first where its final approach has begun.

// apart is how long after a go-around has begun the flight is turned to a field (an
// assumption).
const apart = book.Second

// asked is the leg that is flown now: a leg that asks whether the runway does gives way
// to what was found; goes is false where the flight goes on as it is.
func (p *pilot) asked(m *circuit.Machine, l Leg, now energy.Config) (flown Leg, goes bool) {
	if l.Do != LongEnough {
		return l, true
	}
	legs, err := p.enough(m, l, now)
	if err != nil {
		p.turns = append(p.turns, Turned{Leg: l, At: m.Now(), Why: err.Error()})
	}
	if len(legs) == 0 {
		return l, false
	}
	for i, later := range legs[1:] {
		p.legs = slices.Insert(p.legs, i, pending{leg: later, at: later.At.Offset})
	}
	return legs[0], true
}

// enough is what comes of a leg that asks whether the runway does: the legs that are
// flown instead, none where it does. The error says why it lands there all the same.
func (p *pilot) enough(m *circuit.Machine, l Leg, now energy.Config) ([]Leg, error) {
	if l.To == "" && l.found.stays == "" {
		l = p.asks(m, l, now)
	}
	switch {
	case l.To == "" && l.found.stays != itDoes:
		return nil, errors.New(l.found.stays)
	case l.To == "":
		return nil, nil
	}
	return p.away(l, m.Now()), nil
}

// itDoes is found where the runway suits.
const itDoes = "it does"

// away are the legs to a field that was found.
func (p *pilot) away(l Leg, at book.Time) []Leg {
	to := Leg{Do: Land, To: l.To, At: book.Moment{Offset: at}, taken: true, found: l.found}
	if p.path.CanDivert(at) {
		return []Leg{to}
	}
	to.At.Offset += apart
	return []Leg{{Do: GoAround, At: l.At, taken: true}, to}
}

// asks finds whether the runway does, and where it does not which other is better. The
// leg of the scenario keeps what was found.
func (p *pilot) asks(m *circuit.Machine, asked Leg, now energy.Config) Leg {
	l := asked
	on, w, err := p.boundFor(m, now)
	switch {
	case err != nil || p.looking || !p.canFork() || !p.path.InAir(m.Now()) || p.course.router.Suits(on, w):
		l.found.stays = itDoes
	case now.Engines == [2]float64{}:
		l.found.stays = unsuited(on) + ", and no engine gives thrust to go elsewhere"
	default:
		l = p.better(m, l, on, w)
	}
	p.keep(asked, l)
	return l
}

func (r Route) runway() string { return "runway " + r.End + " of " + r.Name }

// unsuited is how the runway that a flight is bound for is called where it does not do.
func unsuited(on Route) string { return on.runway() + " does not suit the aircraft as it is" }

// boundFor is the runway end that the flight is going to.
func (p *pilot) boundFor(m *circuit.Machine, now energy.Config) (on Route, w Whereabouts, err error) {
	if p.course.router == nil {
		return on, w, errors.New("the airfields are not known")
	}
	if w, err = p.whereabouts(p.course.router, m, m.Now(), now); err != nil {
		return on, w, err
	}
	for _, t := range p.turns {
		if t.Why == "" && t.Leg.OverGround() {
			on = t.Route
		}
	}
	if on.Field == "" {
		planned := w
		planned.Left = Whole()
		on, err = p.course.router.Route(Leg{Do: GoOn}, planned)
	}
	return on, w, err
}

// better finds the field nearest to the one that it is bound for, or once its approach has
// begun to the aircraft, at which the flight, flown on, comes down better than at the
// runway that it is bound for, with its final reserve.
func (p *pilot) better(m *circuit.Machine, l Leg, on Route, w Whereabouts) Leg {
	best, list := p.flownOn(m, nil).down(on, w), p.others(m, on, w)
	if best.comes == AsItShould {
		l.found.stays = itDoes
		return l
	}
	for i := 0; i < len(list) && best.comes < AsItShould; i++ {
		to := l
		to.To, to.found = list[i].Field+"/"+list[i].End, found{choice: list[i].Choice, flown: i + 1, instead: on.runway(), around: !p.path.CanDivert(m.Now())}
		r := p.flownOn(m, p.away(to, m.Now()))
		d := r.down(list[i], w)
		to.found.comes = d.comes
		if r.keepsReserve() && d.better(best) {
			best, l = d, to
		}
	}
	if best.comes < AsItShould {
		l.found.flown = len(list)
	}
	if l.To == "" {
		l.found.stays = unsuited(on) + ", and of " + fmt.Sprint(len(list)) + " fields none is better as flown"
	}
	return l
}

// others are the fields to which a flight is flown on instead, in their order.
func (p *pilot) others(m *circuit.Machine, on Route, w Whereabouts) []Route {
	list, err := p.course.router.Fields(w)
	if err != nil {
		return nil
	}
	from := on.Track.To
	if !p.path.CanDivert(m.Now()) {
		from = w.Place
	}
	away := func(r Route) float64 {
		if r.Field == on.Field {
			return 0
		}
		return geo.Between(r.Track.To, from).Metres
	}
	slices.SortStableFunc(list, func(a, b Route) int {
		return cmp.Or(cmp.Compare(a.Choice/NearestOnly, b.Choice/NearestOnly), cmp.Compare(away(a), away(b)))
	})
	return list[:min(len(list), mostFlown)]
}

// keepsReserve says that a flight landed with its final reserve.
func (r *Record) keepsReserve() bool {
	if r == nil {
		return false
	}
	f, ok := r.FuelAtTouchdown()
	return ok && f.LeftKg >= f.ReserveKg
}
