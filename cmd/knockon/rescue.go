package main

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/rescue"
	flown "knockon/run"
	"knockon/say"
	"knockon/scenario"
)

type rescueCommand struct {
	Function string   `arg:"" optional:"" help:"The function that is lost, by its id. Without one: a flight that breaks off is to arrive."`
	Fail     []string `help:"What fails: units, unit.fault, or events of the book." placeholder:"WHAT"`
	bookFlag
	scenarioFlags
	Plan []string `help:"Where the flight goes, as for fail. Default: as the book's flight." placeholder:"LEG" sep:"none"`
	regionFlags
	Order  int           `help:"Sets of up to so many moves, 1 to 3." default:"2"`
	Move   []string      `help:"Instead of a function: what these moves, made together, spare, and until when: control=position, or control=position! for one that is held there, whatever the flight's own acts do." placeholder:"MOVE" sep:"none"`
	Moves  bool          `help:"List the controls with their positions; with a function, those that reach it."`
	Within time.Duration `help:"Stop after this long." default:"10m"`
	JSON   bool          `help:"Print as JSON."`
	Width  int           `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *rescueCommand) Help() string {
	return `What can be done about a loss: the smallest sets of control moves, in a list of the book or not, that
prevent it or end it, or, without a function, let a flight arrive that breaks off; by when each must be made, what half of it does, what it costs, and whether a list
that is called contains it. With --move, what certain moves spare and until when. docs/rescue.md says what
is tried.

  knockon rescue sound_wing --fail duct_burst --at "cruise + 60 s" --order 1
  knockon rescue --fail feed_line_left.leaks --at climb --act crossfeed_switch=open --order 1
  knockon rescue --move cross_bleed_selector=shut --fail duct_burst --at "cruise + 60 s"`
}

func (c *rescueCommand) Run(o *out) error {
	if c.Moves {
		return c.listMoves(o)
	}
	err := first(c.check(c.Fail), roomy(c.Width), longEnough(c.Within), atLeast("order", c.Order, 1, 2), c.asked())
	if err != nil {
		return err
	}
	world := worldFlags{scenarioFlags: c.scenarioFlags, Crew: scenario.Nobody, Plan: c.Plan, regionFlags: c.regionFlags}
	a, err := world.answer(o, c.bookFlag, c.Fail)
	if err != nil {
		return err
	}
	ctx, stop := withLimit(o, c.Within)
	defer stop()
	b := newBar(o, "rescue")
	defer b.clear()
	if len(c.Move) > 0 {
		err = c.spare(ctx, o, b, a.Course, a.Scenario)
	} else {
		err = c.find(ctx, o, b, a)
	}
	if err != nil && ctx.Err() != nil && o.Err() == nil {
		return fmt.Errorf("not finished within %s: give more with --within, or a smaller --order", c.Within)
	}
	return err
}

// asked refuses what cannot be asked together.
func (c *rescueCommand) asked() error {
	switch {
	case c.Function == "" && len(c.Move) == 0 && len(c.Fail) == 0:
		return wrong("function", "name a function of the book, such as sound_wing, or only what fails if the flight breaks off, or give --move control=position; --moves lists the controls")
	case c.Function != "" && len(c.Move) > 0:
		return wrong("function", "give a function or --move control=position, not both")
	case c.Order > 3:
		return wrong("order", "%d is too many: give 1, 2 or 3", c.Order)
	case len(c.Fail) == 0:
		return wrong("fail", "say what fails, such as --fail duct_burst")
	}
	return nil
}

func (c *rescueCommand) find(ctx context.Context, o *out, b *bar, x *ask.Answer) error {
	if _, err := book.Find("function", c.Function, x.Course.Build.Functions); c.Function != "" && err != nil {
		return wrong("function", "%v", err)
	}
	q := rescue.Question{Scenario: x.Scenario, Function: c.Function, Order: c.Order, Workers: runtime.GOMAXPROCS(0)}
	a, err := rescue.Of(ctx, x.Course, q, func(done, of int) { b.show(int64(done), int64(of)) })
	if err != nil {
		return c.blame(ctx, o, err)
	}
	if err := a.WithCrew(ctx, x.Desk.TeamOf(x.Course, x.Question), x.Scenario, q.Workers); err != nil {
		return c.blame(ctx, o, err)
	}
	b.clear()
	if c.JSON {
		return printJSON(o, a.View())
	}
	return rescue.WriteText(o.stdout, a.View(), o.width(c.Width))
}

func (c *rescueCommand) spare(ctx context.Context, o *out, b *bar, course *flown.Course, s flown.Scenario) error {
	set, err := setOf(c.Move, course.Build)
	if err != nil {
		return err
	}
	p, err := rescue.Spare(ctx, course, s, set)
	if err != nil {
		return c.blame(ctx, o, err)
	}
	b.clear()
	if c.JSON {
		return printJSON(o, p.View())
	}
	return rescue.WriteSpared(o.stdout, p.View(), o.width(c.Width))
}

func (c *rescueCommand) blame(ctx context.Context, o *out, err error) error {
	if ctx.Err() != nil {
		return err
	}
	return troubleAt(o, err)
}

// listMoves prints the controls that there are, or those that reach a function,
// with where they stand at first and where else they can be set.
func (c *rescueCommand) listMoves(o *out) error {
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	course, err := desk.Course(c.Build, c.Flight)
	if err != nil {
		return err
	}
	list := course.Build.Controls
	if c.Function != "" {
		f, err := book.Find("function", c.Function, course.Build.Functions)
		if err != nil {
			return wrong("function", "%v", err)
		}
		list = rescue.Reaching(course, f)
	}
	for _, k := range list {
		if _, err := fmt.Fprintf(o.stdout, "%-28s %s\n%30s%s\n", k.ID, strings.Join(k.Positions, ", "), "", k.Title+", at first "+k.Initial); err != nil {
			return err
		}
	}
	return nil
}

// noControl says that a control is not there, and which were perhaps meant.
func noControl(id string, b *book.Build) error {
	var like []string
	for _, k := range b.Controls {
		if len(like) < mostLike && id != "" && (strings.Contains(k.ID, id) || strings.HasPrefix(id, k.ID)) {
			like = append(like, k.ID+"="+strings.Join(k.Positions, "|"))
		}
	}
	text := say.No("control", id, book.IDs(b.Controls))
	if len(like) > 0 {
		text = fmt.Sprintf("no control %q; there is %s", id, say.And(like))
	}
	return wrong("move", "%s (knockon rescue --moves lists them all)", text)
}

const mostLike = 4

// setOf reads moves as typed.
func setOf(texts []string, b *book.Build) (set rescue.Set, err error) {
	for _, t := range texts {
		id, position, _ := strings.Cut(t, "=")
		id = strings.TrimSpace(id)
		control, err := book.Find("control", id, b.Controls)
		if err != nil {
			return nil, noControl(id, b)
		}
		position, held := strings.CutSuffix(strings.TrimSpace(position), "!")
		if !slices.Contains(control.Positions, position) {
			return nil, wrong("move", "%s: %s; it can be set to %s", id, say.No("position", position, nil), say.And(control.Positions))
		}
		if slices.ContainsFunc(set, func(p rescue.Placed) bool { return p.Control == control }) {
			return nil, wrong("move", "%s is moved twice: name it once", control.ID)
		}
		set = append(set, rescue.Placed{Move: rescue.Move{Control: control, Position: position, Held: held}})
	}
	return set, nil
}
