package crew_test

import (
	"context"
	"fmt"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/internal/corvane"
)

// TestRules_ABulletinInForce: its steps come where it says, on its days only.
func TestRules_ABulletinInForce(t *testing.T) {
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(frame + alert("x", "caution", "!a", "x_list") + `
		procedure "x_list" {
			note { says = "one" }
			note { says = "two" }
		}
		bulletin "winter" {
			procedure = x_list
			from      = "2026-11-01"
			until     = "2027-03-31"
			replaces  = 1
			check { that = reads_lamp }
		}`)}})
	if diags.HasErrors() {
		t.Fatal(diags[0])
	}
	build, _ := b.Build("")
	for day, want := range map[string]string{
		"":           "14-15 PM x_list 1\n15-16 PM x_list 2\n",
		"2027-03-31": "14-15 PM x_list winter.1 yes\n15-16 PM x_list 2\n",
		"2027-04-01": "14-15 PM x_list 1\n15-16 PM x_list 2\n",
	} {
		tm, err := crew.NewTeam(build, nil, crew.Setting{Pace: round(), Day: day})
		if err != nil {
			t.Fatal(err)
		}
		p, err := tm.Fly(context.Background(), failing(t, build, "air + 60 s", "a"))
		if err != nil {
			t.Fatal(err)
		}
		if got := rest(p); got != want {
			t.Errorf("on %q: got\n%swant\n%s", day, got, want)
		}
	}
	if _, err := crew.NewTeam(build, nil, crew.Setting{Day: "tomorrow"}); err == nil {
		t.Error("tomorrow is taken as a day")
	}
}

// TestRules_NothingIsReadNearTheGround: an alert at lift-off waits with its list
// until 400 ft, and what is done from memory does not.
func TestRules_NothingIsReadNearTheGround(t *testing.T) {
	tm := small(t, `signal "high" { value = real.height_ft >= 400 }
		function "g" { works = high }
		`+alert("x", "caution", "!a", "x_list")+`procedure "x_list" {
		do {
			says        = "hold"
			by          = "PF"
			from_memory = true
		}
		note { says = "x" }
	}`)
	_, p := lines(t, tm, "air", "a")
	from, _ := p.Record.FirstStrike()
	if got := p.Lines[0].From - from; got != 4*book.Second {
		t.Errorf("from memory after %g s", got.Seconds())
	}
	n, _ := p.Record.Circuit().Node(circuit.Value{Item: "high"})
	if got, want := p.Lines[1].From, p.Record.Spans(n)[0].From; got != want || got <= p.Lines[0].To {
		t.Errorf("the list is taken up at %g s; 400 ft are passed at %g s", got.Seconds(), want.Seconds())
	}
}

func TestPace(t *testing.T) {
	p, err := crew.DefaultPace().With("list_s", 3)
	if err != nil || p.ListS != 3 {
		t.Errorf("list_s: %v, %v", p.ListS, err)
	}
	for _, f := range p.Figures() {
		if _, err := p.With(f.Name, 7); err != nil || f.Source == "" || f.Is == "" {
			t.Errorf("%s: %v; source %q", f.Name, err, f.Source)
		}
		if _, err := p.With(f.Name, -1); err == nil {
			t.Errorf("%s may be -1", f.Name)
		}
	}
	if _, err := p.With("speed", 1); err == nil || !strings.Contains(err.Error(), "warning_s, caution_s") {
		t.Errorf("an unknown name: %v", err)
	}
	if _, err := crew.NewTeam(corvane.Build(t, ""), nil, crew.Setting{Pace: &crew.Pace{}}); err == nil {
		t.Error("a crew that needs no time is taken")
	}
}

// TestDocs_GiveTheDefaults holds the table of docs/crew.md to the code.
func TestDocs_GiveTheDefaults(t *testing.T) {
	text, err := os.ReadFile("../docs/crew.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range crew.DefaultPace().Figures() {
		value := strings.TrimSpace(fmt.Sprintf("%g %s", f.Value, f.Unit))
		if row := fmt.Sprintf("| `%s` | %s | %s | %s |\n", f.Name, value, f.Is, f.Source); !strings.Contains(string(text), row) {
			t.Errorf("docs/crew.md lacks the row\n%s", row)
		}
	}
}
