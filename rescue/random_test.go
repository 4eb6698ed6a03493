package rescue

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/run"
)

// scribe writes random small books with controls and all that remembers.
type scribe struct {
	*rand.Rand
	strings.Builder
	names []string // yes/no that may be used so far
}

func (s *scribe) pick(words ...string) string { return words[s.IntN(len(words))] }

func (s *scribe) seconds(most int) string { return fmt.Sprintf("%g", float64(1+s.IntN(10*most))/10) }

func (s *scribe) yesNo(depth int) string {
	if depth == 0 {
		return s.pick(s.names...)
	}
	a, b := s.yesNo(depth-1), s.yesNo(depth-1)
	switch s.IntN(12) {
	case 0, 1, 2:
		return "(" + a + " && " + b + ")"
	case 3, 4, 5:
		return "(" + a + " || " + b + ")"
	case 6:
		return "!" + a
	case 7:
		return "held(" + a + ", " + s.seconds(200) + ")"
	case 8:
		return "pulse(" + a + ", " + s.seconds(200) + ")"
	case 9:
		return "(" + a + " ? " + b + " : " + s.pick(s.names...) + ")"
	case 10:
		return "(total(" + a + ") >= " + s.seconds(900) + ")"
	}
	return "at_least(2, " + a + ", " + b + ", " + s.pick(s.names...) + ")"
}

func (s *scribe) block(kind, id string, lines ...string) {
	fmt.Fprintf(s, "%s %q {\n", kind, id)
	for _, l := range lines {
		if l != "" {
			fmt.Fprintf(s, "  %s\n", l)
		}
	}
	fmt.Fprintln(s, "}")
}

func (s *scribe) perhaps(line string) string {
	if s.IntN(2) == 0 {
		return ""
	}
	return line
}

// frame is a made-up book: the numbers are those of a small jet (from memory).
const frame = `aircraft "a" {
  title = "A"
ABLE
}
phase "ground" {}
phase "climb" {
  begins = !real.on_ground && real.height_ft > 400
}
phase "descent" {
  begins = real.height_ft > 5000 && real.vertical_speed_ft_per_min < -500
}
flight "short" {
  from               = "North"
  to                 = "South"
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 20000
  distance_nm        = 200
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.7
  descent_kt         = 290
  approach_kt        = 135
  act "moves" {
    when = ACT
    set  = control_0
    to   = "on"
  }
}
`

func randomBook(r *rand.Rand) string {
	s := &scribe{Rand: r, names: []string{"climb", "descent"}}
	for i := range 3 {
		id := fmt.Sprintf("control_%d", i)
		positions := `positions = ["off", "on"]`
		if i == 2 && r.IntN(3) == 0 {
			positions = `positions = ["off", "on", "auto"]`
		}
		s.block("control", id, positions, `initial = "off"`)
		s.names = append(s.names, fmt.Sprintf(`(%s == "on")`, id), fmt.Sprintf(`(%s != "off")`, id))
	}
	for i := range 5 {
		id := fmt.Sprintf("unit_%d", i)
		s.block("unit", id, s.perhaps("needs = "+s.yesNo(0)), s.perhaps("reset_by = "+s.yesNo(0)))
		s.names = append(s.names, id, id)
	}
	for i := range 4 {
		id := fmt.Sprintf("signal_%d", i)
		if i%2 == 0 {
			s.block("signal", id, "value = "+s.yesNo(2))
		} else {
			s.block("signal", id, "set = "+s.yesNo(1), "reset = "+s.yesNo(1))
		}
		s.names = append(s.names, id)
	}
	for i := range 4 {
		works := s.pick(fmt.Sprintf("unit_%d && ", i)+s.yesNo(1), fmt.Sprintf("(unit_%d || ", i)+s.yesNo(1)+")", s.yesNo(2))
		s.block("function", fmt.Sprintf("function_%d", i), "works = "+works, s.perhaps("wanted = "+s.yesNo(0)),
			s.perhaps(fmt.Sprintf("severity = %q", s.pick(book.Severities...))))
	}
	able := s.perhaps("  crew_able = " + s.yesNo(1) + "\n")
	return s.String() + strings.NewReplacer("ACT", s.yesNo(1), "ABLE\n", able).Replace(frame)
}

// asked is a random question on a random book: one or two failures, some that
// pass, some that a reset clears.
func asked(r *rand.Rand, end book.Time) (s run.Scenario) {
	for range 1 + r.IntN(2) {
		k := run.Strike{At: book.Moment{Offset: 1 + book.Time(r.Int64N(int64(end)*3/4))}, Resettable: r.IntN(2) == 0,
			Fail: []book.FailureRef{{Unit: fmt.Sprintf("unit_%d", r.IntN(5))}, {Unit: fmt.Sprintf("unit_%d", r.IntN(5))}}}
		if r.IntN(4) == 0 {
			k.Lasts = book.AtSeconds(1 + 300*r.Float64())
		}
		s.Strikes = append(s.Strikes, k)
	}
	return s
}

// TestSearch_RandomBooksAreThoseOfTheSlowWay flies everything on random books.
func TestSearch_RandomBooksAreThoseOfTheSlowWay(t *testing.T) {
	books := 100
	if os.Getenv("KNOCKON_SLOW") != "" {
		books = 200
	}
	r := rand.New(rand.NewPCG(14, 10))
	flown, asks, sets, rescued := 0, 0, 0, 0
	for try := 0; flown < books; try++ {
		if try > 20*books {
			t.Fatalf("only %d books in %d tries", flown, try)
		}
		c, text, ok := bookOf(t, r)
		if !ok {
			continue
		}
		n := 0
		for range 4 {
			s := asked(r, c.Path.End())
			for _, f := range c.Build.Functions {
				w := newSlow(t, c, s, f)
				if times, _ := w.moments(); len(times) == 0 || n == 2 {
					continue
				}
				n++
				asks++
				found := same(t, c, s, f, 2+asks%2, 1)
				if sets += found; found > 0 {
					rescued++
				}
				if t.Failed() {
					t.Fatalf("book %d, %+v:\n%s", try, s.Strikes, text)
				}
			}
		}
		if n > 0 {
			flown++
		}
	}
	t.Logf("%d books, %d losses, %d of them with a rescue, %d sets at their moments", flown, asks, rescued, sets)
	if rescued < books/4 {
		t.Error("hardly anything was rescued")
	}
}

// TestReaching_OtherControlsChangeNothing: a control that is said not to reach a
// function leaves it as it is, on a flight that does not feel the systems.
func TestReaching_OtherControlsChangeNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 12))
	others := 0
	for others < 60 {
		c, text, ok := bookOf(t, r)
		if !ok {
			continue
		}
		s := asked(r, c.Path.End())
		for _, f := range c.Build.Functions {
			w := newSlow(t, c, s, f)
			at, reach := w.strike+10*book.Second, Reaching(c, f)
			for _, m := range w.moves(c.Build.Controls, at) {
				if slices.Contains(reach, m.Control) {
					continue
				}
				others++
				if got := w.flight(at, Set{{Move: m}}).bites[f.ID]; !slices.Equal(got, w.plain[f.ID]) {
					t.Fatalf("%s moved to %s: %s bites %v, without %v\n%s", m.Control.ID, m.Position, f.ID, got, w.plain[f.ID], text)
				}
			}
		}
	}
}
