package rescue

import (
	"cmp"
	"context"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
	"knockon/span"
)

// outcome is what came of moves that were made at a moment.
type outcome struct {
	kind    Kind
	arrives bool
	whole   bool // flown to the end; else only until it was clear that nothing comes of it
	bites   span.Set
	first   book.Time // when the function first bites from the moves on; Never

	costs   []Cost  // of what was flown to the end, among the functions that were looked at
	traces  []trace // and what became of these
	dear    bool    // a cost is as severe as the function, or more
	weighed bool    // that is known

	doubt   *verdict // who else could help; nil: nobody asked
	stopped book.Time
	clear   bool    // no rescue can come of it, whatever comes later
	broke   bool    // the flight broke off, and not since a loop never settled
	lost    bool    // stopped since nothing but more moves brings the function back
	nobody  bool    // nobody could make them all: they were not made
	own     bool    // the function itself had another value at some point, or the flight was another
	flight  bool    // it is the flight that is asked for
	apart   bool    // the flight is another
	leftNM  float64 // of the way where it broke off
	reach   bits
}

// rescues says that the flight arrives and the loss is prevented or ended.
func (o *outcome) rescues() bool { return o.arrives && o.kind != Fails }

// loose says of moves that are no rescue that counts, that more moves may make
// one of them although they do not meet: the flight, or the cost, was in the way, or
// the flight broke off before it was clear; or nobody could make them.
func (o *outcome) loose() bool {
	return o.nobody || o.whole && (o.kind != Fails || !o.arrives && !o.clear)
}

// flip is a new value of a yes/no.
type flip struct {
	at book.Time
	to bool
}

// history is the values of one function from the moves on.
type history struct{ works, wanted []flip }

func (h *history) add(wanted bool, f flip) {
	if wanted {
		h.wanted = append(h.wanted, f)
	} else {
		h.works = append(h.works, f)
	}
}

// continued gives the stretches of a yes/no that was as in list up to t.
func continued(list []circuit.Span, t book.Time, flips []flip, end book.Time) (all []circuit.Span) {
	on, since := false, book.Time(0)
	for _, s := range list {
		switch {
		case s.From >= t:
		case s.To >= t:
			on, since = true, s.From
		default:
			all = append(all, s)
		}
	}
	for _, f := range flips {
		switch {
		case f.to && !on:
			on, since = true, f.at
		case !f.to && on:
			on = false
			all = append(all, circuit.Span{From: since, To: f.at})
		}
	}
	if on {
		all = append(all, circuit.Span{From: since, To: end})
	}
	return all
}

// attempt is moves being flown.
type attempt struct {
	w      *wood
	g      *grove
	stem   *stem
	here   *run.Branch
	there  *run.Walk // nil while the flight is the one without moves, or nobody asks
	turned bool      // the flight is another
	now    []history // of the functions that are looked at
	other  []history // there, if it is another
	reader *reader   // nil: nobody asks what the moves meet others in
	until  book.Time // the end of the last bite without moves
	made   book.Time // when the last of the moves is
	gone   book.Time // when first nobody can move a control any more; Never
	steps  int
	clear  bool // that no rescue comes of it

	suspect []bool // functions of which it is to be looked whether they are a price
	dear    bool   // the price is too high

	ask   int  // so many steps from the beginning on it is asked whether it is lost for good
	lost  bool // it is
	lanes [][]int
	doubt *doubt
}

// how moves are flown.
type how struct {
	whole bool    // to the end; else until it is clear that they are no rescue
	read  bool    // what they change is noted
	lanes [][]int // sets of further controls of which is asked whether they could help
	doubt *doubt  // how that begins at the moment; nil: nobody asks
}

// try flies moves made at a moment.
func (g *grove) try(ctx context.Context, w *wood, at book.Time, set Set, how how) (*outcome, error) {
	s, err := w.stem(ctx, at)
	if err != nil {
		return nil, err
	}
	a := g.begin(w, s, how)
	if err := a.move(set); err != nil {
		return nil, err
	}
	if err := a.fly(ctx, how.whole, book.Never); err != nil {
		return nil, err
	}
	defer a.giveBack()
	return a.outcome(set), nil
}

