package assess

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/say"
	"knockon/sweep"
)

// View is an assessment in words: what text, JSON and page show.
type View struct {
	Build       string      `json:"build"`
	Setting     string      `json:"setting"` // on which aircraft, build and flight
	FlightH     float64     `json:"flight_h"`
	Order       int         `json:"failures_together"`
	Says        []string    `json:"how"`          // what the numbers are
	NotAnswered []Note      `json:"not_answered"` // what is not known, and why
	Classes     []ClassView `json:"classes"`
	Losses      []LossView  `json:"functions"`
	Latents     []PartView  `json:"latent_failures"`
	Caution     string      `json:"caution"`
}

// Note is a sentence, and the names that it is about.
type Note struct {
	Text  string   `json:"text"` // without its full stop where names follow
	Names []string `json:"names"`
}

func (n Note) String() string { return n.Short(len(n.Names)) }

// Short is the sentence with so many of the names at most.
func (n Note) Short(most int) string {
	if len(n.Names) == 0 {
		return n.Text
	}
	names := strings.Join(n.Names[:min(most, len(n.Names))], ", ")
	if more := len(n.Names) - most; more > 0 {
		names += fmt.Sprintf(", and %d more", more)
	}
	return n.Text + ": " + names + "."
}

// ClassView counts the losses of a class by verdict.
type ClassView struct {
	Class    string        `json:"class"`
	Word     string        `json:"rule"`
	PerH     float64       `json:"objective_per_h"`
	Slack    float64       `json:"slack"`
	Losses   int           `json:"functions"`
	Verdicts []VerdictView `json:"verdicts"`        // the worst first
	Stated   int           `json:"over_on_purpose"` // of those that are over, so many are stated in the book
	Says     string        `json:"says"`
}

// VerdictView is how many losses have a verdict.
type VerdictView struct {
	Verdict string `json:"verdict"`
	Losses  int    `json:"functions"`
}

// LossView is one function beside its objective.
type LossView struct {
	Function  string    `json:"function"`
	Title     string    `json:"title"`
	Class     string    `json:"class"`
	Hidden    bool      `json:"hidden"`
	Objective float64   `json:"objective_per_h"`
	PerH      float64   `json:"per_h"` // of the sets that have rates
	Sum       float64   `json:"sum_per_h"`
	Verdict   string    `json:"verdict"`
	Stated    bool      `json:"over_on_purpose"` // it is over, and the book says why
	Says      []string  `json:"says"`
	Sets      []SetView `json:"sets"`                  // the likeliest first
	Count     int       `json:"sets_all"`              // so many there are
	Singles   int       `json:"singles"`               // of one failure
	Causes    []string  `json:"causes"`                // common causes among the members
	Latent    []string  `json:"latent_25_1309_b5"`     // what 25.1309(b)(5) asks of the pairs with a latent member
	ByBook    *BookView `json:"by_the_book,omitempty"` // where the crew clear a single failure
}

// BookView is a loss with the crew by the book.
type BookView struct {
	PerH    float64   `json:"per_h"`
	Verdict string    `json:"verdict"`
	Cleared []string  `json:"cleared"` // single failures
	Pairs   []SetView `json:"pairs"`   // that take it with the crew; the likeliest first
	Flown   int       `json:"pairs_flown"`
	Left    int       `json:"pairs_not_flown"`
	LeftH   float64   `json:"not_flown_per_h_at_most"`
	Unrated int       `json:"without_a_rate"`
	Latent  []string  `json:"latent_25_1309_b5"` // what 25.1309(b)(5) asks of pairs with the crew, as far as they were looked at
}

// SetView is a smallest set.
type SetView struct {
	Failures []string `json:"failures"`
	Title    string   `json:"title"`
	PerH     *float64 `json:"per_h,omitempty"` // nil where a rate is not given
	Share    float64  `json:"share"`           // of the sum
	Unrated  []string `json:"without_rate"`
	Latent   []string `json:"latent"`
	Causes   []string `json:"common_causes"`
	Phases   []string `json:"phases"`
	When     string   `json:"when"`     // the phases in words
	Brief    bool     `json:"per_hour"` // divided by one hour, and not by the flight
	Query    string   `json:"query"`    // of the answer page's address, nobody acting
	Crew     string   `json:"crew"`     // what comes of it with the crew by the book; "" if it was not flown
	CrewLost bool     `json:"crew_lost"`
	Arrives  bool     `json:"crew_arrives"` // with the crew the flight arrives; no where it was not flown
	QueryBy  string   `json:"query_by_the_book"`
}

// PartView is a latent failure.
type PartView struct {
	Failure  string  `json:"failure"`
	Title    string  `json:"title"`
	Rate     float64 `json:"rate_per_hour"`
	CheckedH float64 `json:"checked_every_h"` // 0: no check is known
	Says     string  `json:"says"`
}

