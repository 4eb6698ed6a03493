package costs

import (
	"strings"
	"testing"

	"knockon/flight/energy"
)

// TestSide_RefusedTurn: a flight that could not be turned to a place says so, and how far
// from the place it ends; it is not short of where its book's flight goes.
func TestSide_RefusedTurn(t *testing.T) {
	s := &Side{Ending: energy.Sinks, Refused: "no engine gives thrust", ShortNM: 4.2}
	s.weighArrival()
	if len(s.Reasons) != 1 || s.Reasons[0].Kind != NoArrival || s.Reasons[0].Text != "no engine gives thrust; it cannot stay up and meets the ground 4 NM from it" {
		t.Errorf("%+v", s.Reasons)
	}
	s = &Side{Ending: energy.Sinks, ShortNM: 15}
	if s.weighArrival(); !strings.HasSuffix(s.Reasons[0].Text, "the ground 15 NM short of it") {
		t.Errorf("%+v", s.Reasons)
	}
}
