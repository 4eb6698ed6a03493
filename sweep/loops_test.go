package sweep_test

import (
	"context"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/sweep"
)

// Failures that make a loop which never settles are left to the plain way, and
// the other lanes go on.
func TestRun_LoopsThatNeverSettleAreFlownOneAtATime(t *testing.T) {
	for name, lines := range map[string][]string{
		"of a latch":   {`signal "x" {`, `set = !unit_0 && !x`, `reset = x`, `}`},
		"of a before":  {`signal "x" {`, `value = !unit_0 && !before(x)`, `}`},
		"of a battery": {`signal "charge" {`, `value = total(unit_0 || !x ? 1 : -1, 20, 0, 30)`, `}`, `signal "x" {`, `value = charge > 0`, `}`},
	} {
		t.Run(name, func(t *testing.T) {
			lines = append(lines, `unit "unit_0" {}`, `unit "unit_1" {}`, `unit "unit_2" {}`,
				`function "one" {`, `works = unit_1 && !x`, `}`, `function "two" {`, `works = unit_2`, `}`)
			text := strings.Replace(frame, "ACT", "climb", 1) + strings.Join(lines, "\n")
			b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(text)}})
			if b == nil {
				t.Fatal(diags[0])
			}
			loops(t, sweepOf(t, b, ""))
		})
	}
}

func loops(t *testing.T, s *sweep.Sweep) {
	if l, err := s.Ledger(context.Background(), 0, sweep.Set{0}); err != nil || l.Here.Fault == nil {
		t.Fatal("the failure makes no loop: the test tests nothing", err)
	}
	for phase := range s.Phases() {
		h, err := s.Run(context.Background(), phase, 3, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, set := range []sweep.Set{{0}, {1}, {2}, {0, 1}, {0, 2}, {1, 2}, {0, 1, 2}} {
			agree(t, s, h, phase, set)
		}
	}
}
