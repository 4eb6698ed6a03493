package demo_test

import (
	"context"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/claim"
	"knockon/demo"
	"knockon/internal/corvane/islands"
	"knockon/run"
)

// load reads the book, which gives no errors and no warnings.
func load(t *testing.T) *book.Book {
	t.Helper()
	b, diags := book.Load(context.Background(), demo.Book())
	for _, d := range diags {
		if d.Severity != book.Advice {
			t.Error(d)
		}
	}
	if b == nil {
		t.Fatal("the demonstration book does not load")
	}
	return b
}

// TestBook_LeavesFewThingsUntold holds the checker's advice to what the book
// leaves untold on purpose.
func TestBook_LeavesFewThingsUntold(t *testing.T) {
	_, diags := book.Load(context.Background(), demo.Book())
	if len(diags) > 8 {
		for _, d := range diags {
			t.Log(d)
		}
		t.Errorf("%d pieces of advice, want at most 8", len(diags))
	}
}

func build(t *testing.T, b *book.Book, variant string) *book.Build {
	t.Helper()
	build, ok := b.Build(variant)
	if !ok {
		t.Fatalf("no build %q", variant)
	}
	return build
}

// TestBook_IsLargeEnough counts what the book holds on the build that has most.
func TestBook_IsLargeEnough(t *testing.T) {
	b := load(t)
	k := build(t, b, "island_kit")
	for _, c := range []struct {
		what        string
		have, least int
	}{
		{"units", len(k.Units), 170},
		{"functions", len(k.Functions), 95},
		{"alerts", len(k.Alerts), 85},
		{"indications", len(k.Indications), 115},
		{"phases", len(k.Phases), 12},
		{"procedures", len(k.Procedures), 25},
		{"builds", len(b.Variants), 3},
		{"events", len(k.Events), 9},
		{"claims", len(k.Claims), 85},
		{"flights", len(k.Flights), 2},
		{"chapters", len(chapters(k)), 15},
	} {
		if c.have < c.least {
			t.Errorf("%d %s, want at least %d", c.have, c.what, c.least)
		}
	}
}

func chapters(k *book.Build) map[int]int {
	count := map[int]int{}
	for _, u := range k.Units {
		count[u.Chapter]++
	}
	return count
}

// TestBook_IsComplete holds the rules that the book sets itself.
func TestBook_IsComplete(t *testing.T) {
	b := load(t)
	for _, v := range b.Variants {
		k := build(t, b, v.ID)
		for _, a := range k.Alerts {
			if a.Level != "advisory" && a.Procedure == "" {
				t.Errorf("%s: the %s %q has no procedure", v.ID, a.Level, a.ID)
			}
		}
		for _, i := range k.Indications {
			if i.Means == nil {
				t.Errorf("%s: the indication %q stands for nothing", v.ID, i.ID)
			}
		}
		for _, f := range k.Functions {
			if f.Severity == "" {
				t.Errorf("%s: the function %q has no severity", v.ID, f.ID)
			}
		}
	}
}

// TestFlights_AreQuietWithNothingFailed flies both flights on all builds: with
// nothing failed nobody is warned or cautioned, nothing reads wrong, and every
// function works when it is wanted.
func TestFlights_AreQuietWithNothingFailed(t *testing.T) {
	b := load(t)
	for _, v := range b.Variants {
		k := build(t, b, v.ID)
		for _, f := range k.Flights {
			t.Run(v.ID+"/"+f.ID, func(t *testing.T) { flyQuietly(t, k, f) })
		}
	}
}

func flyQuietly(t *testing.T, k *book.Build, f *book.Flight) {
	course, err := run.NewCourse(k, f, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := course.Fly(context.Background(), run.Scenario{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Fault != nil {
		t.Fatal(r.Fault)
	}
	if got := len(r.Phases()); got != len(k.Phases) {
		t.Errorf("the flight goes through %d phases of %d", got, len(k.Phases))
	}
	checkAlerts(t, k, r)
	checkFunctions(t, k, r)
	checkIndications(t, k, r)
}

func checkAlerts(t *testing.T, k *book.Build, r *run.Record) {
	for _, a := range k.Alerts {
		if a.Level == "advisory" {
			continue
		}
		for _, s := range spans(t, r, circuit.Value{Item: a.ID}) {
			t.Errorf("the %s %q is given at %.1f s (%s)", a.Level, a.ID, s.From.Seconds(), r.PhaseAt(s.From))
		}
	}
}

func checkFunctions(t *testing.T, k *book.Build, r *run.Record) {
	end := r.Course.Path.End()
	for _, f := range k.Functions {
		wanted := []circuit.Span{{From: 0, To: end}}
		if f.Wanted != nil {
			wanted = spans(t, r, circuit.Value{Item: f.ID, Aspect: circuit.Wanted})
		}
		works := spans(t, r, circuit.Value{Item: f.ID})
		for _, w := range wanted {
			if !covered(w, works) {
				t.Errorf("%q does not work all through %.1f to %.1f s, where it is wanted", f.ID, w.From.Seconds(), w.To.Seconds())
			}
		}
	}
}

// covered tells whether one of the spans holds all of w.
func covered(w circuit.Span, spans []circuit.Span) bool {
	for _, s := range spans {
		if s.From <= w.From && w.To <= s.To {
			return true
		}
	}
	return w.From == w.To
}

func checkIndications(t *testing.T, k *book.Build, r *run.Record) {
	for _, i := range k.Indications {
		for _, s := range spans(t, r, circuit.Value{Item: i.ID, Aspect: circuit.Wrong}) {
			if s.To-s.From > 2*book.Second {
				t.Errorf("%q is wrong from %.1f to %.1f s", i.ID, s.From.Seconds(), s.To.Seconds())
			}
		}
	}
}

// TestClaims_AllHold runs every claim: the sentences that the manuals of the
// invented aircraft say of it are true of the model.
func TestClaims_AllHold(t *testing.T) {
	b := load(t)
	report, err := claim.Watch(context.Background(), b, islands.Region(t), claim.All(b), nil)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range report.Results {
		for _, o := range r.Givens {
			explainFailure(t, r, o)
		}
	}
}

func explainFailure(t *testing.T, r claim.Result, o claim.Outcome) {
	t.Helper()
	if o.Trouble != "" {
		t.Errorf("%s %s %q: %s", r.Claim.Range, r.Claim.ID, o.Given.Title, o.Trouble)
	}
	for _, f := range o.Findings {
		if !f.Holds {
			t.Errorf("%s %s %q: %s, but %s", r.Claim.Range, r.Claim.ID, o.Given.Title, f.Expect, f.Got)
		}
	}
}

func spans(t *testing.T, r *run.Record, v circuit.Value) []circuit.Span {
	t.Helper()
	n, ok := r.Circuit().Node(v)
	if !ok {
		t.Fatalf("no value %s", v)
	}
	return r.Spans(n)
}
