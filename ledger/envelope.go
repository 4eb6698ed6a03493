package ledger

import (
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/say"
)

// bound is an effect that narrows what can be flown, with how it is said.
type bound struct{ effect, unit, says string }

// In flight the least that is left counts, for the landing what is left at touchdown.
var (
	boundsAloft = []bound{{"most_airspeed_kt", "kt", "no faster than "}, {"most_altitude_ft", "ft", "no higher than "}}
	boundsDown  = []bound{
		{"most_crosswind_kt", "kt", "a crosswind of "}, {"most_tailwind_kt", "kt", "a tailwind of "},
		{"least_ceiling_ft", "ft", "a cloud base of "}, {"least_visibility_m", "m", "a visibility of "}, {"landing_speed_adds_kt", "kt", "a reference speed raised by "},
	}
)

// briefly is how long a narrower bound lasts at least to be told of.
const briefly = 10 * book.Second

// Left says what the aircraft can be flown with beside what it could without the
// failures along the same way: the limits of speed and height while they are less, and
// what a landing needs. "" where nothing is less.
func (l *Ledger) Left() string {
	s := l.speaker()
	var list []string
	for _, b := range boundsAloft {
		list = appendSaid(list, s.aloft(b))
	}
	if at, down := l.Here.Touchdown(); down && at <= s.end() {
		for _, b := range boundsDown {
			list = appendSaid(list, s.landsWith(b, at))
		}
	}
	return say.Ahead("Left to fly with: ", strings.Join(list, "; "))
}

func appendSaid(list []string, text string) []string {
	if text != "" {
		list = append(list, text)
	}
	return list
}

// aloft says of a bound the least that is left in the air, and while it is.
func (s speaker) aloft(b bound) string {
	least, since, until := 0.0, book.Never, book.Never
	for _, at := range s.l.Here.Instants() {
		here, there, ok := s.both(b, at, (*run.Record).At)
		if !ok || at >= s.end() {
			break
		}
		switch narrower := here < there && s.l.Here.InAir(at); {
		case narrower && (since == book.Never || here < least):
			least, since, until = here, at, book.Never
		case since != book.Never && until == book.Never && here > least:
			until = at
		}
	}
	if since == book.Never || min(until, s.end())-since < briefly {
		return ""
	}
	text := b.says + say.Quantity(least, b.unit) + " from " + s.clock(since)
	if until < s.end() {
		text += " to " + s.clock(until)
	}
	return text
}

// landsWith says of a bound what is left of it just before the touchdown.
func (s speaker) landsWith(b bound, at book.Time) string {
	here, there, ok := s.both(b, at, (*run.Record).Before)
	if !ok || here == there || here == book.NoLimit {
		return ""
	}
	text := b.says + say.Quantity(here, b.unit)
	switch {
	case strings.HasPrefix(b.effect, "most"):
		return text + " at most"
	case strings.HasPrefix(b.effect, "least"):
		return text + " at least"
	}
	return text
}

// both is a bound with the failures and without.
func (s speaker) both(b bound, at book.Time, read func(*run.Record, circuit.Node, book.Time) float64) (here, there float64, ok bool) {
	v := circuit.Value{Item: book.EffectID(b.effect)}
	n, ok := s.l.Here.Circuit().Node(v)
	m, same := s.l.There.Circuit().Node(v)
	if !ok || !same {
		return 0, 0, false
	}
	return read(s.l.Here, n, at), read(s.l.There, m, at), true
}