// Figure writes how likely something is: 2.5e-9, 0.31, or 0.
func Figure(p float64) string {
	switch {
	case p == 0:
		return "0"
	case p >= 0.0095:
		return strconv.FormatFloat(p, 'g', 2, 64)
	}
	number, power, _ := strings.Cut(strconv.FormatFloat(p, 'e', 1, 64), "e")
	exponent, _ := strconv.Atoi(power) // FormatFloat wrote it
	return strings.TrimSuffix(number, ".0") + "e" + strconv.Itoa(exponent)
}

// View puts an assessment into words, with so many sets of each loss at most.
func (a *Assessment) View(most int) *View {
	v := &View{
		Build: a.Build.Variant, FlightH: a.Hours.Hours, Order: a.Order, Caution: book.Caution,
		Setting: fmt.Sprintf("%s, build %s; %s, %s h", a.Build.Aircraft.Title, a.Build.VariantTitle(), a.Flight.Title, say.Figures(a.Hours.Hours)),
		Says: []string{
			fmt.Sprintf("The smallest sets of up to %s that take a function away while it is wanted: they strike together 5 s after a phase begins, for good, and nobody acts. Of more failures together nothing is claimed.", say.Counted(a.Order, "failure")),
			"How likely it is that a loss arises, per hour of flight, in the mean over all flights between checks; with the crew by the book only what is said beside a set.",
			"Hidden or denied is a loss that nobody knows of: no alert names it, it does not follow from one, nobody notices it; or an indication denies it. What an alert alone tells or does not is asked with ways --untold.",
		},
		NotAnswered: a.notAnswered(), Losses: []LossView{}, Latents: []PartView{},
	}
	for i := range a.Losses {
		v.Losses = append(v.Losses, a.lossView(&a.Losses[i], most))
	}
	for _, o := range Objectives {
		v.Classes = append(v.Classes, classView(o, v.Losses))
	}
	for n, p := range a.Parts {
		if p.Latent {
			v.Latents = append(v.Latents, a.partView(n, p))
		}
	}
	return v
}

func classView(o Objective, losses []LossView) ClassView {
	c := ClassView{Class: o.Class, Word: o.Word, PerH: o.PerH, Slack: o.Slack, Verdicts: []VerdictView{}}
	count := map[Verdict]int{}
	for _, l := range losses {
		if l.Class != o.Class {
			continue
		}
		c.Losses++
		count[Verdict(l.Verdict)]++
		if l.Stated {
			c.Stated++
		}
	}
	var parts []string
	for _, v := range Verdicts {
		if n := count[v]; n > 0 {
			c.Verdicts = append(c.Verdicts, VerdictView{string(v), n})
			parts = append(parts, fmt.Sprintf("%s %s", say.Whole(float64(n)), v))
		}
	}
	c.Says = say.NoneOr(c.Losses, "function") + say.Ahead(": ", strings.Join(parts, ", "))
	if c.Stated > 0 {
		c.Says += fmt.Sprintf(" (%d on purpose, as the book says)", c.Stated)
	}
	c.Says += byBook(c.Class, losses)
	return c
}

// byBook counts the losses of a class again that the crew clear of a single failure.
func byBook(class string, losses []LossView) string {
	count, n := map[Verdict]int{}, 0
	for _, l := range losses {
		if l.Class == class && l.ByBook != nil {
			count[Verdict(l.ByBook.Verdict)]++
			n++
		}
	}
	var parts []string
	for _, v := range Verdicts {
		if count[v] > 0 {
			parts = append(parts, fmt.Sprintf("%s %s", say.Whole(float64(count[v])), v))
		}
	}
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("; with the crew by the book, of the %d that they clear of a single failure: %s", n, strings.Join(parts, ", "))
}

func (a *Assessment) id(n int) string    { return a.Failures[n].String() }
func (a *Assessment) title(n int) string { return a.Build.FailureTitle(a.id(n)) }

// cause says that a failure is a common cause.
func (a *Assessment) cause(n int) bool {
	item, _ := a.Build.Item(a.Failures[n].Unit)
	_, is := item.(*book.Event)
	return is
}

func (a *Assessment) partView(n int, p Part) PartView {
	v := PartView{Failure: a.id(n), Title: a.title(n), Rate: p.Rate, CheckedH: p.CheckedH}
	if p.CheckedH == 0 {
		v.Says = fmt.Sprintf("no check is known: it stays for the life of the aircraft, %s h", say.Whole(LifeH))
		return v
	}
	v.Says = fmt.Sprintf("checked every %s h", say.Figures(p.CheckedH))
	return v
}

