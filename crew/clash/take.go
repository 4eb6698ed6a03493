package clash

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
	"knockon/say"
)

// survey gathers what flights show.
type survey struct {
	team    *crew.Team
	report  *Report
	named   map[string]bool // procedures that an alert names
	begun   map[*book.Procedure]bool
	pairs   map[[2]*book.Step]*Conflict
	endless map[*book.Alert]*Conflict
	tries   map[*book.Unit]*Conflict
	called  map[*book.Alert]*stay
	asked   map[*book.Step]*answers
	moved   map[*book.Step]*followed
	order   crew.Order
	tell    func(done, all int64)   // how far it is
	looksOn bool                    // past what every survey flies
	unruly  map[[2]string]*Conflict // by the two that were chosen
}

// stay counts in how many flights an alert had its procedure done, and in how
// many of these it stayed.
type stay struct{ done, stayed int }

// answers counts those of a decision.
type answers struct{ yes, no, unseen int }

// followed is the first flight in which a step moved a control, and whether
// something followed at that moment in any flight.
type followed struct {
	first    run.Scenario
	line     crew.Line
	anything bool
	flights  int
}

func newSurvey(t *crew.Team) *survey {
	s := &survey{team: t, report: &Report{Build: t.Build(), Flight: t.Course().Flight}, named: map[string]bool{}, begun: map[*book.Procedure]bool{},
		pairs: map[[2]*book.Step]*Conflict{}, endless: map[*book.Alert]*Conflict{}, tries: map[*book.Unit]*Conflict{},
		called: map[*book.Alert]*stay{}, asked: map[*book.Step]*answers{}, moved: map[*book.Step]*followed{}, unruly: map[[2]string]*Conflict{}, tell: func(int64, int64) {}}
	for _, a := range t.Build().Alerts {
		s.named[a.Procedure] = true
	}
	return s
}

// take notes what a flight shows.
func (s *survey) take(p *crew.Plan) {
	s.steps(p)
	s.against(p)
	s.findings(p)
	s.stays(p)
	s.ordered(p)
}

// ordered notes where flights begin the same procedures in different orders, or
// against the rules of the book.
func (s *survey) ordered(p *crew.Plan) {
	fail := names(&p.Asked)
	name := strings.Join(append(moves(&p.Asked), fail...), " + ")
	at, _ := p.Record.FirstStrike()
	for _, q := range s.order.Note(fmt.Sprintf("%s at %s", name, say.Clock(at)), p, s.team.Build()) {
		c := s.unruly[q.Chosen]
		if c == nil {
			c = &Conflict{Kind: Unsettled, Procedure: procedure(s.team.Build(), q.Chosen[0]), Says: say.Capital(q.Text) + ".", Fail: fail, AtS: at.Seconds()}
			s.unruly[q.Chosen] = c
			s.report.Conflicts = append(s.report.Conflicts, c)
		}
		c.Seen++
	}
}

func (s *survey) steps(p *crew.Plan) {
	for _, l := range p.Lines {
		if l.Kind != crew.StepLine {
			continue
		}
		s.begun[l.Procedure] = true
		if l.Step.Kind == "decide" && l.Answer != crew.None {
			s.answer(l)
		}
		if l.Control != "" && shifts(p, l) {
			s.move(p, l)
		}
	}
}

func (s *survey) answer(l crew.Line) {
	a := s.asked[l.Step]
	if a == nil {
		a = &answers{}
		s.asked[l.Step] = a
	}
	switch l.Answer {
	case crew.Yes:
		a.yes++
	case crew.No:
		a.no++
	default:
		a.unseen++
	}
}

// shifts says that a line moves a control that was not there yet.
func shifts(p *crew.Plan, l crew.Line) bool {
	c := p.Record.Circuit()
	n, ok := c.Node(circuit.Value{Item: l.Control})
	return ok && l.To <= p.Record.End && c.WordText(p.Record.Before(n, l.To)) != l.Position
}

