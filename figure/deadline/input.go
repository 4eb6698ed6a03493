package deadline

import (
	"fmt"
	"math"
	"slices"
)

// Line is a flight about its failure, with what is lost and the ways to save it.
// Times are seconds from the failure, heights are feet.
type Line struct {
	ID       string // unique in the page; ids inside begin with it
	Title    string
	From, To float64
	Phases   []Phase
	Heights  []Height // in the order of time
	Lost     []Stretch
	LostText string // what begins with the first of them: "lost from +10:00"
	Bars     []Bar
	Foot     []string // lines under a picture that stands alone, after the caution: its address
}

// Phase is a phase of the flight.
type Phase struct {
	Title    string
	From, To float64
}

// Height is a point of the profile.
type Height struct{ S, Ft float64 }

// Stretch is a stretch of time.
type Stretch struct{ From, To float64 }

// Bar is a way to save it.
type Bar struct {
	Moves string    // what is moved
	In    []Stretch // when it works
	Until string    // the last of these moments, as a clock
	Open  bool      // nothing later was tried
	Cost  string    // in a few words
	Cheap bool      // it costs nothing
}

// most is how far times and heights may lie.
const most = 1e7

// sound is the line without what makes no sense.
func (l Line) sound() Line {
	if !(l.To > l.From) || math.Abs(l.From) > most || math.Abs(l.To) > most {
		l.From, l.To = 0, 1
	}
	l.Heights = slices.DeleteFunc(slices.Clone(l.Heights), func(h Height) bool {
		return !(math.Abs(h.S) <= most && math.Abs(h.Ft) <= most)
	})
	return l
}

// Caption says the picture in one sentence.
func (l Line) Caption() string {
	if l.Title != "" {
		return l.Title
	}
	return "Until when it can be saved"
}

// Words say it to whoever does not see it, with its numbers.
func (l Line) Words() string {
	text := fmt.Sprintf("The flight about its failure, with %d ways as bars.", len(l.Bars))
	if l.LostText != "" {
		text += " It " + l.LostText + "."
	}
	for i, b := range l.Bars {
		text += fmt.Sprintf(" %d: %s, until %s; %s.", i+1, b.Moves, b.Until, b.Cost)
	}
	return text
}
