package worth

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
)

// burden says in which way an effect burdens the flight.
type burden struct {
	effect string
	kind   Kind
	more   float64 // 1: more of it is worse; -1: less of it is
}

// burdens are the effects that cost range in the air and a longer stop on the
// runway. What they cost in kilograms and metres is for the price of the flight.
var burdens = []burden{
	{"gear_out", Range, 1}, {"flap_setting", Range, 1}, {"speed_brakes_ratio", Range, 1}, {"extra_drag_ratio", Range, 1},
	{"wing_iced", Range, 1}, {"fuel_leak_kg_per_h", Range, 1}, {"engine_left_ratio", Range, -1}, {"engine_right_ratio", Range, -1},
	{"ground_spoilers_ratio", Stop, -1}, {"brakes_ratio", Stop, -1}, {"anti_skid", Stop, -1}, {"autobrake", Stop, -1},
	{"reverse_left", Stop, -1}, {"reverse_right", Stop, -1},
}

// rollLooked is how long after touchdown the means of stopping are looked at:
// most of a landing roll; common practice puts one at 20 to 40 s.
const rollLooked = 25 * book.Second

// least are the differences below which nothing is said: of a mean, and of a
// sum over seconds.
const (
	leastMean = 0.01
	leastSum  = 10.0
	leastKg   = 20.0
)

func (c *comparison) effects() {
	for _, b := range burdens {
		switch b.kind {
		case Stop:
			c.stop(b)
		case Range:
			c.reach(b)
		}
	}
}

// stop compares the means of an effect over the landing roll.
func (c *comparison) stop(b burden) {
	was, at, ok := rolled(c.right, b.effect)
	is, touch, landed := rolled(c.trial, b.effect)
	if !ok || !landed || math.Abs(is-was) < leastMean {
		return
	}
	c.add(Harm{Kind: Stop, Item: book.EffectID(b.effect), From: max(at, touch), Bites: max(at, touch), Lasts: rollLooked, Severity: -1,
		Here: is, Right: was, Better: (is-was)*b.more < 0, Mattered: true})
}

// rolled is the mean of an effect after touchdown.
func rolled(f *Flown, effect string) (mean float64, at book.Time, ok bool) {
	at, ok = touchdown(f)
	n, has := f.Plan.Record.Circuit().Node(circuit.Value{Item: book.EffectID(effect)})
	if !ok || !has {
		return 0, 0, false
	}
	to := min(at+rollLooked, f.Plan.Record.End)
	if to <= at {
		return 0, 0, false
	}
	return integral(f, n, at, to) / (to - at).Seconds(), at, true
}

// reach compares the sums of an effect over the time in the air.
func (c *comparison) reach(b burden) {
	was, ok := flown(c.right, b.effect, c.due, c.end)
	is, has := flown(c.trial, b.effect, c.due, c.end)
	least := leastSum
	if b.effect == "fuel_leak_kg_per_h" {
		was, is, least = was/3600, is/3600, leastKg
	}
	if !ok || !has || math.Abs(is-was) < least {
		return
	}
	from := c.departs(book.EffectID(b.effect))
	c.add(Harm{Kind: Range, Item: book.EffectID(b.effect), From: from, Bites: from, Severity: -1, Here: is, Right: was, Better: (is-was)*b.more < 0, Mattered: true})
}

// flown is the sum of an effect over the seconds in the air from a moment on.
func flown(f *Flown, effect string, from, end book.Time) (sum float64, ok bool) {
	n, has := f.Plan.Record.Circuit().Node(circuit.Value{Item: book.EffectID(effect)})
	if !has {
		return 0, false
	}
	to := f.Plan.Record.End
	if at, landed := touchdown(f); landed {
		to = at
	}
	return integral(f, n, from, max(from, min(to, end))), true
}

// integral sums a steady node over time, in its unit times seconds; a word
// counts 1 where it is not the setting of the clean aircraft.
func integral(f *Flown, n circuit.Node, from, to book.Time) (sum float64) {
	r := f.Plan.Record
	value, at := r.At(n, from), from
	for _, ch := range r.History(n) {
		if ch.At <= from || ch.At >= to {
			continue
		}
		sum += weight(f, n, value) * (ch.At - at).Seconds()
		value, at = ch.To, ch.At
	}
	return sum + weight(f, n, value)*(to-at).Seconds()
}

func weight(f *Flown, n circuit.Node, v float64) float64 {
	c := f.Plan.Record.Circuit()
	if c.Type(n) != book.Word {
		return v
	}
	if s := f.Plan.Record.Course.Build.Aircraft.Settings; len(s) > 0 && c.WordText(v) == s[0].Name {
		return 0
	}
	return 1
}

// departs is the first moment, from the step on, at which an item is not what it
// is in the flight done right.
func (c *comparison) departs(item string) book.Time {
	a, b := c.right.Plan.Record, c.trial.Plan.Record
	n, _ := a.Circuit().Node(circuit.Value{Item: item})
	moments := []book.Time{c.due}
	for _, r := range []interface {
		History(circuit.Node) []circuit.Change
	}{a, b} {
		for _, ch := range r.History(n) {
			moments = append(moments, ch.At)
		}
	}
	slices.Sort(moments)
	for _, t := range moments {
		if t >= c.due && a.At(n, t) != b.At(n, t) {
			return t
		}
	}
	return c.due
}

// touchdown is the last moment at which the weight comes on the wheels.
func touchdown(f *Flown) (at book.Time, ok bool) {
	ground := slices.IndexFunc(book.Quantities, func(q book.Quantity) bool { return q.Name == "on_ground" })
	path := f.Plan.Record.Path()
	for _, t := range path.Knots() {
		if t > 0 && t <= f.Plan.Record.End && path.Value(ground, t) != 0 && path.Value(ground, t-1) == 0 {
			at, ok = t, true
		}
	}
	return at, ok
}
