package sweep_test

import (
	"testing"

	"knockon/internal/corvane"
	"knockon/ledger"
)

// Whether an alert tells of a loss and whether anybody knows of it are two questions:
// what is hidden no alert tells, but of what no alert tells much follows, is noticed, or
// is denied.
func TestRun_WhatIsHiddenNoAlertTells(t *testing.T) {
	s := sweepOf(t, corvane.Book(t), "")
	untold := map[ledger.Word]int{}
	for _, phase := range []int{0, 5, 8} {
		h, err := s.Run(t.Context(), phase, 1, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range h.Singles {
			for _, l := range h.Outcomes[n].Lost {
				told := l.Class == ledger.Told || l.Class == ledger.ToldLate
				if l.Known == ledger.Hidden && told {
					t.Errorf("%s: %s is hidden and %s", h.Phase.ID, s.Build().Functions[l.Function].ID, l.Class)
				}
				if !told && l.Mattered {
					untold[l.Known]++
				}
			}
		}
	}
	for _, word := range []ledger.Word{ledger.Hidden, ledger.Denied, ledger.Follows, ledger.AtOnce} {
		if untold[word] == 0 {
			t.Errorf("of what no alert tells nothing is %s: %v", word, untold)
		}
	}
	t.Logf("losses that mattered and that no alert tells, by how they are known: %v", untold)
}
