package ask_test

import (
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/book"
	"knockon/ledger"
	"knockon/scenario"
)

// TestDispatch_IsWhatFailFinds asks, for every failure of the book, the plain
// question with and without the deferral: what is lost with it and not without
// it is what a deferral leaves one failure away, all of it and nothing else. It
// does so for one unit on the short flight, of each failure that is named and a fourth
// of the others; KNOCKON_SLOW=1 takes all, more units, and the long flight.
func TestDispatch_IsWhatFailFinds(t *testing.T) {
	questions := []ask.Sought{{Out: []string{"tr_left"}, Flight: "short_hop", In: "cruise"}}
	step := 4
	if os.Getenv("KNOCKON_SLOW") != "" {
		step = 1
		for _, unit := range []string{"tr_left", "ac_left", "yaw_damper_1", "apu"} {
			questions = append(questions, ask.Sought{Out: []string{unit}}, ask.Sought{Out: []string{unit}, In: "climb"})
		}
	}
	for _, q := range questions {
		compareWithFail(t, q, step)
	}
}

// compareWithFail holds Dispatch against fail: of every failure that it names, and of
// one in step of all.
func compareWithFail(t *testing.T, q ask.Sought, step int) {
	t.Helper()
	ctx, d := context.Background(), desk(t)
	x, err := d.Dispatch(ctx, q)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string][]string{}
	at := book.Moment{Offset: x.At}.String()
	failures, sum := []string{}, 0
	said := map[string]bool{}
	for _, a := range x.Away {
		for _, f := range a.By {
			said[f] = true
		}
	}
	for i, f := range events(x.Course.Build) {
		if i%step == 0 || said[f] {
			failures = append(failures, f)
		}
	}
	got := map[string][]string{}
	for _, a := range x.Away {
		got[a.Function.ID] = a.By
	}
	for _, f := range failures {
		without := answered(t, d, ask.Question{Fail: []scenario.Strike{{What: []string{f}, At: at}}, Flight: q.Flight, Crew: scenario.Nobody})
		for _, l := range answered(t, d, ask.Question{Fail: []scenario.Strike{{What: []string{f}, At: at}}, Flight: q.Flight, Out: q.Out, Crew: scenario.Nobody}).Losses {
			if without.Loss(l.Function.ID) == nil {
				want[l.Function.ID] = append(want[l.Function.ID], f)
				sum++
			}
		}
	}
	for _, f := range x.Course.Build.Functions {
		a, b := slices.Sorted(slices.Values(got[f.ID])), slices.Sorted(slices.Values(want[f.ID]))
		if !slices.Equal(a, b) {
			t.Errorf("%v out at %s: %s by %v; fail finds %v", q.Out, at, f.ID, a, b)
		}
	}
	t.Logf("%v out %s: %d failures, %d losses that one more brings", q.Out, x.Moment, len(failures), sum)
	if len(failures) < 300/step || sum == 0 {
		t.Error("hardly any failure was asked of")
	}
}

// events lists all that can fail of a build, as a person writes it.
func events(b *book.Build) (list []string) {
	for _, u := range b.Units {
		list = append(list, u.ID)
		for _, f := range u.Faults {
			list = append(list, u.ID+"."+f.ID)
		}
	}
	for _, e := range b.Events {
		list = append(list, e.ID)
	}
	return list
}

func answered(t *testing.T, d *ask.Desk, q ask.Question) *ledger.Ledger {
	t.Helper()
	a, err := d.Answer(context.Background(), q)
	if err != nil {
		t.Fatal(q, err)
	}
	return a.Ledger
}

func TestStand_SaysWhatIsWrong(t *testing.T) {
	d := desk(t)
	for want, q := range map[string]ask.Sought{
		"did you mean \"brakes_normal\"": {Functions: []string{"brakes_norml"}},
		"say not, wrong":                 {Functions: []string{"brakes_normal"}, Told: "x"},
		"which function":                 {Told: "not"},
		"a yes/no is needed":             {When: "real.height_ft"},
		"no phase":                       {Functions: []string{"brakes_normal"}, In: "crruise"},
		"nothing that can fail":          {Functions: []string{"brakes_normal"}, Out: []string{"nothing_such"}},
	} {
		if _, err := d.Stand(context.Background(), q); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v, want that it says %q", q, err, want)
		}
	}
	if _, err := d.Dispatch(context.Background(), ask.Sought{}); err == nil {
		t.Error("a deferral of nothing is answered")
	}
}
