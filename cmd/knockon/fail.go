package main

import (
	"io"
	"runtime"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/ledger"
	"knockon/point/vary"
	"knockon/say"
	"knockon/scenario"
)

// scenarioFlags are the parts of a question beside what fails.
type scenarioFlags struct {
	At         string   `help:"When it fails: a phase, a phase and an offset, or a time: \"climb\", \"climb + 120 s\", \"35 min\". Default: the start." placeholder:"MOMENT"`
	When       string   `help:"Or: it fails when this becomes yes, such as \"real.height_ft > 500\"." placeholder:"EXPR"`
	Out        []string `help:"Inoperative at dispatch: units or unit.fault." placeholder:"UNIT"`
	For        float64  `help:"The failure passes after so many seconds." placeholder:"SECONDS"`
	Resettable bool     `help:"The unit's own reset clears the failure."`
	Set        []string `help:"A control is set so, whether anything fails or not: control=position, from the start, or control=position@moment." placeholder:"SETTING" sep:"none"`
	Act        []string `help:"The crew move a control in the flight with the failure: control=position@moment." placeholder:"ACT" sep:"none"`
	Build      string   `help:"Build standard. Default: the book's first." placeholder:"ID"`
	Flight     string   `help:"Flight. Default: the book's first." placeholder:"ID"`
	Mass       string   `help:"What if it weighs so many kilograms at brake release?" placeholder:"KG"`
	Fuel       string   `help:"What if it has so many kilograms of fuel then? Without --mass it weighs so much less or more." placeholder:"KG"`
	Wind       string   `help:"What if the wind aloft is so many knots from ahead? Negative: from behind. That on the runways stays." placeholder:"KT"`
	Surface    string   `name:"surface-wind" help:"What if the wind on the runways of departure and destination is so many knots from ahead? Negative: from behind." placeholder:"KT"`
	Icing      string   `help:"What if there is icing from one height to another, in feet, such as 5000-9000, or none?" placeholder:"FT-FT"`
	Runway     string   `help:"What if the runways of departure and destination are dry, wet, or of a condition code, 1 to 6?" placeholder:"STATE"`
	Cruise     string   `help:"What if it cruises at so many feet?" placeholder:"FT"`
}

// flight is the flight with what is supposed of it behind its id.
func (f scenarioFlags) flight() string {
	text := f.Flight
	for i, value := range []string{f.Mass, f.Fuel, f.Wind, f.Surface, f.Icing, f.Runway, f.Cruise} {
		if value != "" {
			text += "," + book.Supposed[i] + "=" + value
		}
	}
	return text
}

func (f scenarioFlags) question(fail []string) ask.Question {
	k := scenario.Strike{What: fail, At: f.At, When: f.When, ForS: f.For, Resettable: f.Resettable}
	return ask.Question{Fail: []scenario.Strike{k}, Out: f.Out, Sets: f.Set, Acts: f.Act, Build: f.Build, Flight: f.flight()}
}

// worldFlags are a scenario with who acts on it, where the flight goes, and the
// ground that it goes over.
type worldFlags struct {
	scenarioFlags
	Crew string   `help:"Who acts on it: by_the_book, a crew of two who do what the alerts call for; slowly, the same and everything takes them twice as long; or none. Default: by_the_book." placeholder:"CONDUCT"`
	Plan []string `help:"Where the flight goes: \"divert AIRFIELD@moment\", \"return@moment\", \"land@moment\". Without a moment: when it fails. Default: as the book's flight." placeholder:"LEG" sep:"none"`
	regionFlags
}

func (f worldFlags) question(fail []string) ask.Question {
	q := f.scenarioFlags.question(fail)
	q.Crew, q.Plan = f.Crew, f.Plan
	return q
}

// answer answers the question of the flags, unless something of them is wrong.
func (f worldFlags) answer(o *out, from bookFlag, fail []string, wrong ...error) (*ask.Answer, error) {
	if err := first(f.check(fail), first(wrong...)); err != nil {
		return nil, err
	}
	desk, err := f.over(o, from)
	if err != nil {
		return nil, err
	}
	return desk.Answer(o, f.question(fail))
}

