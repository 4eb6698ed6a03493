package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"time"

	"knockon/ask"
	"knockon/assess"
	"knockon/say"
)

type assessCommand struct {
	bookFlag
	regionFlags
	Function []string      `arg:"" optional:"" help:"Only these functions. Default: all that have a severity."`
	Order    int           `help:"How many failures together: 1, 2 or 3." default:"3"`
	Build    string        `help:"Build standard. Default: the book's first." placeholder:"ID"`
	Flight   string        `help:"Flight. Default: the book's first." placeholder:"ID"`
	Within   time.Duration `help:"Stop after this long, with the phases that are done." placeholder:"TIME"`
	Store    string        `help:"Keep the results in this folder; what is there already is not worked out again." type:"path" placeholder:"DIR"`
	Most     int           `help:"List at most so many sets of each function, the likeliest first; up to 40." default:"3"`
	All      bool          `help:"What is met too with its sets, and not only by name."`
	JSON     bool          `help:"Print as JSON."`
	Width    int           `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *assessCommand) Help() string {
	return `Every function against the objective of its severity (14 CFR 25.1309): how likely its loss is per hour of
flight, by which smallest sets of up to three failures, which single failures reach a hazardous or
catastrophic loss, and what latent failures do to it. With the crew by the book flights turn to the same airfields as
those of the command fail. docs/assess.md has the formulas and what is not claimed.
Three together take minutes, on a busy machine more, and gigabytes; --store keeps what was found. Two take a minute.

  knockon assess --order 2
  knockon assess --store results
  knockon assess brakes_normal --most 20 --store results`
}

const (
	mostSets = 40 // kept of each loss
	mostCrew = 3  // of each hazardous or catastrophic loss flown again with the crew, beside single failures

	mostPairs = 30 // flown with the crew of each single failure that they clear
)

func (c *assessCommand) Run(o *out) error {
	if c.Order < 1 || c.Order > 3 {
		return wrong("order", "an assessment takes 1, 2 or 3 failures together, not %d", c.Order)
	}
	if c.Most > mostSets {
		return wrong("most", "at most %d sets of each function are kept: give %d or fewer", mostSets, mostSets)
	}
	if err := first(atLeast("most", c.Most, 1, 3), longEnough(c.Within), once("function", c.Function), roomy(c.Width)); err != nil {
		return err
	}
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	ctx, done := withLimit(o, c.Within)
	defer done()
	v, err := c.view(ctx, o, desk)
	if err != nil {
		return err
	}
	if err := c.known(v); err != nil {
		return err
	}
	if v = v.Cut(c.Most, c.Function...); c.JSON {
		return printJSON(o, v)
	}
	p := say.NewPage(o.width(c.Width))
	v.Text(p, c.All || len(c.Function) > 0)
	_, err = io.WriteString(o.stdout, p.String())
	return err
}

// desk is that of the command fail: the crew turn to the same airfields.
func (c *assessCommand) desk(o *out) (*ask.Desk, error) { return c.over(o, c.bookFlag) }

// known refuses functions that were not assessed.
func (c *assessCommand) known(v *assess.View) error {
	var ids []string
	for _, l := range v.Losses {
		ids = append(ids, l.Function)
	}
	for _, id := range c.Function {
		if len(v.Cut(0, id).Losses) == 0 {
			return wrong("function", "%s", say.No("function with a severity", id, ids))
		}
	}
	return nil
}

// view assesses, or reads what was kept.
func (c *assessCommand) view(ctx context.Context, o *out, desk *ask.Desk) (*assess.View, error) {
	course, err := desk.Course(c.Build, c.Flight)
	if err != nil {
		return nil, err
	}
	kept := keptView{}
	if c.Store != "" {
		if kept.digest, err = c.digest(); err != nil {
			return nil, err
		}
		kept.file = filepath.Join(c.Store, fmt.Sprintf("%s--%s--%d.assess", course.Build.Variant, course.Flight.ID, c.Order))
		if v := kept.read(); v != nil {
			return v, nil
		}
	}
	bar := newBar(o, "sweep")
	defer bar.clear()
	bar.build(course.Build.Variant, 0, 3)
	a, err := c.assess(ctx, bar, desk)
	if err != nil {
		return nil, err
	}
	if len(a.Sheets) < len(a.Phases) { // the time was over: of less than was asked for nothing is kept
		return a.View(mostSets), nil
	}
	bar.build("with the crew", 1, 3)
	err = a.Fly(o, desk, course, mostCrew, runtime.GOMAXPROCS(0), func(done, all int) { bar.show(int64(done), int64(all)) })
	if err != nil {
		return nil, err
	}
	bar.build("pairs with the crew", 2, 3)
	err = a.FlyPairs(o, desk, course, mostPairs, runtime.GOMAXPROCS(0), func(done, all int) { bar.show(int64(done), int64(all)) })
	if err != nil {
		return nil, err
	}
	v := a.View(mostSets)
	return v, kept.write(v)
}

// digest is a print of the book's text (see sweepCommand.digest) and of the airfields
// that crews may turn to.
func (c *assessCommand) digest() (string, error) {
	book, err := (&sweepCommand{bookFlag: c.bookFlag}).digest()
	if err != nil {
		return "", err
	}
	fields, err := c.regionFlags.digest(c.bookFlag)
	return book + fields, err
}

func (c *assessCommand) assess(ctx context.Context, bar *bar, desk *ask.Desk) (*assess.Assessment, error) {
	sweep := &sweepCommand{bookFlag: c.bookFlag, Order: c.Order, Flight: c.Flight, Store: c.Store}
	s, err := sweep.sweepBuild(ctx, bar, desk, c.Build)
	if err != nil {
		return nil, err
	}
	if len(s.Sheets) == 0 {
		return nil, fmt.Errorf("no phase was done within %s: give more time, or fewer failures together", c.Within)
	}
	return assess.Of(assess.Swept{
		Build: s.Build, Flight: s.flight, Hours: assess.HoursOf(s.spans), Failures: s.Failures,
		Phases: s.phases, Sheets: s.Sheets, Order: c.Order,
	}), nil
}

// keptView is a file that an assessment is kept in; without a name nothing is.
type keptView struct{ file, digest string }

type keptJSON struct {
	Book string       `json:"book"`
	View *assess.View `json:"view"`
}

// read gives what is kept of this text of the book; nil if nothing is.
func (k keptView) read() *assess.View {
	text, err := os.ReadFile(k.file)
	if err != nil {
		return nil
	}
	var had keptJSON
	if json.Unmarshal(text, &had) != nil || had.Book != k.digest || had.View == nil {
		return nil
	}
	return had.View
}

func (k keptView) write(v *assess.View) error {
	if k.file == "" {
		return nil
	}
	text, err := json.Marshal(keptJSON{k.digest, v})
	if err != nil {
		return err
	}
	half := k.file + ".part"
	if err := os.WriteFile(half, text, 0o644); err != nil {
		return fmt.Errorf("no file to keep results in: %w", err)
	}
	return os.Rename(half, k.file)
}
