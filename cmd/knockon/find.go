package main

import (
	"strings"

	"knockon/find"
)

type findCommand struct {
	Words []string `arg:"" help:"What you look for, in plain words: a name or its beginning, a chapter (ATA 24), a moment, a build, a whole sentence."`
	bookFlag
	JSON  bool `help:"Print it as JSON."`
	Width int  `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *findCommand) Help() string {
	return `Says how it understands each part of what you typed, what else each could mean, what it does not
understand, and the question as fail takes it. It answers nothing.

  knockon find gen 1
  knockon find "ATA 24"
  knockon find both generators in the climb with one rectifier deferred, second series`
}

func (c *findCommand) Run(o *out) error {
	if err := roomy(c.Width); err != nil {
		return err
	}
	loaded, err := c.load(o, o.stderr)
	if err != nil {
		return err
	}
	v := find.New(loaded).Read(strings.Join(c.Words, " "))
	if c.JSON {
		return printJSON(o, v)
	}
	return v.Write(o.stdout, o.width(c.Width))
}
