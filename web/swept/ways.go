package swept

import (
	"context"
	"errors"
	"fmt"
	"math"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"sync"

	"knockon/ask"
	"knockon/book"
	"knockon/say"
	"knockon/ways"
	"knockon/ways/sets"
	"knockon/web/frame"
)

// waysPage is the page of the smallest failure sets of a condition.
type waysPage struct {
	common
	Functions, Also         []functionGroup
	Builds, Flights, Orders []option
	Told                    []option
	In, Unit, When, Out     string
	Phases                  []option
	Hidden                  []option
	Begin                   string // what is said beside the button that begins the search; "": none is offered
	Working                 string
	Answer                  *waysAnswer
	Away                    *awayAnswer
}

// functionGroup is the functions of one chapter.
type functionGroup struct {
	Title   string
	Members []option
}

// waysAnswer is the sets, by how many failures they need.
type waysAnswer struct {
	Lead    string   // what is lost, and when
	Says    []string // what is known of it held still, and what is not
	Groups  []waysGroup
	Flown   []string // how it was flown on, and up to where
	Later   []waysGroup
	Skipped []string // what the flight does not bring about, or does not tell
	Risk    *riskTable
	NoRisk  string
}

type waysGroup struct {
	Head string // "One of these alone"
	Of   string // how many there are, and how many are shown
	Sets []waysSet
}

// riskTable is how likely the condition is and which failures matter.
type riskTable struct {
	Says, P, Bounds string
	Rows            []riskRow
}

type riskRow struct {
	Failure                                              option
	Bar                                                  int
	P, Birnbaum, Criticality, Diagnostic, Achieved, Less string
}

// awayAnswer is what a deferral leaves one failure away.
type awayAnswer struct {
	Lead, Broken string
	Groups       []awayGroup
}

type awayGroup struct {
	Head string
	Rows []awayRow
}

type awayRow struct {
	Title string
	To    string   // its page of ways
	Lost  string   // that it is lost with nothing more failed
	By    []option // To: the answer page
}

type waysSet struct {
	Members []option // To: the page of sets that hold this one
	To      string   // of the answer page
	Chance  string   // per flight
	Bar     int      // in percent: the likeliest set has all, a tenth of its chance is a tenth less
	p       float64
}

// waysAsk is what an address asks.
type waysAsk struct {
	asked
	sought ask.Sought
	unit   string
}

// Limits of a page of ways.
const (
	mostSets   = 60
	mostRisks  = 10
	mostStills = 12
	mostWords  = 400 // characters of a condition or of a list of units
)

func (p *Pages) waysAsk(v url.Values) (a waysAsk, err error) {
	if a.asked, err = p.asked(without(v, "most", "phase", "layer", "order")); err != nil {
		return a, err
	}
	if a.order, err = whole(v, "order", boundOrder, 0, mostOrder); err != nil {
		return a, err
	}
	if len(v.Get("when")) > mostWords || len(v.Get("out")) > mostWords {
		return a, frame.Wrong("A condition and a list of units have at most %d characters.", mostWords)
	}
	a.unit = v.Get("unit")
	a.sought = ask.Sought{Told: v.Get("told"), When: v.Get("when"), In: v.Get("in"), Build: a.build.Variant, Flight: a.flight.ID}
	for _, part := range []string{"function", "also"} {
		if id := v.Get(part); id != "" && !slices.Contains(a.sought.Functions, id) {
			a.sought.Functions = append(a.sought.Functions, id)
		}
	}
	a.sought.Out = append(a.sought.Out, strings.FieldsFunc(v.Get("out"), func(r rune) bool { return r == ',' || r == ' ' })...)
	return a, nil
}

func without(v url.Values, parts ...string) url.Values {
	w := url.Values{}
	for part, texts := range v {
		if !slices.Contains(parts, part) {
			w[part] = texts
		}
	}
	return w
}

// allValues is the address that asks the same.
func (a waysAsk) allValues() url.Values {
	v := a.values()
	for i, id := range a.sought.Functions {
		v.Set([]string{"function", "also"}[i], id)
	}
	for part, text := range map[string]string{"in": a.sought.In, "unit": a.unit, "told": a.sought.Told, "when": a.sought.When, "out": strings.Join(a.sought.Out, ",")} {
		if text != "" {
			v.Set(part, text)
		}
	}
	return v
}

