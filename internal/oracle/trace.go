package oracle

import (
	"fmt"
	"slices"

	"knockon/book"
)

// Aspect names one value of one item.
type Aspect struct {
	Item string // its id, or the number of a watch
	Of   string // one of the constants below, or Fault(id)
}

// What an aspect is of.
const (
	Works      = "works"        // unit, function
	Failed     = "failed"       // unit
	Value      = "value"        // signal
	Position   = "position"     // control
	Wanted     = "wanted"       // function
	Believed   = "believed"     // alert
	Given      = "given"        // alert
	CanBeGiven = "can be given" // alert: believed, and nothing but a quiet phase in the way
	HeldBack   = "held back"    // alert
	False      = "false"        // alert
	Sounds     = "sounds"       // alert: how often it has sounded
	Shows      = "shows"        // indication
	Lit        = "lit"          // indication
	Means      = "means"        // indication, where it means something
	Wrong      = "wrong"        // indication
	Active     = "active"       // phase
	Noticeable = "noticeable"   // function: its noticed_when is yes and can be seen to be
	Flyable    = "flyable"      // the item "aircraft", where the book says so
	CrewAble   = "crew_able"    // the same
	Watch      = "watch"        // the expressions given to Fly, by their number
)

// Fault names the aspect of a unit that it has a fault.
func Fault(id string) string { return "fault " + id }

func (a Aspect) String() string { return a.Item + " " + a.Of }

// Val is a value: a number, a word, or a yes/no as 1 or 0.
type Val struct {
	Number float64
	Word   string
}

func (v Val) String() string {
	if v.Word != "" {
		return fmt.Sprintf("%q", v.Word)
	}
	return fmt.Sprint(v.Number)
}

// Change is a value that an aspect took.
type Change struct {
	At    book.Time
	Value Val
}

// History is what an aspect was over a flight. For yes/no, words and Sounds it
// holds the changes, the first of them at the start; several may stand at one
// moment, in order. For numbers it holds samples.
type History struct {
	Aspect
	Type    book.Type
	Changes []Change
}

// Trace is what became of a flight.
type Trace struct {
	End       book.Time
	Histories []*History // units first, then the other kinds in the order of book.Build
	index     map[Aspect]*History
}

// History looks an aspect up; nil if there is none.
func (t *Trace) History(item, of string) *History { return t.index[Aspect{item, of}] }

// NotFlyable is when a run ends because the aircraft cannot be flown: the first
// moment at which it has not been for so long, every settled moment of it.
func (t *Trace) NotFlyable(long book.Time) (at book.Time, ok bool) {
	h := t.History("aircraft", Flyable)
	if h == nil {
		return 0, false
	}
	for i, c := range h.Changes {
		if c.Value.Number != 0 || i+1 < len(h.Changes) && h.Changes[i+1].At == c.At {
			continue
		}
		if at = c.At + long; at <= t.End && t.keeps(h.Changes[i+1:], at) {
			return at, true
		}
	}
	return 0, false
}

// keeps says that a value that is no is no at every settled moment up to one.
func (t *Trace) keeps(changes []Change, to book.Time) bool {
	for i, c := range changes {
		if settled := i+1 == len(changes) || changes[i+1].At != c.At; settled && c.At <= to && c.Value.Number != 0 {
			return false
		}
	}
	return true
}

// Until is the trace up to a moment, that moment included.
func (t *Trace) Until(end book.Time) *Trace {
	cut := &Trace{End: end, index: map[Aspect]*History{}}
	for _, h := range t.Histories {
		later := slices.IndexFunc(h.Changes, func(c Change) bool { return c.At > end })
		if later < 0 {
			later = len(h.Changes)
		}
		short := &History{h.Aspect, h.Type, h.Changes[:later]}
		cut.Histories = append(cut.Histories, short)
		cut.index[h.Aspect] = short
	}
	return cut
}

// IsNumber tells whether the history holds samples of a number.
func (h *History) IsNumber() bool { return h.Type == book.Number && h.Of != Sounds }

// recorder writes a trace.
type recorder struct {
	m       *machine
	trace   *Trace
	last    []float64 // by history
	started bool
}

// newRecorder makes a history for every part and then one for every alert's
// sounds, in which order settled and sample go through them.
func newRecorder(m *machine, end book.Time) *recorder {
	r := &recorder{m: m, trace: &Trace{End: end, index: map[Aspect]*History{}}}
	for _, p := range m.parts {
		r.add(p.Aspect, p.root.typ)
	}
	for _, s := range m.sounds {
		r.add(Aspect{s.alert.Item, Sounds}, book.Number)
	}
	r.last = make([]float64, len(r.trace.Histories))
	return r
}

func (r *recorder) add(a Aspect, t book.Type) {
	h := &History{Aspect: a, Type: t}
	r.trace.Histories = append(r.trace.Histories, h)
	r.trace.index[a] = h
}

// value of history i at the end of an instant.
func (r *recorder) value(i int) float64 {
	if n := len(r.m.parts); i >= n {
		return float64(r.m.sounds[i-n].times)
	}
	return r.m.now[r.m.parts[i].root.slot]
}

// settled notes what changed, when an instant is over.
func (r *recorder) settled() {
	for i, h := range r.trace.Histories {
		if v := r.value(i); !h.IsNumber() && (!r.started || v != r.last[i]) {
			r.note(h, v)
			r.last[i] = v
		}
	}
	r.started = true
}

// sample notes the numbers, when a moment is over.
func (r *recorder) sample() {
	for i, h := range r.trace.Histories {
		if h.IsNumber() {
			r.note(h, r.value(i))
		}
	}
}

func (r *recorder) note(h *History, v float64) {
	c := Change{At: r.m.at, Value: Val{Number: v}}
	if h.Type == book.Word {
		c.Value = Val{Word: r.m.words[int(v)]}
	}
	h.Changes = append(h.Changes, c)
}
