package main

import (
	"runtime"

	"knockon/handout"
	"knockon/web"
)

type handoutCommand struct {
	What []string `arg:"" help:"What fails: units, unit.fault, or events of the book." name:"what"`
	bookFlag
	worldFlags
	Appendix bool `help:"Add all that the sheet has no room for: every point, wave, line and row."`
}

func (c *handoutCommand) Help() string {
	return `Writes the answer as one sheet of paper (A4) to teach from, as a file for a browser that needs nothing else:
three points, what was told beside what was true, what each line of the lists is worth, what saves
the gravest of what nobody knows, and what other phases, builds and a deferral make of it.

  knockon handout tr_right --out tr_left --at "climb + 120 s" > handout.html
  knockon handout gen_left --at cruise --appendix > handout.html`
}

func (c *handoutCommand) Run(o *out) error {
	a, err := c.answer(o, c.bookFlag, c.What)
	if err != nil {
		return err
	}
	b := &handout.Beside{}
	if err := b.Fly(o, a, runtime.GOMAXPROCS(0)); err != nil {
		return err
	}
	return web.WriteHandout(o.stdout, a.Desk.Book, a, handout.Of(a, a.View(), b), c.Appendix)
}
