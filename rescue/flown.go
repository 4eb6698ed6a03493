package rescue

import (
	"context"

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
	costs   []Cost    // of one that was flown to the end
	lines   []span.Set

	doubt   *doubt // who else could help; nil: nobody asked
	stopped book.Time
	own     bool // the function itself had another value at some point
	reach   bits
}

// rescues says that the flight arrives and the loss is prevented or ended.
func (o *outcome) rescues() bool { return o.arrives && o.kind != Fails }

// loose says of moves that are no rescue that counts, that more moves may make
// one of them although they do not meet: the flight, or the cost, was in the way.
func (o *outcome) loose() bool { return o.whole && o.kind != Fails }

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
	g           *grove
	stem        *stem
	here, there *run.Branch // there is nil while the flight is the one without moves
	now         []history   // by function
	other       []history   // there, if it is flown
	reader      *reader
	until       book.Time // the end of the last bite without moves
	steps       int
	doubt       *doubt
}

// try flies moves made at a stem: to the end if whole, else until it is clear
// that they are no rescue.
// Lanes are sets of further controls of which is asked whether they could help.
func (g *grove) try(ctx context.Context, s *stem, set Set, whole bool, lanes [][]int) (*outcome, error) {
	a := &attempt{g: g, stem: s, here: s.here.Part(), now: make([]history, len(g.functions)), until: last(g.bites[g.f])}
	for _, m := range set.actions(s.at, s.stood) {
		if err := a.here.Move(m.Control, m.Position, m.At.Offset); err != nil {
			return nil, err
		}
	}
	a.here.Sign()
	a.reader = newReader(g.diary, g.web.size, s.at)
	if len(lanes) > 0 {
		a.doubt = newDoubt(g.web, a.here, lanes)
	}
	for a.here.Step(book.Never) {
		if a.steps++; a.steps%64 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		a.reader.read(a.here)
		if a.doubt != nil {
			a.doubt.follow()
		}
		a.note(a.here, g.hereAt, a.now)
		if !a.here.Settled() {
			continue
		}
		if err := a.follow(ctx); err != nil {
			return nil, err
		}
		if !whole && a.hopeless() {
			break
		}
	}
	return a.outcome(set), nil
}

// note takes down new values of functions.
func (a *attempt) note(b *run.Branch, places map[circuit.Node][]place, into []history) {
	for _, n := range b.Touched() {
		for _, p := range places[n] {
			into[p.function].add(p.wanted, flip{b.Now(), b.Value(n) != 0})
		}
	}
}

// follow has the run without the failures fly along, once the flight is another.
func (a *attempt) follow(ctx context.Context) error {
	if a.there == nil {
		if a.here.With(a.g.plain) {
			return nil
		}
		a.there, a.other = a.stem.there.Part(), make([]history, len(a.g.functions))
	}
	return a.there.Follow(ctx, a.here, func() { a.note(a.there, a.g.thereAt, a.other) })
}

// line is the values of a function as far as they are known.
func (a *attempt) line(f int, end book.Time) *line {
	was, t := &a.g.lines[f], a.stem.at
	l := &line{
		works:      continued(was.works, t, a.now[f].works, end),
		wanted:     continued(was.wanted, t, a.now[f].wanted, end),
		worksThere: was.worksThere, wantedThere: was.wantedThere,
	}
	if a.there != nil {
		l.worksThere = continued(was.worksThere, t, a.other[f].works, end)
		l.wantedThere = continued(was.wantedThere, t, a.other[f].wanted, end)
	}
	return l
}

// end is as far as both runs went.
func (a *attempt) end() book.Time {
	if a.there != nil {
		return min(a.here.Now(), a.there.Now())
	}
	return min(a.here.Now(), a.g.there.End)
}

// hopeless says that no rescue can come of it any more.
func (a *attempt) hopeless() bool {
	now := a.here.Now()
	return doomed(a.line(a.g.f, now).bites(now, a.g.wrong), a.stem.at, now, a.until)
}

func (a *attempt) outcome(set Set) *outcome {
	g, t := a.g, a.stem.at
	o := &outcome{doubt: a.doubt, whole: a.here.Ended(), stopped: a.here.Now(), first: book.Never}
	end := o.stopped
	if o.whole {
		end = a.end()
	}
	o.bites = a.line(g.f, end).bites(end, g.wrong)
	if b := from(o.bites, t); len(b) > 0 {
		o.first = b[0].From
	}
	if o.whole {
		o.kind = judge(o.bites, t, a.until)
		o.arrives = a.here.Arrived() && (a.there != nil && a.there.Arrived() || a.there == nil && g.there.Ending().Arrived())
		for f := range g.functions {
			o.lines = append(o.lines, a.line(f, end).bites(end, g.wrong))
		}
		o.costs = g.costs(o.lines, t)
	}
	a.reached(o, set)
	return o
}

// reached notes what the moves meet others in.
func (a *attempt) reached(o *outcome, set Set) {
	w := a.g.web
	o.reach = w.reach(a.reader.marked, a.there != nil)
	for _, m := range set {
		o.reach.set(w.node(m.Control.ID, circuit.Main))
	}
	o.own = a.there != nil
	for _, n := range w.own {
		o.own = o.own || n != circuit.None && a.reader.marked.has(n)
	}
}
