package main

import (
	"fmt"
	"io"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/circuit"
	"knockon/say"
	"knockon/why"
)

type whyCommand struct {
	Item string   `arg:"" help:"What to explain: a function, alert, indication, unit or signal; \"item wrong\", \"item lit\", \"item held_back\" for another of its values."`
	Fail []string `help:"What fails: units, unit.fault, or events." placeholder:"WHAT"`
	bookFlag
	worldFlags
	Moment string `help:"The moment to explain. Default: when the value first differs from the flight without the failure." placeholder:"MOMENT"`
	JSON   bool   `help:"Print the chain as JSON."`
}

func (c *whyCommand) Help() string {
	return `  knockon why bay_cooling --fail tr_right --out tr_left --at "climb + 120 s"
  knockon why gear_not_down --fail gear_valve,shutoff_left --at "cruise + 30 s" --crew none --json`
}

func (c *whyCommand) Run(o *out) error {
	a, err := c.answer(o, c.bookFlag, c.Fail)
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
		return printJSON(o, struct {
			*chain
			Caution string `json:"caution"`
		}{chainOf(step), book.Caution})
	}
	return o.lay(func(w io.Writer) error { return writeChain(w, a, step) })
}

// valueNamed finds "item" or "item aspect".
func valueNamed(a *ask.Answer, text string) (circuit.Value, error) {
	text = strings.TrimSpace(text)
	if v := (circuit.Value{Item: text}); hasValue(a, v) {
		return v, nil // an effect: "effect flaps"
	}
	id, aspect, _ := strings.Cut(text, " ")
	v := circuit.Value{Item: id, Aspect: circuit.Aspect(strings.ReplaceAll(strings.TrimSpace(aspect), "_", " "))}
	if hasValue(a, v) {
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

func hasValue(a *ask.Answer, v circuit.Value) bool {
	_, ok := a.Here.Circuit().Node(v)
	return ok
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
	if t, ok := a.FirstDifference(n); ok {
		return t, nil
	}
	t, _ := a.Here.FirstStrike()
	fmt.Fprintf(o.stderr, "%s never differs from the flight without the failure; explained as it is when the failure comes\n", v)
	return t, nil
}

func writeChain(w io.Writer, a *ask.Answer, s *why.Step) error {
	fmt.Fprintf(w, "%s %s%s, at %s (%s).\n", s.Label, s.Says, fleeting(s), say.Clock(s.At), a.Course.Build.Title(a.Here.PhaseAt(s.At)))
	if n, ok := a.Here.Circuit().Node(s.Value); ok && s.Kind == why.Derived && !s.Fleeting && a.Here.At(n, s.At) == a.There.At(n, min(s.At, a.There.End)) {
		fmt.Fprintln(w, alsoSo(a, n, s))
	}
	if item, ok := a.Course.Build.Item(s.Value.Item); ok && item.Named().Source != "" {
		fmt.Fprintf(w, "Source: %s.\n", item.Named().Source)
	}
	for _, l := range a.Course.Build.NotModelled(s.Value.Item) {
		fmt.Fprintf(w, "Not worked out: %s\n", say.Sentence(l.String()))
	}
	c := chainWriter{w, s, map[*why.Step]bool{}}
	if note := s.Note(s, say.Clock); note != "" && len(s.Because) == 0 && !s.Fleeting {
		fmt.Fprintf(w, "  %s%s\n", note, kindNote(s.Kind))
	}
	fmt.Fprintln(w)
	c.steps(s, 1)
	_, err := fmt.Fprintf(w, "\n%s\n", book.Caution)
	return err
}

// alsoSo says of a value that is the same in the run that it is held against, which
// goes along the same path, whether it is so in the flight with nothing failed.
func alsoSo(a *ask.Answer, n circuit.Node, s *why.Step) string {
	same, known := a.Usually(n, s.At)
	switch {
	case !s.Elsewhere:
		return "It is so in the flight without the failure too."
	case known && same:
		return "It is so in the flight without the failure too, though that is elsewhere by then."
	}
	text := "Along this path it is so without the failure too. But the path is the failure's: with nothing failed the flight is elsewhere by then"
	if known {
		text += ", and it is not so"
	}
	if v, at, ok := a.Turned(s.At); ok {
		text += fmt.Sprintf(". What the flight feels, from %s on: knockon why %q", say.Clock(at), v)
	}
	return text + "."
}

func fleeting(s *why.Step) string {
	if s.Fleeting {
		return " for no time"
	}
	return ""
}

// chainWriter prints a chain; a step that stands twice is written out once.
type chainWriter struct {
	io.Writer
	root *why.Step
	seen map[*why.Step]bool
}

func (c chainWriter) steps(of *why.Step, depth int) {
	for _, s := range of.Because {
		c.line("because", s, depth)
		if c.seen[s] && len(s.Because) > 0 {
			fmt.Fprintln(c, " (as above)")
			continue
		}
		fmt.Fprintln(c)
		c.seen[s] = true
		c.steps(s, depth+1)
	}
	for _, s := range of.While {
		c.line("while", s, depth)
		fmt.Fprintln(c)
	}
}

func (c chainWriter) line(word string, s *why.Step, depth int) {
	fmt.Fprintf(c, "%s%s %s %s", strings.Repeat("  ", depth), word, s.Label, s.Says)
	if note := s.Note(c.root, say.Clock); note != "" && s.Kind == why.Condition {
		fmt.Fprintf(c, " (%s)", note)
	} else if note != "" {
		fmt.Fprintf(c, " %s", note)
	}
	fmt.Fprint(c, kindNote(s.Kind))
	if s.Where.Line > 0 {
		fmt.Fprintf(c, "   [%s:%d]", s.Where.File, s.Where.Line)
	}
}

func kindNote(k why.Kind) string {
	switch k {
	case why.Fails:
		return " (the failure)"
	case why.Acted:
		return " (a control that was moved)"
	}
	return ""
}

// chain is a step as JSON. A step that stands twice is written out once and
// then referred to by its number.
type chain struct {
	Number   int      `json:"step"`
	Value    string   `json:"value"`
	Label    string   `json:"label"`
	Says     string   `json:"says"`
	Kind     string   `json:"kind"`
	AtS      float64  `json:"at_s"`
	SinceS   float64  `json:"since_s"`
	Where    string   `json:"where,omitempty"`
	Fleeting bool     `json:"fleeting,omitempty"`    // it has the value for no time
	StayedS  *float64 `json:"stayed_at_s,omitempty"` // it stayed so when, at that moment, it changed without the failure
	Because  []*chain `json:"because,omitempty"`
	While    []*chain `json:"while,omitempty"` // the same in the flight without the failure
	Again    bool     `json:"again,omitempty"`
}

func chainOf(s *why.Step) *chain {
	numbers := map[*why.Step]int{}
	var write func(s *why.Step) *chain
	write = func(s *why.Step) *chain {
		n, again := numbers[s]
		if !again {
			n = len(numbers) + 1
			numbers[s] = n
		}
		c := &chain{Number: n, Value: s.Value.String(), Label: s.Label, Says: s.Says, Kind: string(s.Kind),
			AtS: s.At.Seconds(), SinceS: s.Since.Seconds(), Fleeting: s.Fleeting, Again: again}
		if s.Stayed {
			at := s.Other.Seconds()
			c.StayedS = &at
		}
		if s.Where.Line > 0 {
			c.Where = s.Where.String()
		}
		if !again {
			for _, b := range s.Because {
				c.Because = append(c.Because, write(b))
			}
			for _, b := range s.While {
				c.While = append(c.While, write(b))
			}
		}
		return c
	}
	return write(s)
}
