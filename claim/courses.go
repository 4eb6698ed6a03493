package claim

import (
	"slices"
	"sync"

	"knockon/book"
	"knockon/run"
)

// courses compiles each build once for each of its flights, with all that the
// claims observe there.
type courses struct {
	book  *book.Book
	watch map[leg][]*book.Expr

	mu   sync.Mutex
	made map[leg]*made
}

// leg is a build and a flight of it.
type leg struct{ variant, flight string }

// made is a course that is made when it is first asked for.
type made struct {
	once   sync.Once
	course *run.Course
	err    error
}

func newCourses(b *book.Book, claims []*book.Claim) *courses {
	c := &courses{book: b, watch: map[leg][]*book.Expr{}, made: map[leg]*made{}}
	for _, claim := range claims {
		for _, g := range claim.Given {
			k := leg{g.Variant, g.Flight}
			c.watch[k] = append(c.watch[k], Observed(g)...)
		}
	}
	return c
}

// Observed lists the expressions that a given watches: what its expectations
// ask about, and its own conditions.
func Observed(g *book.Given) []*book.Expr {
	var list []*book.Expr
	for _, e := range g.Expect {
		e.Walk(func(x *book.Expr) {
			if x.Op == book.OpLedger {
				if w := watched(x); w != nil {
					list = append(list, w)
				}
			}
		})
	}
	for _, k := range g.Strikes {
		if k.When != nil {
			list = append(list, k.When)
		}
	}
	for _, a := range slices.Concat(g.SetUps, g.Acts) {
		if a.When != nil {
			list = append(list, a.When)
		}
	}
	return list
}

// watched is the expression that a function of a claim observes; nil for one
// that asks the ledger.
func watched(e *book.Expr) *book.Expr {
	for _, f := range book.ClaimFunctions {
		if f.Name == e.Word && f.Args[len(f.Args)-1] == 'e' {
			return e.Args[len(e.Args)-1]
		}
	}
	return nil
}

func (c *courses) of(g *book.Given) (*run.Course, error) {
	k := leg{g.Variant, g.Flight}
	c.mu.Lock()
	m := c.made[k]
	if m == nil {
		m = &made{}
		c.made[k] = m
	}
	c.mu.Unlock()
	m.once.Do(func() { m.course, m.err = c.make(k) })
	return m.course, m.err
}

func (c *courses) make(k leg) (*run.Course, error) {
	build, err := c.book.BuildNamed(k.variant)
	if err != nil {
		return nil, err
	}
	f, err := build.FlightNamed(k.flight)
	if err != nil {
		return nil, err
	}
	return run.NewCourse(build, f, run.Setting{Watch: c.watch[k]})
}
