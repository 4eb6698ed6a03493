// Package clash turns a book's procedures into the conflicts among them: what
// two procedures do to one control, steps that nothing follows, alerts that no
// procedure ends, procedures that call each other for ever, and procedures for
// which nothing calls.
//
// Invariant: a conflict that was seen names the failure in which it was seen and
// can be flown again (crew.Team.Fly); one that is read off the book says so by
// naming none. The same book and bounds give the same list.
//
// Start reading at Survey (survey.go); what can be read off the book is in
// read.go.
package clash

import (
	"cmp"
	"slices"

	"knockon/book"
)

// Kind of a conflict.
type Kind string

// Kinds of conflicts, the gravest first.
const (
	Endless   Kind = "endless"   // an alert calls for its procedure again and again
	Against   Kind = "against"   // two procedures put one control in different positions
	Unsettled Kind = "unsettled" // two flights begin the same procedures in different orders, or one against the rules
	Tries     Kind = "tries"     // a reset is tried more often than the book allows
	Taken     Kind = "taken"     // a step moves what the failure has taken from under it
	Uncleared Kind = "uncleared" // no flight in which a procedure ends its alert, though it moves what the alert reads, or the alert sounds on
	Uncalled  Kind = "uncalled"  // nothing calls for a procedure
	OneWay    Kind = "one way"   // a decision that always has the same answer
	Stands    Kind = "stands"    // as Uncleared, of an alert of whose condition the procedure moves nothing
)

var kinds = []Kind{Endless, Against, Unsettled, Tries, Taken, Uncleared, Uncalled, OneWay, Stands}

// Conflict is one thing about the procedures of a book that deserves a second
// look. It need not be wrong.
type Conflict struct {
	Kind      Kind
	Procedure *book.Procedure
	Step      *book.Step      // nil where none is to blame
	Other     *book.Procedure // Against: the one that comes second
	OtherStep *book.Step
	Alert     *book.Alert // Endless, Uncleared
	Unit      *book.Unit  // Tries
	Says      string
	Fail      []string // the failure in which it was seen; none where it is read off the book or holds in all
	AtS       float64
	Seen      int // in how many of the flights that were flown
	Of        int // of how many that could have shown otherwise
}

// Subject is the place in the book that the conflict is about.
func (c *Conflict) Subject() book.Range {
	switch {
	case c.Step != nil:
		return c.Step.Range
	case (c.Kind == Uncleared || c.Kind == Stands) && c.Alert != nil:
		return c.Alert.Range
	case c.Procedure != nil:
		return c.Procedure.Range
	case c.Unit != nil:
		return c.Unit.Range
	}
	return book.Range{}
}

// Diagnostic is the conflict as advice.
func (c *Conflict) Diagnostic() book.Diagnostic {
	d := book.Diagnostic{Severity: book.Advice, Code: "conflict-" + string(c.Kind), Summary: summaries[c.Kind], Detail: c.Says, Subject: c.Subject()}
	if c.OtherStep != nil {
		d.Others = append(d.Others, book.Place{Note: "the other step", Range: c.OtherStep.Range})
	}
	return d
}

var summaries = map[Kind]string{
	Endless:   "an alert calls for its procedure without end",
	Against:   "two procedures move one control differently",
	Unsettled: "the order of procedures is not settled",
	Tries:     "a reset is tried too often",
	Taken:     "nothing follows a step",
	Uncleared: "an alert that its procedure does not end",
	Uncalled:  "nothing calls for a procedure",
	OneWay:    "a decision has one answer only",
	Stands:    "an alert that its procedure does not end",
}

// order sorts conflicts: by kind, then by place.
func order(list []*Conflict) {
	slices.SortStableFunc(list, func(a, b *Conflict) int {
		x, y := a.Subject(), b.Subject()
		return cmp.Or(
			cmp.Compare(slices.Index(kinds, a.Kind), slices.Index(kinds, b.Kind)),
			cmp.Compare(x.File, y.File), cmp.Compare(x.Offset, y.Offset), cmp.Compare(a.Says, b.Says),
		)
	})
}
