package run

import (
	"context"
	"slices"
	"sync"

	"knockon/book"
	"knockon/circuit"
)

// Shadow is a run that feels nothing, along every path that the parts of another
// run fly: each stretch of these is flown once for all of them, as far as anybody
// asked. It is for many goroutines.
type Shadow struct {
	watched map[circuit.Node]bool
	root    *stretch
}

// Flip is a new value of a node that is watched.
type Flip struct {
	At   book.Time
	Node circuit.Node
	To   float64
}

// NewShadow has a run follow the parts of another one, which stands at the same
// moment; it notes the values of some nodes. Neither is flown on.
func NewShadow(b, other *Branch, watched []circuit.Node) *Shadow {
	s := &Shadow{watched: map[circuit.Node]bool{}}
	for _, n := range watched {
		s.watched[n] = true
	}
	b = b.Part()
	if b.pilot.bent = slices.Clone(other.pilot.bent); len(b.pilot.bent) > 0 {
		b.lead(b.pilot.bent[len(b.pilot.bent)-1])
	} else if path := other.Path(); b.Path() != path {
		b.pilot.course = b.pilot.course.along(path, b.pilot.course.course)
		b.m.Turn(path, path.Knots(), path.End())
	}
	s.root = newStretch(b)
	return s
}

// stretch is the run on one flight, up to wherever others turn off.
type stretch struct {
	begin *Branch // never flown on

	mu    sync.Mutex
	run   *Branch
	upTo  book.Time
	flips []Flip
	off   map[*bend]*stretch
}

func newStretch(b *Branch) *stretch {
	return &stretch{begin: b, run: b.Part(), upTo: b.Now(), off: map[*bend]*stretch{}}
}

// Walk is the way along a shadow of a part that it follows.
type Walk struct {
	on   *stretch
	of   *Shadow
	seen int // flips of the stretch
	fell book.Time
}

// Walk begins where the shadow begins.
func (s *Shadow) Walk() *Walk { return &Walk{on: s.root, of: s, fell: book.Never} }

// Part is another walk that has come as far.
func (w *Walk) Part() *Walk { k := *w; return &k }

// Fell is when what follows broke off, as far as the walk has gone; Never if it
// did not.
func (w *Walk) Fell() book.Time { return w.fell }

// To goes as far as another run went, and calls seen for every new value on the way.
func (w *Walk) To(ctx context.Context, other *Branch, seen func(Flip)) error {
	for {
		until, ahead := other.Now(), other.pilot.bent[len(w.on.begin.pilot.bent):]
		if len(ahead) > 0 {
			until = ahead[0].at
		}
		flips, err := w.on.fly(ctx, w, until)
		if err != nil {
			return err
		}
		for ; w.seen < len(flips) && flips[w.seen].At <= until; w.seen++ {
			seen(flips[w.seen])
		}
		if len(ahead) == 0 {
			return nil
		}
		if w.on, err = w.on.turn(ctx, ahead[0]); err != nil {
			return err
		}
		w.seen = 0
	}
}

// fly goes on to a moment, if nobody did, and gives all new values up to there at
// least.
func (s *stretch) fly(ctx context.Context, w *Walk, until book.Time) ([]Flip, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.upTo < until {
		s.run.keepUp()
		if err := s.run.until(ctx, until, func() { s.note(w.of.watched) }); err != nil {
			return nil, err
		}
		s.upTo = until
	}
	if s.run.fault != nil && s.run.Now() <= until {
		w.fell = min(w.fell, s.run.Now())
	}
	return s.flips, nil
}

func (s *stretch) note(watched map[circuit.Node]bool) {
	for _, n := range s.run.Touched() {
		if watched[n] {
			s.flips = append(s.flips, Flip{s.run.Now(), n, s.run.Value(n)})
		}
	}
}

// turn gives the stretch on a flight that is turned onto from this one.
func (s *stretch) turn(ctx context.Context, x *bend) (*stretch, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.off[x] == nil {
		b := s.begin.Part()
		if s.upTo == x.at {
			b = s.run.Part()
		}
		b.keepUp()
		if err := b.Until(ctx, x.at); err != nil {
			return nil, err
		}
		b.pilot.bent = append(b.pilot.bent, x)
		b.lead(x)
		s.off[x] = newStretch(b)
	}
	return s.off[x], nil
}

// lead puts a run on a bend that it has come to, or that lies behind it.
func (b *Branch) lead(x *bend) {
	p, path := b.pilot, x.known()
	p.course = p.course.along(path, p.course.course)
	if b.m.Now() != x.at {
		b.m.Turn(path, path.Knots(), path.End())
		return
	}
	x.board(b.m)
	if path != x.first {
		b.m.Extend(path, path.Knots(), path.End())
	}
}

// keepUp gives a run as much of its path as anybody has flown.
func (b *Branch) keepUp() {
	p := b.pilot
	if n := len(p.bent); n > 0 {
		if path := p.bent[n-1].known(); b.Path() != path {
			p.course = p.course.along(path, p.course.course)
			b.m.Extend(path, path.Knots(), path.End())
		}
	}
}
