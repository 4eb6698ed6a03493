package assess

import (
	"strings"
	"testing"

	"knockon/book"
	"knockon/sweep"
)

// TestSays_WhatTheCrewMakeOfASingle: that they prevent it clears no set in which their means
// fail too, and that they do not takes the book's reason away.
func TestSays_WhatTheCrewMakeOfASingle(t *testing.T) {
	for _, lost := range []bool{true, false} {
		a := &Assessment{Swept: Swept{Order: 2, Build: &book.Build{}, Failures: []book.FailureRef{{Unit: "duct"}}}}
		f := &book.Function{Head: book.Head{ID: "wing"}, Severity: "catastrophic", OverOnPurpose: "the crew shut it off"}
		crewed := &Crewed{lost: map[string]gone{}}
		if lost {
			crewed.lost["wing"] = gone{}
		}
		l := &Loss{Function: f, Sets: []Cut{{Set: sweep.Set{0}, Crewed: crewed}}}
		l.Objective, _ = ObjectiveOf("catastrophic")
		text := strings.Join(a.withCrew(l), " ")
		if strings.Contains(text, "That reason does not hold for ") != lost || strings.Contains(text, "were not looked for with it") == lost {
			t.Errorf("lost %v: %q", lost, text)
		}
	}
}

func TestJudge_HoldsAgainstObjectiveAndSlack(t *testing.T) {
	for _, c := range []struct {
		severity     string
		perH         float64
		alone, whole bool
		want         Verdict
	}{
		{"catastrophic", 1e-9, false, true, Met},
		{"catastrophic", 1e-9, false, false, NotKnown},
		{"catastrophic", 1.1e-9, false, true, InSlack},
		{"catastrophic", 3e-9, false, false, InSlack},
		{"catastrophic", 3.1e-9, false, true, Over},
		{"catastrophic", 1e-15, true, true, Single},
		{"hazardous", 1e-8, true, true, Met},
		{"hazardous", 2.9e-7, false, true, InSlack},
		{"hazardous", 3.1e-7, false, true, Over},
		{"major", 1.9e-5, false, true, InSlack},
		{"major", 2.1e-5, false, true, Over},
		{"minor", 1e-3, true, true, Met},
		{"minor", 1.01e-3, true, true, Over},
	} {
		o, ok := ObjectiveOf(c.severity)
		if got := o.judge(c.perH, c.alone, c.whole); !ok || got != c.want {
			t.Errorf("%s, %g per hour, alone %v, whole %v: %s, want %s", c.severity, c.perH, c.alone, c.whole, got, c.want)
		}
	}
}

func TestObjectives_AreOfEverySeverity(t *testing.T) {
	for _, s := range book.Severities {
		if _, ok := ObjectiveOf(s); !ok {
			t.Errorf("no objective for %s", s)
		}
	}
	if _, ok := ObjectiveOf("none"); ok || len(Objectives) != len(book.Severities) {
		t.Error("there is an objective for what is no severity")
	}
}

// TestPer_ShortPhasesByTheHour: what can only happen in phases that are less than
// half of a flight of more than an hour is divided by one hour, all else by the
// flight.
func TestPer_ShortPhasesByTheHour(t *testing.T) {
	long := Assessment{Swept: Swept{Hours: Flight{4, []Spell{{0, 0.5}, {0.5, 1.9}, {1.9, 4}}}}}
	short := Assessment{Swept: Swept{Hours: Flight{0.8, []Spell{{0, 0.1}, {0.1, 0.8}}}}}
	for _, c := range []struct {
		a      *Assessment
		phases []int
		want   float64
	}{
		{&long, []int{0}, 1}, {&long, []int{0, 1}, 1}, {&long, []int{2}, 4}, {&long, []int{0, 1, 2}, 4}, {&short, []int{0}, 0.8}, {&short, []int{1}, 0.8},
	} {
		if got := c.a.per(c.phases); got != c.want {
			t.Errorf("phases %v of %g h: divided by %g h, want %g", c.phases, c.a.Hours.Hours, got, c.want)
		}
	}
}

func TestFigure(t *testing.T) {
	for p, want := range map[float64]string{0: "0", 2.5e-9: "2.5e-9", 1e-7: "1e-7", 9.96e-8: "1e-7", 0.0123: "0.012", 0.31: "0.31", 1: "1"} {
		if got := Figure(p); got != want {
			t.Errorf("%g: %s, want %s", p, got, want)
		}
	}
}

// TestCrewed_WhatEndsIsNotSpared: a flight that ends before a loss has not spared it.
func TestCrewed_WhatEndsIsNotSpared(t *testing.T) {
	for _, c := range []struct {
		ended string
		lost  bool
		gone  gone
		want  string
	}{
		{"", false, gone{}, "with the crew by the book: not lost"},
		{"", true, gone{times: 1, total: 7_000_000}, "with the crew by the book: lost all the same"},
		{"", true, gone{times: 1, total: 7_000_000, back: true}, "with the crew by the book: lost for 7 s, then regained"},
		{"", true, gone{times: 2, total: 90_000_000, back: true}, "with the crew by the book: lost 2 times, for 90 s in all, and each time regained"},
		{"both engines starve", true, gone{times: 1, total: 7_000_000, back: true}, "with the crew by the book: lost for 7 s, then regained; the flight does not arrive: both engines starve"},
		{"both engines starve", true, gone{}, "with the crew by the book: lost all the same; the flight does not arrive: both engines starve"},
		{"both engines starve", false, gone{}, "with the crew by the book: the flight does not arrive: both engines starve; up to there it is not lost"},
	} {
		if got := (&Crewed{Ended: c.ended, lost: map[string]gone{"f": c.gone}}).says(c.lost, "f"); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
