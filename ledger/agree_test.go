package ledger_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
)

// halves is a grid of half seconds over a flight of 400 s: all moments of the
// small books fall on it.
func halves() []book.Time {
	var grid []book.Time
	for t := book.Time(0); t <= 400*book.Second; t += book.Second / 2 {
		grid = append(grid, t)
	}
	return grid
}

// bare takes what is kept and how things read out of a dump.
func bare(dump string) string {
	var lines []string
	for line := range strings.Lines(dump) {
		switch {
		case strings.HasPrefix(line, "kept "):
			continue
		case strings.HasPrefix(line, "wrong "):
			line = withoutReadings(line)
		}
		lines = append(lines, line)
	}
	return strings.Join(lines, "")
}

// scribe writes random small books whose moments all fall on half seconds.
type scribe struct {
	*rand.Rand
	strings.Builder
	names []string // yes/no that may be used so far
}

func (s *scribe) pick(words ...string) string { return words[s.IntN(len(words))] }

// half is a random number of half seconds from 0.5 to most.
func (s *scribe) half(most int) string { return fmt.Sprintf("%g", float64(1+s.IntN(2*most))/2) }

func (s *scribe) yesNo(depth int) string {
	if depth == 0 {
		return s.pick(s.names...)
	}
	a, b := s.yesNo(depth-1), s.yesNo(depth-1)
	switch s.IntN(11) {
	case 0, 1:
		return "(" + a + " && " + b + ")"
	case 2, 3:
		return "(" + a + " || " + b + ")"
	case 4:
		return "!" + a
	case 5:
		return "held(" + a + ", " + s.half(20) + ")"
	case 6:
		return "pulse(" + a + ", " + s.half(20) + ")"
	case 7:
		return "(before(" + a + ") && !" + a + ")"
	case 8:
		return "(" + a + " ? " + b + " : " + s.pick(s.names...) + ")"
	case 9:
		return "(count(" + a + ") >= 1)"
	}
	return "(total(" + a + ") >= " + s.half(30) + ")"
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

// perhaps gives a line in half of all cases.
func (s *scribe) perhaps(line string) string {
	if s.IntN(2) == 0 {
		return ""
	}
	return line
}

func randomBook(r *rand.Rand) string {
	s := &scribe{Rand: r, names: []string{"climb", "cruise", "landing", `(switch == "b")`}}
	s.block("control", "switch", `positions = ["a", "b"]`, `initial = "a"`)
	for i := range 4 {
		id := fmt.Sprintf("unit_%d", i)
		s.block("unit", id, s.perhaps("needs = "+s.yesNo(0)))
		s.names = append(s.names, id)
	}
	for i := range 3 {
		id := fmt.Sprintf("signal_%d", i)
		s.block("signal", id, "value = "+s.yesNo(2))
		s.names = append(s.names, id)
	}
	s.block("signal", "latch", "set = "+s.yesNo(1), "reset = "+s.yesNo(1))
	s.names = append(s.names, "latch")
	for i := range 4 {
		id := fmt.Sprintf("function_%d", i)
		works := s.pick(fmt.Sprintf("unit_%d", i), fmt.Sprintf("unit_%d && ", i)+s.yesNo(1), s.yesNo(1+i%2))
		s.block("function", id, "works = "+works, s.perhaps("wanted = "+s.yesNo(0)), s.perhaps("severity = "+s.pick(`"minor"`, `"hazardous"`)), s.perhaps("severity_if_hidden = "+s.pick(`"major"`, `"catastrophic"`)))
	}
	for i := range 4 {
		s.block("alert", fmt.Sprintf("alert_%d", i), `level = `+s.pick(`"warning"`, `"caution"`), `message = "M"`, "when = "+s.pick(s.yesNo(2), fmt.Sprintf("held(!unit_%d, %s)", i, s.half(20)), fmt.Sprintf("!unit_%d", i)),
			s.perhaps("true_when = "+s.yesNo(0)), s.perhaps("given_by = "+s.yesNo(0)), s.perhaps("until = "+s.yesNo(1)),
			s.perhaps("quiet_in = ["+s.pick("climb", "cruise", "climb, cruise")+"]"), s.perhaps("repeats_s = "+s.half(9)),
			fmt.Sprintf("tells = [function_%d, function_%d]", i, (i+1+s.IntN(3))%4))
	}
	for i := range 4 {
		s.indication(i)
	}
	return s.String()
}

func (s *scribe) indication(i int) {
	f := fmt.Sprintf("function_%d", s.IntN(4))
	shows, means := s.yesNo(1), s.pick(f, s.yesNo(1))
	switch s.IntN(4) {
	case 0:
		shows, means = shows+` ? "one" : "two"`, means+` ? "one" : "two"`
	case 1:
		shows, means = "count("+shows+")", s.pick("count("+means+")", "count("+shows+")")
	}
	s.block("indication", fmt.Sprintf("indication_%d", i), "shows = "+shows, "means = "+means,
		s.perhaps("lit_by = "+s.yesNo(0)), "tells = ["+f+"]")
}

func randomFailures(r *rand.Rand) string {
	var list []string
	for range 1 + r.IntN(4) {
		f := fmt.Sprintf("unit_%d@%g", r.IntN(4), float64(r.IntN(700))/2)
		if r.IntN(2) == 0 {
			f += fmt.Sprintf("+%g", float64(1+r.IntN(60))/2)
		}
		list = append(list, f)
	}
	if r.IntN(3) == 0 {
		list = append(list, fmt.Sprintf("/unit_%d", r.IntN(4)))
	}
	for range r.IntN(3) {
		list = append(list, fmt.Sprintf("%sswitch=%s@%g", []string{"", "="}[r.IntN(2)], []string{"a", "b"}[r.IntN(2)], float64(r.IntN(700))/2))
	}
	return strings.Join(list, " ")
}

func TestOf_AgreesWithTheSlowLedgerOnRandomBooks(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	seen := map[string]int{}
	books, runs := 100, 0
	if testing.Short() {
		books = 40
	}
	for range books {
		text := randomBook(r)
		c := course(t, text)
		for range 3 {
			failures := randomFailures(r)
			l := answer(t, c, failing(t, failures))
			if l.Here.Fault != nil || l.There.Fault != nil {
				continue
			}
			runs++
			fast, plain := bare(dump(l)), newSlow(l, halves()).dump()
			if fast != plain {
				t.Fatalf("%s\nfailures: %s\nledger:\n%s\nslow ledger:\n%s", text, failures, fast, plain)
			}
			tally(seen, fast)
		}
	}
	t.Logf("%d runs: %v", runs, seen)
	for _, word := range tallied {
		if seen[word] < max(1, runs/100) {
			t.Errorf("only %d times %q in %d runs: the books are too tame", seen[word], word, runs)
		}
	}
}

var tallied = []string{" told,", " told late,", " told wrong", " only shown", " not told", "not wanted", "held in", "wrong ", "dark ", "given ", "false ", "held ", "sounds", "shown by"}

func tally(seen map[string]int, dump string) {
	for _, word := range tallied {
		seen[word] += strings.Count(dump, word)
	}
}

// cells is a grid of all moments at which anything changes in either run.
func cells(l *ledger.Ledger) []book.Time {
	grid := append(slices.Concat(l.Here.Instants(), l.There.Instants(), l.Here.Path().Knots()), l.Here.End)
	slices.Sort(grid)
	return slices.Compact(grid)
}

func TestOf_AgreesWithTheSlowLedgerOnTheDemonstration(t *testing.T) {
	c := demoCourse(t)
	r := rand.New(rand.NewPCG(3, 4))
	n := 60
	if testing.Short() {
		n = 10
	}
	seen := map[string]int{}
	for range n {
		s := randomScenario(r, c)
		l := answer(t, c, s)
		if l.Here.Fault != nil {
			continue
		}
		fast, plain := bareNumbers(dump(l)), bareNumbers(newSlow(l, cells(l)).dump())
		if fast != plain {
			t.Fatalf("%v\n%s", s.Strikes, differences(fast, plain))
		}
		tally(seen, fast)
	}
	t.Logf("%v", seen)
}

// randomScenario fails one to four units of a course at random moments.
func randomScenario(r *rand.Rand, c *run.Course) run.Scenario {
	var s run.Scenario
	ways := c.Circuit().Ways()
	for range 1 + r.IntN(4) {
		s.Strikes = append(s.Strikes, run.Strike{
			Fail:  []book.FailureRef{ways[r.IntN(len(ways))]},
			At:    book.Moment{Offset: book.Time(r.Int64N(int64(c.Path.End())))},
			Lasts: book.Time(r.IntN(2)) * book.Time(r.IntN(600)) * book.Second,
		})
	}
	return s
}

// bareNumbers takes out of a dump what is kept, how things read, when alerts
// repeat, and from when a number shows a loss: the grid does not have it.
func bareNumbers(dump string) string {
	var lines []string
	for line := range strings.Lines(bare(dump)) {
		line, _, _ = strings.Cut(strings.TrimSuffix(line, "\n"), ", sounds ")
		if strings.Contains(line, " only shown, via ") {
			line, _, _ = strings.Cut(line, ", via ")
		}
		lines = append(lines, line+"\n")
	}
	return strings.Join(lines, "")
}

// withoutReadings keeps the stretches of a line of wrong readings.
func withoutReadings(line string) string {
	var kept []string
	for i, word := range strings.Fields(line) {
		if from, to, ok := strings.Cut(word, "-"); i < 2 || ok && isNumber(from) && (to == "end" || isNumber(to)) {
			kept = append(kept, word)
		}
	}
	return strings.Join(kept, " ") + "\n"
}

func isNumber(s string) bool {
	var x float64
	var rest string
	n, _ := fmt.Sscanf(s+" .", "%g %s", &x, &rest)
	return n == 2
}

// differences lists the lines that only one of two texts has.
func differences(a, b string) string {
	var w strings.Builder
	only := func(sign, x, y string) {
		other := strings.Split(y, "\n")
		for line := range strings.Lines(x) {
			if !slices.Contains(other, strings.TrimSuffix(line, "\n")) {
				w.WriteString(sign + line)
			}
		}
	}
	only("ledger: ", a, b)
	only("slow:   ", b, a)
	return w.String()
}
