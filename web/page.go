package web

import (
	"context"
	"errors"
	"html/template"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"knockon/ask"
	"knockon/book"
	"knockon/figure"
	"knockon/ledger"
	"knockon/run"
	"knockon/scenario"
)

// questionPage is what the page and its fragment are made of.
type questionPage struct {
	Aircraft string
	Title    string
	Caution  string
	Address  string // of the question, as one sends it
	Query    string // the same, without the path
	Book     string // hidden part of the question; "" for the first book

	Problems []problem
	Chosen   []chip
	Shows    []hidden // what of the answer is shown; the question carries it along
	At       string
	Builds   []option
	Flights  []option
	More     more
	Search   string
	Found    int // how many a search found
	Chapters []chapter
	Examples []example
	Answer   *answerView // nil where nothing is asked
}

// chip is a failure that was chosen.
type chip struct {
	Part, Ref, Title string
	Less             string // address of the question without it
}

// option is an entry of a list to choose from.
type option struct {
	ID, Title string
	Chosen    bool
}

// more is what can be said of the failure beside when it comes.
type more struct {
	When       string
	For        string // seconds
	Resettable bool
	Sets, Acts []string
	Plan       []string
	HandsOff   bool
	Slowly     bool
}

// Said says that something of it was said.
func (m more) Said() bool {
	return m.When != "" || m.For != "" || m.Resettable || len(m.Sets)+len(m.Acts)+len(m.Plan) > 0 || m.HandsOff || m.Slowly
}

// hidden is a part that the form carries along.
type hidden struct{ Part, Value string }

// answerView is an answer as the page shows it.
type answerView struct {
	Title       string
	Setting     string
	NotModelled []book.Unmodelled
	Supposed    string       // of the flight: "at 33,000 kg"; "" nothing is
	Lead        string       // the sentence before the list of what nobody is told
	Spoken      []sayingView // what is hidden, and denied
	Saves       string       // address of what lets a flight arrive that breaks off
	Summary     string
	Worth       *ledger.Worth
	Waves       []waveView // the first of them, in few words
	MoreWaves   []waveView
	Varied      *variedView
	Conduct     conduct
	Wide        template.HTML
	Narrow      template.HTML
	Folded      bool      // they have a bar for what goes together, not for each row
	Unfold      string    // address of the other way; "" where there is none
	LineSVG     string    // address of the picture
	Query       string    // of the question
	Costs       string    // address of what it costs; "" where no airfields are known
	Handout     string    // address of the sheet of paper
	Drill       string    // address of the drill of it; "" where there are none
	Besides     []choices // what it can be laid beside
	Moments     []example // at which it can be looked at
	Sweep       string    // address of the sweep; "" where there is none
	JSON        string
	AllOpen     string // address with every chain open
	Only        *onlyView
	Shows       string // what is shown, as an address has it, to stand behind the question
	Groups      []groupView
}

// sayingView is a sentence with where the rest of what it names stands.
type sayingView struct {
	ledger.Saying
	Rest string
}

// conduct says who acts, and what is otherwise with the other conduct.
type conduct struct {
	Says     []string
	Deceived []string // where what they saw led the crew astray
	Unheard  []string // whom they told something and did not reach
	HandsOff bool
	Slowly   bool
	Other    string // address of the same question with the other conduct
}

// otherwise is worked out once for each answer that is kept.
func (a *kept) otherwise(ctx context.Context, s *Site, q *question) (c conduct, err error) {
	a.once.Lock()
	defer a.once.Unlock()
	if a.other == nil {
		if a.other, err = q.shelf.desk.Otherwise(ctx, a.Answer); err != nil {
			return c, err
		}
	}
	c = conduct{Says: a.other.Says, Deceived: a.Deceived(), Unheard: a.Unheard(), HandsOff: q.Crew == scenario.Nobody, Slowly: q.Crew == scenario.Slowly}
	other := scenario.Nobody
	if c.HandsOff {
		other = ""
	}
	c.Other = "/?" + q.without("crew", other).Query()
	return c, nil
}

// groupView is a group of rows.
type groupView struct {
	ID, Title, None string
	Rows            []rowView
	Rest            []rowView // those that are folded away
	RestOpen        bool
}

// Count is how many rows the group has.
func (g groupView) Count() int { return len(g.Rows) + len(g.Rest) }

// A group that is not about a loss that matters shows no more than a few rows
// until it is asked for the rest: a dead bus makes a hundred lamps dark.
const (
	mostRows  = 9
	firstRows = 6
)

func (g *groupView) fold(open bool) {
	switch g.ID {
	case ledger.GroupDark, ledger.GroupIdle, ledger.GroupKept:
		if len(g.Rows) > mostRows {
			g.Rows, g.Rest, g.RestOpen = g.Rows[:firstRows], g.Rows[firstRows:], open
		}
	}
}

