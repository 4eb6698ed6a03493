package vary

import (
	"context"
	"slices"

	"knockon/ask"
	"knockon/beside"
	"knockon/book"
)

// Cell is what the failure takes where it comes at the beginning of a phase.
type Cell struct {
	ID      string `json:"phase"`
	Title   string `json:"title"`
	Here    bool   `json:"asked"`                // it is the phase in which the question has it fail
	Lost    int    `json:"lost"`                 // functions, when they are called for
	Unknown int    `json:"hidden_or_denied"`     // of these
	Breaks  bool   `json:"breaks_off,omitempty"` // the flight does: what is counted is lost up to there
	Open    string `json:"open,omitempty"`       // why nothing is said of it; "" it is
}

// Strip flies the failure of an answer at the beginning of each phase of its flight. It
// has no cells where things fail at several moments, or on a condition.
func Strip(ctx context.Context, a *ask.Answer, workers int) []Cell {
	if len(a.Question.Fail) != 1 || a.Question.Fail[0].When != "" {
		return nil
	}
	cells, list := []Cell{}, []*other(nil)
	struck := a.Here.PhaseAt(a.Ledger.Strike)
	for _, p := range a.There.Phases() {
		if len(cells) > 0 && slices.ContainsFunc(cells, func(c Cell) bool { return c.ID == p.ID }) {
			continue // a flight that comes to a phase twice
		}
		q, err := beside.Other(a.Question, []string{"at=" + book.Moment{Phase: p.ID}.String()})
		if err != nil {
			continue
		}
		cells = append(cells, Cell{ID: p.ID, Title: a.Course.Build.Title(p.ID), Here: p.ID == struck})
		list = append(list, &other{Question: q})
	}
	fly(ctx, a.Desk, list, workers)
	for i := range cells {
		cells[i].fill(speaker{a}, list[i])
	}
	return cells
}

// fill counts what is lost in the answer of a cell, or says why there is none.
func (c *Cell) fill(s speaker, o *other) {
	switch {
	case o.got == nil:
		c.Open = "not flown"
		return
	case s.open(o.got) != "":
		c.Open = "not answered"
		return
	}
	c.Breaks = !o.got.Here.Ending().Arrived()
	for _, x := range called(o.got.Ledger) {
		c.Lost++
		if x.Word().Unknown() {
			c.Unknown++
		}
	}
}
