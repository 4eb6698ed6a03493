package scenario

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/run"
	"knockon/say"
)

// A plan is written as what is flown and from when: "divert QSVA @ cruise + 300 s",
// "return @ when alert", "land", "hold 20 min @ 45 min", "hold 21000 kg @ descent",
// "descend 10000 @ cruise + 60 s", "go_around @ final", "reject @ take_off_roll".

// legs reads the plan. A leg without a moment begins when the first of the failures
// comes.
func (t Typed) legs(b *book.Build, first []run.Strike) (list []run.Leg, err error) {
	for _, text := range t.Plan {
		l, err := readLeg(text, b)
		if err != nil {
			return nil, err
		}
		if !strings.Contains(text, "@") && len(first) > 0 {
			l.At, l.When = first[0].At, first[0].When
		}
		list = append(list, l)
	}
	return list, nil
}

func readLeg(text string, b *book.Build) (l run.Leg, err error) {
	what, at, _ := strings.Cut(text, "@")
	word, of, _ := strings.Cut(strings.TrimSpace(what), " ")
	l.Do = run.Manoeuvre(word)
	if !slices.Contains(book.Legs, word) {
		return l, trouble("plan", "%s", say.No("leg of a plan", word, book.Legs))
	}
	if err := object(&l, strings.TrimSpace(of)); err != nil {
		return l, trouble("plan", "%q: %v", text, err)
	}
	if x, ok := strings.CutPrefix(strings.TrimSpace(at), "when "); ok {
		l.When, err = Condition("plan", x, b)
		return l, err
	}
	l.At, err = Moment("plan", at, b)
	return l, err
}

// object reads what stands behind the word of a leg.
func object(l *run.Leg, text string) error {
	number, unit, _ := strings.Cut(text, " ")
	v, err := strconv.ParseFloat(strings.ReplaceAll(number, ",", ""), 64)
	is := func(units ...string) bool { return err == nil && slices.Contains(units, strings.TrimSpace(unit)) }
	switch l.Do {
	case run.Divert:
		if l.To = text; text == "" {
			return fmt.Errorf("say where to: divert AIRFIELD@moment, such as divert QSVA@cruise")
		}
	case run.Descend:
		if l.LevelFt = v; !is("", "ft") || !(v >= 0 && v <= 60000) {
			return fmt.Errorf("say to which level: descend 10000@moment, from 0 to 60,000 ft")
		}
	case run.Hold:
		switch {
		case is("min") && v > 0 && v <= 1440:
			l.For = book.AtSeconds(60 * v)
		case is("kg") && v > 0:
			l.MassKg = v
		default:
			return fmt.Errorf("say how long: hold 20 min@moment, or to which mass: hold 21000 kg@moment")
		}
	default:
		if text != "" {
			return fmt.Errorf("%s stands alone: write %s@moment", l.Do, l.Do)
		}
	}
	return nil
}
