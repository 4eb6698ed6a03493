package book

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"knockon/say"
)

// A plan is written as what is flown and from when: "divert QSVA @ cruise + 300 s",
// "return @ when alert", "land", "hold 20 min @ 45 min", "hold 21000 kg @ descent",
// "descend 10000 @ cruise + 60 s", "go_around @ final", "reject @ take_off_roll".

// PlanLeg is a leg of a plan.
type PlanLeg struct {
	Text    string // as written
	Do      string // one of Legs
	To      string // divert: the field, perhaps with one of its runway ends, "QSVA/17"
	At      Moment
	When    *Expr // it begins when this becomes yes
	Timed   bool  // a moment or a condition is given; it begins with the first failure otherwise
	LevelFt float64
	For     Time    // hold: so long
	MassKg  float64 // hold: until this mass
	Range   Range   // in a book
}

// ParseLeg reads a leg of a plan. The error says in a sentence what is wrong and
// what to write.
func ParseLeg(text string, b *Build) (l PlanLeg, err error) {
	what, at, timed := strings.Cut(text, "@")
	word, of, _ := strings.Cut(strings.TrimSpace(what), " ")
	if !slices.Contains(Legs, word) {
		return l, errors.New(say.No("leg of a plan", word, Legs))
	}
	l.Text, l.Do, l.Timed = text, word, timed
	if err := l.object(strings.TrimSpace(of)); err != nil {
		return l, fmt.Errorf("%q: %v", text, err)
	}
	if x, ok := strings.CutPrefix(strings.TrimSpace(at), "when "); ok {
		l.When, err = ParseCondition(x, b)
		return l, err
	}
	l.At, err = ParseMoment(at, b)
	return l, err
}

// object reads what stands behind the word of a leg.
func (l *PlanLeg) object(text string) error {
	number, unit, _ := strings.Cut(text, " ")
	v, err := strconv.ParseFloat(strings.ReplaceAll(number, ",", ""), 64)
	is := func(units ...string) bool { return err == nil && slices.Contains(units, strings.TrimSpace(unit)) }
	switch l.Do {
	case "divert":
		if l.To = text; text == "" {
			return errors.New("say where to: divert AIRFIELD@moment, such as divert QSVA@cruise")
		}
	case "descend":
		if l.LevelFt = v; !is("", "ft") || !(v >= 0 && v <= mostFt) {
			return errors.New("say to which level: descend 10000@moment, from 0 to 60,000 ft")
		}
	case "hold":
		switch {
		case is("min") && v > 0 && v <= 1440:
			l.For = AtSeconds(60 * v)
		case is("kg") && v > 0:
			l.MassKg = v
		default:
			return errors.New("say how long: hold 20 min@moment, or to which mass: hold 21000 kg@moment")
		}
	default:
		if text != "" {
			return fmt.Errorf("%s stands alone: write %s@moment", l.Do, l.Do)
		}
	}
	return nil
}

// ParseCondition reads a yes/no expression that a person types. The error says
// what is wrong and what to do.
func ParseCondition(text string, b *Build) (*Expr, error) {
	e, diags := ParseExpr(text, b)
	if diags.HasErrors() {
		return nil, errors.New(diags[0].Summary + ". " + diags[0].Detail)
	}
	if e.Type != YesNo {
		return nil, fmt.Errorf("%q is a %s; a yes/no is needed, such as real.height_ft > 500", text, e.Type)
	}
	return e, nil
}

// WalkSteps visits the steps of a procedure, those inside others too, each with its
// number: "3", "3.then.1", "4.later.2".
func WalkSteps(steps []*Step, visit func(s *Step, number string)) { walkSteps(steps, "", visit) }

func walkSteps(steps []*Step, before string, visit func(s *Step, number string)) {
	for i, s := range steps {
		number := fmt.Sprint(before, i+1)
		visit(s, number)
		branch := ".then."
		if s.Kind == "later" {
			branch = ".later."
		}
		walkSteps(s.Then, number+branch, visit)
		walkSteps(s.Else, number+".else.", visit)
		walkSteps(s.Unknown, number+".unknown.", visit)
	}
}
