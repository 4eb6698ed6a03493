package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/ways"
	"knockon/ways/logic"
	"knockon/ways/mef"
	"knockon/ways/still"
)

type waysCommand struct {
	Function string `arg:"" optional:"" help:"The function of the book that is lost; with --tree, a gate of the tree (default: its only top)."`
	bookFlag
	In     string        `help:"The phase, taken at its middle; or any moment, such as \"climb + 120 s\". Default: the phase half-way through the flight." placeholder:"MOMENT"`
	Untold bool          `help:"Lost, and no alert that tells of it is given."`
	Out    []string      `help:"Inoperative at dispatch." placeholder:"UNIT"`
	Build  string        `help:"Build standard. Default: the book's first." placeholder:"ID"`
	Flight string        `help:"Flight. Default: the book's first." placeholder:"ID"`
	Order  int           `help:"Leave out sets with more failures; 0 leaves none out." default:"3"`
	Most   int           `help:"List at most so many sets of each order." default:"40"`
	Within time.Duration `help:"Stop after this long, with what is found." default:"60s"`
	Tree   string        `help:"Solve a fault tree in the Open-PSA Model Exchange Format instead of a book." type:"path" placeholder:"FILE"`
	Export string        `help:"Write the fault tree in that format to a file." type:"path" placeholder:"FILE"`
	JSON   bool          `help:"Print as JSON."`
}

func (c *waysCommand) Help() string {
	return `All the smallest sets of failures that take a function away, at one moment of the flight, by how many
failures they need. The aircraft is held still at that moment: timers have run out, totals (tanks, batteries)
stand as they are; docs/meaning.md section 9.

  knockon ways brakes_normal --in landing_roll
  knockon ways fire_watch_left --untold --order 2 --out tr_left
  knockon ways --tree tree.xml --order 0`
}

// sought is what is to be found: a condition of a logic, in words.
type sought struct {
	logic *logic.Logic
	top   logic.Term
	words string
	name  string
	note  string
}

func (c *waysCommand) Run(o *out) error {
	if c.Order < 0 || c.Most < 0 {
		return &ask.Trouble{Part: "order", Text: "--order and --most are 0 or more"}
	}
	s, err := c.seek(o)
	if err != nil {
		return err
	}
	if c.Export != "" {
		if err := export(c.Export, s); err != nil {
			return err
		}
	}
	ctx, done := withLimit(o, c.Within)
	defer done()
	w, err := ways.Find(ctx, s.logic, s.top, ways.Options{Order: c.Order})
	if err != nil {
		return fmt.Errorf("found nothing within %s: %w", c.Within, err)
	}
	if c.JSON {
		return printJSON(o, c.asJSON(s, w))
	}
	return c.writeWays(o.stdout, s, w)
}

func (c *waysCommand) seek(o *out) (*sought, error) {
	if c.Tree != "" {
		return c.seekTree()
	}
	if c.Function == "" {
		return nil, &ask.Trouble{Part: "function", Text: "name a function of the book, such as brakes_normal, or give --tree"}
	}
	desk, err := c.desk(o)
	if err != nil {
		return nil, err
	}
	a, err := desk.Answer(o, ask.Question{Out: c.Out, Build: c.Build, Flight: c.Flight})
	if err != nil {
		return nil, err
	}
	at, err := c.moment(o, a)
	if err != nil {
		return nil, err
	}
	return c.seekFunction(a, at)
}

// moment is the middle of a phase, or what was typed.
func (c *waysCommand) moment(o *out, a *ask.Answer) (book.Time, error) {
	phase := c.In
	if phase == "" {
		phase = a.There.PhaseAt(a.There.End / 2)
	}
	if at, err := still.Middle(a.There.Trace, phase); err == nil {
		return at, nil
	}
	m, err := book.ParseMoment(c.In, a.Course.Build)
	if err != nil {
		return 0, &ask.Trouble{Part: "in", Text: err.Error()}
	}
	at, err := a.Course.Resolve(o, m)
	if err != nil {
		return 0, &ask.Trouble{Part: "in", Text: err.Error()}
	}
	return at, nil
}

