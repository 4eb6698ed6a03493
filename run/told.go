package run

import (
	"context"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight"
)

// What the circuit of Told is kept under, and where it lies on the flight.
type (
	toldKey struct{}
	laidKey struct{}
)

// Told is the run without failures along the flight of another, in which some of
// what its crew are told is held so, and in which they move what they move: each put is a way of failing, or a way in
// which one of the items is held (circuit.HeldYes, circuit.HeldNo). Items must be
// the same on every call for a course. docs/meaning.md, section 5a.
func (c *Course) Told(ctx context.Context, here *Record, items []string, puts []Put) (*Record, error) {
	held, err := c.holding(items)
	if err != nil {
		return nil, err
	}
	k := c.besides(here)
	path := k.Path
	k = k.along(path, c.laidOut(held, path))
	k.circuit, k.clock = held, c
	s := here.Scenario.Healthy()
	s.Actions = here.Scenario.Actions
	p, err := k.prepare(ctx, s)
	if err != nil {
		return nil, err
	}
	for _, x := range puts {
		if err := p.put(x); err != nil {
			return nil, err
		}
	}
	p.timed = append(p.timed[:0:0], p.queue...)
	return p.flyTo(ctx, path.End())
}

// Holding is the course along the same path on which items can be held: what its runs
// say of units, signals and functions is what those of this course say.
func (c *Course) Holding(items []string) (*Course, error) {
	held, err := circuit.CompileHolding(items, c.Build, c.Flight)
	if err != nil {
		return nil, err
	}
	k := c.along(c.Path, circuit.NewCourse(held, c.Path, c.Path.Knots(), c.step))
	k.circuit = held
	return k, nil
}

// laidOut puts the circuit with items that can be held on a path; once for a course
// on that of the flight with nothing failed, which most runs keep to.
func (c *Course) laidOut(held *circuit.Circuit, path flight.Path) *circuit.Course {
	if path == c.Path {
		return c.Once(laidKey{}, func() any { return circuit.NewCourse(held, path, path.Knots(), c.step) }).(*circuit.Course)
	}
	step := c.step
	if step == 0 {
		step = stride
	}
	return circuit.NewLiveCourse(held, path, path.Knots(), step)
}

// holding is the circuit with items that can be held, compiled once for a course:
// of units, signals and functions alone, since nobody asks what is said there.
func (c *Course) holding(items []string) (*circuit.Circuit, error) {
	type made struct {
		circuit *circuit.Circuit
		err     error
	}
	got := c.Once(toldKey{}, func() any {
		held, err := circuit.CompileHolding(items, c.Build, c.Flight)
		if err == nil {
			held = held.Narrowed(worked(held))
		}
		return made{held, err}
	}).(made)
	return got.circuit, got.err
}

// worked marks the nodes of what works or not, with all that they hang on.
func worked(c *circuit.Circuit) []bool {
	var ids []string
	ids = append(ids, book.IDs(c.Build.Units)...)
	ids = append(ids, book.IDs(c.Build.Signals)...)
	ids = append(ids, book.IDs(c.Build.Functions)...)
	var nodes []circuit.Node
	for _, id := range ids {
		if n, ok := c.Node(circuit.Value{Item: id}); ok {
			nodes = append(nodes, n)
		}
	}
	return c.Under(nodes)
}