// rowView is one row.
type rowView struct {
	ledger.Row
	Anchor string
	Key    string // of the row in an address
	Page   string // address of the page with its chain open; "" in a fragment, which a script asked for
	Saves  string // of a loss: address of what saves it
	Chain  *whyView
	Shown  []ledger.RowSpan
	Hidden int // how many more stretches there are
}

// mostSpans is how many stretches of one row a page says.
const mostSpans = 4

// page answers GET /.
func (s *Site) page(r *http.Request) (reply, error) { return s.ask(r, "page") }

// fragment answers GET /answer: the parts of the page that change with the question.
func (s *Site) fragment(r *http.Request) (reply, error) { return s.ask(r, "fragment") }

func (s *Site) ask(r *http.Request, form string) (reply, error) {
	values := r.URL.Query()
	if len(values) == 0 && form == "page" && r.URL.Path == "/" {
		return s.front(r)
	}
	q := s.parse(values)
	q.unknown(values)
	p := s.questionPage(q, form)
	p.Address = q.address(r) + q.shows()
	if err := s.fill(r, q, p, form); err != nil {
		return reply{}, err
	}
	rep, err := s.frame.Page(form, p)
	if len(p.Problems) > 0 {
		rep.Status = http.StatusBadRequest
	}
	return rep, err
}

// fill puts the answer into a page, if there is one to give.
func (s *Site) fill(r *http.Request, q *question, p *questionPage, form string) error {
	if len(q.What) == 0 || q.fatal {
		return nil
	}
	a, err := q.shelf.kept.both(r.Context(), q.typed())
	if text, ours := theirs(err); ours {
		p.Problems = append(p.Problems, text)
		return nil
	}
	if err != nil {
		return err
	}
	p.Title = a.view.Heading
	p.Answer, err = s.answerView(r, q, a, form)
	return err
}

func (sh *shelf) title() string {
	b, _ := sh.desk.Book.Build("")
	return b.Aircraft.Title
}

func (s *Site) questionPage(q *question, form string) *questionPage {
	list := q.shelf.lists.of(q.build)
	p := &questionPage{
		Aircraft: q.shelf.title(), Caution: book.Caution, Query: q.Query(), At: q.At, Problems: q.Problems, Shows: carried(strings.TrimPrefix(q.shows(), "&")),
		Title: "What a failure takes away", Search: q.Search,
	}
	if q.named() {
		p.Book = q.shelf.id
	}
	for _, f := range q.What {
		p.Chosen = append(p.Chosen, q.chip("fail", f))
	}
	for _, f := range q.Out {
		p.Chosen = append(p.Chosen, q.chip("out", f))
	}
	for _, v := range q.shelf.desk.Book.Variants {
		p.Builds = append(p.Builds, option{v.ID, v.Title, v.ID == q.Build})
	}
	for _, f := range q.build.Flights {
		p.Flights = append(p.Flights, option{f.ID, f.Title, f.ID == q.Flight})
	}
	if f, err := q.build.FlightNamed(q.Flight); err == nil && strings.Contains(q.Flight, ",") { // something is supposed of it
		p.Flights = append(p.Flights, option{f.ID, f.Title, true})
	}
	p.More = more{When: q.When, Resettable: q.Resettable, Sets: q.Sets, Acts: q.Acts, Plan: q.Plan, HandsOff: q.Crew == scenario.Nobody, Slowly: q.Crew == scenario.Slowly}
	if q.ForS != 0 {
		p.More.For = strconv.FormatFloat(q.ForS, 'g', -1, 64)
	}
	if form == "page" {
		p.Chapters, p.Found = list.matching(q.Search)
		p.Examples = examples(q)
	}
	return p
}

func (q *question) chip(part, ref string) chip {
	return chip{part, ref, q.build.FailureTitle(ref), "/?" + q.without(part, ref).Query() + q.shows()}
}

