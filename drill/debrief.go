package drill

import (
	"context"

	"knockon/book"
)

// Debrief lays what was true, what was told and what was done side by side, and
// beside what a crew by the book would have done. It speaks of the drill up to its
// moment, without what a rewind has undone; what lies behind that is not reached.
type Debrief struct {
	Heading   string    `json:"heading"`
	Setting   string    `json:"setting"`
	Well      string    `json:"well,omitempty"`  // what was done well, with its effect; "": nothing can be said
	Improve   []Improve `json:"improve"`         // the dearest first, two at most
	Notes     []Noted   `json:"notes,omitempty"` // the instructor's
	Beyond    []string  `json:"not_reached,omitempty"`
	Unsaid    []string  `json:"unsaid,omitempty"` // neither praised nor blamed, and why
	Events    []Event   `json:"events"`
	Alerts    []Story   `json:"alerts"`
	Steps     []Done    `json:"steps"`   // of the procedures that a crew would have done
	Answers   []Answer  `json:"answers"` // decisions that were taken
	Others    []Moved   `json:"others"`  // moved, and called for by none of these
	Unseen    []Unseen  `json:"unseen"`  // would have told, had somebody looked
	Looks     []Looked  `json:"looks"`
	Turns     []string  `json:"turns,omitempty"`      // where the flight was turned, a sentence each
	BestTurns []string  `json:"best_turns,omitempty"` // where a crew would have turned it
	ThisRun   string    `json:"this_run"`             // what came of it, up to the end of the drill
	BestRun   string    `json:"best_run"`             // what would have come of it by then
	Untouched string    `json:"untouched"`            // and if nobody had done anything
	Caution   string    `json:"caution"`
}

// Noted is a note of the instructor, at the moment at which it was made.
type Noted struct {
	At   Moment `json:"at"`
	Text string `json:"text"`
}

// Event is one moment of the drill.
type Event struct {
	When string `json:"when"` // true, told, done
	At   Moment `json:"at"`
	Text string `json:"text"`
}

// Moment is a moment in words.
type Moment struct {
	TimeS float64 `json:"time_s"`
	Clock string  `json:"clock"` // minutes and seconds since the start of the flight
}

// Story is what became of an alert.
type Story struct {
	ID        string  `json:"id"`
	Level     string  `json:"level"`
	Message   string  `json:"message"`
	Given     Moment  `json:"given"`
	Procedure string  `json:"procedure,omitempty"`
	Answered  *Moment `json:"answered,omitempty"` // its list was called for, or a control of it moved
	AfterS    float64 `json:"after_s,omitempty"`
	BestS     float64 `json:"best_s,omitempty"` // when a crew begin with it, after the alert
	Text      string  `json:"text"`
}

// Done is a step that moves something, as it was done.
type Done struct {
	Procedure string  `json:"procedure"`
	Number    string  `json:"number"`
	Says      string  `json:"says"`
	Moves     string  `json:"moves"`
	Best      Moment  `json:"best"`
	At        *Moment `json:"at,omitempty"` // nil: never
	LateS     float64 `json:"late_s,omitempty"`
	Early     bool    `json:"early,omitempty"`   // before the step in front of it
	Already   bool    `json:"already,omitempty"` // the control stood there
	Text      string  `json:"text"`
}

// Answer is a decision as it was taken, beside what the flight deck showed.
type Answer struct {
	Procedure string `json:"procedure"`
	Number    string `json:"number"`
	Says      string `json:"says"`
	At        Moment `json:"at"`
	Given     string `json:"given"` // yes, no, unseen
	Shown     string `json:"shown"` // the same, as a crew would have answered
	Misled    bool   `json:"misled,omitempty"`
	Text      string `json:"text"`
}

// Moved is a control that was moved, once or more often, and what would not have
// come without any of it.
type Moved struct {
	Control string `json:"control"`
	Title   string `json:"title"`
	Turns   []Turn `json:"turns"` // the first few
	Times   int    `json:"times"`
	Text    string `json:"text"`
}

// Turn is one move of a control.
type Turn struct {
	By Role   `json:"by"`
	To string `json:"to"`
	At Moment `json:"at"`
}

// More is how many turns are not listed.
func (m Moved) More() int { return m.Times - len(m.Turns) }

// Unseen is a loss that only an indication shows.
type Unseen struct {
	Function   string `json:"function"`
	Indication string `json:"indication"`
	Since      Moment `json:"since"`
	Text       string `json:"text"`
}

// Looked is how often somebody looked at an indication.
type Looked struct {
	Indication string `json:"indication"`
	By         Role   `json:"by"`
	Times      int    `json:"times"`
	First      Moment `json:"first"`
}

// Debrief works the debrief out. It flies the drill again, the best run, and one
// flight for each step that was left out, each list that was not done in time, and each
// control that was moved: so their number does not grow with how often. How many of them are flown is
// told to progress, if it is not nil.
func (s *Session) Debrief(ctx context.Context, progress func(done, all int)) (*Debrief, error) {
	t := &teller{s: s, b: s.deck.Build()}
	if err := t.fly(ctx); err != nil {
		return nil, err
	}
	d := &Debrief{Heading: t.heading(), Setting: t.setting(), Events: []Event{}, Alerts: []Story{}, Steps: []Done{}, Answers: []Answer{}, Others: []Moved{},
		Unseen: []Unseen{}, Looks: []Looked{}, Notes: s.notes(), Caution: book.Caution}
	d.ThisRun, d.BestRun, d.Untouched = t.summed(t.here), t.summed(t.right), t.summed(t.alone)
	d.Turns, d.BestTurns, d.Beyond = t.turns(t.record), t.turns(t.best.Record), t.beyond()
	t.stories(d)
	t.steps(d)
	t.lists()
	t.deeds(d)
	t.turning()
	t.answers(d)
	t.others(d)
	t.looks(d)
	t.events(d)
	if err := t.flyBeside(ctx, progress); err != nil {
		return nil, err
	}
	d.Well, d.Improve, d.Unsaid = t.well(d), t.improve(), t.unsaid
	return d, nil
}