// move notes whether anything beside the control changed when it was moved.
func (s *survey) move(p *crew.Plan, l crew.Line) {
	f := s.moved[l.Step]
	if f == nil {
		f = &followed{first: p.Asked, line: l}
		s.moved[l.Step] = f
	}
	f.flights++
	if f.anything {
		return
	}
	control, _ := p.Record.Circuit().Node(circuit.Value{Item: l.Control})
	named := map[circuit.Node]bool{}
	for _, v := range p.Record.Circuit().Values() {
		named[v.Node] = v.Node != control
	}
	f.anything = slices.ContainsFunc(p.Record.Changes(), func(c circuit.Change) bool { return c.At == l.To && named[c.Node] })
}

// against notes controls that two procedures put in different positions.
func (s *survey) against(p *crew.Plan) {
	last := map[string]crew.Line{}
	for _, l := range p.Lines {
		if l.Control == "" {
			continue
		}
		if was, ok := last[l.Control]; ok && was.Procedure != l.Procedure && was.Position != l.Position {
			s.pair(p, was, l)
		}
		last[l.Control] = l
	}
}

func (s *survey) pair(p *crew.Plan, a, b crew.Line) {
	key := [2]*book.Step{a.Step, b.Step}
	c := s.pairs[key]
	if c == nil {
		c = &Conflict{Kind: Against, Procedure: a.Procedure, Step: a.Step, Other: b.Procedure, OtherStep: b.Step, Fail: names(&p.Asked), AtS: b.To.Seconds(),
			Says: fmt.Sprintf("%s puts %s to %q (step %s), then %s puts it to %q (step %s).", say.Quoted(a.Procedure.Title),
				s.team.Build().Title(a.Control), a.Position, a.Number, say.Quoted(b.Procedure.Title), b.Position, b.Number)}
		s.pairs[key] = c
		s.report.Conflicts = append(s.report.Conflicts, c)
	}
	c.Seen++
}

func (s *survey) findings(p *crew.Plan) {
	for _, f := range p.Findings {
		switch {
		case f.Kind == crew.AgainAndAgain && s.endless[f.Alert] == nil:
			s.endless[f.Alert] = &Conflict{Kind: Endless, Procedure: f.Procedure, Alert: f.Alert, Fail: names(&p.Asked), AtS: f.At.Seconds(),
				Says: fmt.Sprintf("%s comes back each time that %s has been done; nothing in the procedure ends that.", say.Quoted(f.Alert.Title), say.Quoted(f.Procedure.Title))}
			s.report.Conflicts = append(s.report.Conflicts, s.endless[f.Alert])
		case f.Kind == crew.TooManyTries && s.tries[f.Unit] == nil:
			s.tries[f.Unit] = &Conflict{Kind: Tries, Unit: f.Unit, Procedure: f.Procedure, Fail: names(&p.Asked), AtS: f.At.Seconds(),
				Says: fmt.Sprintf("%s may be tried %s, and is tried more often; the model lets every try reset it.", f.Unit.Title, say.Counted(f.Unit.ResetTries, "time"))}
			s.report.Conflicts = append(s.report.Conflicts, s.tries[f.Unit])
		}
		if c := s.endless[f.Alert]; f.Kind == crew.AgainAndAgain {
			c.Seen++
		}
		if c := s.tries[f.Unit]; f.Kind == crew.TooManyTries {
			c.Seen++
		}
	}
}

// stays notes which alerts were still given at the end after their procedure.
func (s *survey) stays(p *crew.Plan) {
	if !p.Record.Ending().Arrived() {
		return // nobody knows whether it would have gone
	}
	seen := map[*book.Alert]bool{}
	for _, call := range p.Calls {
		if call.Procedure == nil || call.From != nil || call.Done >= p.Record.End || seen[call.Alert] {
			continue
		}
		seen[call.Alert] = true
		k := s.called[call.Alert]
		if k == nil {
			k = &stay{}
			s.called[call.Alert] = k
		}
		k.done++
		if n, ok := p.Record.Circuit().Node(circuit.Value{Item: call.Alert.ID}); ok && toEnd(p, n, call.Given) {
			k.stayed++
		}
	}
}

// toEnd says that an alert was given without a break from its call to the end,
// or was ended by the phase or the end of the flight alone.
func toEnd(p *crew.Plan, n circuit.Node, from book.Time) bool {
	return slices.ContainsFunc(p.Record.Spans(n), func(s circuit.Span) bool { return s.From <= from && s.To >= p.Record.End })
}
