package ledger_test

import (
	"context"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/ledger"
	"knockon/run"
)

// TestView_OpensWithABadLanding: a leg that stays up is said first, and nothing of it
// where all legs are down.
func TestView_OpensWithABadLanding(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	for fault, want := range map[string]string{"stays_up": "It lands with the gear not all down and locked.", "": ""} {
		k := run.Strike{Fail: []book.FailureRef{{Unit: "left_leg", Fault: fault}}, At: book.Moment{Phase: "descent"}}
		if fault == "" {
			k.Fail = []book.FailureRef{{Unit: "waste_blower"}}
		}
		l, err := ledger.Answer(context.Background(), c, run.Scenario{Strikes: []run.Strike{k}})
		if err != nil {
			t.Fatal(err)
		}
		if v := l.View(); v.Landing != want || strings.Contains(v.Setting, "gear not all down") != (want != "") {
			t.Errorf("%q: %q, %s", fault, v.Landing, v.Setting)
		}
	}
}
