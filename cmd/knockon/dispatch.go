package main

import (
	"io"
	"time"

	"knockon/dispatch"
)

type dispatchCommand struct {
	Item []string `arg:"" help:"What is inoperative: units or unit.fault."`
	bookFlag
	Build    string        `help:"Build standard. Default: the book's first." placeholder:"ID"`
	Flight   string        `help:"Flight. Default: the book's first." placeholder:"ID"`
	In       string        `help:"When the next failure strikes: a phase or any moment, such as \"climb + 120 s\". Default: 5 seconds into every phase." placeholder:"MOMENT"`
	Found    string        `help:"The day on which it was found, such as 2026-11-25: then the last day is said." placeholder:"DAY"`
	Thorough bool          `help:"Also with a failure that nobody would know of, and with each other item that can be deferred."`
	Within   time.Duration `help:"Stop after this long." default:"10m"`
	JSON     bool          `help:"Print as JSON."`
}

func (c *dispatchCommand) Help() string {
	return `Whether the aircraft may go with something inoperative: whether the book has a deferral for every item, all
that these ask for is so, and none excludes another; for how long, and under which conditions. Then what is
one failure away: every single failure is flown, with the conditions applied and with everything working,
in every phase, and the losses that it brings only now are listed, the gravest first, with how people would
know of them. And where the book's own deferral breaks the principle that the next failure must be
survivable. docs/dispatch.md has the check, step by step.

  knockon dispatch tr_left --found 2026-11-25
  knockon dispatch tr_left apu --flight short_hop
  knockon dispatch radio_altimeter_1 --in final --thorough

Exit code 0: answered, whether it goes or not.`
}

func (c *dispatchCommand) Run(o *out) error {
	if err := first(once("item", c.Item), longEnough(c.Within)); err != nil {
		return err
	}
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	ctx, done := withLimit(o, c.Within)
	defer done()
	b := newBar(o, "dispatch")
	a, err := dispatch.Of(ctx, desk.Courses, dispatch.Question{Items: c.Item, Build: c.Build, Flight: c.Flight, In: c.In, Found: c.Found, Thorough: c.Thorough, Acts: desk.Acting, Progress: b.progress()})
	b.clear()
	if err != nil {
		return err
	}
	if c.JSON {
		return printJSON(o, a.View())
	}
	return o.lay(func(w io.Writer) error { return dispatch.WriteText(w, a.View()) })
}
