package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/crew"
)

type crewCommand struct {
	What []string `arg:"" help:"What fails: units, unit.fault, or events of the book." name:"what"`
	bookFlag
	scenarioFlags
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
	if err := first(c.check("fail", c.What), roomy(c.Width)); err != nil {
		return err
	}
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	pace, err := paceOf(c.Pace)
	if err != nil {
		return err
	}
	q := c.question(c.What)
	if c.Date != "" && !book.ValidDay(c.Date) {
		return &ask.Trouble{Part: "date", Text: fmt.Sprintf("%q is not a day: write it as 2026-11-25", c.Date)}
	}
	team, err := teamOf(desk, q, crew.Setting{Pace: &pace, Day: c.Date})
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

// teamOf puts a crew on the build and flight of a question.
func teamOf(desk *ask.Desk, q ask.Question, set crew.Setting) (*crew.Team, error) {
	course, err := desk.Course(q.Build, q.Flight)
	if err != nil {
		return nil, err
	}
	return crew.NewTeam(course.Build, course.Flight, set)
}

// paceOf changes the crew's pace as typed.
func paceOf(texts []string) (crew.Pace, error) {
	pace := crew.DefaultPace()
	for _, t := range texts {
		name, number, _ := strings.Cut(t, "=")
		value, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		if err != nil || math.IsNaN(value) || math.IsInf(value, 0) {
			return pace, &ask.Trouble{Part: "pace", Text: fmt.Sprintf("%q: write name=number, such as list_s=5", t)}
		}
		if pace, err = pace.With(strings.TrimSpace(name), value); err != nil {
			return pace, &ask.Trouble{Part: "pace", Text: err.Error()}
		}
	}
	return pace, nil
}

// troubleAt turns what a flight refuses into a question that cannot be asked.
func troubleAt(o *out, err error) error {
	if o.Err() != nil {
		return o.Err()
	}
	return &ask.Trouble{Part: "at", Text: err.Error()}
}
