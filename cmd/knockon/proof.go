package main

import (
	"runtime"
	"time"

	"knockon/book"
	"knockon/proof"
	"knockon/scenario"
)

type proofCommand struct {
	bookFlag
	Fail   string        `arg:"" help:"What fails: a unit, unit.fault, or an event."`
	At     string        `help:"When it fails." default:"cruise + 60 s" placeholder:"MOMENT"`
	After  time.Duration `help:"How long after it the crew look." default:"60s"`
	Out    []string      `help:"Inoperative from the start." placeholder:"UNIT"`
	Build  string        `help:"Build standard. Default: the book's first." placeholder:"ID"`
	Flight string        `help:"Flight. Default: the book's first." placeholder:"ID"`
	JSON   bool          `help:"Print as JSON."`
	Width  int           `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *proofCommand) Help() string {
	return `What can a crew that looks conclude? The smallest set of alerts, readings, lamps and switches that no other single
failure of the book shows so, each of them struck at the same moment and looked at as long after, hands off.

  knockon proof pack_left
  knockon proof duct_burst --at "cruise + 60 s" --after 5m`
}

func (c *proofCommand) Run(o *out) error {
	if err := roomy(c.Width); err != nil {
		return err
	}
	if c.After < 0 {
		return wrong("after", "%s is before the failure: give a time after it, such as 60s", c.After)
	}
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	q := proof.Question{After: book.Time(c.After / time.Microsecond), Workers: runtime.GOMAXPROCS(0)}
	if q.Course, err = desk.Course(c.Build, c.Flight); err != nil {
		return err
	}
	if q.At, err = scenario.Moment("at", c.At, q.Course.Build); err != nil {
		return err
	}
	if q.Fail, err = book.ParseFailure(c.Fail, q.Course.Build); err != nil {
		return wrong("fail", "%v", err)
	}
	for _, u := range c.Out {
		ref, err := book.ParseFailure(u, q.Course.Build)
		if err != nil {
			return wrong("out", "%v", err)
		}
		q.Out = append(q.Out, ref)
	}
	b := newBar(o, "proof")
	p, err := proof.Of(o, q, func(done, of int) { b.show(int64(done), int64(of)) })
	b.clear()
	switch {
	case err != nil:
		return err
	case c.JSON:
		return printJSON(o, p.View())
	}
	return p.View().WriteText(o.stdout, o.width(c.Width))
}
