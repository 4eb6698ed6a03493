package crew_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
)

// TestFly_RandomBooks: on books that nobody wrote, whose gauges stick, jump and go
// dark, one flight with the crew on board gives what the slow way gives, which
// works out what lines ask part by part from the record.
func TestFly_RandomBooks(t *testing.T) {
	books, flights := 300, 8
	if testing.Short() {
		books = 60
	}
	seen := map[string]int{}
	for i := range books {
		r := rand.New(rand.NewPCG(uint64(i), 7))
		w := &writer{Rand: r}
		text := frame + w.book()
		pace := round()
		pace.BeginAboveFt = 1750
		tm := paced(t, text, pace)
		for range flights {
			var what []string
			for range 1 + r.IntN(4) {
				what = append(what, pick(r, ways(tm.Build())...))
			}
			at := pick(r, "air + 20 s", "air + 60 s", "air + 130 s", "down - 30 s", "down + 40 s")
			s := failing(t, tm.Build(), at, what...)
			fast, err := tm.Fly(context.Background(), s)
			if err != nil {
				t.Fatal(err)
			}
			slow, err := tm.FlySlowly(context.Background(), s)
			if err != nil {
				t.Fatal(err)
			}
			same(t, fmt.Sprintf("book %d, %s of %v", i, at, what), fast, slow)
			if !reflect.DeepEqual(fast.Findings, slow.Findings) {
				t.Errorf("book %d, %s of %v: findings\n%v\n%v", i, at, what, fast.Findings, slow.Findings)
			}
			seen["looked"] += looksAlike(t, tm, fast.Record)
			if t.Failed() {
				t.Fatal(text)
			}
			count(seen, fast)
			seen["closed"] += closes(t, fast)
			lapses(t, tm, fast)
			judges(t, tm, fast)
		}
	}
	t.Logf("%d flights: %v", books*flights, seen)
	for what, least := range map[string]int{"cannot be seen": 300, "yes": 1000, "no": 1000, "misled": 60, "unknown": 20, "waited": 20, "memory": 100, "sided": 20, "sent": 50, "closed": 20, "tell": 20, "no_longer_so": 10} {
		if seen[what] < least && !testing.Short() {
			t.Errorf("only %d of %q: the test shows little", seen[what], what)
		}
	}
}

// looksAlike holds what the circuit observed for every step against what is worked
// out part by part, when each instant of a record is over; and says how often.
func looksAlike(t *testing.T, tm *crew.Team, r *run.Record) (looks int) {
	t.Helper()
	for _, p := range tm.Build().Procedures {
		crew.Walk(tm.Steps(p), func(s *book.Step, number string) {
			for _, at := range r.Instants() {
				looks++
				fast, slow := tm.Looks(s, func(n circuit.Node) float64 { return r.At(n, at) }), tm.Saw(r, s, at).Answer
				if fast != slow && !t.Failed() {
					t.Errorf("%s of %s at %d: %q and %q", number, p.ID, at, fast, slow)
				}
			}
		})
	}
	return looks
}

func count(seen map[string]int, p *crew.Plan) {
	for _, c := range p.Calls {
		if c.From != nil && c.Begun != book.Never {
			seen["sent"]++
		}
	}
	for _, l := range p.Lines {
		seen[string(l.Answer)]++
		if strings.Contains(l.Number, ".unknown.") {
			seen["unknown"]++
		}
		if l.Step != nil && l.Step.Kind == "tell" {
			seen["tell"]++
		}
		if l.Deferred && l.Step != nil {
			seen["waited"]++
		}
		if l.Step != nil && l.Step.FromMemory {
			seen["memory"]++
		}
		if l.Step != nil && l.Step.That != nil && strings.Contains(l.Step.That.String(), "called_by") {
			seen["sided"]++
		}
	}
	for _, f := range p.Findings {
		seen[string(f.Kind)]++
	}
}

func pick[T any](r *rand.Rand, list ...T) T { return list[r.IntN(len(list))] }

// writer writes a book at random.
type writer struct {
	*rand.Rand
	strings.Builder
	list string // whose steps are being written
}

func (w *writer) line(format string, a ...any) { fmt.Fprintf(w, format+"\n", a...) }

func (w *writer) book() string {
	for i, id := range []string{"d", "e", "h", "k"} {
		w.line("unit %q {\n  needs = %s\n  fault \"sticks\" {}\n  fault \"jumps\" { stops = true }\n}", id, w.truth(i))
	}
	for i := range 4 {
		w.line("signal \"s%d\" { value = %s }", i, w.truth(4))
	}
	w.line("signal \"stays\" {\n  set = %s\n  reset = %s\n}", w.truth(4), w.truth(4))
	w.gauges()
	for i := range 4 {
		w.line("alert \"x%d\" {\n  level = %q\n  message = \"X%d\"\n  when = %s\n  procedure = p%d\n}", i, pick(w.Rand, "warning", "caution", "advisory"), i, w.fault(), w.IntN(3))
	}
	for i := range 4 {
		w.list = fmt.Sprintf("p%d", i)
		w.line("procedure %q {", w.list)
		if i == 3 && w.IntN(3) == 0 {
			w.line("last = true")
		}
		w.steps(0)
		w.line("}")
	}
	return w.String()
}