func (a *Assessment) lossView(l *Loss, most int) LossView {
	v := LossView{
		Function: l.Function.ID, Title: l.Function.Title, Class: l.Class, Hidden: l.Hidden, Objective: l.Objective.PerH,
		PerH: l.PerH, Sum: l.Sum, Verdict: string(l.Verdict), Stated: l.Function.OverOnPurpose != "" && l.Verdict.isOver(),
		Says: a.says(l), Sets: []SetView{}, Count: len(l.Sets), Singles: len(l.Singles()), Causes: []string{}, Latent: a.b5(l),
	}
	for i := range l.Sets {
		for _, n := range l.Sets[i].Set {
			if a.cause(n) && !slices.Contains(v.Causes, a.id(n)) {
				v.Causes = append(v.Causes, a.id(n))
			}
		}
		if i < most {
			v.Sets = append(v.Sets, a.setView(l, &l.Sets[i]))
		}
	}
	v.ByBook = a.bookView(l)
	return v
}

func (a *Assessment) bookView(l *Loss) *BookView {
	b := l.ByBook
	if b == nil {
		return nil
	}
	v := &BookView{PerH: b.PerH, Verdict: string(b.Verdict), Cleared: []string{}, Pairs: []SetView{}, Flown: b.Flown, Left: b.Left, LeftH: b.LeftH, Unrated: b.Unrated, Latent: a.crewB5(l)}
	for _, c := range b.Cleared {
		v.Cleared = append(v.Cleared, a.refs(c.Set))
	}
	for i := range b.Pairs {
		v.Pairs = append(v.Pairs, a.setView(l, &b.Pairs[i]))
	}
	return v
}

func (v Verdict) isOver() bool { return v == Single || v == Over || v == InSlack }

func (a *Assessment) setView(l *Loss, c *Cut) SetView {
	v := SetView{Unrated: []string{}, Latent: []string{}, Causes: []string{}, Phases: []string{}, Brief: a.Brief(c.Phases) && a.Hours.Hours > 1}
	var titles []string
	for _, n := range c.Set {
		id := a.id(n)
		v.Failures, titles = append(v.Failures, id), append(titles, a.title(n))
		if a.Parts[n].Rate == 0 {
			v.Unrated = append(v.Unrated, id)
		}
		if a.Parts[n].Latent {
			v.Latent = append(v.Latent, id)
		}
		if a.cause(n) {
			v.Causes = append(v.Causes, id)
		}
	}
	v.Title = strings.Join(titles, " + ")
	if c.Rated() {
		v.PerH = &c.PerH
		if l.Sum > 0 {
			v.Share = c.PerH / l.Sum
		}
	}
	for _, p := range c.Phases {
		v.Phases = append(v.Phases, a.Phases[p].ID)
	}
	v.When = a.when(c.Phases)
	at := a.likeliest(*c)
	v.Query, v.QueryBy = a.query(c.Set, at, "none"), a.query(c.Set, at, "by_the_book")
	if c.Crewed != nil {
		v.CrewLost, v.Arrives = c.Crewed.Lost(l), c.Crewed.Ended == ""
		v.Crew = c.Crewed.says(v.CrewLost, l.Function.ID)
	}
	return v
}

// says is what comes of a set with the crew by the book. A loss that had not come
// when the flight ended is not spared.
func (c *Crewed) says(lost bool, function string) string {
	const by = "with the crew by the book: "
	switch {
	case lost && c.Ended != "":
		return by + c.lost[function].says() + "; the flight does not arrive: " + c.Ended
	case lost:
		return by + c.lost[function].says()
	case c.Ended != "":
		return by + "the flight does not arrive: " + c.Ended + "; up to there it is not lost"
	}
	return by + "not lost"
}

// when says the phases of a set.
func (a *Assessment) when(phases []int) string {
	title := func(p int) string { return a.Build.Title(a.Phases[p].ID) }
	n := len(phases)
	switch {
	case n == len(a.Phases):
		return "in every phase"
	case n > 3 && phases[n-1]-phases[0] == n-1:
		return fmt.Sprintf("%s to %s", title(phases[0]), title(phases[n-1]))
	case n > 3:
		return fmt.Sprintf("%d phases from %s to %s", n, title(phases[0]), title(phases[n-1]))
	}
	var titles []string
	for _, p := range phases {
		titles = append(titles, title(p))
	}
	return say.And(titles)
}

func (a *Assessment) query(set sweep.Set, phase int, crew string) string {
	q := url.Values{"at": {a.Phases[phase].Moment.String()}, "flight": {a.Flight.ID}, "crew": {crew}}
	for _, n := range set {
		q.Add("fail", a.id(n))
	}
	if a.Build.Variant != "" {
		q.Set("build", a.Build.Variant)
	}
	return q.Encode()
}
