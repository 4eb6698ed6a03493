package main

import (
	"fmt"
	"runtime"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/crew/follow"
	"knockon/scenario"
)

type listsCommand struct {
	bookFlag
	regionFlags
	Fail   []string      `arg:"" optional:"" help:"What fails: units, unit.fault, or events, each by itself. Default: everything that can."`
	At     string        `help:"When it fails." default:"cruise + 60 s" placeholder:"MOMENT"`
	Build  string        `help:"Build standard. Default: the book's first." placeholder:"ID"`
	Flight string        `help:"Flight. Default: the book's first." placeholder:"ID"`
	Fields bool          `help:"Also price the airfields, hands off and with the crew." default:"true" negatable:""`
	Within time.Duration `help:"Stop after this long." default:"15m"`
	JSON   bool          `help:"Print as JSON."`
	Width  int           `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *listsCommand) Help() string {
	return `Flies every failure that calls a list twice, hands off and with a crew who follow the lists, and names what is
worse with the lists followed: a flight that does not arrive, a hazardous or catastrophic function that is
lost as well or more than a minute sooner, an airfield that is closed. Named by themselves: a warning's list
that is late, a list that is not done at touchdown, lines that are read though what called for them is over,
and lines that nobody hears, each with its place in the book. Exit code 0.

  knockon lists
  knockon lists engine_left pack_left --at "climb + 120 s" --no-fields`
}

func (c *listsCommand) Run(o *out) error {
	if err := first(longEnough(c.Within), roomy(c.Width)); err != nil {
		return err
	}
	desk, err := c.over(o, c.bookFlag)
	if err != nil {
		return err
	}
	q, err := c.asked(o, desk)
	if err != nil {
		return err
	}
	ctx, stop := withLimit(o, c.Within)
	defer stop()
	b := newBar(o, "lists")
	f, err := follow.Of(ctx, q, func(done, of int) { b.show(int64(done), int64(of)) })
	b.clear()
	switch {
	case o.Err() != nil:
		return o.Err()
	case ctx.Err() != nil:
		return fmt.Errorf("not finished within %s: give more with --within, or --no-fields", c.Within)
	case err != nil:
		return err
	case c.JSON:
		return printJSON(o, f.View(q.Team.Build()))
	}
	return follow.WriteText(o.stdout, f.View(q.Team.Build()), q.Team.Build(), o.width(c.Width))
}

// asked is what is to be flown.
func (c *listsCommand) asked(o *out, desk *ask.Desk) (q follow.Question, err error) {
	course, err := desk.Course(c.Build, c.Flight)
	if err != nil {
		return q, err
	}
	q = follow.Question{Team: desk.Team(course), Workers: runtime.GOMAXPROCS(0)}
	if q.At, err = scenario.Moment("at", c.At, course.Build); err != nil {
		return q, err
	}
	for _, f := range c.Fail {
		ref, err := book.ParseFailure(f, course.Build)
		if err != nil {
			return q, wrong("fail", "%v", err)
		}
		q.Fail = append(q.Fail, []book.FailureRef{ref})
	}
	if c.Fields && course.CanTurn() {
		q.Ground, err = c.region(o, c.bookFlag)
	}
	return q, err
}
