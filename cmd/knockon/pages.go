package main

import (
	"errors"
	"fmt"
	"log/slog"
	"maps"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"

	"knockon/ask"
	"knockon/figure/layout/child"
	"knockon/logbook"
	"knockon/region"
	"knockon/web"
	"knockon/web/drilling"
	wholebook "knockon/web/swept"
)

// pages is the site of a desk. closing ends its child process and the sweeps
// under way, and lets go of the drills.
func pages(o *out, desk *ask.Desk, at site) (pages http.Handler, closing func(), err error) {
	log := slog.New(slog.NewTextHandler(o.stderr, nil))
	hall, err := drills(desk, at.region, at.drills, log)
	if err != nil {
		return nil, nil, err
	}
	if at.resume != "" {
		path, err := hall.Resume(o, at.resume)
		if err != nil {
			return nil, nil, fmt.Errorf("the drill %s: %w", at.resume, errors.Join(err, hall.Close()))
		}
		at.resumed(path)
	}
	engine := layoutEngine()
	more := map[string]http.Handler{"/drill/": hall}
	sweeps, err := wholebook.New(desk, log)
	if err != nil {
		return nil, nil, err
	}
	maps.Copy(more, sweeps.Mounts())
	set := web.Setting{Opening: at.opening, Region: at.region, Layout: engine, Log: log, More: more}
	pages, err = web.New(set, desk)
	return pages, func() { engine.Close(); sweeps.Close(); _ = hall.Close() }, err
}

// drills is the hall of a book's drills, whose logs lie in a folder.
func drills(desk *ask.Desk, over *region.Region, dir string, log *slog.Logger) (*drilling.Hall, error) {
	if dir == "" {
		own, err := os.UserConfigDir()
		if err != nil {
			return nil, fmt.Errorf("no folder for the logs of drills: %v; give one with --drills", err)
		}
		dir = filepath.Join(own, "knockon", "drills")
	}
	shelf, err := logbook.Open(dir)
	if err != nil {
		return nil, fmt.Errorf("cannot keep the logs of drills in %s: %v; give another folder with --drills", dir, reason(err))
	}
	if err := shelf.Check(); err != nil {
		log.Warn("drills are kept in memory only, and are lost when this program stops: give another folder with --drills", "folder", dir, "error", reason(err))
	}
	set := drilling.Setting{Book: desk.Book, Shelf: shelf, Log: log}
	if over != nil {
		set.Over = region.Router{Region: over}
	}
	return drilling.New(set)
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
