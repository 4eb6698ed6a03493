package main

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

// TestBar_SaysHowFarAndHowLong: half of the second of four builds after nine
// seconds: three eighths, and fifteen seconds to go.
func TestBar_SaysHowFarAndHowLong(t *testing.T) {
	b := &bar{w: &bytes.Buffer{}}
	b.build("first", 0, 4)
	b.show(9_000, 9_000)
	b.build("second", 1, 4)
	b.show(9_000, 18_000)
	b.done = 9_000
	got := b.line(0.5, 9*time.Second)
	for _, want := range []string{" 38 %  second  2,000 sets/s  15s left", strings.Repeat("█", 11) + strings.Repeat("░", 19)} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
}

func TestBar_IsSilentWhereNobodyLooks(t *testing.T) {
	var text bytes.Buffer
	b := newBar(&out{stderr: &text})
	b.build("first", 0, 1)
	if b.progress() != nil {
		t.Error("a bar that is not on a terminal wants to be told")
	}
	b.clear()
	if text.Len() > 0 {
		t.Errorf("it wrote %q", text.String())
	}
}
