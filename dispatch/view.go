package dispatch

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"knockon/book"
	"knockon/say"
)

// View is an answer in words, for text, JSON and the page.
type View struct {
	Title      string      `json:"title"`
	Setting    string      `json:"setting"`           // build and flight
	Items      []string    `json:"items"`             // inoperative
	Flown      string      `json:"flown,omitempty"`   // the flight under the conditions, as a question names it
	Held       bool        `json:"held,omitempty"`    // controls are held, which no other question can ask for
	Goes       bool        `json:"may_go"`            // as far as the deferrals are concerned
	Verdict    string      `json:"verdict"`           // the first sentence
	Reasons    []string    `json:"reasons"`           // why it does not go
	Until      string      `json:"until,omitempty"`   // for how long
	Conditions []string    `json:"conditions"`        // of the flight
	Deferrals  []Used      `json:"deferrals"`         // by which it goes
	Breaks     []BreakView `json:"breaks"`            // where they break the principle, the gravest first
	Sound      string      `json:"sound,omitempty"`   // that they do not, as far as it was looked at
	Already    []LostView  `json:"lost_already"`      // with nothing more failed
	AwayLead   string      `json:"away_says"`         // what the list is of; or that it is empty
	Away       []AwayView  `json:"one_failure_away"`  // the gravest first
	Looked     string      `json:"looked_at"`         // what was looked at, and what was not
	NotKnown   []string    `json:"not_known"`         // what could not be worked out
	Command    string      `json:"command,omitempty"` // where more can be asked
	Caution    string      `json:"caution"`
}

// Used is a deferral by which it goes.
type Used struct {
	ID          string `json:"id"`
	Title       string `json:"title"`
	Category    string `json:"category"`
	Days        int    `json:"days"`
	Crew        string `json:"words_crew,omitempty"`
	Maintenance string `json:"words_maintenance,omitempty"`
	OnlyIf      string `json:"only_if,omitempty"`
	Source      string `json:"source,omitempty"`
	Where       string `json:"where"`
}

// BreakView is a finding.
type BreakView struct {
	Step     int      `json:"step"`
	Severity string   `json:"severity"`
	Says     string   `json:"says"`
	Function string   `json:"function,omitempty"`
	Failures []string `json:"failures"`
	Crew     string   `json:"with_a_crew,omitempty"`
	At       string   `json:"at,omitempty"` // a moment of it, as a question takes it
}

// LostView is a function that is lost already.
type LostView struct {
	Function string `json:"function"`
	Title    string `json:"title"`
	Severity string `json:"severity,omitempty"`
	Says     string `json:"says"`
}

// AwayView is a function that is one failure away.
type AwayView struct {
	Function string   `json:"function"`
	Title    string   `json:"title"`
	Severity string   `json:"severity,omitempty"`
	Says     string   `json:"says"` // by which failures, how known; of a hazardous or catastrophic loss also when
	Crew     string   `json:"with_a_crew,omitempty"`
	By       []ByView `json:"by"`
}

// ByView is a failure that is enough.
type ByView struct {
	Failure  string `json:"failure"`
	Title    string `json:"title"`
	When     string `json:"when"`
	Known    string `json:"known"`
	Severity string `json:"severity,omitempty"`
	At       string `json:"at"` // the moment that the word is of
}

// View puts an answer into words.
func (a *Answer) View() *View {
	v := &View{Title: "With " + say.And(a.titles()) + " inoperative", Setting: a.setting(), Items: append([]string{}, say.Texts(a.Relief.Items)...), Goes: a.Relief.Goes(), Reasons: append([]string{}, a.Relief.Refusals...),
		Conditions: []string{}, Deferrals: []Used{}, Breaks: []BreakView{}, Already: []LostView{}, Away: []AwayView{}, NotKnown: append([]string{}, a.NotKnown...), Caution: book.Caution}
	v.Verdict = a.verdict()
	if !v.Goes {
		v.Command = "knockon ways --out " + strings.Join(say.Texts(a.Relief.Items), " --out ")
		v.Looked = "What it would leave one failure away is another question:"
		return v
	}
	v.Until, v.Conditions = a.until(), a.conditions()
	for _, x := range a.Relief.Uses {
		v.Deferrals = append(v.Deferrals, used(x))
	}
	v.Held = len(a.Relief.Conditions().SetUps) > 0
	if len(a.Moments) == 0 {
		return v
	}
	v.Flown = a.Flown.ID
	a.findings(v)
	return v
}

