package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"knockon/ask"
	"knockon/ways"
	"knockon/ways/logic"
	"knockon/ways/mef"
	"knockon/ways/sets"
)

type waysCommand struct {
	Function []string `arg:"" optional:"" help:"The functions of the book that are lost, all of them; with --tree, a gate of the tree (default: its only top)."`
	bookFlag
	In     string        `help:"The phase, taken at its middle; or any moment, such as \"climb + 120 s\". Default: the phase half-way through the flight." placeholder:"MOMENT"`
	Untold bool          `help:"Lost, and no alert that tells of it is given." xor:"told"`
	Wrong  bool          `help:"Lost, no alert tells of it, and an indication that shows it is wrong." xor:"told"`
	When   string        `help:"And this yes/no expression of the book language holds; alone, any condition." placeholder:"EXPR"`
	Out    []string      `help:"Inoperative at dispatch. Without a function: what that leaves one failure away." placeholder:"UNIT"`
	Build  string        `help:"Build standard. Default: the book's first." placeholder:"ID"`
	Flight string        `help:"Flight. Default: the book's first." placeholder:"ID"`
	Order  int           `help:"Leave out sets with more failures; 0 leaves none out." default:"3"`
	Most   int           `help:"List at most so many sets of each order, the likeliest first." default:"40"`
	Risk   int           `help:"How likely it is on one flight, and so many of the failures that matter most for it." placeholder:"N"`
	Within time.Duration `help:"Stop after this long, with what is found." default:"60s"`
	Memory int           `help:"Megabytes for the search; what needs more gives a partial answer." default:"900" placeholder:"MB"`
	Tree   string        `help:"Solve a fault tree in the Open-PSA Model Exchange Format instead of a book." type:"path" placeholder:"FILE"`
	Export string        `help:"Write the fault tree in that format to a file." type:"path" placeholder:"FILE"`
	JSON   bool          `help:"Print as JSON." xor:"format"`
	CSV    bool          `help:"Print a line for each set." xor:"format"`
}

func (c *waysCommand) Help() string {
	return `All the smallest sets of failures that take a function away (or several functions, or bring any condition
about), at one moment of the flight, by how many failures they need. The aircraft is held still at that
moment: timers have run out, totals (tanks, batteries) stand as they are; docs/meaning.md section 9. Then
every failure and every two are flown on from there to the end of the flight, for what comes only later.

  knockon ways brakes_normal --in landing_roll --risk 8
  knockon ways fire_watch_left --untold --order 2 --out tr_left
  knockon ways both_ac_sides shaped_control
  knockon ways radio_height --wrong
  knockon ways --when "gear_lever == \"down\" && !brakes_normal" --in final
  knockon ways --out tr_left --in cruise
  knockon ways --tree tree.xml --order 0`
}

// sought is what is to be found: a condition of a logic, in words.
type sought struct {
	logic *logic.Logic
	top   logic.Term
	words string
	name  string
	of    *ask.Standing // nil: of a tree
}

func (s *sought) report(ctx context.Context, a sets.Ask) (*sets.Report, error) {
	if s.of == nil {
		return sets.Make(ctx, s.words, s.logic, s.top, a)
	}
	return s.of.Ways(ctx, s.of.Condition, a)
}

func (c *waysCommand) Run(o *out) error {
	err := first(atLeast("order", c.Order, 0, 3), atLeast("most", c.Most, 0, 40), atLeast("risk", c.Risk, 0, 8), atLeast("memory", c.Memory, 1, 900),
		longEnough(c.Within), once("function", c.Function), once("out", c.Out))
	if err != nil {
		return err
	}
	ctx, done := withLimit(o, c.Within)
	defer done()
	if c.Tree == "" && len(c.Function) == 0 && c.When == "" && len(c.Out) > 0 {
		return c.dispatch(ctx, o)
	}
	s, err := c.seek(ctx, o)
	if err != nil {
		return err
	}
	if c.Export != "" {
		if err := export(c.Export, s); err != nil {
			return err
		}
	}
	b := newBar(o, "ways")
	r, err := s.report(ctx, sets.Ask{Options: ways.Options{Order: c.Order, Megabytes: c.Memory}, Most: c.Most, Rows: c.Risk})
	b.clear()
	if err != nil {
		return fmt.Errorf("found nothing within %s and %d megabytes: %w", c.Within, c.Memory, err)
	}
	switch {
	case c.JSON:
		return printJSON(o, r)
	case c.CSV:
		return writeWaysCSV(o.stdout, r)
	}
	return o.lay(func(w io.Writer) error { return writeWays(w, r) })
}

func (c *waysCommand) asked() ask.Sought {
	q := ask.Sought{Functions: c.Function, When: c.When, Out: c.Out, In: c.In, Build: c.Build, Flight: c.Flight}
	switch {
	case c.Untold:
		q.Told = string(sets.Untold)
	case c.Wrong:
		q.Told = string(sets.Wrong)
	}
	return q
}

func (c *waysCommand) seek(ctx context.Context, o *out) (*sought, error) {
	if c.Tree != "" {
		return c.seekTree()
	}
	if len(c.Function) == 0 && c.When == "" {
		return nil, &ask.Trouble{Part: "function", Text: "name a function of the book, such as brakes_normal, or give --when, --out or --tree"}
	}
	desk, err := c.desk(o)
	if err != nil {
		return nil, err
	}
	s, err := desk.Stand(ctx, c.asked())
	if err != nil {
		return nil, err
	}
	top, err := s.Term(s.Still)
	if err != nil {
		return nil, &ask.Trouble{Part: "function", Text: err.Error() + ": docs/meaning.md section 9 says what can be followed"}
	}
	return &sought{logic: s.Still.Logic, top: top, name: s.Name(), of: s}, nil
}

func (c *waysCommand) seekTree() (*sought, error) {
	if len(c.Function) > 1 || c.When != "" || c.Untold || c.Wrong || len(c.Out) > 0 {
		return nil, &ask.Trouble{Part: "tree", Text: "of a tree, one gate can be sought, and nothing else said of it"}
	}
	f, err := os.Open(c.Tree)
	if err != nil {
		return nil, fmt.Errorf("no tree: %w", err)
	}
	defer f.Close()
	m, err := mef.Read(f, mef.Limits{})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", c.Tree, err)
	}
	name := strings.Join(c.Function, "")
	g, ok := m.Gate(name)
	if tops := m.Tops(); !ok && name == "" && len(tops) == 1 {
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

// dispatch lists what inoperative units leave one failure away.
func (c *waysCommand) dispatch(ctx context.Context, o *out) error {
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	x, err := desk.Dispatch(ctx, c.asked())
	if err != nil {
		return err
	}
	d := dispatched{x}
	switch {
	case c.JSON:
		return printJSON(o, d.asJSON())
	case c.CSV:
		return d.writeCSV(o.stdout)
	}
	return o.lay(d.write)
}
