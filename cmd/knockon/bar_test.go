package main

import (
	"bytes"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"
)

// TestBar_SaysHowFarAndHowLong: half of the second of four builds after nine
// seconds: three eighths, and fifteen seconds to go.
func TestBar_SaysHowFarAndHowLong(t *testing.T) {
	b := &bar{wide: 80}
	b.build("first", 0, 4)
	b.show(9_000, 9_000)
	b.build("second", 1, 4)
	b.show(9_000, 18_000)
	got := b.line(9 * time.Second)
	for _, want := range []string{" 38 %  second  15 s left", strings.Repeat("█", 11) + strings.Repeat("░", 19)} {
		if !strings.Contains(got, want) {
			t.Errorf("%q does not say %q", got, want)
		}
	}
	b.wide = 40
	if got := b.line(9 * time.Second); len([]rune(got)) > 39 || !strings.Contains(got, "15 s left") {
		t.Errorf("in 40 columns: %q", got)
	}
}

// TestBar_NeverRunsBack: whatever a work tells of itself, and however fast it
// goes, neither the share nor the time left goes back.
func TestBar_NeverRunsBack(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	number := regexp.MustCompile(`(\d+) %  \w+  (?:(?:(\d+) min )?(\d+) s left|soon done)`)
	for range 200 {
		b := &bar{wide: 80}
		n := 1 + r.IntN(4)
		share, left, gone := 0, 1<<30, time.Duration(0)
		for i := range n {
			b.build("part", i, n)
			for range 50 {
				b.show(r.Int64N(1000), 1+r.Int64N(1000)) // goes forth and back, and its whole grows
				gone += time.Duration(r.Int64N(int64(3 * time.Second)))
				m := number.FindStringSubmatch(b.line(gone))
				if m == nil {
					continue // nothing is done yet
				}
				s, _ := strconv.Atoi(m[1])
				minutes, _ := strconv.Atoi(m[2])
				seconds, _ := strconv.Atoi(m[3])
				if l := 60*minutes + seconds; s < share || l > left {
					t.Fatalf("from %d %% and %d s to %s", share, left, m[0])
				} else {
					share, left = s, l
				}
			}
		}
		if share == 0 {
			t.Fatal("it never said how far it is")
		}
	}
}

func TestBar_IsSilentWhereNobodyLooks(t *testing.T) {
	var text bytes.Buffer
	b := newBar(&out{stderr: &text}, "work")
	b.build("first", 0, 1)
	if b.progress() != nil {
		t.Error("a bar that is not on a terminal wants to be told")
	}
	b.clear()
	if text.Len() > 0 {
		t.Errorf("it wrote %q", text.String())
	}
}
