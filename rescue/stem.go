package rescue

import (
	"context"
	"slices"
	"sync"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// grove is what all that is flown for a question grows from.
type grove struct {
	*base
	web   *web
	diary *diary

	thin  *wood // the function in question alone: is it rescued?
	grave *wood // and those as severe or more: does the rescue count?
	whole *wood // all of them: what does it cost?

	doubts sync.Pool // that are over, of any size
}

// wood is the runs of a question in which some functions are looked at; nothing
// is worked out that neither these nor the flight hang on.
type wood struct {
	*base
	looked          []int       // functions, by their numbers
	plain           *run.Branch // the run without moves, at its end
	hereAt, thereAt map[circuit.Node][]place
	able            circuit.Node // whether anybody can move a control; None: always

	room sync.Pool // runs that are over

	mu    sync.Mutex
	stems []*stem // in order of time
}

// spare is a run that is over, whose room may be taken; nil: there is none.
func (w *wood) spare() *run.Branch {
	b, _ := w.room.Get().(*run.Branch)
	return b
}

// over is a doubt that is over and had as many words; nil: there is none.
func (g *grove) over(like *doubt) *doubt {
	if d, _ := g.doubts.Get().(*doubt); d != nil && d.words == like.words {
		return d
	}
	return nil
}

// stem is the run without moves, and what it is compared with, just before a
// moment at which moves are to be made. Both are parted from and never flown on.
type stem struct {
	at          book.Time
	here, there *run.Branch
	stood       func(control string) string

	once   sync.Once
	shadow *run.Shadow // of what grows from here
}

// place is a value of a function: which one of those that are looked at.
type place struct {
	looked int
	wanted bool
}

func newGrove(ctx context.Context, b *base) (*grove, error) {
	g := &grove{base: b, diary: &diary{}}
	var err error
	thin, grave, all := b.kinds()
	if g.thin, err = b.wood(ctx, thin, nil, g.write); err != nil {
		return nil, err
	}
	g.web = newWeb(newWiring(g.thin.plain.Circuit(), b.asked), b)
	unseen := func(*run.Branch) {}
	if g.grave, err = b.wood(ctx, grave, g.thin, unseen); err != nil {
		return nil, err
	}
	g.whole, err = b.wood(ctx, all, g.thin, unseen)
	return g, err
}

// kinds are the numbers of the functions that are looked at: the one in question,
// if there is one; with it those as severe or more; all of them.
func (b *base) kinds() (thin, grave, all []int) {
	for i, f := range b.functions {
		if all = append(all, i); i == b.f {
			thin = append(thin, i)
		}
		if i == b.f || severity(f) >= b.severity() {
			grave = append(grave, i)
		}
	}
	return thin, grave, all
}

// write takes down the run without moves.
func (g *grove) write(b *run.Branch) { g.diary.write(b) }

// wood begins the runs in which some functions are looked at, on the flights of
// others; seen is called for every instant of the run without moves.
func (b *base) wood(ctx context.Context, looked []int, other *wood, seen func(*run.Branch)) (*wood, error) {
	w := &wood{base: b, looked: looked}
	here, err := b.course.Branch(ctx, b.asked, func(c *circuit.Circuit) []bool { return w.need(c, true) })
	if err != nil {
		return nil, err
	}
	there, err := b.course.BranchBeside(ctx, b.here, func(c *circuit.Circuit) []bool { return w.need(c, false) })
	if err != nil {
		return nil, err
	}
	if other != nil {
		here.Join(other.plain)
	}
	w.hereAt, w.thereAt = w.places(here.Circuit()), w.places(there.Circuit())
	w.able = newWiring(here.Circuit(), b.asked).node(b.course.Build.Aircraft.ID, circuit.CrewAble)
	for _, x := range []*run.Branch{here, there} {
		if err := x.Until(ctx, b.strike); err != nil {
			return nil, err
		}
	}
	w.stems = []*stem{{at: b.strike + 1, here: here, there: there}}
	w.plain = here.Part()
	return w, flown(ctx, w.plain, seen)
}

// flown flies a run to its end.
func flown(ctx context.Context, b *run.Branch, seen func(*run.Branch)) error {
	b.Sign()
	for b.Step(book.Never) {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		seen(b)
	}
	return nil
}

// need is what the functions that are looked at hang on; of the run that flies
// itself also what the flight feels.
func (w *wood) need(c *circuit.Circuit, flies bool) []bool {
	x := newWiring(c, w.asked)
	var nodes []circuit.Node
	for _, i := range w.looked {
		f := w.functions[i].ID
		nodes = append(nodes, x.node(f, circuit.Main), x.node(f, circuit.Wanted))
	}
	if a := w.course.Build.Aircraft; a != nil {
		nodes = append(nodes, x.node(a.ID, circuit.Flyable), x.node(a.ID, circuit.CrewAble))
	}
	if flies {
		for _, e := range w.course.Build.Effects {
			nodes = append(nodes, x.node(e.ID, circuit.Main))
		}
	}
	return x.behind(append(nodes, conditions(c, w.asked)...)...)
}

// conditions are the nodes of those of a scenario.
func conditions(c *circuit.Circuit, s run.Scenario) (list []circuit.Node) {
	note := func(e *book.Expr) {
		if n, ok := c.WatchOf(e); e != nil && ok {
			list = append(list, n)
		}
	}
	for _, k := range s.Strikes {
		note(k.When)
	}
	for _, a := range slices.Concat(s.SetUp, s.Actions) {
		note(a.When)
	}
	for _, l := range s.Plan {
		note(l.When)
	}
	return list
}

func (w *wood) places(c *circuit.Circuit) map[circuit.Node][]place {
	list := map[circuit.Node][]place{}
	for i, f := range w.looked {
		for _, a := range []circuit.Aspect{circuit.Main, circuit.Wanted} {
			if n, ok := c.Node(circuit.Value{Item: w.functions[f].ID, Aspect: a}); ok {
				list[n] = append(list[n], place{i, a == circuit.Wanted})
			}
		}
	}
	return list
}

// stem gives the one at a moment after the strike.
func (w *wood) stem(ctx context.Context, at book.Time) (*stem, error) {
	w.mu.Lock()
	defer w.mu.Unlock()
	i := len(w.stems) - 1
	for w.stems[i].at > at {
		i--
	}
	if from := w.stems[i]; from.at == at {
		return from, nil
	}
	s := &stem{at: at, here: w.stems[i].here.Part(), there: w.stems[i].there.Part(), stood: w.stood(at)}
	for _, x := range []*run.Branch{s.here, s.there} {
		if err := x.Until(ctx, at-1); err != nil {
			return nil, err
		}
	}
	w.stems = slices.Insert(w.stems, i+1, s)
	return s, nil
}

// beside begins what is compared with a run that parted from here and is on a
// flight of its own.
func (w *wood) beside(s *stem) *run.Walk {
	s.once.Do(func() {
		var watched []circuit.Node
		for n := range w.thereAt {
			watched = append(watched, n)
		}
		s.shadow = run.NewShadow(s.there, s.here, watched)
	})
	return s.shadow.Walk()
}
