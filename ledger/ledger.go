// Package ledger lays a record beside the record of the same flight without
// the failures and sorts every difference: what was lost and how the crew was
// told, what shows wrong or dark, which alarms are false, which were held back.
//
// Invariant: a ledger is a pure function of the two records; every row points
// at values and moments of them, so that each can be explained. The classes
// are defined in docs/meaning.md section 5.
//
// Start reading at Of (of.go).
package ledger

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// Ledger is what a set of failures takes away, and how it is told.
type Ledger struct {
	Here, There *run.Record // with the failures, and without them
	Strike      book.Time   // when the first failure came; the start of the flight if none did
	Pace        string      // at which a crew by the book act, in words; "": the usual one
	Forbidden   string      // why the deferrals of the book do not let it go so, in words; "": they do, or nobody asked

	Losses []Loss         // functions, the worst first: by Mattered, class, severity, then the book's order
	Wrong  []Reading      // indications that are lit and wrong
	Dark   []Reading      // indications with nothing to light them
	Alerts []Announcement // alerts given here and not there, in the order in which they are given
	False  []Announcement // those of them, or parts of them, that are false
	Held   []Announcement // alerts held back by a phase
	Kept   []Kept         // functions that one might think lost, and that still work

	Concluded []Conclusion // functions that what is told takes away, and that still work; see package known
}

// Class is how a loss is told.
type Class uint8

// Classes, the best first.
const (
	Told Class = iota
	ToldLate
	OnlyShown
	ToldWrong
	NotTold
)

func (c Class) String() string {
	return [...]string{"told", "told late", "only shown", "told wrong", "not told"}[c]
}

// Loss is a function that works there and not here.
type Loss struct {
	Function *book.Function
	Class    Class
	Mattered bool // it was wanted during some span
	Spans    []LossSpan
	Known    Word // of its heaviest span; "" where that was not worked out
}

// LossSpan is one stretch of a loss.
type LossSpan struct {
	circuit.Span
	ToEnd    bool // still lost at the end of the flight
	Class    Class
	Mattered bool
	Brief    bool               // wanted in it, and too short to matter
	Wanted   circuit.Span       // of one that mattered: its first stretch in which it was wanted
	By       *book.Alert        // Told, ToldLate: the alert
	Via      *book.Indication   // OnlyShown, ToldWrong: the indication
	At       book.Time          // when By or Via first told, showed or lied
	Late     book.Time          // ToldLate: At less the later of From and Wanted.From
	HeldIn   []string           // the phases that held back a telling alert meanwhile
	Lies     []*book.Indication // covering indications that were wrong in the span, whatever the class
	Shown    *book.Indication   // where any lies: the covering indication that first shows the loss all the same; nil if none does
	ShownAt  book.Time          // when it does

	Known Known // see package known; the zero value where that was not worked out
}

// Reading is an indication that misleads or is dark.
type Reading struct {
	Indication *book.Indication
	Spans      []ReadingSpan
}

// ReadingSpan is one stretch of it.
type ReadingSpan struct {
	circuit.Span
	ToEnd bool
	At    book.Time // the moment of which the next two are: of a number when it is farthest off, else the middle
	Shows string    // as a person reads it; "" when dark
	Means string    // what it would have to show
}

// Announcement is an alert that is given, false or held back.
type Announcement struct {
	Alert  *book.Alert
	Spans  []circuit.Span
	Sounds []book.Time // when it sounds, for one that is given
	Phases []string    // held back: by these phases
	Given  bool        // held back: it was given later
	At     book.Time   // held back and given later: when
}

// Kept is a function that still works although much that it uses is gone.
type Kept struct {
	Function *book.Function
	Gone     []string  // ids of the units that it reads and that do not work
	By       []string  // ids of what keeps it working; a real.* value with its full name
	At       book.Time // when most of them are gone, for the first time
}
