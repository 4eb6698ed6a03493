package web

import (
	"fmt"
	"maps"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/ledger"
	"knockon/say"
	"knockon/scenario"
)

// question is what an address asks.
type question struct {
	scenario.Strike // what fails, and when
	Out, Sets, Acts []string
	Crew            string   // who acts: scenario.Nobody; "" is a crew by the book
	Plan            []string // where the flight goes
	Build, Flight   string
	Search          string      // what to look for among what can fail
	Open            []string    // rows whose chain is shown; openAll for all
	Only            ledger.Only // which rows are shown; none: all
	Unfolded        bool        // the figure has a bar for each row
	Problems        []problem   // what could not be understood, and was left out

	shelf *shelf
	build *book.Build
	fatal bool // a problem that leaves nothing to answer
}

// typed is the question as a scenario.
func (q *question) typed() scenario.Typed {
	return scenario.Typed{Fail: []scenario.Strike{q.Strike}, Out: q.Out, Sets: q.Sets, Acts: q.Acts, Crew: q.Crew, Plan: q.Plan, Build: q.Build, Flight: q.Flight}
}

// problem is a part of the address that is wrong.
type problem struct{ Part, Text string }

// unfolded is a figure with a bar for each row.
const unfolded = "rows"

// openAll stands for every row.
const openAll = "all"

// Limits of one question.
const (
	mostFailures = 24
	mostText     = 200 // bytes of one part
)

// parse reads a question. What is wrong is said and left out; the rest is kept.
func (s *Site) parse(v url.Values) *question {
	q := &question{shelf: s.shelves[0]}
	if id := v.Get("book"); id != "" {
		if q.shelf = s.shelf(id); q.shelf == nil {
			q.shelf = s.shelves[0]
			q.problem("book", "there is "+say.No("book", cut(id), s.books()))
		}
	}
	q.Build, q.build = q.chooseBuild(v.Get("build"))
	q.Flight = q.chooseFlight(v.Get("flight"))
	q.What = q.failures("fail", v["fail"])
	q.Out = q.failures("out", v["out"])
	q.At = q.moment(v.Get("at"))
	q.rest(v)
	q.Search, q.Open, q.Only = cut(v.Get("q")), v["why"], q.only(v)
	if text := v.Get("figure"); text != "" && text != unfolded {
		q.problem("figure", "there is "+say.No("figure", cut(text), []string{unfolded}))
	}
	q.Unfolded = v.Get("figure") == unfolded
	return q
}

// parts are all that an address can say about a question or its price.
var parts = []string{"fail", "out", "at", "when", "for", "resettable", "set", "act", "crew", "plan", "build", "flight", "book", "q", "why",
	"row", "adding", "reserve", "to", "turn", "v",
	ledger.ByPhase, ledger.ByChapter, ledger.BySeverity, ledger.ByGroup, ledger.ByWords, "figure"}

// unknown refuses what an address says under a name that means nothing: left out,
// it would be the answer to another question.
func (q *question) unknown(v url.Values) {
	for _, part := range slices.Sorted(maps.Keys(v)) {
		if !slices.Contains(parts, part) {
			q.problem("address", "there is "+say.No("part", cut(part), parts))
			q.fatal = true
		}
	}
}

// rest reads what can be said of a failure beside when it comes.
func (q *question) rest(v url.Values) {
	q.When, q.Resettable = v.Get("when"), v.Get("resettable") == "yes"
	if text := v.Get("for"); text != "" {
		n, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(text), " s"), 64)
		if err != nil {
			q.problem("for", fmt.Sprintf("%q is no number of seconds", cut(text)))
		} else {
			q.ForS = n
		}
	}
	q.Sets, q.Acts, q.Plan = q.moves("set", v["set"]), q.moves("act", v["act"]), q.moves("plan", v["plan"])
	if q.Crew = cut(v.Get("crew")); q.Crew == scenario.ByTheBook {
		q.Crew = ""
	}
	only := q.Strike
	only.What, only.At = nil, ""
	if _, err := (scenario.Typed{Fail: []scenario.Strike{only}, Sets: q.Sets, Acts: q.Acts, Crew: q.Crew, Plan: q.Plan}).Read(q.build); err != nil {
		q.problem("more", err.Error())
		q.fatal = true
	}
}

// moves keeps the controls that are set or moved.
func (q *question) moves(part string, texts []string) []string {
	texts = slices.DeleteFunc(slices.Clone(texts), func(t string) bool { return strings.TrimSpace(t) == "" })
	if len(texts) > mostFailures {
		q.problem(part, fmt.Sprintf("at most %d controls; the others were left out", mostFailures))
		texts = texts[:mostFailures]
	}
	return texts
}

