package main

import (
	"fmt"
	"io"
	"time"

	"knockon/ask"
	"knockon/crew"
	"knockon/crew/clash"
)

type conflictsCommand struct {
	bookFlag
	Build  string        `help:"Build standard. Default: the book's first." placeholder:"ID"`
	Flight string        `help:"Flight. Default: the book's first." placeholder:"ID"`
	Phases int           `help:"Fly every single failure in so many of the longest phases." default:"2"`
	More   int           `help:"Fly so many more for each procedure that none of these calls for." default:"120"`
	Within time.Duration `help:"Stop after this long." default:"15m"`
	JSON   bool          `help:"Print as JSON."`
}

func (c *conflictsCommand) Help() string {
	return `Flies a crew through every single failure of the book and lists the conflicts among its procedures, with
their places: two that put one control in different positions, alerts that call without end or that no
procedure ends, steps that nothing follows, resets tried too often, procedures for which nothing calls.
A conflict need not be wrong: exit code 0.

  knockon conflicts --flight short_hop
  knockon conflicts --phases 4 --json`
}

func (c *conflictsCommand) Run(o *out) error {
	if err := first(atLeast("phases", c.Phases, 1, 2), atLeast("more", c.More, 0, 120), longEnough(c.Within)); err != nil {
		return err
	}
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	var set crew.Setting
	set.Run.Prescribed = true
	team, err := teamOf(desk, ask.Question{Build: c.Build, Flight: c.Flight}, set)
	if err != nil {
		return err
	}
	ctx, stop := withLimit(o, c.Within)
	defer stop()
	b := newBar(o, "conflicts")
	report, err := clash.Survey(ctx, team, clash.Bounds{Phases: c.Phases, More: c.More, Progress: b.progress()})
	b.clear()
	switch {
	case o.Err() != nil:
		return o.Err()
	case ctx.Err() != nil:
		return fmt.Errorf("not finished within %s: ask for fewer --phases", c.Within)
	case err != nil:
		return err
	case c.JSON:
		return printJSON(o, report.View())
	}
	return o.lay(func(w io.Writer) error { return clash.WriteText(w, report) })
}
