package crew_test

import (
	"context"
	"os"
	"strconv"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/internal/corvane"
)

// TestOrder_OfAllSingleFailures: on the demonstration book no two flights order
// the same procedures differently, and all keep to the rules. With KNOCKON_DOUBLE=1,
// also on the other builds, on final, and for all pairs of failures in the cruise
// (hours); with another number n for every nth pair.
func TestOrder_OfAllSingleFailures(t *testing.T) {
	every, err := strconv.Atoi(os.Getenv("KNOCKON_DOUBLE"))
	if err != nil || every < 1 {
		o := orderOf(t, corvane.Build(t, ""), []string{"lift_off", "cruise"}, third)
		if o.Choices < 20 || o.Sets < 8 {
			t.Errorf("%d choices among %d sets: the test shows little", o.Choices, o.Sets)
		}
		return
	}
	for _, v := range []string{"first_series", "second_series", "island_kit"} {
		b := corvane.Build(t, v)
		orderOf(t, b, []string{"lift_off", "cruise", "final"}, singles)
		orderOf(t, b, []string{"cruise"}, func(b *book.Build) [][]string { return doubles(b, every) })
	}
}

// third is every third of the single failures.
func third(b *book.Build) (list [][]string) {
	for i, f := range singles(b) {
		if i%3 == 0 {
			list = append(list, f)
		}
	}
	return list
}

func singles(b *book.Build) (list [][]string) {
	for _, w := range ways(b) {
		list = append(list, []string{w})
	}
	return list
}

func doubles(b *book.Build, every int) (list [][]string) {
	all, n := ways(b), 0
	for i, x := range all {
		for _, y := range all[:i] {
			if n++; n%every == 0 {
				list = append(list, []string{y, x})
			}
		}
	}
	return list
}

func orderOf(t *testing.T, b *book.Build, moments []string, failures func(*book.Build) [][]string) crew.Order {
	t.Helper()
	tm := team(t, b, "short_hop", crew.Setting{})
	var o crew.Order
	flights := 0
	for _, at := range moments {
		for _, f := range failures(b) {
			p, err := tm.Fly(context.Background(), failing(t, b, at, f...))
			if err != nil {
				t.Fatal(err)
			}
			flights++
			for _, q := range o.Note(at+" "+join(f), p, b) {
				t.Error(q.Text)
			}
		}
	}
	t.Logf("%s: %d flights, %d choices among %d different sets of procedures", b.Variant, flights, o.Choices, o.Sets)
	return o
}

func join(list []string) (s string) {
	for i, x := range list {
		if i > 0 {
			s += " + "
		}
		s += x
	}
	return s
}

// An order that is not settled is seen, in both ways.
func TestOrder_SeesAQuarrel(t *testing.T) {
	b := corvane.Build(t, "")
	x, y, z := b.Procedures[3], b.Procedures[5], b.Procedures[7]
	cause := b.Alerts[0]
	plan := func(chosen *book.Procedure, of ...crew.Candidate) *crew.Plan {
		return &crew.Plan{Choices: []crew.Choice{{Of: of, Chosen: chosen}}}
	}
	caution := func(p *book.Procedure, under *book.Alert) crew.Candidate {
		return crew.Candidate{Procedure: p, Level: "caution", Under: under}
	}
	var o crew.Order
	if q := o.Note("one", plan(x, caution(x, nil), caution(y, nil)), b); len(q) != 0 {
		t.Errorf("by the rules: %v", q)
	}
	if q := o.Note("two", plan(y, caution(x, cause), caution(y, nil)), b); len(q) != 1 {
		t.Errorf("another way round, by its cause: %v", q)
	}
	if q := o.Note("three", plan(z, caution(x, nil), caution(z, nil)), b); len(q) != 1 || q[0].Chosen != [2]string{z.ID, x.ID} {
		t.Errorf("against the rules: %v", q)
	}
	if q := o.Note("three again", plan(x, caution(x, nil), caution(y, nil), caution(z, nil)), b); len(q) != 1 || q[0].In != [2]string{"three", "three again"} {
		t.Errorf("the same two in another set: %v", q)
	}
	if q := o.Note("four", plan(y, crew.Candidate{Procedure: y, Level: "warning"}, caution(z, nil)), b); len(q) != 0 {
		t.Errorf("a warning first: %v", q)
	}
}
