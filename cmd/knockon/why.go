package main

import (
	"fmt"
	"io"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/circuit"
	"knockon/say"
)

type whyCommand struct {
	Item string   `arg:"" help:"What to explain: a function, alert, indication, unit or signal; \"item wrong\", \"item lit\", \"item held_back\" for another of its values."`
	Fail []string `help:"What fails: units, unit.fault, or events." placeholder:"WHAT"`
	bookFlag
	scenarioFlags
	Moment string `help:"The moment to explain. Default: when the value first differs from the flight without the failure." placeholder:"MOMENT"`
	JSON   bool   `help:"Print the chain as JSON."`
}

func (c *whyCommand) Help() string {
	return `  knockon why bay_cooling --fail tr_right --out tr_left --at "climb + 120 s"
  knockon why "gear_lamp wrong" --fail gear_sense_a.reads_down --at final --json`
}

func (c *whyCommand) Run(o *out) error {
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	a, err := desk.Answer(o, c.question(c.Fail))
	if err != nil {
		return err
	}
	v, err := valueNamed(a, c.Item)
	if err != nil {
		return err
	}
	at, err := c.moment(o, a, v)
	if err != nil {
		return err
	}
	step, _ := a.Explain(v, at)
	if c.JSON {
		return printJSON(o, chainOf(step))
	}
	return writeChain(o.stdout, a, step)
}

// valueNamed finds "item" or "item aspect".
func valueNamed(a *ask.Answer, text string) (circuit.Value, error) {
	id, aspect, _ := strings.Cut(strings.TrimSpace(text), " ")
	v := circuit.Value{Item: id, Aspect: circuit.Aspect(strings.ReplaceAll(strings.TrimSpace(aspect), "_", " "))}
	if _, ok := a.Here.Circuit().Node(v); ok {
		return v, nil
	}
	var ids []string
	for _, n := range a.Here.Circuit().Values() {
		if n.Value.Item == id {
			ids = append(ids, fmt.Sprintf("%q", n.Value.String()))
		}
	}
	if len(ids) > 0 {
		return v, &ask.Trouble{Part: "item", Text: fmt.Sprintf("%s has no value %q; it has %s", id, aspect, strings.Join(ids, ", "))}
	}
	return v, &ask.Trouble{Part: "item", Text: nearItem(a, id)}
}

func nearItem(a *ask.Answer, id string) string {
	var ids []string
	for _, n := range a.Here.Circuit().Values() {
		ids = append(ids, n.Value.Item)
	}
	return say.No("item", id, ids)
}

// moment is what was asked for, or the first at which the value differs.
func (c *whyCommand) moment(o *out, a *ask.Answer, v circuit.Value) (book.Time, error) {
	if c.Moment != "" {
		m, err := book.ParseMoment(c.Moment, a.Course.Build)
		if err == nil {
			var t book.Time
			if t, err = a.Course.Resolve(o, m); err == nil {
				return t, nil
			}
		}
		return 0, &ask.Trouble{Part: "moment", Text: err.Error()}
	}
	n, _ := a.Here.Circuit().Node(v)
	for _, t := range a.Here.Instants() {
		if a.Here.At(n, t) != a.There.At(n, t) {
			return t, nil
		}
	}
	t, _ := a.Here.FirstStrike()
	fmt.Fprintf(o.stderr, "%s never differs from the flight without the failure; explained as it is when the failure comes\n", v)
	return t, nil
}

func writeChain(w io.Writer, a *ask.Answer, s *circuit.Step) error {
	at := s.At
	fmt.Fprintf(w, "%s %s, at %s (%s).\n\n", s.Label, s.Says, say.Clock(at), phaseTitle(a, at))
	seen := map[*circuit.Step]bool{}
	writeSteps(w, s.Because, 1, seen)
	_, err := fmt.Fprintf(w, "\n%s\n", book.Caution)
	return err
}

func writeSteps(w io.Writer, steps []*circuit.Step, depth int, seen map[*circuit.Step]bool) {
	for _, s := range steps {
		fmt.Fprintf(w, "%sbecause %s %s", strings.Repeat("  ", depth), s.Label, s.Says)
		if s.Since > 0 {
			fmt.Fprintf(w, " since %s", say.Clock(s.Since))
		}
		fmt.Fprint(w, kindNote(s.Kind))
		if s.Where.Line > 0 {
			fmt.Fprintf(w, "   [%s:%d]", s.Where.File, s.Where.Line)
		}
		if seen[s] && len(s.Because) > 0 {
			fmt.Fprintln(w, " (as above)")
			continue
		}
		fmt.Fprintln(w)
		seen[s] = true
		writeSteps(w, s.Because, depth+1, seen)
	}
}

func kindNote(k circuit.Kind) string {
	switch k {
	case circuit.Fails:
		return " (the failure)"
	case circuit.Condition:
		return " (as in the flight without the failure)"
	case circuit.FromStart:
		return " (as it was at the start)"
	case circuit.Acted:
		return " (a control)"
	}
	return ""
}

func phaseTitle(a *ask.Answer, t book.Time) string {
	id := a.Here.PhaseAt(t)
	if item, ok := a.Course.Build.Item(id); ok {
		return item.Named().Title
	}
	return id
}

// chain is a step as JSON. A step that stands twice is written out once and
// then referred to by its number.
type chain struct {
	Number  int      `json:"step"`
	Value   string   `json:"value"`
	Label   string   `json:"label"`
	Says    string   `json:"says"`
	Kind    string   `json:"kind"`
	AtS     float64  `json:"at_s"`
	SinceS  float64  `json:"since_s"`
	Where   string   `json:"where,omitempty"`
	Because []*chain `json:"because,omitempty"`
	Again   bool     `json:"again,omitempty"`
}

func chainOf(s *circuit.Step) *chain {
	numbers := map[*circuit.Step]int{}
	var write func(s *circuit.Step) *chain
	write = func(s *circuit.Step) *chain {
		n, again := numbers[s]
		if !again {
			n = len(numbers) + 1
			numbers[s] = n
		}
		c := &chain{Number: n, Value: s.Value.String(), Label: s.Label, Says: s.Says, Kind: string(s.Kind),
			AtS: s.At.Seconds(), SinceS: s.Since.Seconds(), Again: again}
		if s.Where.Line > 0 {
			c.Where = s.Where.String()
		}
		if !again {
			for _, b := range s.Because {
				c.Because = append(c.Because, write(b))
			}
		}
		return c
	}
	return write(s)
}
