package sweep

import (
	"strings"
	"testing"
)

// TestRunAll_APanicIsAnError: on a goroutine of its own it would end the process.
func TestRunAll_APanicIsAnError(t *testing.T) {
	broken := &Sweep{phases: make([]Phase, 2), workers: 2, engines: &pool{}} // it has no program
	err := broken.RunAll(t.Context(), []int{0, 1}, 1, nil, func(int, *Sheet) error { return nil })
	if err == nil || !strings.Contains(err.Error(), "panic") {
		t.Errorf("got %v", err)
	}
	w := &phaseWork{}
	w.caught(func() { panic("in a block") })
	if w.failed == nil || !strings.Contains(w.failed.Error(), "in a block") {
		t.Errorf("a block's panic becomes %v", w.failed)
	}
}