// begin parts a run from a stem, in which nothing has been moved yet.
func (g *grove) begin(w *wood, s *stem, how how) *attempt {
	a := &attempt{g: g, w: w, stem: s, here: s.here.PartInto(w.spare()), now: make([]history, len(w.looked)), suspect: make([]bool, len(w.looked)), until: last(g.loss), gone: book.Never}
	a.count()
	if how.read {
		a.here.Sign()
		a.reader = newReader(g.diary, g.web.size, s.at)
	}
	if how.doubt != nil {
		a.lanes, a.doubt = how.lanes, how.doubt.along(a.here, g.over(how.doubt))
	}
	return a
}

// move has moves made that lie ahead.
func (a *attempt) move(set Set) error {
	for _, m := range set.actions(a.stem.at, a.stem.stood) {
		move := a.here.Move
		if m.Held {
			move = a.here.Hold
		}
		if err := move(m.Control, m.Position, m.At.Offset); err != nil {
			return err
		}
		a.made = m.At.Offset
	}
	return nil
}

// giveBack leaves the room of an attempt that is over to the next one.
func (a *attempt) giveBack() {
	a.w.room.Put(a.here)
	if a.doubt != nil {
		a.g.doubts.Put(a.doubt)
	}
}

// fly goes on to a moment, or until it is clear that no rescue comes of it.
func (a *attempt) fly(ctx context.Context, whole bool, until book.Time) error {
	for a.here.Step(until) {
		if a.steps++; a.steps%64 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		a.look()
		if !a.here.Settled() {
			continue
		}
		if err := a.follow(ctx); err != nil {
			return err
		}
		if !whole && (a.hopeless() || a.tooDear()) {
			a.clear = true
			break
		}
	}
	return nil
}

// count notes when nobody is left who can move a control.
func (a *attempt) count() {
	if a.gone == book.Never && a.w.able != circuit.None && a.here.Settled() && a.here.Value(a.w.able) == 0 {
		a.gone = a.here.Now()
	}
}

// look takes in the last instant.
func (a *attempt) look() {
	a.count()
	if a.reader != nil {
		a.reader.read(a.here)
	}
	if a.doubt != nil {
		a.doubt.follow()
	}
	for _, n := range a.here.Touched() {
		for _, p := range a.w.hereAt[n] {
			a.suspect[p.looked] = true
			a.now[p.looked].add(p.wanted, flip{a.here.Now(), a.here.Value(n) != 0})
		}
	}
}

// follow has the run without the failures fly along, once the flight is another.
func (a *attempt) follow(ctx context.Context) error {
	if a.there == nil {
		if a.turned = a.turned || !a.here.With(a.w.plain); !a.turned || len(a.w.looked) == 0 {
			return nil
		}
		a.there, a.other = a.w.beside(a.stem), make([]history, len(a.w.looked))
	}
	return a.there.To(ctx, a.here, func(f run.Flip) {
		for _, p := range a.w.thereAt[f.Node] {
			a.suspect[p.looked] = true
			a.other[p.looked].add(p.wanted, flip{f.At, f.To != 0})
		}
	})
}

// line is the values of a function that is looked at, as far as they are known.
func (a *attempt) line(i int, end book.Time) *line {
	was, t := &a.w.lines[a.w.looked[i]], a.stem.at
	l := &line{
		works:      continued(was.works, t, a.now[i].works, end),
		wanted:     continued(was.wanted, t, a.now[i].wanted, end),
		worksThere: was.worksThere, wantedThere: was.wantedThere,
	}
	if a.there != nil {
		l.worksThere = continued(was.worksThere, t, a.other[i].works, end)
		l.wantedThere = continued(was.wantedThere, t, a.other[i].wanted, end)
	}
	return l
}

// bites are those of the function in question, as far as they are known.
func (a *attempt) bites(end book.Time) span.Set {
	if a.w.f == flight {
		return a.broken()
	}
	return a.line(slices.Index(a.w.looked, a.w.f), end).bites(end, a.w.wrong)
}

// end is as far as both runs went.
func (a *attempt) end() book.Time {
	if a.there != nil {
		return min(a.here.Now(), a.there.Fell())
	}
	return min(a.here.Now(), a.w.base.there.End)
}

