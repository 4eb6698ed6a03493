package fuel

import (
	"math"
	"strings"
	"testing"
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

// The rules' sources stand in the table of rules; the sums were worked by hand.
func TestNeeded_WorkedSums(t *testing.T) {
	// 14 CFR 121.639: 10,000 + 1,800 + 0.75 x 2,400.
	within(t, "US domestic", need(t, "us-domestic", trip).TakeOffKg(), 13600, 1e-9)
	// 14 CFR 91.167: the same parts.
	within(t, "US instrument flight", need(t, "us-ifr", trip).TakeOffKg(), 13600, 1e-9)
	// 14 CFR 121.645(b): 10,000 + 0.10 x 5 x 2,400 + 1,800 + 0.5 x 2,100.
	within(t, "US flag", need(t, "us-flag", trip).TakeOffKg(), 14050, 1e-9)
	// 14 CFR 121.645(c): 10,000 + 2 x 2,400.
	within(t, "US flag without alternate", need(t, "us-flag-no-alternate", trip).TakeOffKg(), 14800, 1e-9)
	// CAT.OP.MPA.181: 200 + 10,000 + max(500, 175) + 1,800 + 1,050.
	within(t, "European", need(t, "european", trip).BlockKg(), 13550, 1e-9)
	within(t, "ICAO", need(t, "icao", trip).BlockKg(), 13550, 1e-9)
	within(t, "European, 3 percent", need(t, "european-3", trip).BlockKg(), 13350, 1e-9)
	// 20 minutes at 2,000 kg/h.
	within(t, "European, 20 minutes", need(t, "european-20-min", trip).ContingencyKg, 2000.0/3, 1e-9)
}

// The floor of five minutes' holding bites on a short trip.
func TestNeeded_FloorOfTheContingency(t *testing.T) {
	short := trip
	short.TripKg, short.TripHours = 2000, 1
	n := need(t, "european", short)
	within(t, "contingency", n.ContingencyKg, 175, 1e-9)
	within(t, "total", n.BlockKg(), 5225, 1e-9)
	within(t, "3 percent has the same floor", need(t, "european-3", short).ContingencyKg, 175, 1e-9)
	short.TripHours = 0
	within(t, "20 minutes of no time", need(t, "european-20-min", short).ContingencyKg, 175, 1e-9)
}

// 45 minutes of cruise and 30 minutes of holding are not the same fuel.
func TestFinalReserve_IsOfTheRightBurn(t *testing.T) {
	for name, want := range map[string]float64{"european": 1050, "icao": 1050, "us-flag": 1050, "us-domestic": 1800, "us-ifr": 1800, "us-flag-no-alternate": 4800} {
		rule, _ := Named(name)
		within(t, name, rule.FinalReserveKg(trip), want, 1e-9)
	}
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

// 14 CFR 91.167(b): ceiling at least 2,000 ft and visibility at least 3 miles.
func TestAlternateWaived_ByTheWeather(t *testing.T) {
	for _, row := range []struct {
		ceiling, visibility float64
		want                bool
	}{{2000, 3, true}, {1999, 3, false}, {2000, 2.9, false}, {5000, 10, true}} {
		if AlternateWaived(row.ceiling, row.visibility) != row.want {
			t.Errorf("%v", row)
		}
	}
}
