package assess

import "slices"

// Objective is how likely a loss of a class may be, in the mean, per hour of
// flight: 14 CFR 25.1309(b), with the numbers of AC 25.1309-1B, which reads "on
// the order of" with some slack.
type Objective struct {
	Class string  // a severity of a book
	Word  string  // of the rule
	PerH  float64 // at most so often
	Slack float64 // so many times that is still on the order of it; 1: none
	Alone bool    // no single failure may reach it
}

// Objectives by class, the gravest first.
var Objectives = []Objective{
	{"catastrophic", "extremely improbable", 1e-9, 3, true},
	{"hazardous", "extremely remote", 1e-7, 3, false},
	{"major", "remote", 1e-5, 2, false},
	{"minor", "probable", 1e-3, 1, false},
}

// ObjectiveOf is that of a severity of a book.
func ObjectiveOf(severity string) (o Objective, ok bool) {
	i := slices.IndexFunc(Objectives, func(o Objective) bool { return o.Class == severity })
	if i < 0 {
		return o, false
	}
	return Objectives[i], true
}

// grave says that a loss of the class is hazardous or worse.
func (o Objective) grave() bool { return o.PerH <= 1e-7 }

// Verdict is a loss beside its objective.
type Verdict string

// Verdicts, the worst first.
const (
	Single   Verdict = "a single failure" // reaches what none may
	Over     Verdict = "over"
	InSlack  Verdict = "in the slack" // over, and still on the order of it
	NotKnown Verdict = "not known"    // not over by what is known, and not all is known
	Met      Verdict = "met"
)

// Verdicts in their order.
var Verdicts = []Verdict{Single, Over, InSlack, NotKnown, Met}

// judge holds a probability per hour of flight against an objective. alone says
// that a single failure reaches the loss; whole that nothing is missing.
func (o Objective) judge(perH float64, alone, whole bool) Verdict {
	switch {
	case alone && o.Alone:
		return Single
	case perH > o.PerH*o.Slack:
		return Over
	case perH > o.PerH:
		return InSlack
	case !whole:
		return NotKnown
	}
	return Met
}