// hopeless says that no rescue can come of it any more.
func (a *attempt) hopeless() bool {
	if a.w.f == flight {
		return false // it ends by itself
	}
	now := a.here.Now()
	bites := a.bites(now)
	return doomed(bites, a.stem.at, now, a.until) || a.w == a.g.thin && a.lostForGood(bites)
}

// tooDear says that what is lost for it is as severe as the function, or more.
func (a *attempt) tooDear() bool {
	if a.w != a.g.grave {
		return false
	}
	for i, is := range a.suspect {
		if is && a.w.looked[i] != a.w.f {
			x := a.line(i, a.here.Now()).trace(a.here.Now(), a.w.wrong)
			begun := from(x.bites, a.stem.at)
			a.suspect[i] = len(begun) > 0
			if a.dear = a.suspect[i] && begun[0].From+a.w.wrong < a.here.Now() && a.w.costly(i, x, a.stem.at); a.dear {
				return true
			}
		}
	}
	return false
}

// lostForGood says of a loss that bites from the moves on that nothing brings the
// function back any more; of further controls, that those may. It is asked now and
// then only.
func (a *attempt) lostForGood(bites span.Set) bool {
	b := from(bites, a.stem.at)
	if len(b) == 0 || a.w.f == flight || a.here.Now() <= a.made || a.steps < a.ask {
		return false
	}
	a.ask = 2*a.steps + 1
	f := newFuture(a.g.web, a.here, append([][]int{nil}, a.lanes...))
	if f.works(0) {
		return false
	}
	for i := range a.lanes {
		if f.works(i + 1) {
			a.doubt.ever[i>>6] |= 1 << (i & 63)
		}
	}
	a.lost = true
	return true
}

func (a *attempt) outcome(set Set) *outcome {
	o := &outcome{flight: a.w.f == flight, whole: a.here.Ended(), lost: a.lost, dear: a.dear, weighed: a.dear, stopped: a.here.Now(), first: book.Never}
	if a.doubt != nil {
		v := a.doubt.verdict
		o.doubt = &v
	}
	o.broke = o.whole && !a.here.Arrived() && !a.here.NeverSettled()
	o.apart, o.leftNM = a.turned, leftNM(a.here.Path(), o.stopped)
	end := o.stopped
	if o.whole {
		end = a.end()
	}
	o.clear = a.w.f == flight && o.whole && !a.here.Arrived() || a.w.f != flight && doomed(a.bites(end), a.stem.at, end, a.until)
	o.bites = a.bites(end)
	if b := from(o.bites, a.stem.at); len(b) > 0 {
		o.first = b[0].From
	}
	if o.whole {
		a.judged(o, end)
	}
	if a.reader != nil {
		a.reached(o, set)
	}
	if made := set.actions(a.stem.at, a.stem.stood); len(made) > 0 && a.gone < slices.MaxFunc(made, later).At.Offset {
		o.nobody, o.kind, o.arrives = true, Fails, false
	}
	return o
}

func later(a, b run.Action) int { return cmp.Compare(a.At.Offset, b.At.Offset) }

// judged says what came of moves that were flown to the end.
func (a *attempt) judged(o *outcome, end book.Time) {
	w, t := a.w, a.stem.at
	o.arrives = a.here.Arrived() && (w.f == flight || a.there != nil && a.there.Fell() == book.Never || a.there == nil && w.base.there.Ending().Arrived())
	if w.f == flight && o.arrives {
		o.kind = Prevents
	}
	for i, f := range w.looked {
		x := a.line(i, end).trace(end, w.wrong)
		if o.traces = append(o.traces, x); f == w.f {
			o.kind = x.judge(t, a.until)
		}
	}
	o.costs = w.costs(o.traces, t)
	o.dear, o.weighed = !w.counts(o.costs), w != a.g.thin
}

// reached notes what the moves meet others in.
func (a *attempt) reached(o *outcome, set Set) {
	w := a.g.web
	o.reach = w.reach(a.reader.marked, a.turned)
	for _, m := range set {
		o.reach.set(w.node(m.Control.ID, circuit.Main))
	}
	o.own = a.turned
	for _, n := range w.own {
		o.own = o.own || n != circuit.None && a.reader.marked.has(n)
	}
	if w.flight && slices.ContainsFunc(w.effects, a.reader.marked.has) { // felt or not: with another it may be
		o.own = true
		o.reach.set(circuit.Node(w.size))
	}
}
