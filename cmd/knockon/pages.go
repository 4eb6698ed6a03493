package main

import (
	"log/slog"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"

	"knockon/ask"
	"knockon/costs"
	"knockon/figure/layout/child"
	"knockon/web"
)

// pages is the site of a desk. closing ends its child process.
func pages(o *out, desk *ask.Desk, region *costs.Region, opening string) (site http.Handler, closing func(), err error) {
	engine := layoutEngine()
	set := web.Setting{Opening: opening, Region: region, Layout: engine, Log: slog.New(slog.NewTextHandler(o.stderr, nil))}
	site, err = web.New(set, desk)
	return site, engine.Close, err
}

// layoutEngine places chains with the program knockon-layout, which holds the
// graph library, where it lies beside this one or on the path; without it, in
// the plain way.
func layoutEngine() *child.Engine {
	if self, err := os.Executable(); err == nil {
		beside := filepath.Join(filepath.Dir(self), "knockon-layout")
		if info, err := os.Stat(beside); err == nil && info.Mode().IsRegular() {
			return child.New(beside)
		}
	}
	if found, err := exec.LookPath("knockon-layout"); err == nil {
		return child.New(found)
	}
	return &child.Engine{}
}
