package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/ledger"
	"knockon/say"
	"knockon/sweep"
	"knockon/sweep/view"
)

// cell is one set of failures, asked of what was swept.
type cell struct {
	*swept
	set sweep.Set
}

// cells finds the set that --of names on each build that has all its members.
func (c *sweepCommand) cells(all []*swept) (list []cell, err error) {
	if len(c.Of) > c.Order {
		return nil, &ask.Trouble{Part: "of", Text: fmt.Sprintf("%s together are more than --order %d", say.Counted(len(c.Of), "failure"), c.Order)}
	}
	var unknown error
	for _, s := range all {
		set, err := s.find(c.Of)
		if err != nil {
			unknown = err
			continue
		}
		list = append(list, cell{s, set})
	}
	if len(list) == 0 {
		return nil, unknown
	}
	return list, nil
}

// find turns failures as they are written into a set.
func (s *swept) find(names []string) (set sweep.Set, err error) {
	known := say.Texts(s.Failures)
	for _, name := range names {
		n := slices.Index(known, name)
		switch {
		case n < 0 && s.late:
			return nil, fmt.Errorf("the time was over before the first phase was done")
		case n < 0:
			return nil, &ask.Trouble{Part: "of", Text: fmt.Sprintf("nothing called %q can fail%s", name, say.OrNear(name, known))}
		case slices.Contains(set, n):
			return nil, &ask.Trouble{Part: "of", Text: fmt.Sprintf("%s is named twice", name)}
		}
		set = append(set, n)
	}
	slices.Sort(set)
	return set, nil
}

// writeCells prints what a set does in each phase.
func writeCells(w io.Writer, cells []cell) error {
	for i, c := range cells {
		if i > 0 {
			fmt.Fprintln(w)
		}
		fmt.Fprintf(w, "%s, %s: %s\n", strings.Join(c.list(c.set), " + "), "build "+c.Build.VariantTitle(), c.flight.Title)
		for _, sheet := range c.Sheets {
			c.writePhase(w, sheet)
		}
		if c.partial() {
			fmt.Fprintf(w, "PARTIAL: the time was over; these phases are missing: %v.\n", c.missing())
		}
	}
	_, err := fmt.Fprintf(w, "\n%s\n", book.Caution)
	return err
}

func (c cell) writePhase(w io.Writer, sheet *sweep.Sheet) {
	o := sheet.Outcome(c.set)
	opens := ""
	if sheet.Open(c.set) {
		opens = view.BreaksOff + " "
	}
	fmt.Fprintf(w, "\n%s: %sscore %.1f; %s, %d false; %s wrong, %d dark\n",
		sheet.Phase.Moment, opens, c.ScoreOf(c.set, o), say.Counted(len(o.Given), "alert"), len(o.False), say.Counted(len(o.Wrong), "indication"), len(o.Dark))
	for _, word := range ledger.Words {
		c.writeWord(w, o, word)
	}
}

// writeWord lists the functions that are lost and known in one way. Those that did
// not matter stand in brackets.
func (c cell) writeWord(w io.Writer, o sweep.Outcome, word ledger.Word) {
	n, line := 0, ""
	for _, l := range o.Lost {
		if l.Known != word {
			continue
		}
		text := c.Build.Functions[l.Function].ID
		switch {
		case l.Known == ledger.Late:
			text += fmt.Sprintf(" %d s", l.KnownS)
		case l.Distant:
			text += " from far"
		}
		if !l.Mattered {
			text = "(" + text + ")"
		}
		if n > 0 {
			line += ", "
		}
		line += text
		n++
	}
	if n > 0 {
		fmt.Fprintf(w, "  %s (%d): %s\n", word, n, line)
	}
}

// cellJSON is what a set does in one phase on one build.
type cellJSON struct {
	Build string      `json:"build"`
	Fail  []string    `json:"fail"`
	At    string      `json:"at"`
	Open  bool        `json:"breaks_off"` // the run breaks off: this is what had come by then
	Score float64     `json:"score"`
	Lost  []view.Loss `json:"lost"`
	Wrong []string    `json:"wrong"`
	Dark  []string    `json:"dark"`
	False []string    `json:"false_alarms"`
	Given []string    `json:"alerts"`
}

func cellsJSON(cells []cell) any {
	j := struct {
		Cells   []cellJSON `json:"cells"`
		Caution string     `json:"caution"`
	}{[]cellJSON{}, book.Caution}
	for _, c := range cells {
		for _, sheet := range c.Sheets {
			o := sheet.Outcome(c.set)
			j.Cells = append(j.Cells, cellJSON{
				c.Build.Variant, c.list(c.set), sheet.Phase.Moment.String(), sheet.Open(c.set), c.ScoreOf(c.set, o), view.Losses(&c.Swept, o.Lost),
				ids(c.Build.Indications, o.Wrong), ids(c.Build.Indications, o.Dark), ids(c.Build.Alerts, o.False), ids(c.Build.Alerts, o.Given),
			})
		}
	}
	return j
}

func ids[T book.Item](items []T, places []int32) []string {
	list := []string{}
	for _, p := range places {
		list = append(list, items[p].Named().ID)
	}
	return list
}
