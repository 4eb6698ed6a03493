package assess

import (
	"cmp"
	"context"
	"math"
	"slices"

	"knockon/ask"
	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
	"knockon/sweep"
)

// ByBook is what becomes of a grave loss that single failures reach hands off and the
// crew by the book prevent: the pairs of such a failure with one more that take it
// all the same, and how likely it then is.
type ByBook struct {
	PerH    float64 // of all sets that take it with the crew, those not flown among them
	Verdict Verdict
	Cleared []Cut    // single failures that the crew clear
	Pairs   []Cut    // with one more, lost with the crew; the likeliest first
	Flown   int      // pairs that were flown
	Left    int      // pairs that meet the crew's means and were not, the less likely ones,
	LeftH   float64  // together at most so likely per hour of flight
	Unrated int      // failures without a rate that meet them, and were not flown
	Dark    int      // of those left, so many have a latent member
	Latents []Latent // of a catastrophic loss: 25.1309(b)(5) of the pairs that take it with the crew, or count so
	Sets    int      // larger sets, smallest hands off, that were not flown and count as lost,
	SetsH   float64  // together so likely
	dark    []uint64 // those left with a latent member, as they were counted
}

// FlyPairs looks for them: for each single failure that the crew clear, so many of
// the failures that meet what the crew then move, read and are called by, the
// likeliest first, are flown with it. It comes after Fly.
func (a *Assessment) FlyPairs(ctx context.Context, desk *ask.Desk, course *run.Course, most, workers int, told func(done, of int)) error {
	cleared := a.cleared()
	if len(cleared) == 0 {
		return nil
	}
	m, err := a.meetings(ctx, desk, course, cleared, workers)
	if err != nil {
		return err
	}
	x, t := newExposure(a.Hours, a.Parts), &todo{flown: map[flight]*Crewed{}}
	for i := range a.Losses {
		a.pairsOf(&a.Losses[i], x, m, most, t)
	}
	err = run.Many(ctx, len(t.order), workers, told, func(ctx context.Context, i int) error {
		return a.fly(ctx, desk, course, a.strike(t.order[i]), t.flown[t.order[i]])
	})
	if err != nil {
		return err
	}
	for i := range a.Losses {
		a.Losses[i].weigh(a)
		a.crewLatents(x, &a.Losses[i])
	}
	return nil
}

// todo is the flights that are needed, each once.
type todo struct {
	flown map[flight]*Crewed
	order []flight
}

func (t *todo) fly(set sweep.Set, phase int) *Crewed {
	f := flight{set.Key(), phase}
	if t.flown[f] == nil {
		t.flown[f], t.order = &Crewed{Phase: phase}, append(t.order, f)
	}
	return t.flown[f]
}

// pairsOf lists what is to be flown of a loss that the crew clear of a single failure:
// its pairs, and of the larger sets that take it hands off the likeliest, so many as
// of one failure the pairs.
func (a *Assessment) pairsOf(l *Loss, x *exposure, m meetings, most int, t *todo) {
	cleared := l.cleared()
	if len(cleared) == 0 {
		return
	}
	l.ByBook = &ByBook{Cleared: cleared}
	for _, c := range cleared {
		for _, p := range a.partners(x, l, c, m, most) {
			p.Crewed = t.fly(p.Set, c.Crewed.Phase)
			l.ByBook.Pairs = append(l.ByBook.Pairs, p)
		}
	}
	l.ByBook.countDark()
	for i, left := 0, most; i < len(l.Sets) && left > 0; i++ {
		if c := &l.Sets[i]; c.Crewed == nil && c.Rated() {
			c.Crewed, left = t.fly(c.Set, a.likeliest(*c)), left-1
		}
	}
}

// countDark counts the pairs with a latent member that were left, each once: one of
// two cleared failures may be flown, or left, for both.
func (b *ByBook) countDark() {
	left := map[uint64]bool{}
	for _, key := range b.dark {
		left[key] = true
	}
	for _, p := range b.Pairs {
		delete(left, p.Set.Key())
	}
	b.Dark = len(left)
}

// cleared are the single failures that reach a grave loss hands off and were flown
// with a crew who prevent it.
func (l *Loss) cleared() (list []Cut) {
	for _, c := range l.Singles() {
		if l.grave() && c.Crewed != nil && !c.Crewed.Lost(l) && c.Crewed.Ended == "" {
			list = append(list, c)
		}
	}
	return list
}

// cleared are the flights of all of them, each once.
func (a *Assessment) cleared() (list []flight) {
	for i := range a.Losses {
		for _, c := range a.Losses[i].cleared() {
			if f := (flight{c.Set.Key(), c.Crewed.Phase}); !slices.Contains(list, f) {
				list = append(list, f)
			}
		}
	}
	return list
}

