package main

import (
	"knockon/beside"
)

type besideCommand struct {
	What []string `arg:"" help:"What fails in the first: units, unit.fault, or events of the book." name:"what"`
	bookFlag
	worldFlags
	Other []string `help:"What is otherwise in the second: at=MOMENT, build=ID, flight=ID, crew=none, out=none or out=UNIT, and=UNIT (one failure more), without=UNIT, fail=UNIT, plan=LEG. May be given more than once." placeholder:"PART=VALUE" sep:"none"`
	JSON  bool     `help:"Print it as JSON."`
	Width int      `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *besideCommand) Help() string {
	return `Lays the answers to two questions side by side and lists only what differs; what is alike is counted.
Both are answered as fail answers them.

  knockon beside tr_right --out tr_left --at "climb + 120 s" --other crew=none
  knockon beside gen_left --at climb --other at=cruise --other build=second_series`
}

func (c *besideCommand) Run(o *out) error {
	if err := first(c.check(c.What), roomy(c.Width)); err != nil {
		return err
	}
	q := c.question(c.What)
	other, err := beside.Other(q, c.Other)
	if err != nil {
		return err
	}
	desk, err := c.over(o, c.bookFlag)
	if err != nil {
		return err
	}
	a, err := desk.Answer(o, q)
	if err != nil {
		return err
	}
	b, err := desk.Answer(o, other)
	if err != nil {
		return err
	}
	v := beside.Of(a, b)
	if c.JSON {
		return printJSON(o, v)
	}
	return v.Write(o.stdout, o.width(c.Width))
}
