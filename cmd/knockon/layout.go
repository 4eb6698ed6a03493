package main

import (
	"log/slog"
	"net/http"
	"os"

	"knockon/ask"
	"knockon/figure/layout/child"
	"knockon/figure/layout/dot"
	"knockon/web"
)

// layoutCommand is the child process in which graphs are laid out: the graph
// library can end the process it runs in.
type layoutCommand struct{}

func (layoutCommand) Run(o *out) error { return dot.Serve(os.Stdin, o.stdout) }

// pages is the site of a desk. closing ends its child process.
func pages(o *out, desk *ask.Desk, opening string) (site http.Handler, closing func(), err error) {
	engine := &child.Engine{}
	if self, err := os.Executable(); err == nil {
		engine = child.New(self, "internal-layout")
	}
	set := web.Setting{Opening: opening, Layout: engine, Log: slog.New(slog.NewTextHandler(o.stderr, nil))}
	site, err = web.New(set, desk)
	return site, engine.Close, err
}
