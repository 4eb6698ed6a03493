package assess_test

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/assess"
	"knockon/internal/smallbook"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
	"knockon/sweep"
)

// swept sweeps a small book on its flight.
func swept(t testing.TB, c *run.Course, order int) (*sweep.Sweep, assess.Swept) {
	t.Helper()
	w, err := sweep.New(c, sweep.Setting{Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	s := assess.Swept{Build: c.Build, Hours: assess.HoursOf(w.Spans()), Failures: w.Failures(), Phases: w.Phases(), Order: order}
	for phase := range w.Phases() {
		sheet, err := w.Run(context.Background(), phase, order, nil)
		if err != nil {
			t.Fatal(err)
		}
		s.Sheets = append(s.Sheets, sheet)
	}
	return w, s
}

// scribe writes small books in which more failures never do less.
type scribe struct {
	*rand.Rand
	strings.Builder
	names []string
	rates [2]float64 // least and most
}

func (s *scribe) pick(words []string) string { return words[s.IntN(len(words))] }

func (s *scribe) rate() float64 {
	return s.rates[0] * math.Pow(s.rates[1]/s.rates[0], s.Float64())
}

func (s *scribe) works(depth int) string {
	if depth == 0 {
		return s.pick(s.names)
	}
	a, b := s.works(depth-1), s.works(depth-1)
	switch s.IntN(5) {
	case 0:
		return "(" + a + " && " + b + ")"
	case 1:
		return fmt.Sprintf("at_least(2, %s, %s, %s)", a, b, s.pick(s.names))
	case 2:
		return fmt.Sprintf("(%s || (%s && %s))", a, b, s.pick([]string{"climb", "cruise", "landing"}))
	}
	return "(" + a + " || " + b + ")"
}

func (s *scribe) unit(i int) {
	check := func(indent string) {
		if s.IntN(2) == 0 {
			fmt.Fprintf(s, "%s  checked_every_h = %g\n", indent, []float64{0.2, 3, 25, 500}[s.IntN(4)])
		}
	}
	fmt.Fprintf(s, "unit \"u%d\" {\n  rate_per_hour = %g\n", i, s.rate())
	check("")
	if i == 0 {
		fmt.Fprintf(s, "  fault \"bad\" {\n    rate_per_hour = %g\n", s.rate())
		check("  ")
		s.WriteString("  }\n")
	}
	s.WriteString("}\n")
	s.names = append(s.names, fmt.Sprintf("u%d", i))
}

// write is a book of five units, a fault, a common cause, and functions of all
// severities; some units are watched by an alert.
func (s *scribe) write() string {
	for i := range 5 {
		s.unit(i)
	}
	s.names = append(s.names, "!u0.bad")
	fmt.Fprintf(s, "event \"burst\" {\n  fails         = [u1, u%d]\n  rate_per_hour = %g\n}\n", 2+s.IntN(3), s.rate()/30)
	fmt.Fprintf(s, "alert \"one\" {\n  level   = \"caution\"\n  message = \"ONE\"\n  when    = !u%d\n  tells   = [f%d]\n}\n", s.IntN(5), s.IntN(4))
	fmt.Fprintf(s, "alert \"two\" {\n  level    = \"caution\"\n  message  = \"TWO\"\n  when     = !u%d\n  quiet_in = [cruise]\n}\n", s.IntN(5))
	for i, severity := range []string{"minor", "major", "hazardous", "catastrophic"} {
		fmt.Fprintf(s, "signal \"s%d\" {\n  value = %s\n}\n", i, s.works(1+s.IntN(2)))
		s.names = append(s.names, fmt.Sprintf("s%d", i))
		wanted := []string{"true", "climb", "cruise || landing", "landing"}[s.IntN(4)]
		noticed := []string{"", "", "  noticed_at_once = true\n  noticed_by      = \"felt\"\n  noticed_source  = \"a test\"\n", fmt.Sprintf("  noticed_when    = landing && !f%d\n  noticed_by      = \"tried\"\n  noticed_source  = \"a test\"\n", i)}[s.IntN(4)]
		fmt.Fprintf(s, "function \"f%d\" {\n  works    = %s\n  wanted   = %s\n  severity = \"%s\"\n%s%s}\n", i, s.works(1+s.IntN(2)), wanted, severity, noticed, []string{"", "  severity_if_hidden = \"catastrophic\"\n"}[s.IntN(2)])
	}
	return s.String()
}

// brute is the slow, obvious way: every set of failures is flown by itself, and
// every state of the parts is weighed.
type brute struct {
	t     *testing.T
	w     *sweep.Sweep
	s     assess.Swept
	lost  [][]map[string]bool // phase, subset -> functions lost and mattered
	known []bool              // by failure
}

func (b *brute) fly() {
	n := len(b.s.Failures)
	b.known = make([]bool, n)
	for phase := range b.s.Phases {
		var of []map[string]bool
		for subset := range 1 << n {
			of = append(of, b.one(phase, subset))
		}
		b.lost = append(b.lost, of)
	}
}

func (b *brute) one(phase, subset int) map[string]bool {
	var set sweep.Set
	for i := range b.s.Failures {
		if subset>>i&1 != 0 {
			set = append(set, i)
		}
	}
	lost := map[string]bool{}
	if len(set) == 0 {
		return lost
	}
	l, err := b.w.Ledger(context.Background(), phase, set)
	if err != nil {
		b.t.Fatal(err)
	}
	if err := known.Judge(context.Background(), l); err != nil {
		b.t.Fatal(err)
	}
	for _, row := range l.Losses {
		lost[row.Function.ID] = row.Mattered
		if row.Function.SeverityIfHidden != "" {
			lost[row.Function.ID+" hidden"] = row.Mattered && (row.Known == ledger.Hidden || row.Known == ledger.Denied)
		}
	}
	if len(set) == 1 && (len(l.Alerts) > 0 || len(l.Dark) > 0 || slices.ContainsFunc(l.Losses, seenOrFelt)) {
		b.known[set[0]] = true
	}
	return lost
}

// seenOrFelt says that a loss is told or shown, or noticed when it matters.
func seenOrFelt(r ledger.Loss) bool {
	felt := slices.Contains([]ledger.Word{ledger.AtOnce, ledger.InUse}, r.Known)
	return r.Class <= ledger.OnlyShown || felt && r.Mattered
}

// smallest are the smallest subsets of up to three that lose a function.
func (b *brute) smallest(phase int, function string) (list []int) {
	for subset := range b.lost[phase] {
		if !b.lost[phase][subset][function] {
			continue
		}
		part := func() bool {
			for p := (subset - 1) & subset; p > 0; p = (p - 1) & subset {
				if b.lost[phase][p][function] {
					return true
				}
			}
			return false
		}
		if size(subset) <= 3 && !part() {
			list = append(list, subset)
		}
	}
	return list
}

func size(subset int) (n int) {
	for ; subset > 0; subset &= subset - 1 {
		n++
	}
	return n
}

// weigh is the chance, in the mean over all flights, that what holds of a
// subset is so by a moment: over every state of every part, and every flight
// between checks (those of one interval are checked together).
func (b *brute) weigh(parts []assess.Part, at float64, holds func(subset int) bool) (mean float64) {
	hours := b.s.Hours.Hours
	flights := map[float64]int{}
	for _, p := range parts {
		flights[p.IntervalH(hours)] = int(math.Round(p.IntervalH(hours) / hours))
	}
	var intervals []float64
	for h := range flights {
		intervals = append(intervals, h)
	}
	slices.Sort(intervals)
	sums := map[float64][]float64{} // interval, subset of its members -> mean chance that just these have failed
	for _, h := range intervals {
		sums[h] = b.group(parts, h, flights[h], at)
	}
	for subset := range 1 << len(parts) {
		if !holds(subset) {
			continue
		}
		chance := 1.0
		for _, h := range intervals {
			chance *= sums[h][subset&membersOf(parts, h, hours)]
		}
		mean += chance
	}
	return mean
}

func membersOf(parts []assess.Part, every, hours float64) (members int) {
	for i, p := range parts {
		if p.IntervalH(hours) == every {
			members |= 1 << i
		}
	}
	return members
}

func (b *brute) group(parts []assess.Part, every float64, flights int, at float64) []float64 {
	members := membersOf(parts, every, b.s.Hours.Hours)
	mean := make([]float64, 1<<len(parts))
	step := max(1, flights/400) // every so many flights, each as the middle of its neighbours
	count := 0
	for first := 0; first+step <= flights; first += step {
		count++
		since := (float64(first)+float64(step-1)/2)*b.s.Hours.Hours + at
		for state := members; ; state = (state - 1) & members {
			chance := 1.0
			for i, p := range parts {
				switch {
				case members>>i&1 == 0:
				case state>>i&1 != 0:
					chance *= -math.Expm1(-p.Rate * since)
				default:
					chance *= math.Exp(-p.Rate * since)
				}
			}
			mean[state] += chance
			if state == 0 {
				break
			}
		}
	}
	for i := range mean {
		mean[i] /= float64(count)
	}
	return mean
}

// per is what a chance on a flight is divided by: the rule of docs/assess.md
// for phases that are less than half of the flight.
func (b *brute) per(phases []int) float64 {
	sum := 0.0
	for _, p := range phases {
		sum += b.s.Hours.Phases[p].To - b.s.Hours.Phases[p].From
	}
	if sum < b.s.Hours.Hours/2 {
		return min(1, b.s.Hours.Hours)
	}
	return b.s.Hours.Hours
}

func bitsOf(s sweep.Set) (subset int) {
	for _, n := range s {
		subset |= 1 << n
	}
	return subset
}

// TestOf_EqualsInclusionAndExclusion: on 200 random small books without totals
// the smallest sets are those of all subsets flown one by one; each set is as
// likely as every state of its parts, weighed; and so is each function, where
// failures are rare. Where they are not (parts that nobody checks for life), it
// is never less, and never more than the sum.
func TestOf_EqualsInclusionAndExclusion(t *testing.T) {
	books := 200
	if testing.Short() {
		books = 20
	}
	compared, singles, crowded, hidden := 0, 0, 0, 0
	for seed := range books {
		rates := [2]float64{1e-9, 1e-7}
		if seed%4 == 0 {
			rates = [2]float64{1e-7, 1e-3}
		}
		s := &scribe{Rand: rand.New(rand.NewPCG(uint64(seed), 11)), rates: rates}
		c := smallbook.Course(t, s.write())
		w, data := swept(t, c, 3)
		b := &brute{t: t, w: w, s: data}
		b.fly()
		a := assess.Of(data)
		for i, p := range a.Parts {
			if p.Latent == b.known[i] {
				t.Fatalf("seed %d: %s is latent: %v, and known: %v", seed, a.Failures[i], p.Latent, b.known[i])
			}
		}
		for _, l := range a.Losses {
			exact := b.holdsSets(seed, a, l)
			compared += len(l.Sets)
			if l.Hidden {
				hidden += len(l.Sets)
			}
			singles += len(l.Singles())
			if exact > l.PerH*(1+1e-3) || l.PerH > l.Sum*(1+1e-9) {
				t.Fatalf("seed %d: %s: %g per hour, inclusion and exclusion %g, sum %g", seed, l.Function.ID, l.PerH, exact, l.Sum)
			}
			if l.Sum > 1.05*l.PerH {
				crowded++
			}
			if seed%4 != 0 && exact < l.PerH*(1-0.02) {
				t.Fatalf("seed %d: %s: %g per hour, inclusion and exclusion %g", seed, l.Function.ID, l.PerH, exact)
			}
		}
	}
	if compared < 8*books || singles == 0 || crowded == 0 || hidden == 0 {
		t.Errorf("%d sets were compared, %d of one failure, %d of what is hidden; %d losses whose sets overlap: too few", compared, singles, hidden, crowded)
	}
}

// holdsSets compares the sets of a loss, and gives how likely the loss is by all
// states of the parts.
func (b *brute) holdsSets(seed int, a *assess.Assessment, l assess.Loss) (exact float64) {
	byPhase := make([][]int, len(b.s.Phases))
	for _, c := range l.Sets {
		want := 0.0
		for _, phase := range c.Phases {
			byPhase[phase] = append(byPhase[phase], bitsOf(c.Set))
			all := func(subset int) bool { return subset&bitsOf(c.Set) == bitsOf(c.Set) }
			spell := b.s.Hours.Phases[phase]
			if len(c.Set) == 1 { // as likely as it comes, also if it may have come before
				want += -math.Expm1(-a.Parts[c.Set[0]].Rate * (spell.To - spell.From))
				continue
			}
			want += b.weigh(a.Parts, spell.To, all) - b.weigh(a.Parts, spell.From, all)
		}
		want /= b.per(c.Phases)
		if math.Abs(want-c.PerH) > 2e-3*want {
			b.t.Fatalf("seed %d: %s: %v in %v: %g per hour, weighed %g", seed, l.Function.ID, c.Set, c.Phases, c.PerH, want)
		}
	}
	for phase, got := range byPhase {
		key := l.Function.ID
		if l.Hidden {
			key += " hidden"
		}
		want := b.smallest(phase, key)
		slices.Sort(got)
		if !slices.Equal(got, want) {
			b.t.Fatalf("seed %d: %s in phase %d: sets %b, flown one by one %b", seed, l.Function.ID, phase, got, want)
		}
		some := func(subset int) bool {
			return slices.ContainsFunc(want, func(m int) bool { return subset&m == m })
		}
		spell := b.s.Hours.Phases[phase]
		exact += b.weigh(a.Parts, spell.To, some) - b.weigh(a.Parts, spell.From, some)
	}
	return exact / b.s.Hours.Hours
}