func (c *waysCommand) seekFunction(a *ask.Answer, at book.Time) (*sought, error) {
	var ids []string
	for _, f := range a.Course.Build.Functions {
		ids = append(ids, f.ID)
	}
	item, ok := a.Course.Build.Item(c.Function)
	function, isFunction := item.(*book.Function)
	if !ok || !isFunction {
		return nil, &ask.Trouble{Part: "function", Text: fmt.Sprintf("no function %q%s", c.Function, perhaps(c.Function, ids))}
	}
	s, err := still.Of(a.There.Trace, at)
	if err != nil {
		return nil, err
	}
	find, what := s.Lost, "is lost"
	if c.Untold {
		find, what = s.Untold, "is lost and no alert tells of it"
	}
	top, err := find(c.Function)
	if err != nil {
		return nil, err
	}
	found := &sought{logic: s.Logic, top: top, name: c.Function}
	found.words = fmt.Sprintf("%s %s, at %s (%s)", function.Title, what, clock(at), phaseTitle(a, at))
	return found, nil
}

func perhaps(id string, known []string) string {
	if s := book.Nearest(id, known); s != "" {
		return fmt.Sprintf("; did you mean %q?", s)
	}
	return ""
}

func (c *waysCommand) seekTree() (*sought, error) {
	f, err := os.Open(c.Tree)
	if err != nil {
		return nil, fmt.Errorf("no tree: %w", err)
	}
	defer f.Close()
	m, err := mef.Read(f, mef.Limits{})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Tree, err)
	}
	g, ok := m.Gate(c.Function)
	if tops := m.Tops(); !ok && c.Function == "" && len(tops) == 1 {
		g, ok = tops[0], true
	}
	if !ok {
		var names []string
		for _, t := range m.Tops() {
			names = append(names, t.Name)
		}
		return nil, &ask.Trouble{Part: "function", Text: "name a gate of the tree; its tops are " + strings.Join(names, ", ")}
	}
	return &sought{logic: m.Logic, top: g.Term, name: g.Name, words: g.Name + " of " + c.Tree}, nil
}

func export(path string, s *sought) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	return errors.Join(mef.Write(f, mef.Of(s.name, s.logic, s.top)), f.Close())
}

func (c *waysCommand) writeWays(w io.Writer, s *sought, found *ways.Ways) error {
	fmt.Fprintf(w, "%s.\n", s.words)
	switch {
	case found.Always:
		fmt.Fprintln(w, "\nIt is so whatever fails, and if nothing does.")
	case found.Never:
		fmt.Fprintln(w, "\nNo set of failures brings it about.")
	}
	for order := 1; order <= found.Highest(); order++ {
		c.writeOrder(w, found, order)
	}
	fmt.Fprintf(w, "\n%s\n", completeness(found))
	_, err := fmt.Fprintln(w, book.Caution)
	return err
}

func (c *waysCommand) writeOrder(w io.Writer, found *ways.Ways, order int) {
	n := found.Count(order)
	if n.Sign() == 0 {
		return
	}
	head := map[int]string{1: "One failure", 2: "Both of", 3: "All three of"}[order]
	if head == "" {
		head = fmt.Sprintf("All %d of", order)
	}
	fmt.Fprintf(w, "\n%s (%s)\n", head, n)
	sets, all := found.List(order, c.Most)
	for _, set := range sets {
		fmt.Fprintf(w, "  %s\n", strings.Join(found.Names(set), " + "))
	}
	if !all {
		fmt.Fprintf(w, "  … and more: --most lists them\n")
	}
}

func completeness(w *ways.Ways) string {
	switch {
	case w.Why != nil && w.Complete < 1:
		return fmt.Sprintf("PARTIAL: nothing is sure to be complete (%v).", w.Why)
	case w.Why != nil:
		return fmt.Sprintf("PARTIAL: complete up to %d failures together (%v).", w.Complete, w.Why)
	case w.Complete == ways.AllOrders:
		return "Complete: there are no other smallest sets."
	}
	return fmt.Sprintf("Complete up to %d failures together; larger sets were not looked for.", w.Complete)
}

// waysJSON is the answer for a machine.
type waysJSON struct {
	Condition string              `json:"condition"`
	Always    bool                `json:"always"`
	Never     bool                `json:"never"`
	Complete  string              `json:"complete"`
	Counts    map[string]string   `json:"counts"`
	Sets      map[string][]string `json:"sets"`
	Caution   string              `json:"caution"`
}

func (c *waysCommand) asJSON(s *sought, found *ways.Ways) waysJSON {
	j := waysJSON{Condition: s.words, Always: found.Always, Never: found.Never, Complete: completeness(found),
		Counts: map[string]string{}, Sets: map[string][]string{}, Caution: book.Caution}
	for order := 1; order <= found.Highest(); order++ {
		key := fmt.Sprint(order)
		j.Counts[key] = found.Count(order).String()
		sets, _ := found.List(order, c.Most)
		for _, set := range sets {
			j.Sets[key] = append(j.Sets[key], strings.Join(found.Names(set), " + "))
		}
	}
	return j
}