func (a waysAsk) address(parts ...string) string {
	v := a.allValues()
	for i := 0; i < len(parts); i += 2 {
		v.Set(parts[i], parts[i+1])
		if parts[i+1] == "" {
			v.Del(parts[i])
		}
	}
	return "/ways?" + v.Encode()
}

func (p *Pages) ways(r *http.Request) (reply, error) {
	a, err := p.waysAsk(r.URL.Query())
	if err != nil {
		return reply{}, err
	}
	page := p.waysPage(a)
	switch q := a.sought; {
	case len(q.Functions) > 0 || q.When != "":
		page.Title = a.title()
		if a.begun() {
			err = p.searched(r, page, a)
		} else {
			err = p.quick.Do(r.Context(), func(ctx context.Context) (err error) {
				page.Answer, err = p.waysAnswer(ctx, a)
				return err
			})
		}
	case len(q.Out) > 0:
		page.Title = "What a deferral leaves one failure away"
		err = p.quick.Do(r.Context(), func(ctx context.Context) (err error) {
			page.Away, err = p.awayAnswer(ctx, a)
			return err
		})
	}
	if err != nil {
		return reply{}, err
	}
	return p.frame.Page("swept-ways", page)
}

func (a waysAsk) title() string {
	if len(a.sought.Functions) == 0 {
		return "The ways to a condition"
	}
	var titles []string
	for _, id := range a.sought.Functions {
		titles = append(titles, a.build.Title(id))
	}
	return "The ways to lose " + say.And(titles)
}

func (p *Pages) waysPage(a waysAsk) *waysPage {
	q := a.sought
	page := &waysPage{common: p.common("The smallest ways to lose a function"), Builds: p.builds(a.build.Variant), Flights: flights(a.build, a.flight.ID),
		In: q.In, Unit: a.unit, When: q.When, Out: strings.Join(q.Out, ", ")}
	page.Orders = waysOrders(a.order)
	for _, f := range a.build.Phases {
		page.Phases = append(page.Phases, option{ID: f.ID, Title: f.Title, Chosen: f.ID == q.In})
	}
	for _, o := range []option{{ID: "", Title: "told in any way, or not"}, {ID: string(sets.Untold), Title: "and no alert tells of it"}, {ID: string(sets.Wrong), Title: "and what shows it shows wrong"}} {
		o.Chosen = o.ID == q.Told
		page.Told = append(page.Told, o)
	}
	first, second := "", ""
	switch len(q.Functions) {
	case 2:
		second = q.Functions[1]
		fallthrough
	case 1:
		first = q.Functions[0]
	}
	page.Functions, page.Also = byChapter(a.build, first), byChapter(a.build, second)
	return page
}

// byChapter lists the functions of a build.
func byChapter(b *book.Build, chosen string) (list []functionGroup) {
	groups := map[int]int{}
	functions := slices.Clone(b.Functions)
	slices.SortStableFunc(functions, func(x, y *book.Function) int { return x.Chapter - y.Chapter })
	for _, f := range functions {
		i, ok := groups[f.Chapter]
		if !ok {
			i = len(list)
			groups[f.Chapter] = i
			list = append(list, functionGroup{Title: "Chapter " + chapter(f.Chapter)})
		}
		list[i].Members = append(list[i].Members, option{ID: f.ID, Title: f.Title, Chosen: f.ID == chosen})
	}
	return list
}

func (p *Pages) waysAnswer(ctx context.Context, a waysAsk) (*waysAnswer, error) {
	c, err := a.sought.Condition(a.build)
	if err != nil {
		return nil, err
	}
	held, err := p.hold(ctx, a)
	if err != nil {
		return nil, err
	}
	defer held.leave()
	c.When = held.Condition.When // the one that the run observed
	r, err := held.Ways(ctx, c, sets.Ask{Options: ways.Options{Order: a.order, Megabytes: waysMegabytes}, Most: mostSorted, Rows: mostRisks})
	switch {
	case errors.Is(err, ways.ErrMemory):
		return nil, err
	case ctx.Err() != nil:
		return nil, ctx.Err()
	case err != nil:
		return nil, frame.Wrong("%s", err.Error())
	}
	out := &waysAnswer{Lead: r.Words + ".", Says: said(append([]string{r.Means, r.Verdict, r.Complete}, r.NotAnswered...)...), NoRisk: r.NoRisk}
	if r.Never {
		out.NoRisk, r.Risk = "", nil
	}
	out.Groups = a.groups(r.Orders)
	if f := r.Flown; f != nil {
		out.Flown, out.Later, out.Skipped = said(f.Says), a.groups(f.Orders), said(f.NotOnFlight(), f.Broken)
	}
	if r.Risk != nil {
		out.Risk = a.riskTable(r.Risk)
	}
	return out, nil
}