func (q *question) problem(part, text string) {
	q.Problems = append(q.Problems, problem{part, text})
}

func (q *question) chooseBuild(id string) (string, *book.Build) {
	b, err := q.shelf.desk.Book.BuildNamed(cut(id))
	if err != nil {
		q.problem("build", "there is "+err.Error())
		b, _ = q.shelf.desk.Book.Build("")
	}
	return b.Variant, b
}

func (q *question) chooseFlight(id string) string {
	f, err := q.build.FlightNamed(cut(id))
	if err == nil {
		return f.ID
	}
	q.problem("flight", "there is "+err.Error())
	if q.fatal = len(q.build.Flights) == 0; q.fatal {
		return ""
	}
	return q.build.Flights[0].ID
}

// failures keeps those that this build has, each once.
func (q *question) failures(part string, texts []string) (good []string) {
	for _, t := range texts {
		t = cut(strings.TrimSpace(t))
		if t == "" || slices.Contains(good, t) {
			continue
		}
		if len(good) == mostFailures {
			q.problem(part, fmt.Sprintf("at most %d; the others were left out", mostFailures))
			break
		}
		if _, err := book.ParseFailure(t, q.build); err != nil {
			q.problem(part, err.Error())
			continue
		}
		good = append(good, t)
	}
	return good
}

// moment keeps a moment as typed. One that cannot be read leaves nothing to
// answer: every other moment would be another question.
func (q *question) moment(text string) string {
	text = cut(text)
	m, err := book.ParseMoment(text, q.build)
	if err != nil {
		m, err = q.withPlus(text, err)
	}
	if err != nil {
		q.problem("at", err.Error())
		q.fatal = true
		return text
	}
	if m == (book.Moment{}) {
		return ""
	}
	return m.String()
}

// withPlus reads a moment whose plus an address has turned into a space.
func (q *question) withPlus(text string, before error) (book.Moment, error) {
	phase, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	m, err := book.ParseMoment(phase+" + "+strings.TrimSpace(rest), q.build)
	if err != nil {
		return m, before
	}
	return m, nil
}

// cut makes a part of an address fit to be shown again: not too long, and text.
func cut(text string) string {
	return strings.ToValidUTF8(text[:min(len(text), mostText)], "")
}

func (s *Site) books() (ids []string) {
	for _, sh := range s.shelves {
		ids = append(ids, sh.id)
	}
	return ids
}

// Query writes the question as the query of an address, always in the same order.
func (q *question) Query() string {
	var b strings.Builder
	add := func(name, value string) {
		if value == "" {
			return
		}
		if b.Len() > 0 {
			b.WriteByte('&')
		}
		b.WriteString(name + "=" + url.QueryEscape(value))
	}
	if q.named() {
		add("book", q.shelf.id)
	}
	for _, f := range q.What {
		add("fail", f)
	}
	for _, f := range q.Out {
		add("out", f)
	}
	add("build", q.Build)
	add("flight", q.Flight)
	add("at", q.At)
	q.addRest(add)
	return b.String()
}

// address is the whole address of the question, under the name by which the
// request reached this server.
func (q *question) address(r *http.Request) string { return site(r) + "/?" + q.Query() }

// site is the name by which a request reached this server.
func site(r *http.Request) string {
	if r.TLS != nil {
		return "https://" + r.Host
	}
	return "http://" + r.Host
}

func (q *question) addRest(add func(name, value string)) {
	add("when", q.When)
	if q.ForS != 0 {
		add("for", strconv.FormatFloat(q.ForS, 'g', -1, 64))
	}
	if q.Resettable {
		add("resettable", "yes")
	}
	for _, a := range q.Sets {
		add("set", a)
	}
	for _, a := range q.Acts {
		add("act", a)
	}
	add("crew", q.Crew)
	for _, l := range q.Plan {
		add("plan", l)
	}
}

// named says that the address must name the book: it is not the first.
func (q *question) named() bool { return !q.shelf.first }

// without is the same question with one part less.
func (q *question) without(part, value string) *question {
	less := *q
	drop := func(list []string) []string {
		return slices.DeleteFunc(slices.Clone(list), func(s string) bool { return s == value })
	}
	switch part {
	case "fail":
		less.What = drop(q.What)
	case "out":
		less.Out = drop(q.Out)
	case "set":
		less.Sets = drop(q.Sets)
	case "act":
		less.Acts = drop(q.Acts)
	case "crew":
		less.Crew = value
	}
	return &less
}
