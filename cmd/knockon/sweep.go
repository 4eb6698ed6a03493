package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"knockon/ask"
	"knockon/book"
	runs "knockon/run"
	"knockon/say"
	"knockon/sweep"
	"knockon/sweep/findings"
)

type sweepCommand struct {
	bookFlag
	Order  int           `help:"How many failures together: 1, 2 or 3." default:"2"`
	Phase  []string      `help:"Only these phases. Default: every phase of the flight." placeholder:"ID"`
	Build  []string      `help:"Only these build standards. Default: all." placeholder:"ID"`
	Flight string        `help:"Flight. Default: the book's first." placeholder:"ID"`
	Within time.Duration `help:"Stop after this long, with the phases that are done." placeholder:"TIME"`
	Store  string        `help:"Keep the results in this folder; what is there already is not worked out again." type:"path" placeholder:"DIR"`
	Of     []string      `help:"Instead of the findings: what these failures together do in each phase, as far as it was swept." placeholder:"FAILURE"`
	Most   int           `help:"List at most so many findings of a kind." default:"10"`
	JSON   bool          `help:"Print the findings as JSON." xor:"format"`
	CSV    bool          `help:"Print a line for every failure and for every set that is more than its parts." xor:"format"`
}

func (c *sweepCommand) Help() string {
	return `Works out every failure alone and every two (--order 3: every three) together, in each phase of the
flight and on each build, and lists what an instructor should know: traps, pairs that are worse than
their parts, the phase and the build that matter, alerts and indications that alone tell of a loss,
and failures that look the same to the crew. The failures strike 5 s after a phase begins, for good;
docs/sweep.md gives the formulas.

  knockon sweep
  knockon sweep --phase climb --order 3 --build first_series
  knockon sweep --store results --csv > pairs.csv
  knockon sweep --store results --of drive_left --of drive_right`
}

// swept is one build with what was found on it.
type swept struct {
	findings.Swept
	flight *book.Flight
	phases []sweep.Phase    // all that were asked for
	spans  []runs.PhaseSpan // when these are
	took   time.Duration
	late   bool // the time was over before the build was begun
}

// partial says that not every phase was done.
func (s *swept) partial() bool { return s.late || len(s.Sheets) < len(s.phases) }

func (c *sweepCommand) Run(o *out) error {
	if c.Order < 1 || c.Order > 3 {
		return wrong("order", "a sweep takes 1, 2 or 3 failures together, not %d", c.Order)
	}
	if err := first(atLeast("most", c.Most, 1, 10), longEnough(c.Within), once("of", c.Of), once("phase", c.Phase), once("build", c.Build)); err != nil {
		return err
	}
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	ids, err := c.builds(desk.Book)
	if err != nil {
		return err
	}
	ctx, done := withLimit(o, c.Within)
	defer done()
	all, err := c.sweepAll(ctx, o, desk, ids)
	if err != nil {
		return err
	}
	if len(c.Of) > 0 {
		return c.printCells(o, all)
	}
	switch {
	case c.JSON:
		return printJSON(o, c.view(all))
	case c.CSV:
		return writeCSV(o.stdout, all)
	}
	return o.lay(func(w io.Writer) error { return c.write(w, all) })
}

func (c *sweepCommand) printCells(o *out, all []*swept) error {
	cells, err := c.cells(all)
	switch {
	case err != nil:
		return err
	case c.CSV:
		return &ask.Trouble{Part: "of", Text: "there is no --csv of one set; use --json"}
	case c.JSON:
		return printJSON(o, cellsJSON(cells))
	}
	return o.lay(func(w io.Writer) error { return writeCells(w, cells) })
}

// builds lists the build standards to sweep.
func (c *sweepCommand) builds(b *book.Book) (ids []string, err error) {
	known := book.IDs(b.Variants)
	if len(c.Build) == 0 {
		if len(known) == 0 {
			return []string{""}, nil
		}
		return known, nil
	}
	for _, id := range c.Build {
		if _, err := b.BuildNamed(id); err != nil {
			return nil, wrong("build", "%v", err)
		}
	}
	return c.Build, nil
}

// sweepAll sweeps build after build until all are done or the time is over.
func (c *sweepCommand) sweepAll(ctx context.Context, o *out, desk *ask.Desk, builds []string) ([]*swept, error) {
	bar := newBar(o, "sweep")
	defer bar.clear()
	var all []*swept
	for i, id := range builds {
		bar.build(id, i, len(builds))
		s, err := c.sweepBuild(ctx, bar, desk, id)
		if err != nil {
			return nil, err
		}
		all = append(all, s)
	}
	if len(all[0].Sheets) == 0 {
		return nil, fmt.Errorf("no phase was done within %s: give more time, or fewer phases", c.Within)
	}
	return all, nil
}

func (c *sweepCommand) sweepBuild(ctx context.Context, bar *bar, desk *ask.Desk, build string) (*swept, error) {
	began := time.Now()
	course, err := desk.Course(build, c.Flight)
	if err != nil {
		return nil, err
	}
	s := &swept{flight: course.Flight}
	s.Build = course.Build
	w, err := sweep.On(ctx, course, sweep.Setting{})
	if errors.Is(err, context.DeadlineExceeded) {
		s.late = true
		return s, nil
	}
	if err != nil {
		return nil, err
	}
	numbers, err := c.phases(w)
	if err != nil {
		return nil, err
	}
	s.Failures = w.Failures()
	for _, n := range numbers {
		s.phases, s.spans = append(s.phases, w.Phases()[n]), append(s.spans, w.Spans()[n])
	}
	kept, err := c.openStore(s)
	if err != nil {
		return nil, err
	}
	defer kept.close()
	s.Sheets = kept.sheets
	err = c.sweepPhases(ctx, bar, w, s, kept, numbers)
	s.took = time.Since(began)
	return s, err
}

// sweepPhases adds the sheets that are missing, as far as the time allows.
func (c *sweepCommand) sweepPhases(ctx context.Context, bar *bar, w *sweep.Sweep, s *swept, kept *keeping, numbers []int) error {
	err := w.RunAll(ctx, numbers[len(s.Sheets):], c.Order, bar.progress(), func(_ int, sheet *sweep.Sheet) error {
		if err := kept.add(sheet); err != nil {
			return err
		}
		s.Sheets = append(s.Sheets, sheet)
		return nil
	})
	switch {
	case errors.Is(err, context.DeadlineExceeded):
		return nil
	case errors.Is(err, sweep.ErrNoPhases):
		return &ask.Trouble{Part: "flight", Text: s.flight.ID + ": " + err.Error()}
	}
	return err
}

// phases gives the numbers of the phases asked for, in the order of the flight.
func (c *sweepCommand) phases(w *sweep.Sweep) (numbers []int, err error) {
	var known []string
	for i, p := range w.Phases() {
		known = append(known, p.ID)
		if len(c.Phase) == 0 || slices.Contains(c.Phase, p.ID) {
			numbers = append(numbers, i)
		}
	}
	for _, id := range c.Phase {
		if !slices.Contains(known, id) {
			return nil, &ask.Trouble{Part: "phase", Text: say.No("phase", id, known)}
		}
	}
	return numbers, nil
}
