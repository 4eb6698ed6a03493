package ask_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/ways"
)

// TestDispatch_IsThePairsWithTheDeferral: what a deferral leaves one failure away
// is the other member of each smallest pair that the unit is in, on the aircraft
// without the deferral: worked out there, and not on the one with it.
func TestDispatch_IsThePairsWithTheDeferral(t *testing.T) {
	ctx := context.Background()
	d := desk(t)
	compared := 0
	for _, unit := range []string{"tr_left", "ac_left", "yaw_damper_1"} {
		_, away, _, err := d.Dispatch(ctx, ask.Sought{Out: []string{unit}})
		if err != nil {
			t.Fatal(err)
		}
		by, lost := map[string][]string{}, map[string]bool{}
		for _, a := range away {
			by[a.Function.ID], lost[a.Function.ID] = a.By, a.Lost
		}
		s, err := d.Stand(ctx, ask.Sought{})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range s.Course.Build.Functions {
			top, err := s.Still.Lost(f.ID)
			if err != nil || lost[f.ID] { // already, by a system that the flight without the unit never engaged
				continue
			}
			w, err := ways.Find(ctx, s.Still.Logic, top, ways.Options{Order: 2})
			if err != nil {
				t.Fatal(err)
			}
			var want []string
			pairs, _ := w.List(2, 1<<20)
			for _, p := range pairs {
				if names := w.Names(p); slices.Contains(names, unit) {
					want = append(want, names[1-slices.Index(names, unit)])
				}
			}
			slices.Sort(want)
			got := slices.Sorted(slices.Values(by[f.ID]))
			compared += len(want)
			if !slices.Equal(got, want) {
				t.Errorf("with %s deferred, %s: %v, want %v", unit, f.ID, got, want)
			}
		}
	}
	if compared < 100 {
		t.Errorf("%d pairs show little", compared)
	}
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
	if _, _, _, err := d.Dispatch(context.Background(), ask.Sought{}); err == nil {
		t.Error("a deferral of nothing is answered")
	}
}
