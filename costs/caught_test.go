package costs

import (
	"strings"
	"testing"
)

// TestJudgeAll_APanicIsAnError: on a goroutine of its own it would end the process.
func TestJudgeAll_APanicIsAnError(t *testing.T) {
	err := (&desk{}).judgeAll(t.Context(), make([]Place, 3)) // a desk of no flight
	if err == nil || !strings.Contains(err.Error(), "panic") {
		t.Errorf("got %v", err)
	}
}
