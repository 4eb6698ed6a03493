package swept

import (
	"context"
	"fmt"
	"math"
	"math/big"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/ways"
	"knockon/ways/logic"
	"knockon/ways/still"
)

// waysPage is the page of a function's smallest failure sets.
type waysPage struct {
	frame
	Functions               []functionGroup
	Builds, Flights, Orders []option
	In, Unit                string
	Phases                  []option
	Untold                  bool
	Answer                  *waysAnswer
}

// functionGroup is the functions of one chapter.
type functionGroup struct {
	Title   string
	Members []option
}

// waysAnswer is the sets, by how many failures they need.
type waysAnswer struct {
	Lead     string // what is lost, and when
	Complete string
	Groups   []waysGroup
	Chance   string
}

type waysGroup struct {
	Head string // "One of these alone"
	Of   string // how many there are, and how many are shown
	Sets []waysSet
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
	function string
	in, unit string
	untold   bool
}

// Limits of a page of ways.
const (
	mostSets   = 60
	waysLimit  = 40 * time.Second
	mostStills = 12
)

func (p *Pages) waysAsk(v url.Values) (a waysAsk, err error) {
	if a.asked, err = p.asked(without(v, "most", "phase", "layer")); err != nil {
		return a, err
	}
	if v.Get("order") == "" {
		a.order = 3
	}
	a.function, a.in, a.unit, a.untold = v.Get("function"), v.Get("in"), v.Get("unit"), v.Get("untold") == "yes"
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

func (a waysAsk) address(parts ...string) string {
	v := a.values()
	v.Set("function", a.function)
	for part, text := range map[string]string{"in": a.in, "unit": a.unit} {
		if text != "" {
			v.Set(part, text)
		}
	}
	if a.untold {
		v.Set("untold", "yes")
	}
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
	if a.function != "" {
		if page.Answer, err = p.waysAnswer(r.Context(), a); err != nil {
			return reply{}, err
		}
		page.Title = "The ways to lose " + title(a.build, a.function)
	}
	return reply{name: "swept-ways", data: page}, nil
}

func (p *Pages) waysPage(a waysAsk) *waysPage {
	page := &waysPage{frame: p.frame("The smallest ways to lose a function"), Builds: p.builds(a.build.Variant), Flights: flights(a.build, a.flight.ID), In: a.in, Unit: a.unit, Untold: a.untold}
	for n := 1; n <= 3; n++ {
		page.Orders = append(page.Orders, option{ID: strconv.Itoa(n), Chosen: n == a.order})
	}
	for _, f := range a.build.Phases {
		page.Phases = append(page.Phases, option{ID: f.ID, Title: f.Title, Chosen: f.ID == a.in})
	}
	groups := map[int]int{}
	functions := slices.Clone(a.build.Functions)
	slices.SortStableFunc(functions, func(x, y *book.Function) int { return x.Chapter - y.Chapter })
	for _, f := range functions {
		i, ok := groups[f.Chapter]
		if !ok {
			i = len(page.Functions)
			groups[f.Chapter] = i
			page.Functions = append(page.Functions, functionGroup{Title: "Chapter " + chapter(f.Chapter)})
		}
		page.Functions[i].Members = append(page.Functions[i].Members, option{ID: f.ID, Title: f.Title, Chosen: f.ID == a.function})
	}
	return page
}

func (p *Pages) waysAnswer(ctx context.Context, a waysAsk) (*waysAnswer, error) {
	ctx, cancel := context.WithTimeout(ctx, waysLimit)
	defer cancel()
	item, _ := a.build.Item(a.function)
	function, ok := item.(*book.Function)
	if !ok {
		var list []option
		for _, f := range a.build.Functions {
			list = append(list, option{ID: f.ID})
		}
		return nil, known("function", a.function, list)
	}
	held, err := p.stills.at(ctx, p.desk, a)
	if err != nil {
		return nil, err
	}
	held.mu.Lock()
	defer held.mu.Unlock()
	find, what := held.still.Lost, "is lost"
	if a.untold {
		find, what = held.still.Untold, "is lost and no alert tells of it"
	}
	top, err := find(a.function)
	if err != nil {
		return nil, &fault{err.Error()}
	}
	w, err := ways.Find(ctx, held.still.Logic, top, ways.Options{Order: a.order, Megabytes: 300})
	if err != nil {
		return nil, &fault{"Nothing was found in the time allowed: ask for fewer failures together."}
	}
	out := &waysAnswer{Lead: fmt.Sprintf("%s %s: at %s, with the aircraft held still there.", function.Title, what, held.moment), Complete: complete(w)}
	out.list(a, held.still.Logic, w)
	return out, nil
}

func complete(w *ways.Ways) string {
	switch {
	case w.Never:
		return "No set of failures brings it about."
	case w.Always:
		return "It is so whatever fails."
	case w.Why != nil:
		return fmt.Sprintf("Partial: complete up to %d failures together.", max(w.Complete, 0))
	case w.Complete == ways.AllOrders:
		return "There are no other smallest sets."
	}
	return fmt.Sprintf("Complete up to %d failures together; larger sets were not looked for.", w.Complete)
}

// heads of the groups, by order.
var heads = map[int]string{1: "Either one of these alone", 2: "or both of", 3: "or all three of"}

func (out *waysAnswer) list(a waysAsk, l *logic.Logic, w *ways.Ways) {
	likeliest := 0.0
	for order := 1; order <= w.Highest(); order++ {
		if w.Count(order).Sign() == 0 {
			continue
		}
		sets, all := w.List(order, 20000)
		shown := slices.DeleteFunc(sets, func(s ways.Set) bool { return !holds(w.Names(s), a.unit) })
		slices.SortStableFunc(shown, func(x, y ways.Set) int { return -compare(chance(l, x), chance(l, y)) })
		g := waysGroup{Head: heads[order], Of: counted(w.Count(order), len(shown), min(len(shown), mostSets), a.unit != "", all)}
		for _, s := range shown[:min(len(shown), mostSets)] {
			likeliest = max(likeliest, chance(l, s))
			g.Sets = append(g.Sets, a.set(l, w, s))
		}
		out.Groups = append(out.Groups, g)
	}
	for _, g := range out.Groups {
		for i := range g.Sets {
			g.Sets[i].Bar = bar(g.Sets[i].p, likeliest)
		}
	}
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// holds says that a failure of a unit is in a set.
func holds(names []string, unit string) bool {
	return unit == "" || slices.ContainsFunc(names, func(n string) bool { return n == unit || strings.HasPrefix(n, unit+".") })
}

func counted(count *big.Int, fit, shown int, filtered, all bool) string {
	text := count.String()
	if filtered {
		text = fmt.Sprintf("%d of %s", fit, count)
		if !all {
			text = fmt.Sprintf("%d of the first 20,000 of %s", fit, count)
		}
	}
	if shown < fit {
		text += fmt.Sprintf("; the first %d are shown", shown)
	}
	return text
}

func (a waysAsk) set(l *logic.Logic, w *ways.Ways, s ways.Set) (out waysSet) {
	q := url.Values{}
	for _, name := range w.Names(s) {
		q.Add("fail", name)
		unit, fault, _ := strings.Cut(name, ".")
		text := title(a.build, unit)
		if fault != "" {
			text += ": " + strings.ReplaceAll(fault, "_", " ")
		}
		out.Members = append(out.Members, option{ID: name, Title: text, To: a.address("unit", unit)})
	}
	q.Set("at", a.in)
	if a.in == "" {
		q.Del("at")
	}
	q.Set("build", a.build.Variant)
	q.Set("flight", a.flight.ID)
	out.To = "/?" + q.Encode()
	if p := chance(l, s); p > 0 {
		out.p, out.Chance = p, fmt.Sprintf("%.1e", p)
	}
	return out
}

// chance is how likely it is that all of a set fail on one flight; 0 where the
// book gives no rate of a member.
func chance(l *logic.Logic, s ways.Set) float64 {
	p := 1.0
	for _, e := range s {
		one := l.Events()[e].P
		if math.IsNaN(one) {
			return 0
		}
		p *= one
	}
	return p
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

type stillKey struct{ build, flight, in string }

// heldStill grows while it is asked, so one question at a time.
type heldStill struct {
	mu     sync.Mutex
	still  *still.Still
	moment string
}

func newStills() *stills { return &stills{all: map[stillKey]*heldStill{}} }

// at holds the aircraft still at the middle of a phase, or at any moment.
func (s *stills) at(ctx context.Context, desk *ask.Desk, a waysAsk) (*heldStill, error) {
	key := stillKey{a.build.Variant, a.flight.ID, a.in}
	s.mu.Lock()
	defer s.mu.Unlock()
	if had, ok := s.all[key]; ok {
		return had, nil
	}
	answer, err := desk.Answer(ctx, ask.Question{Build: a.build.Variant, Flight: a.flight.ID})
	if err != nil {
		return nil, err
	}
	phase := a.in
	if phase == "" {
		phase = answer.There.PhaseAt(answer.There.End / 2)
	}
	at, err := still.Middle(answer.There.Trace, phase)
	if err != nil {
		m, problem := book.ParseMoment(a.in, a.build)
		if problem != nil {
			return nil, &fault{problem.Error()}
		}
		if at, err = answer.Course.Resolve(ctx, m); err != nil {
			return nil, &fault{err.Error()}
		}
	}
	one, err := still.Of(answer.There.Trace, at)
	if err != nil {
		return nil, &fault{err.Error()}
	}
	seconds := int(at / book.Second)
	held := &heldStill{still: one, moment: fmt.Sprintf("%d:%02d (%s)", seconds/60, seconds%60, title(a.build, answer.There.PhaseAt(at)))}
	if len(s.order) >= mostStills {
		delete(s.all, s.order[0])
		s.order = s.order[1:]
	}
	s.all[key], s.order = held, append(s.order, key)
	return held, nil
}
