package sweep

import (
	"cmp"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/span"
)

// toldRun is the run in which all that some alerts claim is held so, without the
// failures: what it takes away, and what it moves on the way there. It is a function
// of what is held and when, and is flown once for all sets of which that is so.
type toldRun struct {
	number int
	ends   []heldItem                      // by item, then by time
	moved  []movedItem                     // yes/no
	values []valueItem                     // numbers and words
	lost   map[int32]span.Set              // by function: works there, not here
	from   map[following]*ledger.Following // what was found of this so far
	broken bool                            // the engine gave up on it
	reach  reach
}

// following is a function that does not work in a told run from a moment on.
type following struct {
	function int32
	at       book.Time
}

// heldItem is a stretch in which something is held of an item, without a break.
type heldItem struct {
	item int32
	circuit.Span
}

// movedItem is when an item is first not what it is without failures.
type movedItem struct {
	item int32
	at   book.Time
}

// valueItem is a number or a word while its terms are not those of lane 0.
type valueItem struct {
	item int32
	piece
}

// hold is a claim and when it is held, by numbers.
type hold struct{ claim, when uint32 }

// teller finds the told run of each lane of a block, and flies those that are new.
type teller struct {
	*worker
	known  table // print of the history of a claim and what claims it -> number in spans
	spans  []span.Set
	when   map[uint64]uint32 // print of a set of stretches -> its number
	holds  [lanes][]hold
	of     [lanes]*toldRun
	runs   map[uint64]*toldRun // by print of what is held; the latest, some mostTold
	flown  int                 // so many were flown
	begin  *snapshot
	passed passed
}

// mostTold is how many told runs a worker keeps: each has some tens of kilobytes, and
// sets that come one after the other share most of theirs. A variable for tests.
var mostTold = 4096

// listen gets a worker ready for told runs.
func (k *worker) listen() error {
	if k.p.told == nil {
		k.teller = &teller{worker: k}
		return nil
	}
	k.told = k.listeners.take(k.p.told)
	begin, err := k.told.before(k.at)
	if err != nil {
		return err
	}
	k.teller = &teller{worker: k, begin: begin, spans: []span.Set{nil}, when: map[uint64]uint32{}, runs: map[uint64]*toldRun{}}
	return nil
}

func (k *worker) tellerFor(j job) *teller {
	if j.untold {
		return nil
	}
	return k.teller
}

// givenUp says that a lane has to be flown the plain way.
func (k *worker) givenUp(lane int) bool {
	t := k.seen.toldOf(lane)
	return k.engine.lost.has(lane) || t != nil && t.broken
}

// toldOf is the told run of a lane; nil where nothing is held.
func (o *observer) toldOf(lane int) *toldRun {
	if o.teller == nil {
		return nil
	}
	return o.teller.of[lane]
}

// heard tells lanes apart by their told runs.
func (o *observer) heard(lane int) uint64 {
	switch t := o.toldOf(lane); {
	case o.teller == nil:
		return 0
	case t == nil:
		return 1
	default:
		return uint64(t.number) + 2
	}
}

// hear finds what is held in each lane of a block that was flown, and its told run.
func (t *teller) hear(o *observer) {
	for lane := range t.of {
		t.of[lane], t.holds[lane] = nil, t.holds[lane][:0]
	}
	if t.p.told == nil {
		return
	}
	for b := range t.p.bundles {
		if x := &t.p.bundles[b]; x.what == aClaim {
			t.claim(o, x, b)
		}
	}
	if len(t.runs) > mostTold {
		clear(t.runs)
	}
	var fresh []*toldRun
	var held [][]hold
	for lane, list := range t.holds {
		if len(list) == 0 || t.engine.lost.has(lane) {
			continue
		}
		key := uint64(len(list))
		for _, h := range list {
			key = mix(key, uint64(h.claim)<<32|uint64(h.when))
		}
		r := t.runs[key]
		if r == nil {
			r = &toldRun{number: t.flown}
			t.runs[key], t.flown = r, t.flown+1
			fresh, held = append(fresh, r), append(held, slices.Clone(list))
		}
		t.of[lane] = r
	}
	if len(fresh) > 0 {
		t.fly(fresh, held)
	}
}

// claim finds when a claim is held in the lanes in which something claims it.
func (t *teller) claim(o *observer, x *bundle, b int) {
	var in word
	for _, a := range x.claim.by {
		in = in.or(o.marked[t.p.place[a.given]])
	}
	if !in.any() {
		return
	}
	o.print(x, b, in)
	in.each(func(lane int) {
		when, ok := t.known.get(o.prints[lane])
		if !ok {
			when = uint64(t.number(view{o, lane}.held(x.claim)))
			t.known.put(o.prints[lane], when)
		}
		if when > 0 {
			t.holds[lane] = append(t.holds[lane], hold{uint32(x.index), uint32(when)})
		}
	})
}

