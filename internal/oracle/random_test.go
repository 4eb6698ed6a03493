package oracle_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/oracle"
)

const (
	randomEnd = 20  // seconds of a random flight
	longEnd   = 200 // of one on which something is noticed late
)

// moments gives n ascending random times, on the grid unless the book is smooth.
func (m *maker) moments(n int) (times []float64) {
	at := 0.0
	for range n {
		at += m.gap(4)
		times = append(times, at)
	}
	return times
}

// gap is a random time of about up to most seconds, more than 0, and in a
// smooth book longer than a step of the oracle may miss.
func (m *maker) gap(most float64) float64 {
	if m.smooth {
		return float64(10+m.IntN(int(most*1e3))) / 1e3
	}
	return float64(1+m.IntN(int(most/gridStep))) * gridStep
}

// path writes a random path for newScript.
func (m *maker) path() string {
	var lines []string
	for _, q := range []string{"on_ground", "icing", "on_glide_path", "braking"} {
		line := q
		times := m.moments(2 * (1 + m.IntN(4)))
		if m.one(2) {
			times[0] = 0
		}
		for i := 0; i+1 < len(times); i += 2 {
			line += fmt.Sprintf(" %g-%g", times[i], times[i+1])
		}
		lines = append(lines, line)
	}
	for _, q := range []string{"height_ft", "altitude_ft"} {
		lines = append(lines, q+m.corners())
	}
	return strings.Join(lines, "; ")
}

// corners of a number: straight lines with a jump now and then, or steps only.
func (m *maker) corners() string {
	level := func() float64 { return float64(m.IntN(8)) }
	if m.smooth {
		level = func() float64 { return float64(m.IntN(20000)) / 1000 }
	}
	v := level()
	line := fmt.Sprintf(" 0:%g", v)
	for _, at := range m.moments(1 + m.IntN(5)) {
		if !m.smooth || m.one(4) {
			line += fmt.Sprintf(" %g:%g", at, v)
		}
		v = level()
		line += fmt.Sprintf(" %g:%g", at, v)
	}
	return line
}

// scenario makes up to four failures and some actions.
func (m *maker) scenario(b *book.Build) oracle.Scenario {
	var s oracle.Scenario
	for range m.IntN(5) {
		f := oracle.Failure{Ref: m.failure(b), Resettable: m.one(2), At: m.time()}
		if m.one(3) {
			f.Lasts = book.AtSeconds(m.gap(6))
		}
		if m.one(4) {
			f.When = m.condition(b)
		}
		s.Failures = append(s.Failures, f)
	}
	if m.one(4) {
		s.Inoperative = append(s.Inoperative, m.failure(b))
	}
	for range m.IntN(3) {
		c := b.Controls[m.IntN(len(b.Controls))]
		a := oracle.Action{At: m.time(), Control: c.ID, Position: c.Positions[m.IntN(len(c.Positions))]}
		if a.Held = m.one(3); m.one(4) {
			a.When, a.Held = m.condition(b), false
		}
		s.Actions = append(s.Actions, a)
	}
	return s
}

func (m *maker) time() book.Time { return book.AtSeconds(max(0, m.gap(randomEnd)-gridStep)) }

func (m *maker) failure(b *book.Build) book.FailureRef {
	u := b.Units[m.IntN(len(b.Units))]
	n := m.IntN(len(u.Faults) + 2)
	switch {
	case n < len(u.Faults):
		return book.FailureRef{Unit: u.ID, Fault: u.Faults[n].ID}
	case n == len(u.Faults) || len(b.Events) == 0:
		return book.FailureRef{Unit: u.ID}
	}
	return book.FailureRef{Unit: b.Events[m.IntN(len(b.Events))].ID}
}

// condition borrows an expression of the book.
func (m *maker) condition(b *book.Build) *book.Expr {
	return b.Functions[m.IntN(len(b.Functions))].Works
}

// flightOf is a random book with a path and a scenario for it.
type flightOf struct {
	seed     uint64
	text     string
	path     string
	end      float64 // seconds
	build    *book.Build
	scenario oracle.Scenario
	watch    []*book.Expr
}

func makeFlight(t testing.TB, seed uint64, smooth bool) flightOf {
	t.Helper()
	return (&maker{Rand: rand.New(rand.NewPCG(seed, 1)), smooth: smooth}).flown(t, seed)
}

// flown makes the flight of a book.
func (m *maker) flown(t testing.TB, seed uint64) flightOf {
	t.Helper()
	f := flightOf{seed: seed, text: m.book(), end: randomEnd}
	if m.long {
		f.end = longEnd
	}
	f.build = load(t, f.text)
	f.path, f.scenario = m.path(), m.scenario(f.build)
	for _, e := range f.build.Claims[0].Given[0].Expect {
		f.watch = append(f.watch, e.Args[0])
	}
	return f
}

func (f flightOf) String() string {
	var s strings.Builder
	fmt.Fprintf(&s, "seed %d\n%s\npath: %s\n", f.seed, f.text, f.path)
	for _, x := range f.scenario.Failures {
		fmt.Fprintf(&s, "failure %s at %g lasts %g when %t resettable %t\n", x.Ref, x.At.Seconds(), x.Lasts.Seconds(), x.When != nil, x.Resettable)
	}
	fmt.Fprintf(&s, "inoperative %v\n", f.scenario.Inoperative)
	for _, x := range f.scenario.Actions {
		fmt.Fprintf(&s, "action %s %s at %g when %t\n", x.Control, x.Position, x.At.Seconds(), x.When != nil)
	}
	return s.String()
}

func (f flightOf) fly(t testing.TB, step book.Time) (*oracle.Trace, *oracle.LoopError) {
	t.Helper()
	trace, err := oracle.Fly(f.build, f.build.Flights[0], newScript(t, f.path, randomEnd), f.scenario, step, f.watch...)
	var loop *oracle.LoopError
	if err != nil && !errors.As(err, &loop) {
		t.Fatalf("%v\n%s", err, f)
	}
	return trace, loop
}

// TestStepsDoNotMatter flies random books in which everything happens on a
// grid; then the size of the step makes no difference at all.
func TestStepsDoNotMatter(t *testing.T) {
	loops := 0
	for seed := range uint64(200) {
		f := makeFlight(t, seed, false)
		a, loopA := f.fly(t, book.AtSeconds(gridStep))
		b, loopB := f.fly(t, book.AtSeconds(gridStep)/5)
		if !reflect.DeepEqual(loopA, loopB) {
			t.Fatalf("loops differ: %v, %v\n%s", loopA, loopB, f)
		}
		if loopA != nil {
			loops++
		}
		for i, h := range a.Histories {
			if !h.IsNumber() && !reflect.DeepEqual(h, b.Histories[i]) {
				t.Fatalf("%s: %s, %s\n%s", h.Aspect, told(h), told(b.Histories[i]), f)
			}
		}
	}
	t.Logf("%d of 200 never settle", loops)
}
