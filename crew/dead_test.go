package crew_test

import (
	"slices"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestFly_WhatIsInoperativeIsNotTried: with the APU in order the list of a failed engine
// starts it; out of order since before the flight it is not started, and so no list comes
// of its not starting. A pack that is locked is not reset; one that fails is. The levers
// of what is inoperative alone are left; those that other things answer to are moved.
func TestFly_WhatIsInoperativeIsNotTried(t *testing.T) {
	b := corvane.Build(t, "")
	tm := team(t, b, "northern_link", crew.Setting{})
	for _, c := range []struct {
		fail, out, control string
		moved              bool
	}{
		{"engine_left", "", "apu_switch", true},
		{"engine_left", "apu", "apu_switch", false},
		{"engine_left", "radio_alt_1", "apu_switch", true},
		{"engine_left", "apu", "engine_left_switch", true},
		{"pack_left", "", "pack_left_switch", true},
		{"waste_blower", "pack_left", "pack_left_switch", false},
	} {
		s := failing(t, b, "cruise + 60 s", c.fail)
		if c.out != "" {
			s.Inoperative = []book.FailureRef{{Unit: c.out}}
		}
		p, err := tm.Fly(t.Context(), s)
		if err != nil {
			t.Fatal(err)
		}
		if got := slices.ContainsFunc(p.Actions(), func(a run.Action) bool { return a.Control == c.control }); got != c.moved {
			t.Errorf("%s with %q out: %s moved %v", c.fail, c.out, c.control, got)
		}
		dead := 0
		for _, l := range p.Lines {
			if l.Dead {
				dead++
			}
		}
		if (dead > 0) != (!c.moved) && c.control != "engine_left_switch" {
			t.Errorf("%s with %q out: %d lines not done", c.fail, c.out, dead)
		}
		slow, err := tm.FlySlowly(t.Context(), s)
		if err != nil {
			t.Fatal(err)
		}
		same(t, c.fail+" with "+c.out, p, slow)
	}
}

// TestUnitsBehind: through signals, and none where something else than units reads it.
func TestUnitsBehind(t *testing.T) {
	b := corvane.Build(t, "")
	for control, want := range map[string][]string{"apu_switch": {"apu"}, "pack_left_switch": {"pack_left"}, "gear_lever": nil} {
		if got := b.UnitsBehind(control); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", control, got, want)
		}
	}
}
