package rescue

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// Move is a control that is set to a position which it does not have, or set and
// put back three seconds later. One that is held is asked for, never looked for.
type Move struct {
	Control  *book.Control
	Position string
	Back     bool
	Held     bool // by hand: no act of the flight moves it from then on
}

// Placed is a move and how long after the first of its set it is made.
type Placed struct {
	Move
	After book.Time
}

// Set is moves of different controls, in the order in which they are made; those
// made together in the order of the book.
type Set []Placed

// key tells sets apart.
func (s Set) key() string {
	var k strings.Builder
	for _, m := range s {
		k.WriteString(m.Control.ID + "=" + m.Position)
		if m.Held {
			k.WriteString("!")
		}
		if m.Back {
			k.WriteString("~")
		}
		k.WriteString("+" + fmt.Sprint(int64(m.After)) + ";")
	}
	return k.String()
}

// together says that all moves are made at one moment.
func (s Set) together() bool { return s[len(s)-1].After == 0 }

// actions are the moves of a set made at t, by a crew who find the controls as
// stood says.
func (s Set) actions(t book.Time, stood func(control string) string) (list []run.Action) {
	for _, m := range s {
		at := t + m.After
		list = append(list, run.Action{Control: m.Control.ID, Position: m.Position, At: book.Moment{Offset: at}, Held: m.Held}.Taken())
		if m.Back {
			list = append(list, run.Action{Control: m.Control.ID, Position: stood(m.Control.ID), At: book.Moment{Offset: at + putBack}}.Taken())
		}
	}
	return list
}

// wiring is who reads whom in a circuit, the book's acts, phases and resets and
// the conditions of the scenario included; not the flight.
type wiring struct {
	c       *circuit.Circuit
	readers [][]circuit.Node
}

func newWiring(c *circuit.Circuit, s run.Scenario) *wiring {
	w := &wiring{c: c, readers: make([][]circuit.Node, c.Size())}
	for n := range c.Size() {
		for _, a := range c.Gate(circuit.Node(n)).Args {
			w.join(a, circuit.Node(n))
		}
	}
	for _, a := range c.Acts() {
		w.join(a.When, c.ControlNode(a.Control))
	}
	if _, begins := c.PhaseGates(); len(begins) > 0 {
		for _, n := range begins {
			w.join(n, c.PhaseNode())
		}
	}
	for _, r := range c.Resets() {
		for i, way := range c.Ways() {
			if way.Unit == r.Unit {
				w.join(r.When, c.WayNode(i))
			}
		}
	}
	w.joinConditions(s)
	return w
}

func (w *wiring) join(from, to circuit.Node) {
	if from != circuit.None && to != circuit.None {
		w.readers[from] = append(w.readers[from], to)
	}
}

func (w *wiring) joinConditions(s run.Scenario) {
	for _, k := range s.Strikes {
		if n, ok := w.c.WatchOf(k.When); k.When != nil && ok {
			ways, _ := w.c.Expand(k.Fail)
			for _, i := range ways {
				w.join(n, w.c.WayNode(i))
			}
		}
	}
	for _, a := range slices.Concat(s.SetUp, s.Actions) {
		if n, ok := w.c.WatchOf(a.When); a.When != nil && ok {
			number, _, _ := w.c.Control(a.Control, a.Position)
			w.join(n, w.c.ControlNode(number))
		}
	}
}

// behind marks all that some nodes hang on, themselves included.
func (w *wiring) behind(nodes ...circuit.Node) []bool {
	feeds := make([][]circuit.Node, len(w.readers))
	for a, list := range w.readers {
		for _, n := range list {
			feeds[n] = append(feeds[n], circuit.Node(a))
		}
	}
	is := make([]bool, len(feeds))
	for todo := slices.Clone(nodes); len(todo) > 0; {
		n := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if n == circuit.None || is[n] {
			continue
		}
		is[n] = true
		todo = append(todo, feeds[n]...)
	}
	return is
}

// node of a value; None where the build has none.
func (w *wiring) node(id string, a circuit.Aspect) circuit.Node {
	n, ok := w.c.Node(circuit.Value{Item: id, Aspect: a})
	if !ok {
		return circuit.None
	}
	return n
}

// controls lists those that some nodes hang on.
func (w *wiring) controls(b *book.Build, nodes ...circuit.Node) (list []*book.Control) {
	is := w.behind(nodes...)
	for _, c := range b.Controls {
		if n := w.node(c.ID, circuit.Main); n != circuit.None && is[n] {
			list = append(list, c)
		}
	}
	return list
}

// Reaching lists the controls that reach a function through the systems.
func Reaching(c *run.Course, f *book.Function) []*book.Control {
	w := newWiring(c.Circuit(), run.Scenario{})
	return w.controls(c.Build, w.node(f.ID, circuit.Main))
}

// moves lists those that can be made when the controls stand so.
func moves(controls []*book.Control, stood func(control string) string) (list []Move) {
	for _, c := range controls {
		for _, p := range c.Positions {
			if p != stood(c.ID) {
				list = append(list, Move{Control: c, Position: p}, Move{Control: c, Position: p, Back: true})
			}
		}
	}
	return list
}

// sorted puts moves into the order in which they are made.
func sorted(s Set) Set {
	s = slices.Clone(s)
	slices.SortStableFunc(s, func(a, b Placed) int { return cmp.Compare(a.After, b.After) })
	return s
}

// orders are the ways to time n moves: together, then one after another in every
// order.
func orders(n int) [][]book.Time {
	list := [][]book.Time{make([]book.Time, n)}
	if n == 1 {
		return list
	}
	var fill func(rest []int, at []int)
	fill = func(rest, at []int) {
		if len(rest) == 0 {
			delays := make([]book.Time, n)
			for place, who := range at {
				delays[who] = book.Time(place) * apart
			}
			list = append(list, delays)
		}
		for i, r := range rest {
			fill(slices.Concat(rest[:i], rest[i+1:]), append(slices.Clone(at), r))
		}
	}
	var all []int
	for i := range n {
		all = append(all, i)
	}
	fill(all, nil)
	return list
}
