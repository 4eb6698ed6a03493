package main

import (
	"knockon/snapshot"
)

type snapshotCommand struct {
	What []string `arg:"" help:"What fails: units, unit.fault, or events of the book." name:"what"`
	bookFlag
	worldFlags
	Moment string `help:"The moment: as --at, or with a plus before it, counted from the failure: \"cruise\", \"10,000 ft in the descent\", \"+10:00\"." required:"" placeholder:"MOMENT"`
	JSON   bool   `help:"Print it as JSON."`
	Width  int    `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *snapshotCommand) Help() string {
	return `What is so at one moment of the flight with the failure: mass, fuel, height, speed, configuration,
weather, what is told and what is true; read from the run that fail prints.

  knockon snapshot tr_right --out tr_left --at "climb + 120 s" --moment +10:00
  knockon snapshot gen_left --at cruise --moment "10,000 ft in the descent"`
}

func (c *snapshotCommand) Run(o *out) error {
	a, err := c.answer(o, c.bookFlag, c.What, roomy(c.Width))
	if err != nil {
		return err
	}
	at, err := snapshot.When(o, a, c.Moment)
	if err != nil {
		return err
	}
	v := snapshot.Of(a, at)
	if c.JSON {
		return printJSON(o, v)
	}
	return v.Write(o.stdout, o.width(c.Width))
}