// partners are the failures that meet what the crew do about a cleared one, each with
// it as a set: so many, the likeliest first. What is left is counted.
func (a *Assessment) partners(x *exposure, l *Loss, c Cut, m meetings, most int) (list []Cut) {
	meets := m[flight{c.Set.Key(), c.Crewed.Phase}]
	for n := range a.Parts {
		set := sweep.Set{min(n, c.Set[0]), max(n, c.Set[0])}
		known := func(k Cut) bool {
			return slices.Equal(k.Set, set) || len(k.Set) == 1 && k.Set[0] == n && (k.Crewed == nil || k.Crewed.Lost(l))
		}
		if n == c.Set[0] || !meets[n] || slices.ContainsFunc(l.Sets, known) || slices.ContainsFunc(l.ByBook.Pairs, known) {
			continue
		}
		p := Cut{Set: set, Phases: c.Phases}
		if a.rate(x, &p); !p.Rated() {
			l.ByBook.Unrated++
			continue
		}
		list = append(list, p)
	}
	slices.SortStableFunc(list, func(p, q Cut) int { return -cmp.Compare(p.PerH, q.PerH) })
	for _, p := range list[min(most, len(list)):] {
		l.ByBook.Left++
		l.ByBook.LeftH += p.PerH
		if a.hasLatent(p.Set) {
			l.ByBook.dark = append(l.ByBook.dark, p.Set.Key())
		}
	}
	return list[:min(most, len(list))]
}

// weigh keeps of the pairs that were flown those that take the loss, and adds up.
func (l *Loss) weigh(a *Assessment) {
	b := l.ByBook
	if b == nil {
		return
	}
	b.Flown = len(b.Pairs)
	b.Pairs = slices.DeleteFunc(b.Pairs, func(p Cut) bool { return !p.counts(l) })
	slices.SortStableFunc(b.Pairs, func(p, q Cut) int { return -cmp.Compare(p.PerH, q.PerH) })
	alone := false
	for _, c := range l.Sets {
		if c.Rated() && c.counts(l) {
			b.PerH += c.PerH
			alone = alone || len(c.Set) == 1
			if c.Crewed == nil {
				b.Sets, b.SetsH = b.Sets+1, b.SetsH+c.PerH
			}
		}
	}
	for _, p := range b.Pairs {
		b.PerH += p.PerH
	}
	whole := a.whole(*l) && b.Unrated == 0 && b.PerH+b.LeftH <= math.Max(b.PerH, l.Objective.PerH)
	b.Verdict = l.judge(b.PerH, alone, whole)
}

// meetings are, by the flight of a cleared failure, the failures that meet what the
// crew do about it.
type meetings map[flight][]bool

func (a *Assessment) meetings(ctx context.Context, desk *ask.Desk, course *run.Course, cleared []flight, workers int) (meetings, error) {
	s, err := sweep.On(ctx, course, sweep.Setting{Workers: workers})
	if err != nil {
		return nil, err
	}
	m, reaches := meetings{}, map[int][]sweep.Reach{}
	for _, f := range cleared {
		if reaches[f.phase] == nil {
			if reaches[f.phase], err = s.Reaches(ctx, f.phase); err != nil {
				return nil, err
			}
		}
		answer, err := desk.Fly(ctx, course, ask.Question{}, run.Scenario{Strikes: []run.Strike{a.strike(f)}})
		if err != nil {
			return nil, err
		}
		means, behind := meansOf(s, answer)
		for n, r := range reaches[f.phase] {
			m[f] = append(m[f], means.Meets(r) || slices.ContainsFunc(s.Ways(n), func(w circuit.Node) bool { return behind[w] }))
		}
	}
	return m, nil
}

// meansOf is all that reads something which is not as without the failure while the
// crew act on it, and what they look at: the alerts that call their lists, and what
// the lines of these ask for. Behind is all that what they look at hangs on, where no
// ledger reads it, so that the sweep does not follow it.
func meansOf(s *sweep.Sweep, a *ask.Answer) (r sweep.Reach, behind []bool) {
	c := a.Here.Circuit()
	var changed []circuit.Node
	for i := range c.Size() {
		n := circuit.Node(i)
		if a.Here.Steady(n) && (a.Here.Initial(n) != a.There.Initial(n) || !slices.Equal(a.Here.History(n), a.There.History(n))) {
			changed = append(changed, n)
		}
	}
	r = s.ReadersOf(changed)
	var loose []circuit.Node
	for id := range looked(a.Crew) {
		for _, aspect := range []circuit.Aspect{circuit.Main, circuit.Lit, circuit.Possible, circuit.HeldBack} {
			if n, ok := c.Node(circuit.Value{Item: id, Aspect: aspect}); ok {
				if r.Add(n); !s.Follows(n) {
					loose = append(loose, n)
				}
			}
		}
	}
	return r, c.Behind(loose...)
}

// looked are the ids of what the crew were called by, and of what the lines of the
// lists that they began ask for.
func looked(p *crew.Plan) map[string]bool {
	ids := map[string]bool{}
	if p == nil {
		return ids
	}
	note := func(e *book.Expr) {
		e.Walk(func(e *book.Expr) { ids[e.ID] = true })
	}
	for _, call := range p.Calls {
		ids[call.Alert.ID] = true
	}
	for _, l := range p.Lines {
		if l.Procedure == nil {
			continue
		}
		book.WalkSteps(l.Procedure.Steps, func(s *book.Step, _ string) {
			for _, e := range []*book.Expr{s.That, s.When, s.If, s.WaitFor} {
				note(e)
			}
		})
	}
	delete(ids, "")
	return ids
}
