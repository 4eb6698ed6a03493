package oracle_test

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/oracle"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
)

// fact is something that an evaluator says of how losses are known, with its moments.
type fact struct {
	what string
	at   []book.Time
}

func (f fact) String() string {
	var s strings.Builder
	s.WriteString(f.what)
	for _, t := range f.at {
		fmt.Fprintf(&s, " %g", t.Seconds())
	}
	return s.String()
}

// sorted puts facts in an order that small differences of time do not change.
func sorted(list []fact) []fact {
	slices.SortFunc(list, func(x, y fact) int { return cmp.Or(cmp.Compare(x.what, y.what), slices.Compare(x.at, y.at)) })
	return list
}

// same tells whether two evaluators say the same, give or take tol.
func same(x, y []fact, tol book.Time) bool {
	return slices.EqualFunc(x, y, func(a, b fact) bool {
		return a.what == b.what && slices.EqualFunc(a.at, b.at, func(s, t book.Time) bool { return max(s-t, t-s) <= tol })
	})
}

func written(list []fact) string {
	var s strings.Builder
	for _, f := range list {
		fmt.Fprintln(&s, f)
	}
	return s.String()
}

// fastFacts is what package known makes of a ledger.
func fastFacts(l *ledger.Ledger) (list []fact) {
	for _, x := range l.Losses {
		list = append(list, fact{x.Function.ID + " is " + string(x.Known), nil})
		for _, p := range x.Spans {
			k, f := p.Known, fact{x.Function.ID + ": " + string(p.Known.Word), []book.Time{p.From, p.To}}
			if k.Word == ledger.Late {
				f.what, f.at = fmt.Sprintf("%s, by alert %t", f.what, k.ByAlert), append(f.at, k.LateBy)
			}
			if w := k.Follows; w != nil {
				f.what = fmt.Sprintf("%s, from %s, %d steps, distant %t", f.what, w.From, w.Steps, w.Distant)
				f.at = append(f.at, w.Claimed, w.At)
			}
			if n := k.Noticed; n != nil {
				f.what, f.at = fmt.Sprintf("%s, noticed, at once %t", f.what, n.AtOnce), append(f.at, n.At)
			}
			f.what += also(k.Also) + idle(p.Mattered)
			list = append(list, f)
		}
	}
	for _, c := range l.Concluded {
		for _, s := range c.Spans {
			list = append(list, fact{"concluded " + c.Function.ID, []book.Time{s.From, s.To}})
		}
	}
	return sorted(list)
}

// slowFacts is what the oracle says, in the same words.
func slowFacts(k *oracle.Known) (list []fact) {
	for _, x := range k.Losses {
		list = append(list, fact{x.Function + " is " + x.Word, nil})
		for _, p := range x.Spans {
			f := fact{x.Function + ": " + p.Word, []book.Time{p.From, p.To}}
			if p.Word == string(ledger.Late) {
				f.what, f.at = fmt.Sprintf("%s, by alert %t", f.what, p.ByAlert), append(f.at, p.LateBy)
			}
			if w := p.Follows; w != nil {
				f.what = fmt.Sprintf("%s, from %s, %d steps, distant %t", f.what, w.From, w.Steps, w.Distant)
				f.at = append(f.at, w.Since, w.At)
			}
			if n := p.Noticed; n != nil {
				f.what, f.at = fmt.Sprintf("%s, noticed, at once %t", f.what, n.AtOnce), append(f.at, n.At)
			}
			f.what += also(p.Also) + idle(p.Mattered)
			list = append(list, f)
		}
	}
	for _, c := range k.Concluded {
		list = append(list, fact{"concluded " + c.Function, []book.Time{c.From, c.To}})
	}
	return sorted(list)
}

func also[W ~string](words []W) (text string) {
	for _, w := range words {
		text += ", also " + string(w)
	}
	return text
}

func idle(mattered bool) string {
	if mattered {
		return ""
	}
	return ", does not matter"
}

// judged is the fast answer to a scenario whose first so many actions are a set-up;
// nil where a loop at the start leaves no record.
func judged(t testing.TB, c *run.Course, s oracle.Scenario, setUp int) *ledger.Ledger {
	t.Helper()
	asked := scenarioOf(s)
	asked.SetUp, asked.Actions = asked.Actions[:setUp], asked.Actions[setUp:]
	l, err := ledger.Answer(t.Context(), c, asked)
	if err != nil {
		return nil
	}
	if err := known.Judge(t.Context(), l); err != nil {
		t.Fatal(err)
	}
	return l
}

