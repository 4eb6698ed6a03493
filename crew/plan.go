package crew

import (
	"knockon/book"
	"knockon/run"
)

// Plan is what the crew did in one flight.
type Plan struct {
	Asked    run.Scenario // without the crew's actions
	Record   *run.Record  // with them, behind those asked for
	Lines    []Line       // in the order in which they began
	Calls    []Call       // in the order in which the alerts came
	Choices  []Choice
	Findings []Finding
}

// Actions lists what the crew moved, in the order in which it was decided.
func (p *Plan) Actions() []run.Action {
	return p.Record.Scenario.Actions[len(p.Asked.Actions):]
}

// LineKind says what a line of a plan is.
type LineKind string

// Kinds of lines.
const (
	StepLine  LineKind = "step"
	ListLine  LineKind = "list"  // a list is found
	RadioLine LineKind = "radio" // a radio call
	BriefLine LineKind = "brief" // a briefing
	StayLine  LineKind = "stay"  // the flight is not begun
)

// Line is one thing that the crew did.
type Line struct {
	Kind      LineKind
	Call      int // index into Calls; -1 for none
	Procedure *book.Procedure
	Step      *book.Step
	Number    string // of the step in its procedure, see Walk
	By        string // PF, PM, both
	From, To  book.Time
	Answer    Answer
	Control   string // what was moved: with a wrong switch another than the step's
	Position  string
	Omitted   bool // the time passed, but it was not done
	Dead      bool // it was omitted: what it moves is inoperative since before the flight
	Deferred  bool // left for later, and done then
}

// Call is an alert that the crew met.
type Call struct {
	Alert     *book.Alert
	Procedure *book.Procedure // nil: the alert calls for none
	From      *book.Procedure // a line of this one, which the alert called for, sent to the procedure; nil: the alert calls for it
	Given     book.Time
	Noticed   book.Time
	Begun     book.Time       // book.Never: its procedure was not begun
	Done      book.Time       // book.Never: not finished before the flight ended
	Under     *book.Alert     // the cause that its procedure waited for
	Dropped   bool            // it went before its procedure was begun
	Past      *book.Procedure // the last list that was begun before its procedure was, or was finished
	Joined    bool            // the procedure was being done already, or waited for another alert
}

// Choice is a moment at which more than one procedure could have been begun.
type Choice struct {
	At     book.Time
	Of     []Candidate // in the order of the book
	Chosen *book.Procedure
}

// Candidate is a procedure that could have been begun.
type Candidate struct {
	Procedure *book.Procedure
	Level     string      // of the alert that calls for it, the highest of several
	Under     *book.Alert // the cause that it waits for; nil for none
}

// FindingKind says what is wrong with a plan.
type FindingKind string

// Kinds of findings.
const (
	AgainAndAgain FindingKind = "again_and_again" // an alert calls for its procedure without end
	TooManyTries  FindingKind = "too_many_tries"  // a reset is tried more often than the book allows
	NotAsItShould FindingKind = "check_fails"     // a check found something else
	CannotBeSeen  FindingKind = "cannot_be_seen"  // what a line asks for is dark
	Misled        FindingKind = "misled"          // what a line asks for is shown wrong, and the answer with it
	NotHeard      FindingKind = "not_heard"       // whom a line tells cannot hear it
	NoLonger      FindingKind = "no_longer_so"    // what was left for later does not belong any more when its turn comes
)

// Finding is something that somebody should know about a plan.
type Finding struct {
	Kind      FindingKind
	At        book.Time
	Procedure *book.Procedure // nil where none is to blame
	Step      *book.Step      // nil also for the radio call after a warning
	Alert     *book.Alert
	Unit      *book.Unit
	Answer    Answer      // CannotBeSeen, Misled: that of the line
	Right     Answer      // Misled: the answer if nothing had lied
	Whom      string      // NotHeard: one of book.Told
	Lost      []book.Item // NotHeard: what does not work of what it takes
	Gauges    []Gauge     // CannotBeSeen: that are dark; Misled: that show wrong
}

// Gauge is an indication as the crew met it.
type Gauge struct {
	Of           *book.Indication
	Shows, Means string // in words; "" where it is dark, and where it stands for nothing
}

// ChangeKind is how a step is done otherwise.
type ChangeKind string

// Kinds of changes.
const (
	Omit  ChangeKind = "omit"  // its time passes, but it is not done; a decision with all that hangs on it
	Late  ChangeKind = "late"  // done By later, while the rest goes on
	Wrong ChangeKind = "wrong" // another control, or another position
	Swap  ChangeKind = "swap"  // done after the step behind it in the same list

	Otherwise ChangeKind = "otherwise" // a decision is taken the other way
)

// Change is a step that is done otherwise than written, each time.
type Change struct {
	Kind     ChangeKind
	Step     *book.Step
	By       book.Time // Late
	Control  string    // Wrong
	Position string    // Wrong
}