// said leaves out what is not said.
func said(lines ...string) []string {
	return slices.DeleteFunc(lines, func(s string) bool { return s == "" })
}

// mostSorted is how many sets of an order are looked through for a unit.
const mostSorted = 20000

// heads of the groups, by order: of the first that is there, and of one after it.
var (
	heads     = map[int]string{1: "Either one of these alone", 2: "Both of", 3: "All three of"}
	moreHeads = map[int]string{2: "or both of", 3: "or all three of"}
)

// headOf is the head of a group of sets of so many.
func headOf(size int, first bool) string {
	known, otherwise := moreHeads, "or all %d of"
	if first {
		known, otherwise = heads, "All %d of"
	}
	if text, ok := known[size]; ok {
		return text
	}
	return fmt.Sprintf(otherwise, size)
}

// groups lists sets by how many failures they need, those with the unit that was
// asked for.
func (a waysAsk) groups(orders []sets.Order) (groups []waysGroup) {
	likeliest := 0.0
	for _, o := range orders {
		fit := slices.DeleteFunc(slices.Clone(o.Sets), func(s sets.Set) bool { return !holds(s.Names, a.unit) })
		g := waysGroup{Head: headOf(o.Size, len(groups) == 0), Of: counted(o, len(fit), min(len(fit), mostSets), a.unit != "")}
		if len(groups) == 0 && o.Size == 1 && len(fit) == 1 {
			g.Head = "This one alone"
		}
		for _, s := range fit[:min(len(fit), mostSets)] {
			if s.P > likeliest {
				likeliest = s.P
			}
			g.Sets = append(g.Sets, a.set(s))
		}
		groups = append(groups, g)
	}
	for _, g := range groups {
		for i := range g.Sets {
			g.Sets[i].Bar = bar(g.Sets[i].p, likeliest)
		}
	}
	return groups
}

// holds says that a failure of a unit is in a set.
func holds(names []string, unit string) bool {
	return unit == "" || slices.ContainsFunc(names, func(n string) bool { return n == unit || strings.HasPrefix(n, unit+".") })
}

func counted(o sets.Order, fit, shown int, filtered bool) string {
	text := o.Count.String()
	if filtered {
		text = fmt.Sprintf("%d of %s", fit, o.Count)
		if !o.All {
			text = fmt.Sprintf("%d of %d looked through, of %s", fit, len(o.Sets), o.Count)
		}
	}
	if shown < fit {
		text += fmt.Sprintf("; the likeliest %d are shown", shown)
	}
	return text
}

func (a waysAsk) set(s sets.Set) (out waysSet) {
	for _, name := range s.Names {
		unit, _, _ := strings.Cut(name, ".")
		out.Members = append(out.Members, option{ID: name, Title: a.build.FailureTitle(name), To: a.address("unit", unit)})
	}
	out.To = a.question(s.Names...)
	if s.P > 0 {
		out.p, out.Chance = s.P, small(s.P)
	}
	return out
}

// question is the answer page of failures that come at the moment that is held.
func (a waysAsk) question(fail ...string) string {
	q := url.Values{"build": {a.build.Variant}, "flight": {a.flight.ID}, "fail": fail, "crew": {"none"}}
	if a.sought.In != "" {
		q.Set("at", a.sought.In)
	}
	if len(a.sought.Out) > 0 {
		q["out"] = a.sought.Out
	}
	return "/?" + q.Encode()
}

func (a waysAsk) riskTable(r *sets.Risk) *riskTable {
	t := &riskTable{Says: r.Says, P: small(r.P)}
	if b := r.Bounds; b != nil {
		t.Bounds = fmt.Sprintf("The likeliest set alone has %s, all sets together %s at most.", small(b.Largest), small(b.Sum))
	}
	for _, x := range r.Rows {
		unit, _, _ := strings.Cut(x.Name, ".")
		t.Rows = append(t.Rows, riskRow{Failure: option{ID: x.Name, Title: a.build.FailureTitle(x.Name), To: a.address("unit", unit)},
			Bar: int(math.Round(100 * min(1, max(0, float64(x.Criticality))))), P: small(x.P), Birnbaum: small(x.Birnbaum),
			Criticality: share(float64(x.Criticality)), Diagnostic: share(float64(x.Diagnostic)), Achieved: ratio("×", float64(x.RiskAchievement)), Less: ratio("÷", float64(x.RiskReduction))})
	}
	return t
}

