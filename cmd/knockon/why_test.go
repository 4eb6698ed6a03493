package main

import (
	"bytes"
	"strings"
	"testing"
)

// TestWhy_NamesTheFailureThatKeptALatch: the gear that never travelled, since its
// valve had failed when the lever moved.
func TestWhy_NamesTheFailureThatKeptALatch(t *testing.T) {
	got := whyOf(t, "gear_not_down", "--crew", "none", "--fail", "gear_valve,shutoff_left", "--at", "cruise + 30 s", "--moment", "98:40")
	if !strings.Contains(got, "Gear selector valve has failed at 97:50, since 19:33 (the failure)") || strings.Contains(got, "as at the start") {
		t.Errorf("the chain does not end in the failure:\n%s", got)
	}
	if strings.Contains(got, "Gear selector valve has not failed") {
		t.Errorf("the valve has not failed in the chain:\n%s", got)
	}
}

// TestWhy_SaysWhenAMemoryChanged: long after it, the chain has its moment.
func TestWhy_SaysWhenAMemoryChanged(t *testing.T) {
	got := whyOf(t, "gear_not_down", "--crew", "none", "--fail", "gear_valve,shutoff_left", "--at", "cruise + 30 s", "--moment", "98:40")
	if !strings.Contains(got, "it changed in the flight without the failure") {
		t.Errorf("no moment of the change:\n%s", got)
	}
}

// TestWhy_SameInBothSaysSo: a value that the failure does not touch is not blamed
// on it.
func TestWhy_SameInBothSaysSo(t *testing.T) {
	got := whyOf(t, "gear_not_down", "--fail", "tr_right", "--at", "cruise + 30 s", "--moment", "cruise + 60 s")
	if !strings.Contains(got, "It is so in the flight without the failure too.") || strings.Contains(got, "(the failure)") {
		t.Errorf("got:\n%s", got)
	}
}

// TestWhy_SameAlongThePathOnly: with thrust that stands the flight grows too fast, and
// what it is held against goes along the same path: the warning is so there too, and
// not in the flight with nothing failed. Hands off until it is warned.
func TestWhy_SameAlongThePathOnly(t *testing.T) {
	args := []string{"--fail", "lever_motor.slips", "--at", "climb", "--moment", "cruise + 90 s", "--crew", "none"}
	got := whyOf(t, append([]string{"too_fast"}, args...)...)
	if strings.Contains(got, "in the flight without the failure too") || !strings.Contains(got, "and it is not so") || !strings.Contains(got, `knockon why "effect thrust_frozen"`) {
		t.Errorf("got:\n%s", got)
	}
	got = whyOf(t, append([]string{"vital_dc_power"}, args...)...)
	if !strings.Contains(got, "It is so in the flight without the failure too, though that is elsewhere by then.") {
		t.Errorf("got:\n%s", got)
	}
}

func whyOf(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := run(append([]string{"why"}, args...), &stdout, &stderr); code != 0 {
		t.Fatalf("code %d: %s", code, stderr.String())
	}
	return stdout.String()
}