// question puts the same to the oracle: along the path of the run here, as far as
// both runs went.
func question(l *ledger.Ledger, s oracle.Scenario, setUp int, step book.Time) oracle.Question {
	c := l.Here.Course
	return oracle.Question{
		Build: c.Build, Flight: c.Flight, Path: l.Here.Path(), Step: step, Until: min(l.Here.End, l.There.End),
		Here: s, There: oracle.Scenario{Inoperative: s.Inoperative, Actions: s.Actions[:setUp], Phases: s.Phases},
	}
}

// knownSeen counts what the slow evaluator said.
type knownSeen map[string]int

var knownWords = []string{": told", ": denied", ": follows", ": noticed at once", ": late", ": found when used", ": hidden", "concluded", "from ", "distant true", "noticed, ", "also follows", "also late"}

// Spans that are too short to matter, and lies that are found out after so long that they have denied.
const (
	brief    = "wanted, but brief"
	foundOut = ": denied, noticed, at once false"
)

func (s knownSeen) add(list []fact) {
	for _, f := range list {
		for _, w := range append(slices.Clone(knownWords), foundOut) {
			s[w] += min(1, strings.Count(f.what, w))
		}
	}
}

// brief counts spans in which a function is wanted and that are too short to matter.
func (s knownSeen) brief(k *oracle.Known) {
	for _, x := range k.Losses {
		for _, p := range x.Spans {
			if p.Wanted && !p.Mattered {
				s[brief]++
			}
		}
	}
}

// lacks names what was seen less often than once in so many flights.
func (s knownSeen) lacks(least int) (words []string) {
	for _, w := range append(slices.Clone(knownWords), brief) {
		if s[w] < least {
			words = append(words, w)
		}
	}
	if s[foundOut] == 0 { // rare, even where flights are long
		words = append(words, foundOut)
	}
	return words
}

// TestAgreeOnKnown asks both evaluators how each loss in random books is known.
func TestAgreeOnKnown(t *testing.T) {
	seen, bad, flights := knownSeen{}, 0, 0
	n := 100 * asked(t)
	for seed := range uint64(n) {
		f := (&maker{Rand: rand.New(rand.NewPCG(seed, 5)), tells: true, leans: seed%4 > 0, long: seed%4 == 1}).flown(t, seed)
		setUp := min(len(f.scenario.Actions), int(seed%2))
		c := course(t, f.build, f.build.Flights[0], newScript(t, f.path, f.end))
		l := judged(t, c, f.scenario, setUp)
		if l == nil {
			continue
		}
		flights++
		k, err := question(l, f.scenario, setUp, book.AtSeconds(gridStep)).Know()
		if err != nil {
			t.Fatal(err)
		}
		fast, slow := fastFacts(l), slowFacts(k)
		seen.add(slow)
		seen.brief(k)
		if !same(fast, slow, 0) {
			t.Errorf("fast:\n%s\nslow:\n%s\nheld: %v\nset-ups: %d, %s", written(fast), written(slow), k.Held, setUp, f)
			if bad++; bad == 5 {
				t.FailNow()
			}
		}
	}
	t.Logf("%d flights: %v", flights, seen)
	if lacks := seen.lacks(max(1, flights/400)); len(lacks) > 0 {
		t.Errorf("hardly ever seen: %q; the books are too tame", lacks)
	}
}

// agreedAt asks the oracle at finer and finer steps until it agrees with package
// known, and gives the number of the step at which it does; len(steps) if at none.
func agreedAt(t *testing.T, l *ledger.Ledger, s oracle.Scenario, setUp int, steps []book.Time) (tries int, slow []fact) {
	t.Helper()
	fast := fastFacts(l)
	for i, step := range steps {
		k, err := question(l, s, setUp, step).Know()
		if err != nil {
			t.Fatal(err)
		}
		if slow = slowFacts(k); same(fast, slow, 2*step) {
			return i, slow
		}
	}
	return len(steps), slow
}

// TestAgreeOnKnownSmooth does so where numbers run, at finer and finer steps; flights
// that break off are left to the books on a grid.
func TestAgreeOnKnownSmooth(t *testing.T) {
	seen, again, flights := knownSeen{}, 0, 0
	for seed := range uint64(20 * asked(t)) {
		f := (&maker{Rand: rand.New(rand.NewPCG(seed, 6)), smooth: true, tells: true, leans: seed%4 > 0}).flown(t, seed)
		l := judged(t, course(t, f.build, f.build.Flights[0], newScript(t, f.path, randomEnd)), f.scenario, 0)
		if l == nil || l.Here.Fault != nil || l.There.Fault != nil {
			continue
		}
		flights++
		tries, slow := agreedAt(t, l, f.scenario, 0, fineSteps)
		again += min(tries, 1)
		seen.add(slow)
		if tries == len(fineSteps) {
			t.Errorf("%s\n%s", apart(fastFacts(l), slow), f)
		}
	}
	t.Logf("%d flights, %d of them again at a finer step: %v", flights, again, seen)
}