// small writes a small number as a book does: 8.7 × 10⁻⁶.
func small(x float64) string {
	digits, power, ok := strings.Cut(fmt.Sprintf("%.1e", x), "e")
	n, err := strconv.Atoi(power)
	if !ok || err != nil || n > -3 && n < 3 {
		return fmt.Sprintf("%.2g", x)
	}
	raised := strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")
	return digits + " × 10" + raised.Replace(strconv.Itoa(n))
}

func share(x float64) string { return fmt.Sprintf("%.2g %%", 100*x) }

func ratio(sign string, x float64) string {
	switch {
	case math.IsInf(x, 0):
		return "none is left"
	case math.IsNaN(x):
		return "-"
	}
	return sign + " " + rounded(x)
}

// rounded writes a number with three places that count, and commas.
func rounded(x float64) string {
	if x < 1000 {
		return fmt.Sprintf("%.3g", x)
	}
	step := math.Pow(10, math.Floor(math.Log10(x))-2)
	text := fmt.Sprintf("%.0f", math.Round(x/step)*step)
	for i := len(text) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}

// awayAnswer says what the inoperative units of an address leave one failure away.
func (p *Pages) awayAnswer(ctx context.Context, a waysAsk) (*awayAnswer, error) {
	x, err := p.desk.Dispatch(ctx, a.sought)
	if err != nil {
		return nil, err
	}
	out := &awayAnswer{Lead: x.Lead(), Broken: x.BrokenOff()}
	for _, away := range x.Away {
		if n := len(out.Groups); n == 0 || out.Groups[n-1].Head != away.Head() {
			out.Groups = append(out.Groups, awayGroup{Head: away.Head()})
		}
		g := &out.Groups[len(out.Groups)-1]
		row := awayRow{Title: away.Function.Title, Lost: away.Already(), To: a.address("function", away.Function.ID)}
		for _, f := range away.By {
			row.By = append(row.By, option{ID: f, Title: a.build.FailureTitle(f), To: a.question(f)})
		}
		g.Rows = append(g.Rows, row)
	}
	return out, nil
}

// bar is how long the bar of a chance is.
func bar(p, likeliest float64) int {
	if p <= 0 {
		return 0
	}
	return max(3, int(math.Round(100+10*math.Log10(p/likeliest))))
}

// stills are aircraft held still, kept by moment.
type stills struct {
	mu    sync.Mutex
	all   map[stillKey]*heldStill
	order []stillKey
}

type stillKey struct{ build, flight, in, out, when string }

// heldStill grows while it is asked, so one question at a time.
type heldStill struct {
	turn chan struct{}
	*ask.Standing
}

func (h *heldStill) leave() { <-h.turn }

// hold gives the aircraft held still, with the turn to ask it. A search that may
// take minutes has one of its own, so that nobody waits for it.
func (p *Pages) hold(ctx context.Context, a waysAsk) (h *heldStill, err error) {
	if a.begun() {
		h, err = newStill(ctx, p.desk, a.sought)
	} else {
		h, err = p.stills.at(ctx, p.desk, a.sought)
	}
	if err != nil {
		return nil, err
	}
	select {
	case h.turn <- struct{}{}:
		return h, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

func newStill(ctx context.Context, desk *ask.Desk, q ask.Sought) (*heldStill, error) {
	s, err := desk.Stand(ctx, q)
	return &heldStill{make(chan struct{}, 1), s}, err
}

func newStills() *stills { return &stills{all: map[stillKey]*heldStill{}} }

// at holds the aircraft still at the moment of a question.
func (s *stills) at(ctx context.Context, desk *ask.Desk, q ask.Sought) (*heldStill, error) {
	key := stillKey{q.Build, q.Flight, q.In, strings.Join(q.Out, ","), q.When}
	s.mu.Lock()
	defer s.mu.Unlock()
	if had, ok := s.all[key]; ok {
		return had, nil
	}
	held, err := newStill(ctx, desk, q)
	if err != nil {
		return nil, err
	}
	if len(s.order) >= mostStills {
		delete(s.all, s.order[0])
		s.order = s.order[1:]
	}
	s.all[key], s.order = held, append(s.order, key)
	return held, nil
}
