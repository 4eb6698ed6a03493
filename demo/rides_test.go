package demo_test

import (
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
)

var update = flag.Bool("update", false, "write the tables of docs/rides.md again")

const (
	ridesPage  = "../docs/rides.md"
	ridesBegin = "<!-- the tables: written by a test of demo from demo/rides -->\n"
	ridesEnd   = "<!-- the end of the tables -->\n"
)

var (
	rideKinds  = []string{"at once", "later", "told", "stays", "crew", "goes", "never"}
	rideLevels = []string{"warning", "caution", "advisory", "none"}
	rideToday  = []string{"so", "not so", "not modelled"}
)

// A rideCase is one failure of a check ride; a ride has one or two.
type rideCase struct{ ride, title, id, fails, when, knockon string }

// An expectation is what an examiner wants to see in a case, and what is seen today.
type expectation struct{ id, in, kind, level, says, source, today, seen, change string }

// rows reads a table of demo/rides without its head.
func rows(t *testing.T, name string, columns int) [][]string {
	t.Helper()
	f, err := os.Open("rides/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = columns
	list, err := r.ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return list[1:]
}

func rideCases(t *testing.T) (list []rideCase) {
	command := map[string]string{}
	for _, r := range rows(t, "commands.csv", 2) {
		command[r[0]] = r[1]
	}
	for _, r := range rows(t, "cases.csv", 5) {
		list = append(list, rideCase{r[0], r[1], r[2], r[3], r[4], command[r[2]]})
	}
	if len(command) != len(list) {
		t.Errorf("commands.csv has %d cases, cases.csv %d", len(command), len(list))
	}
	return list
}

func expectations(t *testing.T) (list []expectation) {
	today := rows(t, "today.csv", 4)
	expected := rows(t, "expected.csv", 6)
	if len(today) != len(expected) {
		t.Fatalf("today.csv has %d rows, expected.csv %d", len(today), len(expected))
	}
	for i, r := range expected {
		if today[i][0] != r[0] {
			t.Fatalf("today.csv has %s where expected.csv has %s", today[i][0], r[0])
		}
		list = append(list, expectation{r[0], r[1], r[2], r[3], r[4], r[5], today[i][1], today[i][2], today[i][3]})
	}
	return list
}

// TestRides_AreComplete: thirty rides; each case says what is lost at once, what is
// told, what stays, what the crew do and what must not happen, each with a source.
func TestRides_AreComplete(t *testing.T) {
	rides, kinds, ids := map[string]bool{}, map[string][]string{}, map[string]bool{}
	for _, e := range expectations(t) {
		kinds[e.in] = append(kinds[e.in], e.kind)
		if ids[e.id] || !strings.HasPrefix(e.id, e.in+"_") {
			t.Errorf("%s: an id there twice, or not of its case", e.id)
		}
		ids[e.id] = true
		checkExpectation(t, e)
	}
	for _, c := range rideCases(t) {
		rides[c.ride] = true
		for _, kind := range []string{"told", "never"} {
			if !slices.Contains(kinds[c.id], kind) {
				t.Errorf("%s: nothing is said of %q", c.id, kind)
			}
		}
		if len(kinds[c.id]) < 4 {
			t.Errorf("%s: %d expectations are too few for a ride", c.id, len(kinds[c.id]))
		}
		delete(kinds, c.id)
	}
	if len(rides) != 30 {
		t.Errorf("%d rides, want 30", len(rides))
	}
	for id := range kinds {
		t.Errorf("expectations of %s, which is no case", id)
	}
}

func checkExpectation(t *testing.T, e expectation) {
	t.Helper()
	if !slices.Contains(rideKinds, e.kind) || !slices.Contains(rideToday, e.today) {
		t.Errorf("%s: %q and %q: want one of %q and of %q", e.id, e.kind, e.today, rideKinds, rideToday)
	}
	if (e.kind == "told") != slices.Contains(rideLevels, e.level) {
		t.Errorf("%s: level %q of %q", e.id, e.level, e.kind)
	}
	if e.source == "" || e.says == "" || strings.HasSuffix(e.says, ".") {
		t.Errorf("%s: want a sentence without its full stop, and a source", e.id)
	}
	if (e.today == "so") != (e.change == "") {
		t.Errorf("%s: want a change of changes.csv for what is not so, and only there", e.id)
	}
	if e.today == "not so" && e.seen == "" && e.kind != "never" {
		t.Errorf("%s: not so, and what is seen instead is not said", e.id)
	}
}

// TestRides_NameWhatTheBookHas: what a command lets fail is in the book, so that
// whoever renames a unit runs the ride again.
func TestRides_NameWhatTheBookHas(t *testing.T) {
	k := corvane.Build(t, "")
	for _, c := range rideCases(t) {
		words, ok := strings.CutPrefix(c.knockon, "fail ")
		if !ok {
			continue // not modelled
		}
		names, _, _ := strings.Cut(words, " --")
		for _, name := range strings.Fields(names) {
			if _, err := book.ParseFailure(name, k); err != nil {
				t.Errorf("%s: %v", c.id, err)
			}
		}
	}
}

// TestRides_AreOnTheirPage: docs/rides.md shows the tables as they are.
func TestRides_AreOnTheirPage(t *testing.T) {
	page, err := os.ReadFile(ridesPage)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(page), ridesBegin)
	_, after, ok2 := strings.Cut(rest, ridesEnd)
	if !ok || !ok2 {
		t.Fatalf("%s has no place for the tables", ridesPage)
	}
	want := before + ridesBegin + rideTables(t) + ridesEnd + after
	if *update {
		if err := os.WriteFile(ridesPage, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if want != string(page) {
		t.Errorf("%s is not what demo/rides says: go test ./demo -run Rides -update", ridesPage)
	}
}

func rideTables(t *testing.T) string {
	var s strings.Builder
	all := expectations(t)
	cases := rideCases(t)
	s.WriteString(tally(cases, all))
	s.WriteString(changesTable(t, all))
	last := ""
	for _, c := range cases {
		if c.ride != last {
			fmt.Fprintf(&s, "\n### %s. %s\n", c.ride, c.title)
			last = c.ride
		}
		writeCase(&s, c, all)
	}
	return s.String() + "\n"
}

// changesTable says of each change how many expectations wait for it.
func changesTable(t *testing.T, all []expectation) string {
	t.Helper()
	s, waiting := "\n| | change | expectations that wait for it |\n| --- | --- | --- |\n", map[string]int{}
	for _, e := range all {
		waiting[e.change]++
	}
	known := map[string]bool{"": true}
	for _, r := range rows(t, "changes.csv", 2) {
		known[r[0]] = true
		s += fmt.Sprintf("| %s | %s | %d |\n", r[0], r[1], waiting[r[0]])
	}
	for change := range waiting {
		if !known[change] {
			t.Errorf("changes.csv has no change %q", change)
		}
	}
	return s
}

// tally counts expectations, and the rides and cases of which all are so.
func tally(cases []rideCase, all []expectation) string {
	count, failing := map[string]int{}, map[string]bool{}
	for _, e := range all {
		count[e.today]++
		failing[e.in] = failing[e.in] || e.today != "so"
	}
	rides, failingRides := map[string]bool{}, map[string]bool{}
	for _, c := range cases {
		rides[c.ride] = true
		if failing[c.id] {
			failingRides[c.ride] = true
		}
	}
	return fmt.Sprintf("\n%d expectations: %d so, %d not so, %d not modelled. Rides of which everything is so: %d of %d.\n",
		len(all), count["so"], count["not so"], count["not modelled"], len(rides)-len(failingRides), len(rides))
}

func writeCase(s *strings.Builder, c rideCase, all []expectation) {
	fmt.Fprintf(s, "\n**%s**: %s; %s. ", c.id, c.fails, c.when)
	if c.knockon == "" {
		s.WriteString("There is no way to ask it today.\n")
	} else {
		fmt.Fprintf(s, "`knockon %s`\n", c.knockon)
	}
	s.WriteString("\n| today | id | | expected | source | seen today | change |\n| --- | --- | --- | --- | --- | --- | --- |\n")
	for _, e := range all {
		if e.in == c.id {
			fmt.Fprintf(s, "| %s | %s | %s | %s | %s | %s | %s |\n",
				e.today, e.id, strings.TrimSpace(e.kind+" "+e.level), e.says, e.source, e.seen, e.change)
		}
	}
}
