package main

import (
	"context"
	"errors"
	"fmt"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/crew"
	"knockon/crew/worth"
)

type worthCommand struct {
	Procedure string   `arg:"" optional:"" help:"The procedure, by its id."`
	Fail      []string `help:"The failure that calls for it: units, unit.fault, or events. Default: likely ones are found." placeholder:"WHAT"`
	bookFlag
	scenarioFlags
	Date   string        `help:"The day, which decides what bulletins are in force: 2026-11-25. Default: only those without dates." placeholder:"DAY"`
	Pace   []string      `help:"Change the crew's pace: name=number, such as list_s=5." placeholder:"NAME=NUMBER" sep:"none"`
	All    bool          `help:"The traps of all procedures of the book."`
	Most   int           `help:"With --all: list so many traps." default:"40"`
	Pairs  int           `help:"With each failure, leave out at most so many pairs of steps together; 0 for none." default:"60"`
	Within time.Duration `help:"Stop after this long." default:"15m"`
	JSON   bool          `help:"Print as JSON."`
	Width  int           `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *worthCommand) Help() string {
	return `Flies the failure with the procedure done right, with each step left out, late by 10 s to 5 min, done on
the switch beside it, decided the other way, swapped with the next one, and left out together with another,
and compares what is lost and told. Each step gets its reason, computed: what it prevents, brings back or costs, or why nothing follows
in this model. Traps are the omissions whose consequence hides best. The flight keeps to its profile.

  knockon worth main_dc_lost_drill
  knockon worth left_generator_off --fail gen_left --at "cruise + 60 s" --json
  knockon worth --all --most 20`
}

func (c *worthCommand) Run(o *out) error {
	if err := first(c.check(c.Fail), atLeast("pairs", c.Pairs, 0, 60), atLeast("most", c.Most, 1, 40), longEnough(c.Within), roomy(c.Width)); err != nil {
		return err
	}
	if c.All == (c.Procedure != "") {
		return &ask.Trouble{Part: "procedure", Text: "name a procedure of the book, such as main_dc_lost_drill, or give --all"}
	}
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	live, err := settingOf(c.Pace, c.Date)
	if err != nil {
		return err
	}
	q, set := c.question(c.Fail), live
	set.Run.Prescribed = true
	team, err := teamOf(desk, q, set)
	if err != nil {
		return err
	}
	ctx, stop := withLimit(o, c.Within)
	defer stop()
	b := newBar(o, "worth")
	defer b.clear()
	if c.All {
		return c.all(ctx, o, team, b)
	}
	study, err := c.study(ctx, team, q)
	if err == nil {
		err = c.price(ctx, desk, q, live, study)
	}
	if err != nil {
		return c.blame(o, ctx, err)
	}
	b.clear()
	if c.JSON {
		return printJSON(o, study.View(team.Build(), team.Course().Flight))
	}
	return worth.WriteText(o.stdout, study, team.Build(), o.width(c.Width))
}

// study assesses the procedure with the failure that was named, or with those
// that are likely to call for it.
func (c *worthCommand) study(ctx context.Context, team *crew.Team, q ask.Question) (*worth.Study, error) {
	p, err := book.Find("procedure", c.Procedure, team.Build().Procedures)
	if err != nil {
		return nil, wrong("procedure", "%v", err)
	}
	s, err := q.Read(team.Build())
	if err != nil {
		return nil, err
	}
	if len(c.Fail) > 0 {
		w, err := worth.Assess(ctx, team, s, p)
		if err != nil {
			return nil, err
		}
		if err := w.AssessPairs(ctx, team, s, c.Pairs); err != nil {
			return nil, err
		}
		return worth.Alone(w), nil
	}
	if c.At != "" || c.When != "" || c.For != 0 || len(c.Act) > 0 || len(c.Out) > 0 {
		return nil, &ask.Trouble{Part: "fail", Text: "say what fails: without --fail, likely failures are found and nothing else can be said of them"}
	}
	finder, err := worth.NewCaller(ctx, team)
	if err != nil {
		return nil, err
	}
	most := worth.DefaultBounds
	most.Pairs = c.Pairs
	return finder.Study(ctx, p, finder.Likely(p), most)
}

// price flies what costs range once more, on flights that feel their systems.
func (c *worthCommand) price(ctx context.Context, desk *ask.Desk, q ask.Question, set crew.Setting, s *worth.Study) error {
	live, err := teamOf(desk, q, set)
	if err != nil {
		return err
	}
	if live.Build().Aircraft == nil || len(live.Build().Aircraft.Settings) == 0 {
		return nil // the book has no drag polars
	}
	return s.Price(ctx, live)
}

func (c *worthCommand) blame(o *out, ctx context.Context, err error) error {
	var not *worth.NotCalled
	var t *ask.Trouble
	switch {
	case errors.As(err, &not):
		return &ask.Trouble{Part: "fail", Text: err.Error() + "; knockon crew shows what they do instead"}
	case errors.As(err, &t) || o.Err() != nil:
		return err
	case ctx.Err() != nil:
		return fmt.Errorf("not finished within %s", c.Within)
	}
	return troubleAt(o, err)
}

// all studies every procedure, with fewer failures each, and prints the traps.
func (c *worthCommand) all(ctx context.Context, o *out, team *crew.Team, b *bar) error {
	finder, err := worth.NewCaller(ctx, team)
	if err != nil {
		return troubleAt(o, err)
	}
	var worths []*worth.Worth
	for i, p := range team.Build().Procedures {
		b.show(int64(i), int64(len(team.Build().Procedures)))
		study, err := finder.Study(ctx, p, finder.Likely(p), worth.Bounds{Flown: 80, Assessed: 2})
		if err != nil {
			return c.blame(o, ctx, err)
		}
		worths = append(worths, study.Worths...)
	}
	traps := worth.OnePerStep(worth.Traps(worths...))
	b.clear()
	traps = traps[:min(len(traps), max(c.Most, 0))]
	if c.JSON {
		return printJSON(o, struct {
			Traps   []worth.TrapView `json:"traps"`
			Caution string           `json:"caution"`
		}{worth.TrapViews(traps), book.Caution})
	}
	return worth.WriteTraps(o.stdout, traps, o.width(c.Width))
}
