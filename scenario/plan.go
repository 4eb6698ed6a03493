package scenario

import (
	"slices"
	"strings"

	"knockon/book"
	"knockon/run"
	"knockon/say"
)

// legs are what a plan can say, as it is written.
var legs = []string{string(run.Divert), string(run.Return), string(run.Land), string(run.GoOn)}

// legs reads a plan: each text is what is flown, and from when: "divert QSVA @
// cruise + 300 s", "return @ when alert", "land". Without a moment it is when the
// first of the failures comes.
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
	word, to, _ := strings.Cut(strings.TrimSpace(what), " ")
	l = run.Leg{Do: run.Manoeuvre(word), To: strings.TrimSpace(to)}
	switch at = strings.TrimSpace(at); {
	case !slices.Contains(legs, word):
		return l, trouble("plan", "%s", say.No("leg of a plan", word, legs))
	case (l.Do == run.Divert) != (l.To != ""):
		return l, trouble("plan", "%q: write divert AIRFIELD@moment, or return, land or go_on with a moment alone, such as divert QSVA@cruise", text)
	case strings.HasPrefix(at, "when "):
		l.When, err = Condition("plan", strings.TrimPrefix(at, "when "), b)
		return l, err
	}
	l.At, err = Moment("plan", at, b)
	return l, err
}
