package ledger

import (
	"strings"

	"knockon/run"
	"knockon/say"
)

// Ended is how the comparison ended.
type Ended struct {
	How     run.How `json:"how"`
	Arrived bool    `json:"arrived"`
	At      Moment  `json:"at"`
	Why     string  `json:"why,omitempty"` // in a pilot's words, where it did not arrive
}

// ending is how the run ended that broke off first; other says that it is the one
// without the failures. Where both arrived it is this one.
func (l *Ledger) ending() (e run.Ending, other bool) {
	e, o := l.Here.Ending(), l.There.Ending()
	if !o.Arrived() && (e.Arrived() || o.At < e.At) {
		return o, true
	}
	return e, false
}

// comes says that a failure of the question came, or that none was asked about.
func (l *Ledger) comes() bool {
	_, ok := l.Here.FirstStrike()
	return ok || len(l.Here.Scenario.Strikes) == 0
}

// ended puts the ending into words.
func (s speaker) ended() Ended {
	e, _ := s.l.ending()
	return Ended{e.How, e.Arrived(), s.moment(e.At), e.Why}
}

// Unanswered says why the question has no full answer: "" where it has one. No
// view calls anything none, kept or complete without having asked this.
func (l *Ledger) Unanswered() string {
	s := l.speaker()
	e, other := l.ending()
	switch {
	case e.Arrived() && l.comes():
		return ""
	case e.Arrived():
		return "The failure never comes on this flight, so nothing is answered."
	}
	text := "The flight"
	if other {
		text = "The same flight without the failure"
	}
	text += " breaks off " + say.Clock(e.At) + " into the flight" + s.phased(e) + ": " + e.Why + ". What would have come after that is not known"
	if !l.comes() {
		text += "; the failure had not come by then"
	}
	return text + "."
}

// phased names the phase and, where the failure has come, the clock of a moment.
func (s speaker) phased(e run.Ending) string {
	m := s.moment(e.At)
	var parts []string
	if _, ok := s.l.Here.FirstStrike(); ok {
		parts = append(parts, m.Clock)
	}
	if m.PhaseIs != "" {
		parts = append(parts, m.PhaseIs)
	}
	if len(parts) == 0 {
		return ""
	}
	return " (" + strings.Join(parts, ", ") + ")"
}

// none is what an empty group says: that there is none, or that it is not known.
func (s speaker) none(otherwise string) string {
	e, _ := s.l.ending()
	switch {
	case !e.Arrived():
		return "Not known: the flight breaks off " + say.Clock(e.At) + " into it" + s.phased(e) + ", and nothing of this kind had come by then."
	case !s.l.comes():
		return "Not known: the failure never comes on this flight."
	}
	return otherwise
}

// toEnd says how long what does not end in the record lasts.
func (s speaker) toEnd() string {
	if e, _ := s.l.ending(); !e.Arrived() {
		return "to where the flight breaks off"
	}
	return "to the end"
}

// silent says that nothing tells of the failure itself: "" where something does.
func (s speaker) silent() string {
	if !s.l.Silent() {
		return ""
	}
	return "No alert and no indication tells of the failure itself."
}