// number of a set of stretches; 0 is the empty one.
func (t *teller) number(s span.Set) uint32 {
	if len(s) == 0 {
		return 0
	}
	key := uint64(len(s))
	for _, p := range s {
		key = mix(mix(key, uint64(p.From)), uint64(p.To))
	}
	n, ok := t.when[key]
	if !ok {
		n = uint32(len(t.spans))
		t.when[key], t.spans = n, append(t.spans, s)
	}
	return n
}

// fly works out told runs, one to a lane after the first.
func (t *teller) fly(fresh []*toldRun, held [][]hold) {
	e := t.told
	e.load(t.begin)
	e.puts = t.puts(held)
	e.fly(t.begin.at, nil)
	for i, r := range fresh {
		r.broken, r.ends, r.lost, r.from = e.lost.has(i+1), t.ends(held[i]), map[int32]span.Set{}, map[following]*ledger.Following{}
	}
	o := view{&observer{e: e, begin: t.begin}, 0}
	for item, n := range e.p.items {
		if n != circuit.None && e.isEver[n] {
			t.item(o, int32(item), n, fresh)
		}
	}
	t.reachOf(fresh)
}

// puts is what is held and let go in all lanes, in order.
func (t *teller) puts(held [][]hold) []put {
	type key struct {
		at  book.Time
		way int
		on  bool
	}
	in := map[key]word{}
	for i, list := range held {
		for _, h := range list {
			for _, s := range t.spans[h.when] {
				way := t.p.claims[h.claim].way
				for _, k := range []key{{s.From, way, true}, {s.To, way, false}} {
					w := in[k]
					w.set(i + 1)
					in[k] = w
				}
			}
		}
	}
	var list []put
	for k, w := range in {
		if k.on || k.at < t.p.end {
			list = append(list, put{k.at, t.p.told.ways[k.way], k.on, w})
		}
	}
	slices.SortFunc(list, func(a, b put) int { return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.node, b.node)) })
	return list
}

// ends joins the stretches in which something of an item is held.
func (t *teller) ends(list []hold) []heldItem {
	var all []heldItem
	for _, h := range list {
		for _, s := range t.spans[h.when] {
			all = append(all, heldItem{t.p.claims[h.claim].item, s})
		}
	}
	slices.SortFunc(all, func(a, b heldItem) int { return cmp.Or(cmp.Compare(a.item, b.item), cmp.Compare(a.From, b.From)) })
	var ends []heldItem
	for _, h := range all {
		if n := len(ends); n > 0 && ends[n-1].item == h.item && h.From <= ends[n-1].To {
			ends[n-1].To = max(ends[n-1].To, h.To)
		} else {
			ends = append(ends, h)
		}
	}
	return ends
}

// item notes in which of the runs an item is not what it is without failures.
func (t *teller) item(v view, item int32, n circuit.Node, fresh []*toldRun) {
	e := v.o.e
	if !e.p.gates[n].yes {
		e.ever[n].each(func(lane int) {
			v.lane = lane
			for _, p := range v.pieces(n) {
				if p.here != p.there && p.From < p.To {
					fresh[lane-1].values = append(fresh[lane-1].values, valueItem{item, p})
				}
			}
		})
		return
	}
	var seen word
	log := e.log[e.p.place[n]]
	for i, x := range log {
		until := e.p.end
		if i+1 < len(log) {
			until = log[i+1].at
		}
		if until <= x.at {
			continue
		}
		d := x.in.xor(x.in.spread()).but(seen)
		d.each(func(lane int) { fresh[lane-1].moved = append(fresh[lane-1].moved, movedItem{item, x.at}) })
		seen = seen.or(d)
	}
	if f := t.p.function(item); f >= 0 {
		seen.each(func(lane int) {
			v.lane = lane
			if lost := v.there(n).Minus(v.here(n)); len(lost) > 0 {
				fresh[lane-1].lost[f] = lost
			}
		})
	}
}

// reachOf gives the runs their reach: behind that of the flight the gates of the told
// run, then its items. An item is reached if it is held, moved, or reads one that is.
func (t *teller) reachOf(fresh []*toldRun) {
	e := t.told
	gates := int32(len(t.p.gates) + len(t.p.bundles))
	for _, r := range fresh {
		r.reach = t.p.newReach()
		for f := range r.lost {
			r.reach.add(int32(len(t.p.gates)) + f)
		}
		for _, h := range r.ends {
			t.reachItem(r, h.item)
		}
	}
	for _, n := range e.changed {
		e.ever[n].each(func(lane int) {
			if lane == 0 || lane > len(fresh) {
				return
			}
			for _, i := range e.p.readers[n] {
				fresh[lane-1].reach.add(gates + i)
			}
		})
	}
	for item, n := range e.p.items {
		if n != circuit.None {
			e.ever[n].each(func(lane int) {
				if lane > 0 && lane <= len(fresh) {
					t.reachItem(fresh[lane-1], int32(item))
				}
			})
		}
	}
}

func (t *teller) reachItem(r *toldRun, item int32) {
	items := int32(len(t.p.gates) + len(t.p.bundles) + len(t.p.told.gates))
	r.reach.add(items + item)
	for _, reader := range t.p.web.ReadBy(item) {
		r.reach.add(items + reader)
	}
}
