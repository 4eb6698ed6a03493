// Package drill turns a scenario and a timed list of inputs into what the people
// of a drill see at each moment: the trainees, who know only what they are told
// and what they look at, and the instructor, who knows all.
//
// Invariant: the state is a function of the script and of the inputs accepted, in
// their order. How often and when it is asked for, and whether it is built up
// input by input or all at once by another process, makes no difference to a byte.
//
// Start reading at Session.Accept (session.go), then Session.Screen (screen.go).
package drill

import (
	"fmt"

	"knockon/book"
	"knockon/scenario"
)

// Script is what a drill starts from. Its failures come at moments, and nothing is
// set or moved beforehand.
type Script = scenario.Typed

// Strike is a set of failures that come together.
type Strike = scenario.Strike

// Role is who somebody is in a drill.
type Role string

// Roles. A trainee who is alone is both pilots.
const (
	PilotFlying     Role = "PF"
	PilotMonitoring Role = "PM"
	Alone           Role = "both"
	Instructor      Role = "instructor"
)

// Kind is what an input does.
type Kind string

// Kinds of inputs. Those from Inject on are the instructor's. While the
// instructor holds the clock nobody else does anything.
const (
	Move   Kind = "move"   // ID: control, To: position
	Look   Kind = "look"   // ID: indication
	Call   Kind = "call"   // ID: procedure whose list is taken in hand
	Tick   Kind = "tick"   // ID: procedure, Step: its number, To: yes, no or unseen of a decision
	TurnTo Kind = "turn"   // To: a leg as it is typed in a plan, without a moment: "divert QSVA", "land", "hold 20 min"
	Inject Kind = "inject" // Strike, At being ignored: it comes at once
	Clock  Kind = "clock"  // Rate: 0 stops the clock, 1, 2 and 4 let go; also for a trainee who is alone
	Rewind Kind = "rewind" // Back: to that moment; what was done from it on is forgotten
	Note   Kind = "note"   // Says: what the instructor wants said in the debrief, also after the end; also for a trainee who is alone
	Finish Kind = "finish" // the drill is over, wherever the flight is; also for a trainee who is alone
)

// unseen is the answer to a decision that cannot be seen.
const unseen = "unseen"

// Input is one thing that somebody does in a drill.
type Input struct {
	Client string    `json:"client"` // the device that sends it
	Number int       `json:"number"` // of this client's inputs: 1, 2, 3, …
	At     book.Time `json:"at_us"`  // in the flight; it takes effect a microsecond later
	Who    Role      `json:"who"`
	Do     Kind      `json:"do"`
	ID     string    `json:"id,omitempty"`
	To     string    `json:"to,omitempty"`
	Step   string    `json:"step,omitempty"`
	Rate   int       `json:"rate,omitempty"`
	Back   book.Time `json:"back_us,omitempty"`
	Says   string    `json:"says,omitempty"`
	Strike *Strike   `json:"strike,omitempty"`
}

// Why is why an input is refused; stable.
type Why string

// Reasons.
const (
	Garbage    Why = "garbage"      // it makes no sense, or names what is not there
	NotAllowed Why = "not_allowed"  // it is not for this person
	OutOfOrder Why = "out_of_order" // an earlier input of this client is missing, or was another
	Late       Why = "late"         // the drill is past this moment
	Frozen     Why = "frozen"       // the instructor holds the drill
	TooMany    Why = "too_many"     // too fast, or too many in all
	Over       Why = "over"         // the flight or the drill has ended
	NotFlown   Why = "not_flown"    // the flight cannot be turned so
)

// Refusal is an input that was not accepted. The drill is as if it never came.
type Refusal struct {
	Why  Why
	Text string
}

func (r *Refusal) Error() string { return string(r.Why) + ": " + r.Text }

func refuse(why Why, format string, a ...any) error {
	return &Refusal{why, fmt.Sprintf(format, a...)}
}

// Bounds of a drill.
const (
	MostInputs    = 20000                     // in all
	MostOfSeat    = MostInputs / 4            // of one role, so that none can use a drill up
	MostPerSecond = 20                        // of one role, in a second of the flight
	MostAnew      = 300                       // times that a failure or a rewind has the flight flown anew
	MostTurns     = 100                       // of the flight, each of which flies the rest of it anew
	MostText      = 200                       // bytes of an id, a position, a step, a client
	MostNote      = 1000                      // bytes of a note
	MostNotes     = 300                       // notes in a drill
	LookTakes     = 1350 * book.Second / 1000 // keystroke-level model, M: see docs/crew.md
)
