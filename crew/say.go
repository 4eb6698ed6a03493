package crew

import (
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
)

func (s speaker) note(f Finding) Note {
	n := Note{Kind: f.Kind, At: s.moment(f.At), Text: s.finding(f), Number: s.team.number[f.Step], Answer: f.Answer}
	if f.Procedure != nil {
		n.Procedure = f.Procedure.ID
	}
	for _, g := range f.Gauges {
		n.Gauges = append(n.Gauges, Read{g.Of.ID, g.Of.Title, g.Shows, g.Means})
	}
	return n
}

// finding is a finding in words.
func (s speaker) finding(f Finding) string {
	switch f.Kind {
	case AgainAndAgain:
		return f.Alert.Message + " comes again after its procedure (" + f.Procedure.Title + ") was done, and again: the crew stop answering it"
	case TooManyTries:
		return f.Unit.Title + " is reset more often than the book allows; the model lets every try reset it"
	case CannotBeSeen:
		return s.asked(f) + " cannot be seen, since " + darkness(f.Gauges) + s.took(f)
	case NotHeard:
		return s.unheard(f)
	case NoLonger:
		return s.asked(f) + " was left for later, and is no longer so: it is not done"
	case Misled:
		return s.asked(f) + ": the crew saw " + lies(f.Gauges) + ": " + s.answered(f)
	}
	return s.asked(f) + " is not as it should be"
}

// unheard says whom a line does not reach, and why.
func (s speaker) unheard(f Finding) string {
	says := "the radio call after it"
	if f.Step != nil {
		says = "\"" + f.Step.Says + "\""
	}
	text := f.Procedure.Title + ": " + says + " is not heard by " + whom[f.Whom]
	var lost []string
	for _, item := range f.Lost {
		lost = append(lost, say.Quoted(item.Named().Title))
	}
	if len(lost) > 0 {
		text += ", since " + say.And(lost) + say.Plural(len(lost), " does", " do") + " not work"
	}
	if f.Step != nil && len(f.Step.Else) > 0 {
		text += ": they went on with " + s.team.beginning(s.said(f.Step.Else))
	}
	return text
}

// asked is a line that asks something, by its procedure.
func (s speaker) asked(f Finding) string {
	says := f.Step.Says
	switch {
	case says != "":
	case f.Step.That != nil:
		says = f.Step.That.String()
	case f.Step.When != nil:
		says = f.Step.When.String()
	default:
		says = s.team.Build().Title(f.Step.In)
	}
	return f.Procedure.Title + ": \"" + says + "\""
}

func darkness(list []Gauge) string {
	var titles []string
	for _, g := range list {
		titles = append(titles, g.Of.Title)
	}
	return say.And(few(titles)) + " " + say.Plural(len(list), "is", "are") + " dark"
}

// lies says what was shown and what was true.
func lies(list []Gauge) string {
	var parts []string
	for _, g := range list {
		at := " at "
		if g.Of.Shows.Type == book.YesNo {
			at = " "
		}
		parts = append(parts, g.Of.Title+at+g.Shows+", while "+g.Means+" was true")
	}
	return strings.Join(few(parts), "; ")
}

// mostGauges is how many gauges a sentence names.
const mostGauges = 3

func few(list []string) []string {
	if more := len(list) - mostGauges; more > 0 {
		return append(list[:mostGauges:mostGauges], say.Counted(more, "more gauge"))
	}
	return list
}

// answered says where a lie led.
func (s speaker) answered(f Finding) string {
	switch {
	case f.Step.Kind == "check" && f.Answer == Yes:
		return "they took it to be as it should be"
	case f.Step.Kind == "check":
		return "they took it not to be as it should be"
	}
	return "they answered " + string(f.Answer) + " and went on with " + s.team.beginning(s.said(branch(f.Step, f.Answer))) + ", not with " + s.team.beginning(branch(f.Step, f.Right))
}

// took says what a decision whose question is dark goes on with.
func (s speaker) took(f Finding) string {
	if f.Step.Kind != "decide" {
		return ""
	}
	return ": they went on with " + s.team.beginning(s.said(branch(f.Step, f.Answer)))
}

// said leaves out the steps that belong only under a condition and were not done.
func (s speaker) said(steps []*book.Step) []*book.Step {
	done := func(step *book.Step) bool {
		return slices.ContainsFunc(s.plan.Lines, func(l Line) bool { return l.Step == step })
	}
	return slices.DeleteFunc(slices.Clone(steps), func(step *book.Step) bool { return step.If != nil && !done(step) })
}

// beginning names some steps by their first.
func (t *Team) beginning(steps []*book.Step) string {
	if len(steps) == 0 {
		return "the next line"
	}
	if says := strings.TrimSuffix(t.words(steps[0]), "."); says != "" {
		return "\"" + says + "\""
	}
	return steps[0].Kind + " " + t.number[steps[0]]
}

// Unheard says in words whom the crew of a plan told something and did not reach, in
// the order of time.
func (t *Team) Unheard(p *Plan) (list []Note) {
	return t.notes(p, NotHeard)
}

// Deceived says in words where what the crew of a plan saw led them astray, or was
// not there to be seen, in the order of time.
func (t *Team) Deceived(p *Plan) (list []Note) {
	return t.notes(p, Misled, CannotBeSeen)
}

// notes are the findings of some kinds in words.
func (t *Team) notes(p *Plan, of ...FindingKind) (list []Note) {
	from, _ := p.Record.FirstStrike()
	s := speaker{t, p, from}
	for _, f := range p.Findings {
		if slices.Contains(of, f.Kind) {
			list = append(list, s.note(f))
		}
	}
	return list
}
