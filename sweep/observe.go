package sweep

import (
	"math/bits"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
)

// bundle is one item of which a ledger may have a row, and the nodes that
// decide what the row says.
type bundle struct {
	what    what
	index   int // of the function, alert or indication in the build
	works   circuit.Node
	wanted  circuit.Node
	noticed circuit.Node // what its loss is noticed by
	tells   []telling    // alerts that tell a function
	covers  []reading    // indications that cover it
	given   circuit.Node
	falsely circuit.Node
	reading reading
	claim   *claimed
	nodes   []int32 // all of these, as indices into watched
}

// telling is the nodes of an alert that tells a function.
type telling struct{ given, falsely circuit.Node }

type what uint8

const (
	aFunction what = iota
	anAlert
	anIndication
	aClaim
)

// reading is the nodes of an indication.
type reading struct {
	of                *book.Indication
	wrong, lit, shows circuit.Node // None where it has no meaning
}

// bundle lists what the ledger may have rows of.
func (p *program) bundle() {
	b := p.course.Build
	p.within, p.wrong = ledger.ToldWithin(b.Aircraft), ledger.WrongAfter(b.Aircraft)
	covering := map[string][]reading{}
	for _, i := range b.Indications {
		if i.Means == nil {
			continue
		}
		for _, f := range b.Covers(i) {
			covering[f] = append(covering[f], p.readingOf(i))
		}
	}
	for k, f := range b.Functions {
		x := bundle{what: aFunction, index: k, works: p.named(f.ID, circuit.Main), wanted: p.named(f.ID, circuit.Wanted), noticed: p.named(f.ID, circuit.Noticed), covers: covering[f.ID]}
		nodes := []circuit.Node{x.works, x.wanted, x.noticed}
		for _, a := range b.Alerts {
			if slices.Contains(a.Tells, f.ID) {
				t := telling{p.named(a.ID, circuit.Main), p.named(a.ID, circuit.False)}
				x.tells, nodes = append(x.tells, t), append(nodes, t.given, t.falsely)
			}
		}
		for _, r := range x.covers {
			nodes = append(nodes, r.wrong, r.lit, r.shows)
		}
		p.add(x, nodes)
	}
	for k, a := range b.Alerts {
		x := bundle{what: anAlert, index: k, given: p.named(a.ID, circuit.Main), falsely: p.named(a.ID, circuit.False)}
		p.add(x, []circuit.Node{x.given, x.falsely})
	}
	for k, i := range b.Indications {
		x := bundle{what: anIndication, index: k, reading: p.readingOf(i)}
		p.add(x, []circuit.Node{x.reading.lit, x.reading.wrong})
	}
	p.bundleClaims()
}

func (p *program) readingOf(i *book.Indication) reading {
	r := reading{of: i, wrong: circuit.None, lit: p.named(i.ID, circuit.Lit), shows: circuit.None}
	if i.Means != nil {
		r.wrong, r.shows = p.named(i.ID, circuit.Wrong), p.named(i.ID, circuit.Main)
	}
	return r
}

func (p *program) named(id string, a circuit.Aspect) circuit.Node {
	n, ok := p.c.Node(circuit.Value{Item: id, Aspect: a})
	if !ok {
		return circuit.None
	}
	return n
}

func (p *program) add(b bundle, nodes []circuit.Node) {
	for _, n := range nodes {
		if n == circuit.None {
			continue
		}
		if p.place[n] < 0 {
			p.place[n] = int32(len(p.watched))
			p.watched = append(p.watched, n)
		}
		if !slices.Contains(b.nodes, p.place[n]) {
			b.nodes = append(b.nodes, p.place[n])
		}
	}
	p.bundles = append(p.bundles, b)
}

// stamp is a trace of a change that a lane has and lane 0 has not.
type stamp struct {
	lane uint16
	of   uint64
}

// observer sorts what the lanes of a block came to.
type observer struct {
	e      *engine
	begin  *snapshot
	stamps [][]stamp // per watched node
	marked []word    // per watched node: lanes that have stamps
	known  table
	teller *teller // nil: how losses are known is not asked
	prints [lanes]uint64
	rows   [lanes][]row
}

