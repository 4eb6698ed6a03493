package ways_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"knockon/ways"
	"knockon/ways/logic"
)

// Published table of the tree "chinese" with every p = 0.02, from an open fault
// tree test suite; Q = 0.0045693218.
func TestRisk_PublishedImportances(t *testing.T) {
	var chinese openTree
	for _, o := range openTrees(t) {
		if o.name == "chinese" {
			chinese = o
		}
	}
	l := chinese.l
	for i := range l.Events() {
		if err := l.SetP(l.Basic(i), 0.02); err != nil {
			t.Fatal(err)
		}
	}
	w := find(t, l, chinese.top, ways.Options{})
	risk, err := w.Risk(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if !near(risk.P, 0.0045693218, 1e-8) {
		t.Errorf("P = %.10g, want 0.0045693218", risk.P)
	}
	if b, err := w.Bounds(); err != nil || !near(b.Sum, 0.004804, 1e-4) {
		t.Errorf("sum %.7g, want 0.004804 (%v)", b.Sum, err)
	}
	checkPublished(t, l, w, risk)
}

func checkPublished(t *testing.T, l *logic.Logic, w *ways.Ways, risk *ways.Risk) {
	table := []struct {
		events                  string
		sets                    int
		mif, cif, dif, raw, rrw float64
	}{
		{"e1 e2 e3", 40, 0.0745557, 0.326332, 0.339805, 16.9902, 1.48441},
		{"e4 e5 e6 e7", 21, 0.0553923, 0.242453, 0.257604, 12.8802, 1.32005},
		{"e8", 180, 0.000181647, 0.000795073, 0.0207792, 1.03896, 1.0008},
		{"e9 e10 e11", 48, 5.89643e-05, 0.000258088, 0.0202529, 1.01265, 1.00026},
		{"e12 e13", 136, 9.51481e-05, 0.000416465, 0.0204081, 1.02041, 1.00042},
		{"e17 e18", 88, 5.64596e-06, 2.47125e-05, 0.0200242, 1.00121, 1.00002},
		{"e21", 136, 2.3919e-06, 1.04694e-05, 0.0200103, 1.00051, 1.00001},
		{"e22 e23 e24 e25", 154, 1.03582e-05, 4.5338e-05, 0.0200444, 1.00222, 1.00005},
	}
	holding := map[string]int{}
	for _, set := range listed(t, w) {
		for _, e := range strings.Fields(set) {
			holding[e]++
		}
	}
	for _, i := range risk.Events {
		name := l.Events()[i.Event].Name
		for _, row := range table {
			if !slices.Contains(strings.Fields(row.events), name) {
				continue
			}
			checkImportance(t, l, i, ways.Importance{Birnbaum: row.mif, Criticality: row.cif,
				Diagnostic: row.dif, RiskAchievement: row.raw, RiskReduction: row.rrw}, 1e-5)
			if holding[name] != row.sets {
				t.Errorf("%s stands in %d sets, want %d", name, holding[name], row.sets)
			}
		}
	}
}