// findings puts into words what was flown.
func (a *Answer) findings(v *View) {
	for _, b := range a.Breaks {
		v.Breaks = append(v.Breaks, a.breakView(b))
	}
	for _, x := range a.Already {
		v.Already = append(v.Already, LostView{x.Function.ID, x.Function.Title, x.Function.Severity, "from " + say.Clock(x.From) + " on"})
	}
	for _, x := range a.Away {
		v.Away = append(v.Away, a.awayView(x))
	}
	v.AwayLead = "A failure takes away more than it would with everything working, now or by the end of the flight:"
	if len(v.Away) == 0 {
		v.AwayLead = say.Capital(a.asKnown() + "no single failure that strikes " + a.struck() + " takes away more, by the end of the flight, than it would with everything working.")
	}
	if len(v.Breaks) == 0 {
		v.Sound = say.Capital(a.asKnown() + "nothing was found at which the next failure would not be survivable; what was looked at stands below.")
	}
	v.Looked = a.looked()
}

// asKnown goes before what holds only as far as the answer is known.
func (a *Answer) asKnown() string {
	if len(a.NotKnown) > 0 {
		return "not all is known; by what is, "
	}
	return ""
}

func (a *Answer) titles() []string {
	return a.titlesOf(say.Texts(a.Relief.Items))
}

func (a *Answer) titlesOf(failures []string) (list []string) {
	for _, f := range failures {
		list = append(list, a.Build.FailureTitle(f))
	}
	return list
}

func (a *Answer) setting() string {
	return fmt.Sprintf("%s; %s.", a.Build.VariantTitle(), a.Planned.Title)
}

// verdict is the first sentence: whether it may go, and whether the book is right
// to let it.
func (a *Answer) verdict() string {
	switch gravest := a.gravest(); {
	case !a.Relief.Goes():
		return "It does not go."
	case len(a.Moments) == 0:
		return "By the book it may go; what is then one failure away is not known."
	case gravest == "" && len(a.NotKnown) > 0:
		return "By the book it may go; not all that is then one failure away is known."
	case len(a.conditions()) > 0 && gravest == "":
		return "By the book it may go, under conditions."
	case gravest == "":
		return "By the book it may go."
	default:
		return fmt.Sprintf("By the book it may go. The deferral does not pass the check: what it leaves is %s.", gravest)
	}
}

// gravest is the severity of the worst finding; "" where there is none.
func (a *Answer) gravest() (severity string) {
	for _, b := range a.Breaks {
		if severityIndex(b.Severity) > severityIndex(severity) {
			severity = b.Severity
		}
	}
	return severity
}

// until says for how long it may go so.
func (a *Answer) until() string {
	days, by := a.Relief.Days()
	text := fmt.Sprintf("For %s after the day on which it was found, which is not counted (category %s, %s)", say.Counted(days, "day"), by.Category, say.Quoted(by.Title))
	if day, err := time.Parse(time.DateOnly, a.Question.Found); err == nil {
		text += fmt.Sprintf(": found on %s, it may fly until the end of %s", a.Question.Found, day.AddDate(0, 0, days).Format(time.DateOnly))
	}
	return text + "."
}

// conditions lists what the deferrals ask of the flight, and whether it is planned
// so.
func (a *Answer) conditions() (list []string) {
	list = []string{}
	c := a.Relief.Conditions()
	if c.MostAltitudeFt > 0 {
		text := "Not above " + say.Whole(c.MostAltitudeFt) + " ft"
		if c.low(a.Planned) {
			text += fmt.Sprintf(": planned at %s ft, so it is flown lower here", say.Whole(a.Planned.Planned("cruise_altitude_ft")))
		}
		list = append(list, text+".")
	}
	if c.NoIcing {
		text := "Not into icing"
		if c.ices(a.Planned) {
			text += fmt.Sprintf(": the flight has a layer of it from %s to %s ft, so it is flown without here", say.Whole(a.Planned.Planned("icing_from_ft")), say.Whole(a.Planned.Planned("icing_to_ft")))
		}
		list = append(list, text+".")
	}
	for _, s := range c.SetUps {
		list = append(list, fmt.Sprintf("%s stands at %s from the start, and stays.", a.Build.Title(s.Set), say.Quoted(s.To)))
	}
	return list
}