func newObserver(e *engine) *observer {
	return &observer{e: e, stamps: make([][]stamp, len(e.p.watched)), marked: make([]word, len(e.p.watched))}
}

// mix turns two numbers into one that tells them apart.
func mix(a, b uint64) uint64 {
	x := a*0x9E3779B97F4A7C15 ^ (b+0xD6E8FEB86659FD93)*0xBF58476D1CE4E5B9
	x ^= x >> 32
	x *= 0x94D049BB133111EB
	x ^= x >> 29
	return x
}

// rowsOf lists the rows of every lane of the block that was flown.
func (o *observer) rowsOf(begin *snapshot) *[lanes][]row {
	o.begin = begin
	for _, i := range o.e.logged {
		o.stampNode(i)
	}
	for lane := range o.rows {
		o.rows[lane] = o.rows[lane][:0]
	}
	if o.teller != nil {
		o.teller.hear(o)
	}
	for b := range o.e.p.bundles {
		if o.e.p.bundles[b].what != aClaim {
			o.bundle(b)
		}
	}
	for _, i := range o.e.logged {
		o.stamps[i], o.marked[i] = o.stamps[i][:0], word{}
	}
	return &o.rows
}

func (o *observer) stampNode(i int32) {
	n := o.e.p.watched[i]
	if !o.e.isEver[n] {
		return
	}
	if o.e.p.gates[n].yes {
		o.stampYesNo(i)
		return
	}
	o.stampNumber(i)
}

func (o *observer) stampYesNo(i int32) {
	var was word
	list := o.stamps[i]
	for _, x := range o.e.log[i] {
		is := x.in.xor(x.in.spread())
		h := mix(uint64(i)<<1, uint64(x.at))
		for w := range is {
			d := is[w] ^ was[w]
			o.marked[i][w] |= d
			for ; d != 0; d &= d - 1 {
				b := bits.TrailingZeros64(d)
				list = append(list, stamp{uint16(w<<6 + b), h + is[w]>>b&1})
			}
		}
		was = is
	}
	o.stamps[i] = list
}

func (o *observer) stampNumber(i int32) {
	var was []alt
	for _, x := range o.e.log[i] {
		usual := termIn(x.alts, 0)
		for _, a := range x.alts {
			in := a.in
			if was != nil && termIn(was, 0) == usual {
				for _, w := range was {
					if w.term == a.term {
						in = in.but(w.in)
					}
				}
			}
			if a.term == usual {
				in = in.and(o.marked[i]) // back again
			}
			h := mix(mix(uint64(i)<<1|1, uint64(x.at)), uint64(a.term)<<32|uint64(usual))
			in.each(func(lane int) { o.stamps[i] = append(o.stamps[i], stamp{uint16(lane), h}) })
			o.marked[i] = o.marked[i].or(in)
		}
		was = x.alts
	}
}

// bundle adds the rows of one item to all lanes that have one.
func (o *observer) bundle(b int) {
	x := &o.e.p.bundles[b]
	var in word
	for _, i := range x.nodes {
		in = in.or(o.marked[i])
	}
	if !in.any() {
		return
	}
	o.print(x, b, in)
	last, code := uint64(0), uint64(0)
	in.each(func(lane int) {
		p := o.prints[lane]
		if x.what == aFunction {
			p = mix(p, o.heard(lane))
		}
		if p != last {
			last, code = p, o.codeOf(x, lane, p)
		}
		if code != 0 {
			o.rows[lane] = append(o.rows[lane], row(uint64(b)<<rowItem|code))
		}
	})
}

// print works out, for some lanes, what stands for the history of an item in each.
func (o *observer) print(x *bundle, b int, in word) {
	in.each(func(lane int) { o.prints[lane] = mix(uint64(b), 1) })
	for _, i := range x.nodes {
		for _, s := range o.stamps[i] {
			o.prints[s.lane] += s.of
		}
	}
}

// codeOf is what a lane has to say of an item, which is worked out once for all
// lanes that have the same print.
func (o *observer) codeOf(x *bundle, lane int, print uint64) uint64 {
	code, ok := o.known.get(print)
	if !ok {
		code = o.classify(x, lane)
		o.known.put(print, code)
	}
	return code
}