// answerView puts an answer into the page's words and pictures.
func (s *Site) answerView(r *http.Request, q *question, a *kept, form string) (*answerView, error) {
	query, shows := q.Query(), q.shows()
	view := a.view.Only(q.Only)
	shown := shownOf(query, view)
	v := &answerView{
		Title: a.view.Heading, Setting: a.view.Setting, Summary: a.view.Found, Worth: a.view.Worth, NotModelled: a.view.NotModelled, Query: query,
		LineSVG: "/line.svg?" + query, Handout: "/handout?" + query, JSON: "/answer.json?" + query + onlyQuery(q.Only), AllOpen: "/?" + query + shows + "&why=" + openAll,
		Only: onlyOf(q, a.view, view), Shows: strings.TrimPrefix(shows, "&"),
	}
	_, v.Supposed, _ = strings.Cut(a.Course.Flight.Title, ", supposed ")
	v.Varied = places(query, a)
	v.Waves, v.MoreWaves = wavesOf(a.view, shown)
	v.Besides, v.Moments = besideChoices(q), momentsOf(q, a)
	if s.setting.Region != nil {
		v.Costs = "/costs?" + query
	}
	if s.setting.More["/drill/"] != nil {
		v.Drill = "/drill/?" + query
	}
	if s.setting.More["/sweep"] != nil {
		v.Sweep = "/sweep"
	}
	other, err := a.otherwise(r.Context(), s, q)
	if err != nil {
		return nil, err
	}
	v.Conduct = other
	v.opens(a.view, shown)
	if e := a.Here.Ending(); !e.Arrived() && e.How != run.NeverSettles {
		v.Saves = "/rescue?" + query + "&row=" + flightRow
	}
	line := lineOf(q.address(r), q, a)
	shown.lead(append(line.Groups, line.Told))
	v.draw(q, line)
	for _, g := range view.Groups {
		group := groupView{ID: g.ID, Title: g.Title, None: g.None}
		for _, row := range g.Rows {
			rv, err := s.rowView(r, q, a, g.ID, row)
			if err != nil {
				return nil, err
			}
			if form == "page" {
				rv.Page = "/?" + query + shows + "&why=" + rv.Key + "#" + rv.Anchor
			}
			if row.Mattered && strings.HasPrefix(rv.Key, "loss-") {
				rv.Saves = "/rescue?" + query + "&row=" + rv.Key
			}
			group.Rows = append(group.Rows, rv)
		}
		group.fold(slices.Contains(q.Open, openAll) || view.Shown != nil)
		v.Groups = append(v.Groups, group)
	}
	return v, nil
}

func lineOf(address string, q *question, a *kept) figure.Line {
	line := figure.LineOf(a.Ledger, a.view)
	line.ID, line.Title = "line", a.view.Heading
	if q.When == "" {
		line.MarkText = spoken(q.At)
	}
	line.Foot = []string{a.view.Setting, book.Caution, "The question: " + address}
	if a.view.Unanswered != "" {
		line.Foot = slices.Insert(line.Foot, 0, a.view.Unanswered)
	}
	if a.view.Landing != "" {
		line.Foot = slices.Insert(line.Foot, 0, a.view.Landing)
	}
	return line
}

// How many waves, and how many alerts, a folded figure has room for.
const (
	mostWide   = 7
	mostNarrow = 4
)

// draw puts the line in, folded unless a bar for each row was asked for.
func (v *answerView) draw(q *question, line figure.Line) {
	wide, folds := line.Folded(mostWide)
	narrow, _ := line.Folded(mostNarrow)
	if v.Folded = folds && !q.Unfolded; !v.Folded {
		wide, narrow = line, line
	}
	if folds {
		other := *q
		other.Unfolded = !q.Unfolded
		v.Unfold = "/?" + q.Query() + other.shows()
	}
	v.Wide, v.Narrow = template.HTML(wide.Wide()), template.HTML(narrow.Narrow())
}

// spoken says a moment as it is typed: "first_climb + 10 s" as "first climb + 10 s".
func spoken(at string) string {
	if at == "" {
		return "the start"
	}
	return strings.ReplaceAll(at, "_", " ")
}

// opens makes the sentences that the page opens with.
func (v *answerView) opens(view *ledger.View, shown shownRows) {
	v.Lead = strings.TrimSpace(strings.Join([]string{view.Forbidden, view.Came(), view.Silent, view.None()}, " "))
	for _, x := range view.Sayings() {
		said := sayingView{Saying: x}
		if x.Group != "" {
			said.Rest = shown.at("#group-" + x.Group)
		}
		v.Spoken = append(v.Spoken, said)
	}
}

// example is a question that the book itself asks: a claim of its.
type example struct {
	Says    string
	Address string
}

// examples lists the claims of a build that an address can ask, in the order
// of the book: those in which one set of failures comes at one moment.
func examples(q *question) []example {
	var list []example
	for _, c := range q.build.Claims {
		if len(c.Given) == 0 {
			continue
		}
		if t, ok := scenario.OfGiven(c.Given[0]); ok && len(t.Fail) == 1 {
			claimed := question{shelf: q.shelf, Strike: t.Fail[0], Out: t.Out, Build: t.Build, Flight: t.Flight, Crew: scenario.Nobody}
			list = append(list, example{c.Says, "/?" + claimed.Query()})
		}
	}
	return list
}

// json answers GET /answer.json: the ledger's view, with the question.
func (s *Site) json(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	return asJSON(struct {
		Question string `json:"question"`
		Ledger   any    `json:"ledger"`
	}{"/?" + q.Query() + onlyQuery(q.Only), a.view.Only(q.Only)})
}

// theirs tells whether an error is the question's fault, and says it.
func theirs(err error) (problem, bool) {
	var t *ask.Trouble
	if !errors.As(err, &t) {
		return problem{}, false
	}
	return problem{t.Part, t.Text}, true
}