// gauges are right, or stick, or jump; some are dark at times.
func (w *writer) gauges() {
	for i, shows := range []string{
		"d.sticks ? 4000 : real.altitude_ft", "e.sticks ? frozen(real.airspeed_kt, e.sticks) : real.airspeed_kt", "h.sticks ? 9 : (a ? 12 : 3)",
		"k.sticks ? true : !a", "s1", "d.jumps ? \"off\" : left", "e.jumps ? 0 : real.height_ft",
	} {
		means := []string{"real.altitude_ft", "real.airspeed_kt", "a ? 12 : 3", "!a", "s2", "left", "real.height_ft"}[i]
		w.line("indication \"i%d\" {\n  shows = %s", i, shows)
		if w.IntN(5) > 0 {
			w.line("  means = %s", means)
		}
		if w.IntN(2) == 0 {
			w.line("  lit_by = %s", pick(w.Rand, "b", "d", "s0", "s3", "!stays", "real.height_ft > 3000"))
		}
		w.line("}")
	}
}

// truth is a condition of units and signals written so far.
func (w *writer) truth(units int) string {
	known := append([]string{"a", "b", "c", "left == \"on\"", "right == \"off\""}, []string{"d", "e", "h", "k"}[:units]...)
	x, y, z := pick(w.Rand, known...), pick(w.Rand, known...), pick(w.Rand, known...)
	return pick(w.Rand, x, x+" && "+y, x+" || "+y, "("+x+" || "+y+") && "+z, "at_least(2, "+x+", "+y+", "+z+")", "held("+x+", 7)")
}

func (w *writer) fault() string {
	x := pick(w.Rand, "!a", "!b", "!c", "!d", "!e", "h.sticks", "!s0", "!s1", "stays", "failed(k)")
	return pick(w.Rand, x, x, x+" || "+pick(w.Rand, "!h", "!k"), x+" && air", "held("+x+", 9)")
}

// sight is a condition of what can be seen, and now and then of what is true.
func (w *writer) sight(depth int) string {
	if depth > 0 && w.IntN(3) > 0 {
		x, y, z := w.sight(depth-1), w.sight(depth-1), w.sight(depth-1)
		return pick(w.Rand, "!("+x+")", "("+x+") && ("+y+")", "("+x+") || ("+y+")", "any("+x+", "+y+", "+z+")", "all("+x+", "+y+")",
			"at_least(2, "+x+", "+y+", "+z+")", "(("+x+") ? ("+y+") : ("+z+"))", "("+x+") == ("+y+")", "held("+x+", 12)")
	}
	return pick(w.Rand,
		"i0 > 5000", "i0 < 4500", "size(i0 - 6000) < 1500", "i1 > 200", "i1 + 10 > 250", "i2 > 5", "i2 == 12", "most_of(i2, 4) < 5", "-i2 < -5", "i6 / 2 > 1500",
		"i3", "i4", "i5 == \"on\"", "i5 == left", "i5 != \"off\"", "x0", "x1", "left == \"on\"", "right == \"off\"", "air", "down", "seen.on_ground", "seen.outside_visible",
		"called_by(x0)", "called_by(x1)", "i3 == i4", "i0 > flight.cruise_altitude_ft - 50", "(x0 ? i0 : i6) > 3000", "least_of(i0, i6) < 3500")
}

func (w *writer) steps(depth int) {
	for range 1 + w.IntN(4) {
		w.step(depth)
	}
}

// sends has a line send to a list further down, so that no list comes back to itself.
func (w *writer) sends() string {
	to := pick(w.Rand, "p1", "p2", "p3", "p3")
	if to <= w.list {
		return ""
	}
	return "  go_to = " + to + "\n" + pick(w.Rand, "", "  leave = true\n")
}

func (w *writer) step(depth int) {
	who := pick(w.Rand, "", "  by = \"PF\"\n", "  by = \"PM\"\n", "  by = \"both\"\n")
	if w.IntN(5) == 0 {
		who += "  from_memory = true\n"
	}
	if w.IntN(6) == 0 {
		who += fmt.Sprintf("  wait_s = %d\n", 5+w.IntN(40))
	}
	if w.IntN(8) == 0 {
		who += "  wait_for = " + w.sight(1) + "\n"
	}
	if w.IntN(6) == 0 {
		who += "  if = " + w.sight(1) + "\n"
	}
	switch kind := w.IntN(7); {
	case kind == 0:
		w.line("note {\n  says = \"one two\"\n%s%s}", who, w.sends())
	case kind == 1:
		w.line("do {\n  set = %s\n  to = %q\n%s}", pick(w.Rand, "left", "right"), pick(w.Rand, "on", "off"), who)
	case kind == 2 && depth < 2 && w.IntN(4) == 0:
		w.line("tell {\n  whom = \"control\"\n  says = \"we come\"\n}")
	case kind < 4 || depth > 1:
		w.line("check {\n  that = %s\n%s}", w.sight(2), who)
	case kind == 4:
		w.line("later {\n  %s", pick(w.Rand, "in = down", "in = air", "when = "+w.sight(1)))
		if w.IntN(3) == 0 {
			w.line("  if = %s", w.sight(1))
		}
		w.steps(depth + 1)
		w.line("}")
	default:
		w.line("decide {\n  that = %s\n%s", w.sight(2), who)
		for _, way := range []string{"then", "else", "unknown"} {
			if way == "then" || w.IntN(2) == 0 {
				w.line("%s {", way)
				w.steps(depth + 1)
				w.line("}")
			}
		}
		w.line("}")
	}
}
