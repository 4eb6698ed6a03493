package oracle_test

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/demo"
	"knockon/internal/corvane"
	"knockon/internal/oracle"
	"knockon/ledger"
	"knockon/run"
)

// noticedLine is one that says how a loss is noticed.
var noticedLine = regexp.MustCompile(`(?m)^ *noticed_\w+ *=.*\n`)

var functionBlock = regexp.MustCompile(`(?m)^function "(\w+)" \{\n`)

// noticedDemo is the demonstration with ways of noticing put in, in place of its own.
func noticedDemo(t *testing.T) *book.Book {
	t.Helper()
	texts, rng, lamps := fstest.MapFS{}, rand.New(rand.NewPCG(4, 8)), lampsOf(corvane.Build(t, ""))
	err := fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demo.Book(), name)
		text := functionBlock.ReplaceAllStringFunc(noticedLine.ReplaceAllString(string(data), ""), func(block string) string {
			return block + notices(rng, functionBlock.FindStringSubmatch(block)[1], lamps)
		})
		texts[name] = &fstest.MapFile{Data: []byte(text)}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	b, found := book.Load(t.Context(), texts)
	if found.HasErrors() {
		t.Fatalf("the book with ways of noticing: %v", found[0])
	}
	return b
}

// lampsOf are the indications of a build that show yes or no.
func lampsOf(b *book.Build) (ids []string) {
	for _, i := range b.Indications {
		if i.Shows.Type == book.YesNo {
			ids = append(ids, i.ID)
		}
	}
	return ids
}

// notices is a way of noticing that a function is lost, or none.
func notices(rng *rand.Rand, id string, lamps []string) string {
	how := []string{
		"noticed_at_once = true", fmt.Sprintf("noticed_when = !%s && seen.outside_visible", id),
		fmt.Sprintf("noticed_when = held(!%s, %d)", id, 1+rng.IntN(60)), "",
		fmt.Sprintf("noticed_when = !%s || %s", lamps[rng.IntN(len(lamps))], lamps[rng.IntN(len(lamps))]),
	}[rng.IntN(5)]
	if how == "" {
		return ""
	}
	return how + "\nnoticed_by = \"seen\"\nnoticed_source = \"test\"\n"
}

// TestAgreeOnKnownDemo asks both evaluators how each loss of single failures and of
// pairs of them in the demonstration is known, with nobody's hands.
func TestAgreeOnKnownDemo(t *testing.T) {
	b := noticedDemo(t)
	build, _ := b.Build("")
	f := build.Flights[len(build.Flights)-1]
	live, err := run.NewCourse(build, f, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	d := &demoFlight{run: live, build: build}
	seen, again := knownSeen{}, 0
	cases := append(d.dealt(asked(t)), d.pairs(asked(t)/10)...)
	for _, c := range cases {
		tries, slow := d.agreeKnown(t, c)
		again += min(tries, 1)
		seen.add(slow)
	}
	t.Logf("%d scenarios, %d of them again at a finer step: %v", len(cases), again, seen)
}

var knownSteps = []book.Time{book.Second / 2, book.Second / 10, book.Second / 50, book.Second / 200}

// agreeKnown asks the oracle at finer and finer steps until it agrees with package known.
func (d *demoFlight) agreeKnown(t *testing.T, c demoCase) (tries int, slow []fact) {
	t.Helper()
	l := judged(t, d.run, c.scenario, 0)
	if l == nil {
		t.Fatalf("%s: no record", c.name)
	}
	return d.agreeOnLedger(t, l, c.scenario)
}

func (d *demoFlight) agreeOnLedger(t *testing.T, l *ledger.Ledger, s oracle.Scenario) (tries int, slow []fact) {
	t.Helper()
	tries, slow = agreedAt(t, l, s, 0, knownSteps)
	if fast := fastFacts(l); tries == len(knownSteps) {
		t.Errorf("%v\n%s", s, apart(fast, slow))
	}
	return tries, slow
}

// apart lists what only one of them says.
func apart(fast, slow []fact) string {
	var s strings.Builder
	for _, side := range []struct {
		name    string
		of, not []fact
	}{{"fast", fast, slow}, {"slow", slow, fast}} {
		for _, f := range side.of {
			if !slices.ContainsFunc(side.not, func(x fact) bool { return same([]fact{f}, []fact{x}, book.Second/10) }) {
				fmt.Fprintf(&s, "%s: %s\n", side.name, f)
			}
		}
	}
	return s.String()
}

// dealt are n of the single failures; from 2,000 on, all.
func (d *demoFlight) dealt(n int) (all []demoCase) {
	singles := d.singles()
	for i, s := range singles {
		if n >= 2000 || i*n/len(singles) != (i+1)*n/len(singles) {
			all = append(all, s)
		}
	}
	return all
}

// pairs are n pairs of failures, the second some time after the first.
func (d *demoFlight) pairs(n int) (all []demoCase) {
	m := &maker{Rand: rand.New(rand.NewPCG(9, 3)), smooth: true}
	for i := range n {
		first := oracle.Failure{Ref: m.failure(d.build), At: d.time(m)}
		second := oracle.Failure{Ref: m.failure(d.build), At: min(first.At+book.Time(m.IntN(90))*book.Second, d.run.Path.End())}
		all = append(all, demoCase{fmt.Sprint("pair_", i), oracle.Scenario{Failures: []oracle.Failure{first, second}}})
	}
	return all
}
