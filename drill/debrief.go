package drill

import (
	"context"

	"knockon/book"
	"knockon/known"
)

// Debrief lays what was true, what was told and what was done side by side, and
// beside what a crew who do it right would have done. It speaks of the drill up
// to its moment, without what a rewind has undone.
type Debrief struct {
	Heading   string   `json:"heading"`
	Setting   string   `json:"setting"`
	Events    []Event  `json:"events"`
	Alerts    []Story  `json:"alerts"`
	Steps     []Done   `json:"steps"`   // of the procedures that a crew would have done
	Answers   []Answer `json:"answers"` // decisions that were taken
	Others    []Moved  `json:"others"`  // moved, and called for by none of these
	Unseen    []Unseen `json:"unseen"`  // would have told, had somebody looked
	Looks     []Looked `json:"looks"`
	Turns     []string `json:"turns,omitempty"`      // where the flight was turned, a sentence each
	BestTurns []string `json:"best_turns,omitempty"` // where a crew would have turned it
	ThisRun   string   `json:"this_run"`             // what came of it
	BestRun   string   `json:"best_run"`             // what would have come of it
	Untouched string   `json:"untouched"`            // if nobody had done anything
	Caution   string   `json:"caution"`
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
// flight for each step that was left out and each control that nobody asked for:
// so their number does not grow with what was done. How many of them are flown is
// told to progress, if it is not nil.
func (s *Session) Debrief(ctx context.Context, progress func(done, all int)) (*Debrief, error) {
	t := &teller{s: s, b: s.deck.Build()}
	if err := t.fly(ctx); err != nil {
		return nil, err
	}
	v := t.here.View()
	d := &Debrief{Heading: v.Heading, Setting: t.alone.View().Setting, Events: []Event{}, Alerts: []Story{}, Steps: []Done{}, Answers: []Answer{}, Others: []Moved{},
		Unseen: []Unseen{}, Looks: []Looked{}, ThisRun: v.Summary, Untouched: t.alone.View().Summary, Caution: book.Caution}
	right, err := s.deck.team.Ledger(ctx, t.best)
	if err != nil {
		return nil, err
	}
	if err := known.Judge(ctx, right); err != nil {
		return nil, err
	}
	best := right.View()
	d.BestRun, d.Turns, d.BestTurns = best.Summary, v.Turns, best.Turns
	t.stories(d)
	t.steps(d)
	t.answers(d)
	t.others(d)
	t.looks(d)
	t.events(d)
	return d, t.flyBeside(ctx, progress)
}
