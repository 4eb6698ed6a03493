package main

import (
	"math"
	"strconv"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/crew"
	"knockon/scenario"
)

type crewCommand struct {
	What []string `arg:"" help:"What fails: units, unit.fault, or events of the book." name:"what"`
	bookFlag
	worldFlags
	Pace  []string `help:"Change the crew's pace: name=number, such as list_s=5; --json lists all." placeholder:"NAME=NUMBER" sep:"none"`
	Date  string   `help:"The day, which decides what bulletins are in force: 2026-11-25. Default: only those without dates." placeholder:"DAY"`
	JSON  bool     `help:"Print as JSON, with the pace and the source of each of its numbers."`
	Width int      `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *crewCommand) Help() string {
	return `Flies the failure with a crew of two who act on what they are told: which alerts call, which procedures
are done in which order, who does each line when, and why the line is there; then what comes of it with
the crew and without. How the crew work, and where their times are from: docs/crew.md.

  knockon crew gen_left --at "cruise + 60 s"
  knockon crew dc_left dc_right --at "climb + 120 s" --json
  knockon crew engine_left --at approach --pace list_s=5`
}

func (c *crewCommand) Run(o *out) error {
	if err := first(c.check(c.What), roomy(c.Width), c.acts()); err != nil {
		return err
	}
	desk, err := c.over(o, c.bookFlag)
	if err != nil {
		return err
	}
	set, err := settingOf(c.Pace, c.Date)
	if err != nil {
		return err
	}
	q := c.question(c.What)
	team, err := teamOf(desk, q, set)
	if err != nil {
		return err
	}
	s, err := q.Read(team.Build())
	if err != nil {
		return err
	}
	plan, err := team.Fly(o, s)
	if err != nil {
		return troubleAt(o, err)
	}
	v, err := team.View(o, plan)
	if err != nil {
		return troubleAt(o, err)
	}
	if c.JSON {
		return printJSON(o, v)
	}
	return crew.WriteText(o.stdout, v, o.width(c.Width))
}

// acts refuses a crew who do nothing.
func (c *crewCommand) acts() error {
	if c.Crew == scenario.Nobody {
		return wrong("crew", "a crew who do nothing have nothing to show: leave --crew out, or ask knockon fail")
	}
	return nil
}

// teamOf puts a crew on the build and flight of a question.
func teamOf(desk *ask.Desk, q ask.Question, set crew.Setting) (*crew.Team, error) {
	course, err := desk.Course(q.Build, q.Flight)
	if err != nil {
		return nil, err
	}
	set.Run.Router = desk.Courses.Router
	return crew.NewTeam(course.Build, course.Flight, set)
}

// settingOf is the crew's pace as typed, and the day.
func settingOf(texts []string, day string) (set crew.Setting, err error) {
	pace := crew.DefaultPace()
	set = crew.Setting{Pace: &pace, Day: day}
	for _, t := range texts {
		name, number, _ := strings.Cut(t, "=")
		value, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		if err != nil || math.IsNaN(value) || math.IsInf(value, 0) {
			return set, wrong("pace", "%q: write name=number, such as list_s=5", t)
		}
		if pace, err = pace.With(strings.TrimSpace(name), value); err != nil {
			return set, wrong("pace", "%v", err)
		}
	}
	if day != "" && !book.ValidDay(day) {
		return set, wrong("date", "%q is not a day: write it as 2026-11-25", day)
	}
	return set, nil
}

// troubleAt turns what a flight refuses into a question that cannot be asked.
func troubleAt(o *out, err error) error {
	if o.Err() != nil {
		return o.Err()
	}
	return &ask.Trouble{Part: "at", Text: err.Error()}
}
