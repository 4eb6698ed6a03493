package run

import (
	"slices"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
)

// bends are the flights that parts of one run have turned onto, each flown once
// for all of them.
type bends struct {
	mu    sync.Mutex
	known map[turning]*bend
}

// turning is a flight that is left at a moment, and what is felt from then on.
type turning struct {
	last *bend // nil: none yet
	from *energy.Path
	at   book.Time
	to   energy.Config
}

// bend is the flight that comes of it, flown as far as anybody needed it, and
// the circuits laid on its beginning.
type bend struct {
	at    book.Time
	first *energy.Path // as far as it was flown at once

	mu   sync.Mutex
	path *energy.Path
	laid []*circuit.Course
}

// bend turns the flight as steer does, onto one that others may have flown.
func (p *pilot) bend(m *circuit.Machine, now energy.Config) {
	k := turning{from: p.path, at: m.Now(), to: now}
	if n := len(p.bent); n > 0 {
		k.last, k.from = p.bent[n-1], nil
	}
	x := p.bends.get(k)
	if x == nil {
		path := p.path.LeaveAhead(k.at, now)
		x = p.bends.keep(k, &bend{at: k.at, first: path, path: path})
	}
	x.board(m)
	p.left, p.now, p.path = true, now, x.first
	p.made, p.bent = append(p.made, turn{m.Now(), now}), append(p.bent, x)
}

// board puts a machine onto the beginning of the bend, with what others of its
// circuit found there.
func (x *bend) board(m *circuit.Machine) {
	x.mu.Lock()
	defer x.mu.Unlock()
	if i := slices.IndexFunc(x.laid, func(k *circuit.Course) bool { return k.Circuit() == m.Circuit() }); i >= 0 {
		m.Board(x.laid[i])
		return
	}
	m.Turn(x.first, x.first.Knots(), x.first.End())
	x.laid = append(x.laid, m.Course())
}

// get gives a bend that is there.
func (b *bends) get(k turning) *bend {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.known[k]
}

// keep gives the bend that was there first.
func (b *bends) keep(k turning, x *bend) *bend {
	b.mu.Lock()
	defer b.mu.Unlock()
	if was := b.known[k]; was != nil {
		return was
	}
	b.known[k] = x
	return x
}

// known is the path as far as anybody has flown it.
func (x *bend) known() *energy.Path {
	x.mu.Lock()
	defer x.mu.Unlock()
	return x.path
}

// flyOn gives an open path as flown farther, by somebody else if it was.
func (p *pilot) flyOn() *energy.Path {
	if len(p.bent) == 0 {
		return p.path.FlyOn(p.turned())
	}
	x := p.bent[len(p.bent)-1]
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.path.Open() && x.path.End() <= p.path.End() {
		x.path = x.path.FlyOn(x.at)
	}
	return x.path
}
