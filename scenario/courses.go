package scenario

import (
	"strings"
	"sync"

	"knockon/book"
	"knockon/run"
)

// Courses compiles each build of a book once for each of its flights, for all who
// fly them. It may be used from many goroutines.
type Courses struct {
	Book   *book.Book
	Router run.Router                                   // of plans; nil: flights go only where the book sends them
	Watch  func(*book.Build, *book.Flight) []*book.Expr // what all observe beside the book's own; nil: nothing

	mu   sync.Mutex
	made map[leg]*made
}

// leg is a build, a flight of it and how it is flown.
type leg struct {
	build      *book.Build
	flight     string // its id
	prescribed bool
}

// made is a course that is made when it is first asked for.
type made struct {
	once   sync.Once
	course *run.Course
	err    error
}

// NewCourses returns the courses of a book, none of them compiled yet.
func NewCourses(b *book.Book) *Courses { return &Courses{Book: b, made: map[leg]*made{}} }

// Over has flights go over a router's ground from now on; courses that know another
// ground, or none, are made anew.
func (c *Courses) Over(r run.Router) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.Router = r
	clear(c.made)
}

// Of gives the course of a build and a flight, "" being the first of each. The
// error is a *Trouble.
func (c *Courses) Of(build, flight string) (*run.Course, error) { return c.of(build, flight, false) }

// Prescribed is Of for a flight that keeps to its profile, whatever the systems do.
func (c *Courses) Prescribed(build, flight string) (*run.Course, error) {
	return c.of(build, flight, true)
}

func (c *Courses) of(build, flight string, prescribed bool) (*run.Course, error) {
	b, err := c.Book.BuildNamed(build)
	if err != nil {
		return nil, trouble("build", "%v", err)
	}
	f, err := b.FlightNamed(flight)
	if err != nil {
		return nil, trouble("flight", "%v", err)
	}
	m := c.at(leg{b, f.ID, prescribed})
	m.once.Do(func() {
		set := run.Setting{Prescribed: prescribed, Router: c.Router}
		if c.Watch != nil {
			set.Watch = c.Watch(b, f)
		}
		if m.course, m.err = run.NewCourse(b, f, set); m.err != nil {
			m.err = trouble("flight", "%v", m.err)
		}
	})
	return m.course, m.err
}

func (c *Courses) at(k leg) *made {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.made[k] == nil {
		c.forget()
		c.made[k] = &made{}
	}
	return c.made[k]
}

// mostSupposed bounds how many flights of which something is supposed are kept.
const mostSupposed = 12

// forget lets go of supposed flights when there are too many: anybody can ask for
// as many as there are numbers.
func (c *Courses) forget() {
	var supposed []leg
	for k := range c.made {
		if strings.Contains(k.flight, ",") {
			supposed = append(supposed, k)
		}
	}
	if len(supposed) < mostSupposed {
		return
	}
	for _, k := range supposed {
		delete(c.made, k)
	}
}
