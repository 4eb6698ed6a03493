// Package sets turns a question about failure sets into an answer that people
// read: what is sought, in words; the sets by how many failures they need; how
// likely it all is, and which failures matter; and what a unit that is deferred
// leaves one failure away.
//
// Invariant: a report says nothing that package ways did not find, and says so
// where that is not all.
//
// Start reading at Condition, then Make.
package sets

import (
	"fmt"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/say"
	"knockon/ways/logic"
	"knockon/ways/still"
)

// Told is how the crew learn of a loss.
type Told string

// How a loss that is sought is told (docs/meaning.md, section 9).
const (
	Anyhow Told = ""
	Untold Told = "not"   // no alert tells of it
	Wrong  Told = "wrong" // nor does one, and an indication shows that all is well
)

// Condition is what failures are sought for: that functions are lost, all of
// them, and that an expression of the book holds.
type Condition struct {
	Functions []*book.Function
	Told      Told
	When      *book.Expr // nil: none; else the circuit of the still observes it
}

// Term is the condition in the logic of a still. The error names a value that
// cannot be followed.
func (c Condition) Term(s *still.Still) (logic.Term, error) {
	find := map[Told]func(string) (logic.Term, error){Anyhow: s.Lost, Untold: s.Untold, Wrong: s.Wrong}[c.Told]
	var all []logic.Term
	for _, f := range c.Functions {
		t, err := find(f.ID)
		if err != nil {
			return t, err
		}
		all = append(all, t)
	}
	if c.When != nil {
		t, err := s.Holds(c.When)
		if err != nil {
			return t, err
		}
		all = append(all, t)
	}
	return s.Logic.And(all...), nil
}

// Words says the condition: "Normal brakes is lost and no alert tells of it".
func (c Condition) Words() string {
	var parts []string
	if n := len(c.Functions); n > 0 {
		var titles []string
		for _, f := range c.Functions {
			titles = append(titles, f.Title)
		}
		parts = append(parts, say.And(titles)+c.lost(n))
	}
	if c.When != nil {
		parts = append(parts, fmt.Sprintf("%s holds", c.When))
	}
	return strings.Join(parts, ", and ")
}

// Means says what is asked where it is asked how a loss is told: people may know of
// one in other ways.
func (c Condition) Means() string {
	if c.Told != Untold {
		return ""
	}
	return "Asked is whether an alert that names it is given. That it follows from other alerts, is noticed, or is denied by an indication is not asked here; the assessment and the sweep ask that."
}

func (c Condition) lost(functions int) string {
	lost, of := " is lost", "it"
	switch {
	case functions == 2:
		lost, of = " are both lost", "either"
	case functions > 2:
		lost, of = " are all lost", "any of them"
	}
	switch c.Told {
	case Untold:
		return lost + " and no alert tells of " + of
	case Wrong:
		if functions > 1 {
			return lost + ", no alert tells of " + of + ", and what shows each shows wrong"
		}
		return lost + ", no alert tells of it, and what shows it shows wrong"
	}
	return lost
}

// Name is a short name for an exported tree.
func (c Condition) Name() string {
	var ids []string
	for _, f := range c.Functions {
		ids = append(ids, f.ID)
	}
	if c.Told != Anyhow {
		ids = append(ids, "told_"+string(c.Told))
	}
	if c.When != nil {
		ids = append(ids, "when")
	}
	return strings.Join(ids, "_and_")
}

// idle says which functions do not work at the moment in any case: no failure
// can take them away there.
func (c Condition) idle(s Stander) (says []string) {
	also := ""
	if s.Out != "" {
		also = " With " + s.Out + " inoperative it is so."
	}
	for _, f := range c.Functions {
		if !s.Still.Before(f.ID) {
			says = append(says, fmt.Sprintf("Not answered with the aircraft held still: %s does not work %s in any case, so no failure can take it away then.%s Ask for a moment at which it works.", f.Title, s.Moment, also))
		}
	}
	return says
}

// totals says what of the condition reads a total which failures would move.
func (c Condition) totals(s *still.Still) []string {
	k := s.Circuit()
	var what []string
	for _, f := range c.Functions {
		if n, ok := k.Node(circuit.Value{Item: f.ID}); ok && s.BuiltUp(n) {
			what = append(what, f.Title)
		}
	}
	if c.When != nil {
		if n, ok := k.WatchOf(c.When); ok && s.BuiltUp(n) {
			what = append(what, c.When.String())
		}
	}
	if len(what) == 0 {
		return nil
	}
	return []string{"Not answered with the aircraft held still: what fills or empties something in time. " + say.And(what) + say.Plural(len(what), " reads", " read") + " a total (a tank, a battery), which stands as it is there."}
}
