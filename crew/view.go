package crew

import (
	"context"

	"knockon/book"
	"knockon/known"
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
	Found     string   `json:"found,omitempty"` // the answer in words, and that there is none
	Whom      string   `json:"whom,omitempty"`  // who is told
	GoTo      string   `json:"go_to,omitempty"` // the procedure that it sends to
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
	for _, l := range []*ledger.Ledger{alone, together} {
		if err := known.Judge(ctx, l); err != nil {
			return nil, err
		}
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
	case c.From != nil:
		text = s.sent(c)
	case c.Procedure == nil:
		text = "calls for no procedure"
	case c.Dropped:
		text = "gone again before its procedure was begun"
	case c.Joined && c.Begun != book.Never:
		text = "its procedure is in hand already"
	case c.Begun == book.Never && c.Done != book.Never:
		text = "no line of its procedure belongs to this part of the flight"
	case c.Begun == book.Never:
		text = "its procedure is not begun"
	}
	if c.Past != nil && c.Begun != book.Never {
		text += " and not finished"
	}
	if c.Past != nil {
		text += ", since " + say.Quoted(c.Past.Title) + " is the last list"
	}
	if c.Under != nil {
		text += "; follows from " + c.Under.Message
	}
	return text
}

// sent says what became of a procedure that a line of another sends to.
func (s speaker) sent(c Call) string {
	text := say.Quoted(c.From.Title) + " sends to " + say.Quoted(c.Procedure.Title)
	switch {
	case c.Joined:
		return text + ", which is in hand or done already"
	case c.Begun == book.Never:
		return text + ", which is not begun"
	}
	return text + ", which is begun " + s.clock(c.Begun)
}

// Found is what came of a check or a decision in words; "" for lines that ask
// nothing.
func Found(s *book.Step, a Answer) string {
	check := map[Answer]string{Yes: "as it should be", No: "not as it should be", Unseen: "cannot be seen", None: "not checked in this model"}
	switch {
	case s.Kind == "check":
		return check[a]
	case s.Kind == "tell" && a == No:
		return "not heard"
	case s.Kind == "decide" && a == None:
		return "taken as yes: not worked out in this model"
	case s.Kind == "decide":
		return string(a)
	}
	return ""
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
		v.Says, v.Found = "Tells air traffic control on the radio", Found(&book.Step{Kind: "tell"}, l.Answer)
	case StayLine:
		v.Says = "Stops, and does not take off: a list is called for before the take-off"
	case BriefLine:
		v.Says = "Brief what was left for this phase"
	default:
		v.Whom, v.GoTo = l.Step.Whom, l.Step.GoTo
		switch {
		case l.Dead:
			v.Found = "not done: inoperative since before the flight"
		case !l.Omitted:
			v.Found = Found(l.Step, l.Answer)
		}
		v.Step, v.Memory, v.Says, v.Because, v.Where = l.Step.Kind, l.Step.FromMemory, s.team.words(l.Step), l.Step.Because, l.Step.Range.String()
	}
	if l.Control != "" {
		v.Moves = l.Control + "=" + l.Position
	}
	return v
}
