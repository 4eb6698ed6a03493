// Package worth turns a procedure, and a failure that calls for it, into what
// each of its steps is worth: the flight with the procedure done right beside
// the flights with the step left out, done late, done on the switch beside it,
// or swapped with the next one.
//
// Invariant: a worth is a pure function of the crew, the scenario and the
// procedure. Every flight in it is one that crew.Team flies, and every harm
// points at an item and a moment of two of these flights, so that it can be
// flown and explained again.
//
// Start reading at Assess (assess.go), then compare.go.
package worth

import (
	"knockon/book"
	"knockon/crew"
	"knockon/ledger"
)

// Worth is what the steps of a procedure are worth with one failure.
type Worth struct {
	Procedure *book.Procedure
	Right     *Flown // with the procedure done right
	Steps     []*Step
	Pairs     []*Pair // steps left out together, where AssessPairs was asked for
	PairsLeft int     // pairs that it did not fly
	Flights   int     // how many were flown for it

	listed []numbered
}

// Flown is a flight of the crew with its ledger. The ledger compares with the
// flight on which nothing fails and the crew has nothing to do.
type Flown struct {
	Plan   *crew.Plan
	Ledger *ledger.Ledger
}

// Step is one step of the procedure.
type Step struct {
	Step    *book.Step
	Number  string    // "3", "3.then.1"
	Reached bool      // the crew came to it in this flight
	At      book.Time // when its line was done, for one that was reached
	Answer  crew.Answer
	Trials  []*Trial // empty for one that was not reached
	Because string   // what leaving it out does, computed
	Nothing bool     // leaving it out changes nothing in this model; Because says why
	Price   *Price   // of leaving it out; nil where it costs no range, or nobody asked
}

// Trial is the procedure done in one wrong way.
type Trial struct {
	Change crew.Change
	Flown  *Flown // that of Worth.Right where the change cannot move anything
	Harms  []Harm // what differs from the flight done right, the gravest first
}

// Kind sorts what a wrong step can do.
type Kind string

// Kinds of harm.
const (
	Loss     Kind = "loss"          // a function is lost, or lost for longer
	Worse    Kind = "told worse"    // a loss is told in a worse way
	False    Kind = "false alarm"   // an alert says what is not so
	Repeats  Kind = "repeats"       // an alert sounds again and again until the landing
	Announce Kind = "alert"         // an alert is given, or given for longer
	Misleads Kind = "wrong reading" // an indication shows what is not so
	Dark     Kind = "dark"          // an indication has nothing to light it
	Stop     Kind = "longer stop"   // less to stop with on the runway
	Range    Kind = "less range"    // more drag, more fuel or less thrust in the air
	Breaks   Kind = "breaks off"    // the flight does not arrive
)

// Harm is one way in which a flight differs from the one done right.
type Harm struct {
	Kind     Kind
	Item     string // its id; of Stop and Range that of the effect
	Better   bool   // the flight done right is the one that has it
	From     book.Time
	Bites    book.Time // when it first matters: a loss when the function is wanted
	Lasts    book.Time // in all
	Mattered bool
	Already  bool         // it was there before the step was due: the step brings back
	Class    ledger.Class // how the crew is told of it; an alert tells of itself
	Severity int          // place in book.Severities, -1 where it has none
	Here     float64      // Stop, Range: the mean or the sum here
	Right    float64      // and in the flight done right
	Count    int          // Repeats: how often it sounds more
	Why      string       // Breaks, and Repeats on a flight that breaks off: why it does, in a pilot's words
}

// Left is the trial in which the step is left out; nil where there is none.
func (s *Step) Left() *Trial { return s.first(crew.Omit) }

func (s *Step) first(k crew.ChangeKind) *Trial {
	for _, t := range s.Trials {
		if t.Change.Kind == k {
			return t
		}
	}
	return nil
}

// Worst is the gravest harm that is not for the better; ok is false if none is.
func (t *Trial) Worst() (h Harm, ok bool) {
	for _, h := range t.Harms {
		if !h.Better {
			return h, true
		}
	}
	return h, false
}

// Silent says that nothing is heard and nothing seen of it, or something false.
func (h Harm) Silent() bool {
	switch h.Kind {
	case Announce, Repeats, False, Breaks:
		return false
	case Stop, Range:
		return false
	}
	return h.Class >= ledger.OnlyShown
}