// Small books, with what section 5a says of them by hand; package known says the same.
func TestKnow_ByHand(t *testing.T) {
	const pump = "unit \"pump\" {\n  title = \"Pump\"\n}\nunit \"eye\" {\n}\n"
	const lamp = "indication \"lamp\" {\n  shows = true\n  means = use\n}\n"
	use := func(works, more string) string {
		return fmt.Sprintf("function \"use\" {\n  title = \"Use\"\n  works = %s\n  %s\n}\n", works, more)
	}
	alert := func(when, more string) string {
		return fmt.Sprintf("alert \"low\" {\n  level = \"caution\"\n  message = \"Low\"\n  when = %s\n  %s\n}\n", when, more)
	}
	seen := func(when string) string {
		return "noticed_when = " + when + "\n  noticed_by = \"seen\"\n  noticed_source = \"test\""
	}
	for _, c := range []struct{ name, book, want string }{
		{"hidden", pump + use("pump", ""), "use is hidden\nuse: hidden 10 100\n"},
		{"follows at once", pump + use("pump", "") + alert("!pump", ""),
			"use is follows\nuse: follows, from pump, 2 steps, distant false 10 100 10 10\n"},
		{"distant after more than a minute", pump + use("!held(!pump, 61)", "") + alert("!pump", ""),
			"use is follows\nuse: follows, from pump, 2 steps, distant true 71 100 10 71\n"},
		{"not after a minute", pump + use("!held(!pump, 60)", "") + alert("!pump", ""),
			"use is follows\nuse: follows, from pump, 2 steps, distant false 70 100 10 70\n"},
		{"ten seconds after the loss is in time", pump + use("pump", "") + alert("held(!pump, 10)", ""),
			"use is follows\nuse: follows, from pump, 2 steps, distant false 10 100 20 20\n"},
		{"a step later is late", pump + use("pump", "") + alert("held(!pump, 10.25)", ""),
			"use is late\nuse: late, by alert false, from pump, 2 steps, distant false 10 100 10.25 20.25 20.25\n"},
		{"found when used, seen for two seconds", pump + use("pump", seen("!pump && seen.icing")),
			"use is found when used\nuse: found when used, noticed, at once false 10 100 32\n"},
		{"a gap of two seconds does not matter", pump + use("!pulse(!pump, 2)", ""),
			"use is hidden\nuse: hidden, does not matter 10 12\n"},
		{"one that is longer does", pump + use("!pulse(!pump, 2.25)", ""), "use is hidden\nuse: hidden 10 12.25\n"},
		{"and so does what lasts to the end", pump + use("!held(!pump, 89)", ""), "use is hidden\nuse: hidden 99 100\n"},
		{"a lie found out after two minutes denies nothing", pump + use("pump", seen("held(!use, 118)")) + lamp,
			"use is found when used\nuse: found when used, noticed, at once false 10 200 130\n"},
		{"a step later it has denied", pump + use("pump", seen("held(!use, 118.25)")) + lamp,
			"use is denied\nuse: denied, noticed, at once false, also found when used 10 200 130.25\n"},
		{"an alert that saw through it first had been denied", pump + use("pump", seen("held(!use, 58)")) + lamp + alert("held(!pump, 13)", "true_when = held(!pump, 13) || failed(eye)\n  tells = [use]"),
			"use is denied\nuse: denied, noticed, at once false, also late, also found when used 10 200 70\n"},
		{"concluded falsely", pump + use(`pump || failed(eye)`, "") + alert("!pump", ""), "concluded use 10 100\n"},
		{"not what works only where more has failed, claimed as well", pump + use(`pump || failed(eye)`, "") + alert("!pump && failed(eye)", ""), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := load(t, c.book+"flight \"hop\" {\n"+flightNumbers+"}\n")
			s := oracle.Scenario{Failures: []oracle.Failure{{Ref: book.FailureRef{Unit: "pump"}, At: 10 * book.Second}}}
			if strings.Contains(c.book, "failed(eye)") {
				s.Failures = append(s.Failures, oracle.Failure{Ref: book.FailureRef{Unit: "eye"}, At: 10 * book.Second})
			}
			end := 100.0
			if strings.Contains(c.book, "lamp") {
				end = 200
			}
			l := judged(t, course(t, b, b.Flights[0], newScript(t, "icing 30-60", end)), s, 0)
			k, err := question(l, s, 0, book.AtSeconds(gridStep)).Know()
			if err != nil {
				t.Fatal(err)
			}
			if got := written(slowFacts(k)); got != c.want {
				t.Errorf("got:\n%swant:\n%s", got, c.want)
			}
			if got := written(fastFacts(l)); got != c.want {
				t.Errorf("package known:\n%swant:\n%s", got, c.want)
			}
		})
	}
}
