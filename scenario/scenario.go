// Package scenario turns what happens on a flight, as people write it (on the
// command line, in an address, in the script of a drill, as JSON), into what run
// flies.
//
// Invariant: what a build reads without trouble is written as it stands, and the
// same text means the same wherever it is written.
//
// Start reading at Typed, then Typed.Read.
package scenario

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/run"
	"knockon/say"
)

// Typed is what happens on a flight, as written. Its JSON is what logs of drills
// begin with.
type Typed struct {
	Title  string   `json:"title,omitempty"`
	Crew   string   `json:"crew,omitempty"`   // conduct: one of Conducts; "" is what the asker takes where nobody says
	Build  string   `json:"build,omitempty"`  // "" for the first
	Flight string   `json:"flight,omitempty"` // "" for the first
	Fail   []Strike `json:"fail,omitempty"`
	Out    []string `json:"out,omitempty"`  // inoperative at dispatch
	Sets   []string `json:"set,omitempty"`  // how the aircraft is set, whatever fails: "control=position" from the start, or "control=position@moment"
	Acts   []string `json:"act,omitempty"`  // what the crew move with the failure: the same
	Plan   []string `json:"plan,omitempty"` // where the flight goes: "divert AIRFIELD@moment", "return@moment", "land@moment"; none: as the book's flight
}

// Conducts are the words for what a crew do: those of a claim, and one more.
var Conducts = append(slices.Clone(book.Conducts), Slowly)

// Words of Conducts.
const (
	ByTheBook = "by_the_book"
	Nobody    = "none"
	Slowly    = "slowly" // by the book, and everything takes twice as long
)

// ByTheBook says that a crew by the book act, as they do where nobody says
// otherwise.
func (t Typed) ByTheBook() bool { return t.Crew != Nobody }

// Slowly says that they take twice as long over everything.
func (t Typed) Slowly() bool { return t.Crew == Slowly }

// Strike is a set of failures that come together.
type Strike struct {
	What       []string `json:"what"`            // units, unit.fault, or events
	At         string   `json:"at,omitempty"`    // when they come: "climb + 120 s"; "" the start
	When       string   `json:"when,omitempty"`  // or: when this expression becomes yes
	ForS       float64  `json:"for_s,omitempty"` // they pass after so many seconds; 0: they last
	Resettable bool     `json:"resettable,omitempty"`
}

// Trouble is what cannot be asked: which part of it, and what to do.
type Trouble struct {
	Part string // the field's word: fail, out, at, when, for, set, act, plan, build, flight
	Text string
}

func (t *Trouble) Error() string { return t.Part + ": " + t.Text }

func trouble(part, format string, a ...any) error {
	return &Trouble{part, fmt.Sprintf(format, a...)}
}

// Once is the scenario with one strike, as an address or a command line has it.
func Once(k Strike) Typed { return Typed{Fail: []Strike{k}} }

// Read reads a scenario against a build. The error is a *Trouble. A strike of
// nothing is read, and does not come.
func (t Typed) Read(b *book.Build) (s run.Scenario, err error) {
	if t.Crew != "" && !slices.Contains(Conducts, t.Crew) {
		return s, trouble("crew", "%s", say.No("conduct", t.Crew, Conducts))
	}
	for _, k := range t.Fail {
		strike, err := k.Read(b)
		if err != nil {
			return s, err
		}
		if len(strike.Fail) > 0 {
			s.Strikes = append(s.Strikes, strike)
		}
	}
	if s.Inoperative, err = Failures("out", t.Out, b); err != nil {
		return s, err
	}
	if s.SetUp, err = moves("set", t.Sets, b); err != nil {
		return s, err
	}
	if s.Actions, err = moves("act", t.Acts, b); err != nil {
		return s, err
	}
	s.Plan, err = t.legs(b, s.Strikes)
	return s, err
}

// mostLasts is the longest that a failure which passes can last, in seconds.
const mostLasts = 1e6

// Read reads one strike.
func (k Strike) Read(b *book.Build) (s run.Strike, err error) {
	if !(k.ForS >= 0 && k.ForS <= mostLasts) {
		return s, trouble("for", "a failure lasts from 0 (for good) to 1,000,000 seconds; %g is outside", k.ForS)
	}
	s = run.Strike{Lasts: book.AtSeconds(k.ForS), Resettable: k.Resettable}
	if s.Fail, err = Failures("fail", k.What, b); err != nil {
		return s, err
	}
	if s.At, err = Moment("at", k.At, b); err != nil || k.When == "" {
		return s, err
	}
	s.When, err = Condition("when", k.When, b)
	return s, err
}

// Failures reads what fails; part is what the writer calls it.
func Failures(part string, texts []string, b *book.Build) (refs []book.FailureRef, err error) {
	for _, t := range texts {
		r, err := book.ParseFailure(t, b)
		if err != nil {
			return nil, trouble(part, "%v", err)
		}
		refs = append(refs, r)
	}
	return refs, nil
}

// Moment reads a moment of a flight.
func Moment(part, text string, b *book.Build) (book.Moment, error) {
	m, err := book.ParseMoment(text, b)
	if err != nil {
		return m, trouble(part, "%v", err)
	}
	return m, nil
}

// Condition reads a yes/no expression.
func Condition(part, text string, b *book.Build) (*book.Expr, error) {
	e, err := book.ParseCondition(text, b)
	if err != nil {
		return nil, trouble(part, "%v", err)
	}
	return e, nil
}

func moves(part string, texts []string, b *book.Build) (list []run.Action, err error) {
	for _, text := range texts {
		a, err := move(part, text, b)
		if err != nil {
			return nil, err
		}
		list = append(list, a)
	}
	return list, nil
}

// move reads "control=position@moment".
func move(part, text string, b *book.Build) (a run.Action, err error) {
	what, at, _ := strings.Cut(text, "@")
	id, position, ok := strings.Cut(what, "=")
	if !ok {
		return a, trouble(part, "%q: write control=position@moment, such as gear_lever=down@approach", text)
	}
	if a.At, err = Moment(part, at, b); err != nil {
		return a, err
	}
	a.Control, a.Position = strings.TrimSpace(id), strings.TrimSpace(position)
	c, err := book.Find("control", a.Control, b.Controls)
	if err != nil {
		return a, trouble(part, "%v", err)
	}
	if !slices.Contains(c.Positions, a.Position) {
		return a, trouble(part, "%s", say.No("position of "+c.ID, a.Position, c.Positions))
	}
	return a, nil
}

// OfGiven is the scenario of a claim as it is typed; ok says that all of it can be
// typed: nothing comes on a condition, and nothing is set or moved.
func OfGiven(g *book.Given) (t Typed, ok bool) {
	t = Typed{Build: g.Variant, Flight: g.Flight, Out: say.Texts(g.Inoperative)}
	ok = len(g.SetUps)+len(g.Acts) == 0
	for _, k := range g.Strikes {
		ok = ok && k.When == nil
		t.Fail = append(t.Fail, Strike{What: say.Texts(k.Fail), At: k.At, ForS: k.ForS, Resettable: k.Resettable})
	}
	return t, ok
}