func used(x *book.Deferral) Used {
	u := Used{ID: x.ID, Title: x.Title, Category: x.Category, Days: x.Days(), Crew: x.Crew, Maintenance: x.Maintenance, Source: x.Source, Where: fmt.Sprintf("%s:%d", x.Range.File, x.Range.Line)}
	if x.OnlyIf != nil {
		u.OnlyIf = x.OnlyIf.String()
	}
	return u
}

func (a *Answer) breakView(b Break) BreakView {
	v := BreakView{Step: b.Step, Severity: b.Severity, Says: b.Says, Crew: b.Crew, Failures: append([]string{}, say.Texts(b.Failures)...)}
	if b.Function != nil {
		v.Function = b.Function.ID
	}
	if len(b.In) > 0 {
		v.At = a.moment(b.In[0])
	}
	return v
}

// moment is a moment as a question takes it.
func (a *Answer) moment(m int) string { return book.Moment{Offset: a.Moments[m].At}.String() }

func (a *Answer) awayView(x Away) AwayView {
	v := AwayView{Function: x.Function.ID, Title: x.Function.Title, Severity: x.Severity, Crew: x.Crew}
	for _, by := range x.By {
		known := string(by.Known)
		if known == "" {
			known = "not known how"
		}
		v.By = append(v.By, ByView{by.Failure.String(), a.Build.FailureTitle(by.Failure.String()), a.when(by.In), known, by.Severity, a.moment(by.At)})
	}
	v.Says = v.causes(atLeast(x.Severity, "hazardous"))
	return v
}

// causes lists the failures that are enough, those together that are so in the same
// phases and known in the same way.
func (v AwayView) causes(timed bool) string {
	var keys []string
	titles := map[string][]string{}
	for _, b := range v.By {
		key := " (" + b.Known + ")"
		if timed {
			key = " " + b.When + key
		}
		if titles[key] == nil {
			keys = append(keys, key)
		}
		titles[key] = append(titles[key], b.Title)
	}
	for i, key := range keys {
		keys[i] = strings.Join(titles[key], " or ") + key
	}
	return strings.Join(keys, "; ")
}

// struck says when failures strike that were looked at.
func (a *Answer) struck() string {
	if a.Question.In != "" || len(a.Moments) == 1 {
		return "at " + say.Clock(a.Moments[0].At)
	}
	return "5 seconds into a phase"
}

// looked says what was looked at, and what was not.
func (a *Answer) looked() string {
	text := fmt.Sprintf("Looked at: every single failure and common cause, striking %s (%s), with the conditions applied and nobody acting on it; steps 1, 2 and 5 of the check.",
		a.struck(), say.Counted(len(a.Moments), "moment"))
	if len(a.Short) > 0 {
		text += " With these the flight does not arrive, nor does it with everything working, and what would come after is not looked at: " + strings.Join(a.titlesOf(a.Short), "; ") + "."
	}
	if a.Question.Thorough {
		return text + " Also a failure that nobody would know of with one more (step 4), and each other item that the book lets go as well (step 6); these along the flight as it is flown with nothing failed. Not looked at: how likely it is (step 3)."
	}
	return text + " Not looked at: how likely it is (step 3), two failures of which one is hidden (step 4), other items deferred as well (step 6); the last two with --thorough."
}

// Severities lists the headings under which the functions of a view stand, each
// once.
func (v *View) Severities() (list []string) {
	for _, a := range v.Away {
		if !slices.Contains(list, a.Severity) {
			list = append(list, a.Severity)
		}
	}
	return list
}

// Of lists the functions of a severity.
func (v *View) Of(severity string) (list []AwayView) {
	for _, a := range v.Away {
		if a.Severity == severity {
			list = append(list, a)
		}
	}
	return list
}

// Head is the heading of a severity.
func Head(severity string) string {
	if severity == "" {
		return "Of no stated severity"
	}
	return say.Capital(severity)
}
