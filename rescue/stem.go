package rescue

import (
	"context"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// stem is the run without moves, and what it is compared with, just before a
// moment at which moves are to be made. Both are parted from and never flown on.
type stem struct {
	at          book.Time
	here, there *run.Branch
	stood       func(control string) string
}

// grove holds the stems of a question and what is shared by all that grows from them.
type grove struct {
	*base
	web    *web
	diary  *diary
	plain  *run.Branch // the run without moves, at its end
	hereAt map[circuit.Node][]place

	mu      sync.Mutex
	stems   []*stem // in order of time
	thereAt map[circuit.Node][]place
}

// place is a value of a function: which one, of which function.
type place struct {
	function int
	wanted   bool
}

func newGrove(ctx context.Context, b *base) (*grove, error) {
	here, err := b.course.Branch(ctx, b.asked)
	if err != nil {
		return nil, err
	}
	there, err := b.course.BranchBeside(ctx, b.here)
	if err != nil {
		return nil, err
	}
	g := &grove{base: b, diary: &diary{}}
	g.web = newWeb(newWiring(here.Circuit(), b.asked), b.functions[b.f], b.course.Build.Effects, b.asked.Plan)
	g.hereAt, g.thereAt = b.places(here.Circuit()), b.places(there.Circuit())
	for _, x := range []*run.Branch{here, there} {
		if err := x.Until(ctx, b.strike); err != nil {
			return nil, err
		}
	}
	g.stems = []*stem{{at: b.strike + 1, here: here, there: there}}
	return g, g.write(ctx, here.Part())
}

// write takes down the run without moves from the strike on.
func (g *grove) write(ctx context.Context, b *run.Branch) error {
	b.Sign()
	for b.Step(book.Never) {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		g.diary.write(b)
	}
	g.plain = b
	return nil
}

func (b *base) places(c *circuit.Circuit) map[circuit.Node][]place {
	list := map[circuit.Node][]place{}
	for i, f := range b.functions {
		for _, a := range []circuit.Aspect{circuit.Main, circuit.Wanted} {
			if n, ok := c.Node(circuit.Value{Item: f.ID, Aspect: a}); ok {
				list[n] = append(list[n], place{i, a == circuit.Wanted})
			}
		}
	}
	return list
}

// stem gives the one at a moment after the strike.
func (g *grove) stem(ctx context.Context, at book.Time) (*stem, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	i := len(g.stems) - 1
	for g.stems[i].at > at {
		i--
	}
	if from := g.stems[i]; from.at == at {
		return from, nil
	}
	s := &stem{at: at, here: g.stems[i].here.Part(), there: g.stems[i].there.Part(), stood: g.base.stood(at)}
	for _, x := range []*run.Branch{s.here, s.there} {
		if err := x.Until(ctx, at-1); err != nil {
			return nil, err
		}
	}
	g.stems = append(g.stems[:i+1:i+1], append([]*stem{s}, g.stems[i+1:]...)...)
	return s, nil
}
