package fuel

import (
	"math"
	"strings"
	"testing"

	"knockon/internal/checks"
)

func within(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.8g, want %.8g within %g", what, got, want, tol)
	}
}

// trip is the worked flight: round numbers of no aircraft.
var trip = Burn{TaxiKg: 200, TripKg: 10000, TripHours: 5, AlternateKg: 1800, CruiseKgPerH: 2400, HoldKgPerH: 2100}

func need(t *testing.T, name string, b Burn) Need {
	t.Helper()
	rule, ok := Named(name)
	if !ok {
		t.Fatalf("no rule %s", name)
	}
	n, err := rule.Needed(b)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// short is a trip on which a contingency of a share is less than its floor.
var short = Burn{TaxiKg: 200, TripKg: 2000, TripHours: 1, AlternateKg: 1800, CruiseKgPerH: 2400, HoldKgPerH: 2100}

// needed gives something of what the rule that a value is of asks for.
func needed(t *testing.T, b Burn, of func(Need) float64) checks.How {
	return func(v checks.Value) any { return of(need(t, v.Given, b)) }
}

// threshold is the least x from 0 to 10,000 for which it is so.
func threshold(so func(x float64) bool) checks.How {
	return func(checks.Value) any {
		low, high := 0.0, 10000.0
		for range 60 {
			if mid := (low + high) / 2; so(mid) {
				high = mid
			} else {
				low = mid
			}
		}
		return high
	}
}

// The values and their sources stand in internal/checks/tables/fuel.tsv.
func TestRules_AgreeWithTheTables(t *testing.T) {
	contingency := func(n Need) float64 { return n.ContingencyKg }
	reserve := func(n Need) float64 { return n.FinalReserveKg }
	hour := Burn{TripKg: 1000, TripHours: 1}
	checks.Run(t, "fuel", map[string]checks.How{
		"final reserve, min of cruise":                        needed(t, Burn{CruiseKgPerH: 60}, reserve),
		"final reserve, min of holding":                       needed(t, Burn{HoldKgPerH: 60}, reserve),
		"floor of the contingency, min of holding":            needed(t, Burn{HoldKgPerH: 60}, contingency),
		"share of the trip fuel":                              needed(t, Burn{TripKg: 1}, contingency),
		"share of the trip time":                              needed(t, Burn{TripHours: 1, CruiseKgPerH: 1}, contingency),
		"contingency, min of trip fuel":                       needed(t, hour, func(n Need) float64 { return n.ContingencyKg / hour.TripKg * 60 }),
		"ceiling that waives the alternate, ft":               threshold(func(ft float64) bool { return AlternateWaived(ft, 10) }),
		"visibility that waives the alternate, statute miles": threshold(func(miles float64) bool { return AlternateWaived(5000, miles) }),
		"take-off fuel, kg":                                   needed(t, trip, Need.TakeOffKg),
		"block fuel, kg":                                      needed(t, trip, Need.BlockKg),
		"contingency, kg":                                     needed(t, trip, contingency),
		"contingency of the short flight, kg":                 needed(t, short, contingency),
		"block fuel of the short flight, kg":                  needed(t, short, Need.BlockKg),
	})
	none := short
	none.TripHours = 0
	within(t, "20 minutes of no time", need(t, "european-20-min", none).ContingencyKg, 175, 1e-9)
}

func TestRules_AreNamedOnceAndHaveSources(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Rules() {
		if seen[r.Name] || r.Name == "" || r.Title == "" || r.Source == "" {
			t.Errorf("rule %+v", r)
		}
		seen[r.Name] = true
		n, err := r.Needed(trip)
		if err != nil || n.TakeOffKg() < trip.TripKg+1000 {
			t.Errorf("%s: %v, %v", r.Name, n, err)
		}
	}
	if _, ok := Named("no such rule"); ok {
		t.Error("found a rule that is none")
	}
}

// OPS 1.255 was repealed with its Appendix 1, and the European fuel rules were
// renumbered from CAT.OP.MPA.150 to CAT.OP.MPA.180 and on with 30 October 2022
// (path2pilot.com/news/recent-fuel-planning-and238): a rule that names one of
// them is marked old, and the one offered first is in force.
func TestRules_ThatAreRepealedAreMarkedOld(t *testing.T) {
	old := 0
	for i, r := range Rules() {
		repealed := strings.Contains(r.Source, "OPS 1.") || strings.Contains(r.Source, "MPA.150")
		if repealed != r.Old || r.Old && (i == 0 || !strings.Contains(r.Title, "old") || !strings.Contains(r.Source, "repealed")) {
			t.Errorf("rule %d: %+v", i, r)
		}
		if r.Old {
			old++
		}
	}
	if first := Rules()[0]; old != 1 || !strings.Contains(first.Source, "CAT.OP.MPA.181(c)") {
		t.Errorf("%d old rules; the first: %+v", old, first)
	}
	within(t, "the old figure", need(t, "european-old", trip).FinalReserveKg, 1050, 1e-9)
}

func TestNeeded_ComplainsClearly(t *testing.T) {
	rule, _ := Named("european")
	_, err := rule.Needed(Burn{TripKg: -1, HoldKgPerH: math.NaN()})
	if err == nil || !strings.Contains(err.Error(), "trip fuel is -1") || !strings.Contains(err.Error(), "holding fuel flow is NaN") {
		t.Errorf("got %v", err)
	}
}

// Both figures of 14 CFR 91.167(b) are asked for, and each itself will do.
func TestAlternateWaived_AtTheFiguresThemselves(t *testing.T) {
	if !AlternateWaived(2000, 3) || AlternateWaived(1999, 10) || AlternateWaived(5000, 2.9) {
		t.Error("waived too early or too late")
	}
}

// AlternateWaived tells whether a destination that has an instrument approach
// needs no alternate: 14 CFR 91.167(b), for the hour before to the hour after
// the estimated arrival.
func AlternateWaived(ceilingFt, visibilityMiles float64) bool {
	return ceilingFt >= 2000 && visibilityMiles >= 3
}
