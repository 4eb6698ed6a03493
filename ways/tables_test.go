package ways_test

import (
	"context"
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"
	"testing"

	"knockon/internal/checks"
	"knockon/ways"
)

// smallTrees are the trees of internal/checks/tables/fault-trees.tsv, as text.
func smallTrees() map[string]string {
	texts := map[string]string{
		"small tree":         "top = g\ng = or(and(e1, e2), and(e3, e4))",
		"one, one and three": "top = g\ng = or(e1, e2, and(e3, e4, e5))" + same(0.5, "e1 e2 e3 e4 e5"),
	}
	for _, h := range handbook {
		texts[h.name] = h.text
	}
	for _, hours := range []float64{1000, 5000, 10000} {
		texts[fmt.Sprintf("Vesely, %g h", hours)] = vesely + rates(hours, map[string]float64{
			"e1": 2.6e-6, "e2": 2.6e-6, "e3": 2.6e-6, "e4": 3.5e-5, "e5": 3.5e-5, "e6": 3.5e-5,
			"e7": 5e-6, "e8": 5e-6, "e9": 8e-6, "e10": 8e-6,
		})
	}
	return texts
}

// upTo is how many smallest sets there are up to an order.
func upTo(w *ways.Ways, order int) float64 {
	total := new(big.Int)
	for k := range min(order, w.Highest()) + 1 {
		total.Add(total, w.Count(k))
	}
	n, _ := new(big.Float).SetInt(total).Float64()
	return n
}

func riskOf(t *testing.T, w *ways.Ways) *ways.Risk {
	t.Helper()
	risk, err := w.Risk(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return risk
}

func boundsOf(t *testing.T, w *ways.Ways) ways.Bounds {
	t.Helper()
	b, err := w.Bounds()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// The values and their sources stand in internal/checks/tables/fault-trees.tsv.
func TestFind_AgreesWithTheTables(t *testing.T) {
	texts := smallTrees()
	of := func(take func(w *ways.Ways) float64) checks.How {
		return func(v checks.Value) any {
			text, ok := texts[v.Given]
			if !ok {
				return nil
			}
			l, top := read(t, text)
			return take(find(t, l, top, ways.Options{}))
		}
	}
	checks.Run(t, "fault-trees", map[string]checks.How{
		"smallest sets":              of(func(w *ways.Ways) float64 { return upTo(w, w.Highest()) }),
		"probability":                of(func(w *ways.Ways) float64 { return riskOf(t, w).P }),
		"sum over the smallest sets": of(func(w *ways.Ways) float64 { return boundsOf(t, w).Sum }),
		"min cut upper bound":        of(func(w *ways.Ways) float64 { return boundsOf(t, w).Union }),
	})
}

// shelf finds the ways of each open tree once.
type shelf struct {
	t     *testing.T
	trees []openTree
	found map[string]*ways.Ways
}

func (s *shelf) tree(name string) openTree {
	i := slices.IndexFunc(s.trees, func(o openTree) bool { return o.name == name })
	if i < 0 {
		s.t.Fatalf("there is no open tree %s", name)
	}
	return s.trees[i]
}

func (s *shelf) of(name string) *ways.Ways {
	if s.found[name] == nil {
		o := s.tree(name)
		s.found[name] = find(s.t, o.l, o.top, ways.Options{})
	}
	return s.found[name]
}

const chineseAt = "chinese at 0.02"

// alike puts the tree "chinese" with every probability 0.02 on the shelf.
func (s *shelf) alike() {
	for _, o := range openTrees(s.t) { // a second reading, so that the first keeps its probabilities
		if o.name != "chinese" {
			continue
		}
		for i := range o.l.Events() {
			if err := o.l.SetP(o.l.Event(o.l.Events()[i].Name), 0.02); err != nil {
				s.t.Fatal(err)
			}
		}
		s.found[chineseAt] = find(s.t, o.l, o.top, ways.Options{})
	}
}

// importance gives a measure of an event of that tree.
func (s *shelf) importance(of func(ways.Importance) float64) checks.How {
	events, risk := s.tree("chinese").l.Events(), riskOf(s.t, s.found[chineseAt])
	return func(v checks.Value) any {
		var event string
		fmt.Sscan(v.Given, &event)
		for _, i := range risk.Events {
			if events[i.Event].Name == event {
				return of(i)
			}
		}
		return nil
	}
}

// holding is how many smallest sets of that tree hold an event.
func (s *shelf) holding(v checks.Value) any {
	var event string
	fmt.Sscan(v.Given, &event)
	n, w := 0, s.found[chineseAt]
	for order := range w.Highest() + 1 {
		sets, _ := w.List(order, 1000)
		for _, set := range sets {
			if slices.Contains(w.Names(set), event) {
				n++
			}
		}
	}
	return n
}

// The values and their sources stand in internal/checks/tables/open-trees.tsv.
func TestFind_AgreesWithTheTableOfOpenTrees(t *testing.T) {
	s := &shelf{t, openTrees(t), map[string]*ways.Ways{}}
	s.alike()
	of := func(take func(w *ways.Ways) float64) checks.How {
		return func(v checks.Value) any { return take(s.of(v.Given)) }
	}
	checks.Run(t, "open-trees", map[string]checks.How{
		"smallest sets":              of(func(w *ways.Ways) float64 { return upTo(w, w.Highest()) }),
		"probability":                of(func(w *ways.Ways) float64 { return riskOf(t, w).P }),
		"sum over the smallest sets": of(func(w *ways.Ways) float64 { return boundsOf(t, w).Sum }),
		"smallest sets up to an order": func(v checks.Value) any {
			name, order, _ := strings.Cut(v.Given, ", order ")
			k, err := strconv.Atoi(order)
			if err != nil {
				return err
			}
			return upTo(s.of(name), k)
		},
		"Birnbaum importance":         s.importance(func(i ways.Importance) float64 { return i.Birnbaum }),
		"criticality importance":      s.importance(func(i ways.Importance) float64 { return i.Criticality }),
		"diagnostic importance":       s.importance(func(i ways.Importance) float64 { return i.Diagnostic }),
		"risk achievement":            s.importance(func(i ways.Importance) float64 { return i.RiskAchievement }),
		"risk reduction":              s.importance(func(i ways.Importance) float64 { return i.RiskReduction }),
		"smallest sets with an event": s.holding,
	})
}