type failCommand struct {
	What []string `arg:"" help:"What fails: units, unit.fault, or events of the book." name:"what"`
	bookFlag
	worldFlags
	JSON   bool     `help:"Print the ledger as JSON." xor:"more,rows"`
	All    bool     `help:"Print every row: all that is lost, wrong, dark, given and held back." xor:"rows,listed"`
	Only   []string `help:"Print only rows of a phase, chapter, severity (of an alert its level) or group, or that have words: \"phase=approach\", \"chapter=24\", \"severity=major\", \"group=hidden\", \"has=brake\". Of one kind any will do; all kinds must fit." placeholder:"PART=VALUE" sep:"none" xor:"listed"`
	Points string   `help:"What is worth teaching: own, from this answer alone, or all: what the crew, one failure less, nothing inoperative, another build and another phase make of it as well, and what saves the gravest of what nobody knows." enum:"own,all" default:"own"`
	Mail   bool     `help:"Print it as a mail of five lines: what happens, what is told, what is not, what to do and by when, what it depends on." xor:"more,rows,listed"`
	Costs  bool     `help:"Add what it costs: fuel and runway at every airfield." xor:"more"`
	Width  int      `help:"Width of the text in characters. Default: the terminal's, else 100."`
}

func (c *failCommand) Help() string {
	return `Compares the flight with the failure to the same flight without it, and sorts what differs:
what is lost and whether the crew is told, told late, only shown, told wrong or not told; which
indications show wrong or go dark; which alerts are false or held back; and what still works.

  knockon fail tr_right --out tr_left --at "climb + 120 s"
  knockon fail radio_alt_1.reads_low radio_alt_2.reads_low --at approach --json
  knockon fail tr_right --out tr_left --at "climb + 120 s" --only phase=approach --only has=brake`
}

func (c *failCommand) Run(o *out) error {
	a, err := c.answer(o, c.bookFlag, c.What, roomy(c.Width), c.plainly())
	if err != nil {
		return err
	}
	only, err := c.only(a)
	if err != nil {
		return err
	}
	v, err := c.view(o, a)
	if err != nil {
		return err
	}
	if err := c.write(o, a, v.Only(only)); err != nil || !c.Costs {
		return err
	}
	return c.costs(o, a)
}

// view is the answer in words, with as much beside it as was asked for.
func (c *failCommand) view(o *out, a *ask.Answer) (*ledger.View, error) {
	x, err := a.Desk.Otherwise(o, a)
	if err != nil {
		return nil, err
	}
	v := a.View()
	v.Otherwise = strings.Join(x.Says, " ") + " (--crew " + x.Crew + ")"
	if c.Points == "all" || c.Mail {
		v.Worth.Others = elsewise(o, a)
	}
	return v, nil
}

// write prints it in the form that was asked for.
func (c *failCommand) write(o *out, a *ask.Answer, v *ledger.View) error {
	switch {
	case c.JSON:
		return printJSON(o, v)
	case c.Mail:
		return c.mail(o, a, v)
	case v.Shown != nil:
		return v.WriteOnly(o.stdout, o.width(c.Width))
	case c.All:
		return v.Write(o.stdout, o.width(c.Width))
	}
	rest := v.Rest()
	if saved := vary.Savable(a); saved != "" && c.Points == "own" {
		rest += ". What saves " + saved + " was not looked for: --points all"
	}
	return v.WriteLead(o.stdout, o.width(c.Width), rest)
}

// plainly refuses points beside rows that have no place for them.
func (c *failCommand) plainly() error {
	if len(c.Only) > 0 && c.Points == "all" && !c.JSON {
		return wrong("only", "it prints rows and no points: leave out --points, or add --json")
	}
	return nil
}

// only reads which rows are wanted.
func (c *failCommand) only(a *ask.Answer) (only ledger.Only, err error) {
	for _, text := range c.Only {
		part, value, ok := strings.Cut(text, "=")
		if !ok {
			return nil, wrong("only", "%q has no value: write it as part=value, such as phase=approach", text)
		}
		only = append(only, ledger.Wish{Part: strings.TrimSpace(part), Value: strings.TrimSpace(value)})
	}
	if err := only.Check(a.Course.Build); err != nil {
		return nil, wrong("only", "%s", err)
	}
	return only, nil
}

// mail prints five lines, and below them what every copy carries: the aircraft with the
// source of its book, build and flight, the question that gives it again, and the caution.
func (c *failCommand) mail(o *out, a *ask.Answer, v *ledger.View) error {
	command := "knockon fail"
	for _, w := range c.What {
		command += " " + scenario.Quoted(w)
	}
	lines := v.Mail()
	text := strings.Join(lines[:], "\n") + "\n\n" + v.Setting + say.Ahead(" ", a.Course.Build.Aircraft.Source) + "\n" + command + a.Question.Options() + "\n" + v.Caution + "\n"
	_, err := io.WriteString(o.stdout, text)
	return err
}

// elsewise is what other runs make of an answer, and what saves the gravest of it.
func elsewise(o *out, a *ask.Answer) []ledger.Varied {
	list := vary.Of(o, a, runtime.GOMAXPROCS(0))
	if saves, ok := vary.Saves(o, a, runtime.GOMAXPROCS(0)); ok {
		list = append(list, saves)
	}
	return list
}
