package ledger_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/ledger"
	"knockon/region"
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
		v := l.View()
		if v.Landing != want || !strings.HasPrefix(v.Summary, want) || !strings.Contains(v.Setting, "the length of the runway is not known") {
			t.Errorf("%q: %q, %s", fault, v.Landing, v.Setting)
		}
		if v.Stop == nil || v.Stop.TookM < 300 || v.Stop.HasM != 0 || v.Stop.OffTheEnd {
			t.Errorf("%q: %+v", fault, v.Stop)
		}
	}
}

// TestView_OwnRunway: a flight that goes where the book sends it feels what is lost of
// its brakes, whether that was lost before touchdown or on the roll; where it runs off
// the end of the runway that is said first, in the text and the JSON too.
func TestView_OwnRunway(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{Router: region.Router{Region: islands.Region(t)}})
	if err != nil {
		t.Fatal(err)
	}
	took := func(at book.Moment, units ...string) *ledger.View {
		k := run.Strike{At: at}
		for _, u := range units {
			k.Fail = append(k.Fail, book.FailureRef{Unit: u})
		}
		l, err := ledger.Answer(context.Background(), c, run.Scenario{Strikes: []run.Strike{k}})
		if err != nil {
			t.Fatal(err)
		}
		return l.View()
	}
	descent, rolling := book.Moment{Phase: "descent"}, book.Moment{Phase: "landing_roll", Offset: 4 * book.Second}
	all := took(descent, "waste_blower").Stop
	half, late, none := took(descent, "brake_left"), took(rolling, "brake_left"), took(descent, "brake_left", "brake_right")
	if all == nil || all.OffTheEnd || all.Field != "Little Ansa" || !(all.TookM < late.Stop.TookM && late.Stop.TookM < half.Stop.TookM) {
		t.Errorf("all %+v, half the brakes from the roll on %+v, before it %+v", all, late.Stop, half.Stop)
	}
	first := "The landing runs off the end of the runway at Little Ansa, runway " + all.Runway + ": it does not stop on "
	var text strings.Builder
	if err := none.Write(&text, 400); err != nil {
		t.Fatal(err)
	}
	if !none.Stop.OffTheEnd || !strings.HasPrefix(none.Landing, first) || !strings.HasPrefix(none.Summary, first) || !strings.HasPrefix(strings.SplitAfterN(text.String(), "\n", 2)[1], first) {
		t.Errorf("%q, %+v\n%s", none.Landing, none.Stop, text.String())
	}
}

// TestView_BrakesThatTakeTooMuch: more energy than the brakes can take is said first, of a
// landing and of a take-off that is rejected, and nothing of it where the book gives no
// limit.
func TestView_BrakesThatTakeTooMuch(t *testing.T) {
	b := *corvane.Build(t, "")
	for most, says := range map[float64]bool{1: true, 1000: false, 0: false} {
		a := *b.Aircraft
		a.Numbers = slices.DeleteFunc(slices.Clone(a.Numbers), func(n book.Named) bool { return n.Name == "max_brake_energy_mj" })
		if most > 0 {
			a.Numbers = append(a.Numbers, book.Named{Name: "max_brake_energy_mj", Value: most})
		}
		b.Aircraft = &a
		c, err := run.NewCourse(&b, corvane.Flight(t, &b, "short_hop"), run.Setting{})
		if err != nil {
			t.Fatal(err)
		}
		fast := book.Moment{Phase: "take_off_fast", Offset: 5 * book.Second}
		for _, turns := range [][]run.Leg{nil, {{Do: run.Reject, At: fast}}} {
			k := run.Strike{Fail: []book.FailureRef{{Unit: "waste_blower"}}, At: book.Moment{Phase: "take_off_fast"}}
			l, err := ledger.Answer(context.Background(), c, run.Scenario{Strikes: []run.Strike{k}, Plan: turns})
			if err != nil {
				t.Fatal(err)
			}
			v := l.View()
			if got := strings.HasPrefix(v.Landing, "The brakes take up ") && strings.HasPrefix(v.Summary, v.Landing); got != says {
				t.Errorf("at most %g MJ, %d turns: %q", most, len(turns), v.Landing)
			}
		}
	}
}

