package crew

import (
	"context"

	"knockon/book"
	"knockon/ledger"
	"knockon/say"
)

// View is a plan in words. Text, JSON and pages are all made from it.
type View struct {
	Heading string `json:"heading"` // what fails, when, with what inoperative
	Setting string `json:"setting"` // on which aircraft, build and flight

	Unanswered string `json:"unanswered,omitempty"` // why the flight with the crew has no full answer

	Alerts   []Told   `json:"alerts"`
	Lines    []Spoken `json:"lines"`
	Findings []Note   `json:"findings"`
	Without  string   `json:"without"` // what comes of it if the crew do nothing about it
	With     string   `json:"with"`    // and with what they do
	Pace     []Figure `json:"pace"`
	Caution  string   `json:"caution"`
}

// Moment is a moment of the flight in words.
type Moment struct {
	TimeS  float64 `json:"time_s"`  // from the start of the flight
	AfterS float64 `json:"after_s"` // from the first failure
	Clock  string  `json:"clock"`   // minutes and seconds from the first failure
	Phase  string  `json:"phase"`   // title
}

// Told is an alert that the crew met.
type Told struct {
	ID        string  `json:"id"`
	Level     string  `json:"level"`
	Message   string  `json:"message"`
	Procedure string  `json:"procedure,omitempty"`
	Title     string  `json:"procedure_title,omitempty"`
	Given     Moment  `json:"given"`
	Begun     *Moment `json:"begun,omitempty"`
	Done      *Moment `json:"done,omitempty"`
	Under     string  `json:"under,omitempty"` // message of the alert that it follows from
	Text      string  `json:"text"`
}

// Spoken is one line of a plan.
type Spoken struct {
	Kind      LineKind `json:"kind"`
	Procedure string   `json:"procedure"`
	Title     string   `json:"procedure_title"`
	Number    string   `json:"number,omitempty"`
	Step      string   `json:"step,omitempty"` // do, check, …
	By        string   `json:"by"`
	Memory    bool     `json:"from_memory"`
	From      Moment   `json:"from"`
	To        Moment   `json:"to"`
	Says      string   `json:"says"`
	Moves     string   `json:"moves,omitempty"` // control=position
	Answer    Answer   `json:"answer,omitempty"`
	Because   string   `json:"because,omitempty"`
	Where     string   `json:"where,omitempty"`
	Deferred  bool     `json:"deferred,omitempty"`
}

// Note is a finding in words.
type Note struct {
	Kind      FindingKind `json:"kind"`
	At        Moment      `json:"at"`
	Text      string      `json:"text"`
	Procedure string      `json:"procedure,omitempty"`
	Number    string      `json:"number,omitempty"` // of the step
	Answer    Answer      `json:"answer,omitempty"` // of what cannot be seen, or misled
	Gauges    []Read      `json:"gauges,omitempty"` // that are dark, or show wrong
}

// Read is an indication as the crew met it, in words.
type Read struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Shows string `json:"shows,omitempty"` // not there where it is dark
	Means string `json:"means,omitempty"`
}

// View puts a plan into words. It flies the scenario once more, without the crew.
func (t *Team) View(ctx context.Context, p *Plan) (*View, error) {
	alone, err := ledger.Answer(ctx, t.course, p.Asked)
	if err != nil {
		return nil, err
	}
	together, err := t.Ledger(ctx, p)
	if err != nil {
		return nil, err
	}
	s := speaker{t, p, alone.Strike}
	without, with := alone.View(), together.View()
	v := &View{
		Heading: without.Heading, Setting: with.Setting, Without: without.Summary, With: with.Summary, Unanswered: with.Unanswered,
		Alerts: []Told{}, Lines: []Spoken{}, Findings: []Note{}, Pace: t.pace.Figures(), Caution: book.Caution,
	}
	for _, c := range p.Calls {
		v.Alerts = append(v.Alerts, s.told(c))
	}
	for _, l := range p.Lines {
		v.Lines = append(v.Lines, s.line(l))
	}
	for _, f := range p.Findings {
		v.Findings = append(v.Findings, s.note(f))
	}
	return v, nil
}

// speaker puts parts of a plan into words.
type speaker struct {
	team   *Team
	plan   *Plan
	strike book.Time
}

func (s speaker) moment(t book.Time) Moment {
	return Moment{TimeS: t.Seconds(), AfterS: (t - s.strike).Seconds(), Clock: say.After(t - s.strike), Phase: s.team.Build().Title(s.plan.Record.PhaseAt(t))}
}

func (s speaker) told(c Call) Told {
	v := Told{ID: c.Alert.ID, Level: c.Alert.Level, Message: c.Alert.Message, Given: s.moment(c.Given)}
	if c.Procedure != nil {
		v.Procedure, v.Title = c.Procedure.ID, c.Procedure.Title
	}
	if c.Under != nil {
		v.Under = c.Under.Message
	}
	if c.Begun != book.Never {
		m := s.moment(c.Begun)
		v.Begun = &m
	}
	if c.Done != book.Never {
		m := s.moment(c.Done)
		v.Done = &m
	}
	v.Text = s.outcome(c)
	return v
}

// outcome says what the crew did about an alert.
func (s speaker) outcome(c Call) string {
	text := "its procedure is begun " + s.clock(c.Begun)
	switch {
	case c.Procedure == nil:
		text = "calls for no procedure"
	case c.Dropped:
		text = "gone again before its procedure was begun"
	case c.Joined && c.Begun != book.Never:
		text = "its procedure is in hand already"
	case c.Begun == book.Never:
		text = "its procedure is not begun"
	}
	if c.Under != nil {
		text += "; follows from " + c.Under.Message
	}
	return text
}

func (s speaker) clock(t book.Time) string {
	if t == book.Never {
		return "never"
	}
	return "at " + s.moment(t).Clock
}

func (s speaker) line(l Line) Spoken {
	v := Spoken{Kind: l.Kind, Procedure: l.Procedure.ID, Title: l.Procedure.Title, Number: l.Number, By: l.By,
		From: s.moment(l.From), To: s.moment(l.To), Answer: l.Answer, Deferred: l.Deferred}
	switch l.Kind {
	case ListLine:
		v.Says = "Finds the list"
	case RadioLine:
		v.Says = "Tells it on the radio"
	case BriefLine:
		v.Says = "Brief what was left for this phase"
	default:
		v.Step, v.Memory, v.Says, v.Because, v.Where = l.Step.Kind, l.Step.FromMemory, s.team.words(l.Step), l.Step.Because, l.Step.Range.String()
	}
	if l.Control != "" {
		v.Moves = l.Control + "=" + l.Position
	}
	return v
}