// TestView_WhereARejectedTakeOffStops: the distance is said, and beside a runway that is
// too short for it first of all.
func TestView_WhereARejectedTakeOffStops(t *testing.T) {
	b := corvane.Build(t, "")
	for _, short := range []bool{false, true} {
		c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{Router: shortened{region.Router{Region: islands.Region(t)}, short}})
		if err != nil {
			t.Fatal(err)
		}
		k := run.Strike{Fail: []book.FailureRef{{Unit: "waste_blower"}}, At: book.Moment{Phase: "take_off_fast"}}
		l, err := ledger.Answer(t.Context(), c, run.Scenario{Strikes: []run.Strike{k}, Plan: []run.Leg{{Do: run.Reject, At: book.Moment{Phase: "take_off_fast", Offset: 5 * book.Second}}}})
		if err != nil {
			t.Fatal(err)
		}
		v := l.View()
		if v.Stop == nil || !v.Stop.Rejected || v.Stop.TookM < 300 || v.Stop.OffTheEnd != short || v.Fuel != nil || v.Left != "" {
			t.Errorf("%+v, fuel %+v", v.Stop, v.Fuel)
		}
		if first := strings.HasPrefix(v.Landing, "The rejected take-off runs off the end of the runway at Kestrin"); first != short || !strings.Contains(v.Setting, " from where its roll began, against 9 kt of wind on the runway, on ") {
			t.Errorf("%q; %s", v.Landing, v.Setting)
		}
	}
}

// shortened is a router whose runways are short when it is so.
type shortened struct {
	run.Router
	is bool
}

func (s shortened) Route(l run.Leg, w run.Whereabouts) (run.Route, error) {
	r, err := s.Router.Route(l, w)
	if s.is {
		r.LengthM = 300
	}
	return r, err
}

// TestView_SaysOnceThatNothingTells of the failure itself.
func TestView_SaysOnceThatNothingTells(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	k := run.Strike{Fail: []book.FailureRef{{Unit: "tyre_left"}}, At: book.Moment{Phase: "climb"}}
	l, err := ledger.Answer(t.Context(), c, run.Scenario{Strikes: []run.Strike{k}})
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	if err := l.View().Write(&text, 400); err != nil {
		t.Fatal(err)
	}
	opening, _, _ := strings.Cut(text.String(), "Corvane 71")
	if n := strings.Count(opening, "No alert and no indication tells of the failure itself."); n != 1 {
		t.Errorf("said %d times:\n%s", n, opening)
	}
}

// TestView_FalseWarningsAreSaidFirst: of a vane that sees a stall in any air, and of one that
// sees none.
func TestView_FalseWarningsAreSaidFirst(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	for fault, says := range map[string]bool{"reads_high": true, "": false} {
		k := run.Strike{Fail: []book.FailureRef{{Unit: "stall_vane_left", Fault: fault}}, At: book.Moment{Phase: "climb"}}
		l, err := ledger.Answer(t.Context(), c, run.Scenario{Strikes: []run.Strike{k}})
		if err != nil {
			t.Fatal(err)
		}
		v := l.View()
		if strings.Contains(v.Lead, "False warning: “Stall” (+0:00") != says || (len(v.False) > 0) != says || strings.Contains(v.Lead, "takes nothing away") == says && says {
			t.Errorf("%q: %s", fault, v.Lead)
		}
	}
}

// TestView_WhatIsLeftToFlyWith: each narrower bound is that of the effect, and nothing is
// said where none is narrower, nor of a bound that is narrower for a moment only.
func TestView_WhatIsLeftToFlyWith(t *testing.T) {
	b := corvane.Build(t, "")
	c, err := run.NewCourse(b, corvane.Flight(t, b, "short_hop"), run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	for unit, says := range map[string]string{
		"waste_blower":   "",
		"steering_motor": "Left to fly with: a crosswind of 20 kt at most.",
		"cabin_wall":     "no higher than 10,000 ft from +0:00",
		"gear_valve":     "no faster than 240 kt from ",
	} {
		k := run.Strike{Fail: []book.FailureRef{{Unit: unit}}, At: book.Moment{Phase: "lift_off"}}
		l, err := ledger.Answer(t.Context(), c, run.Scenario{Strikes: []run.Strike{k}})
		if err != nil {
			t.Fatal(err)
		}
		v := l.View()
		if !strings.Contains(v.Left, says) || says == "" && v.Left != "" || !strings.Contains(v.Summary, v.Left) {
			t.Errorf("%s: %q; %s", unit, v.Left, v.Summary)
		}
	}
}
