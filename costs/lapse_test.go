package costs

import (
	"context"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/flight/energy"
	"knockon/run"
)

// TestCosts_AWingThatIsLostIsLostForEveryField: a duct that bursts in the cruise
// takes the wing's structure in ten minutes. No airfield is nearer than that, and
// none is good because it is so far that the leak has ended by the touchdown.
func TestCosts_AWingThatIsLostIsLostForEveryField(t *testing.T) {
	c := price(t, courseOf(t, ""), islands(t), failing("cruise", 300, "duct_burst"), 0)
	for i := range c.Places {
		p := &c.Places[i]
		lapses := p.Failed.fatal()
		switch {
		case p.Failed.Good() || p.Failed.Reasons[0].Kind != Time:
			t.Errorf("%s, %.0f min away: %v", p.Airfield.Name, p.Failed.Minutes, p.Failed.Reasons)
		case lapses[0].Minutes < 9.9 || lapses[0].Minutes > 10.1:
			t.Errorf("%s: %+v", p.Airfield.Name, lapses[0])
		case len(p.Healthy.Lapses) > 0 || !p.Healthy.Good():
			t.Errorf("%s with nothing failed: %v", p.Airfield.Name, p.Healthy.Reasons)
		}
	}
}

// TestCosts_WhatWasLostBeforeTheTurnCounts: the same, with crew who turn a quarter
// of an hour later.
func TestCosts_WhatWasLostBeforeTheTurnCounts(t *testing.T) {
	course, s := courseOf(t, ""), failing("cruise", 300, "duct_burst")
	at, err := course.Resolve(context.Background(), s.Strikes[0].At)
	if err != nil {
		t.Fatal(err)
	}
	c := priceAt(t, course, islands(t), s, at+15*60*book.Second, 3)
	for i := range c.Places {
		if r := c.Places[i].Failed.Reasons; len(r) == 0 || !strings.Contains(r[0].Text, "gone 5 min before the turn") {
			t.Errorf("%s: %v", c.Places[i].Airfield.Name, r)
		}
	}
}

// TestCosts_LostBeforeAndCalledForOnTheWay: what went a quarter of an hour before the
// turn and is called for only near the ground counts, with both moments.
func TestCosts_LostBeforeAndCalledForOnTheWay(t *testing.T) {
	c := changed(t, "", "", "", `function "low_look" {
  title    = "Low look"
  works    = waste_blower
  wanted   = real.height_ft < 2000 && real.vertical_speed_ft_per_min < 0
  severity = "catastrophic"
}
`)
	s := failing("cruise", 300, "waste_blower")
	at, err := c.Resolve(context.Background(), s.Strikes[0].At)
	if err != nil {
		t.Fatal(err)
	}
	got := priceAt(t, c, islands(t), s, at+15*60*book.Second, 2)
	for _, p := range got.Places {
		list := p.Failed.fatal()
		if len(list) != 1 || list[0].Minutes != -15 || list[0].Needed <= 5 || list[0].Needed >= p.Failed.Minutes {
			t.Errorf("%s: %+v", p.Airfield.Ident, list)
			continue
		}
		if text := p.Failed.Reasons[0].Text; !strings.HasPrefix(text, "Low look: gone 15 min before the turn, called for after ") {
			t.Errorf("%s: %s", p.Airfield.Ident, text)
		}
	}
}

// TestCosts_LossesAreThoseOfEverySecond: of the losses of every airfield only
// those that the slow, obvious way finds count: works there, does not here, and
// is wanted, at some second before touchdown.
func TestCosts_LossesAreThoseOfEverySecond(t *testing.T) {
	course, g := courseOf(t, ""), islands(t)
	for _, s := range []run.Scenario{failing("cruise", 300, "duct_burst"), failing("cruise", 1200, "engine_left", "engine_right"), headline()} {
		c := price(t, course, g, s, 2)
		for i := range c.Places {
			side := &c.Places[i].Failed
			right, err := c.desk.beside(context.Background(), side)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range course.Build.Functions {
				slow := f.Severity == "catastrophic" && lostAtSomeSecond(side.record, right, f.ID, c.At, side.down())
				fast := false
				for _, l := range side.fatal() {
					fast = fast || l.Function == f
				}
				if slow != fast {
					t.Errorf("%v to %s: %s is lost before touchdown: %v, every second says %v", s.Strikes[0].Fail, c.Places[i].Airfield.Name, f.ID, fast, slow)
				}
			}
		}
	}
}

func lostAtSomeSecond(here, there *run.Record, f string, from, to book.Time) bool {
	node := func(r *run.Record, a circuit.Aspect) circuit.Node {
		n, _ := r.Circuit().Node(circuit.Value{Item: f, Aspect: a})
		return n
	}
	h, wanted, n := node(here, circuit.Main), node(here, circuit.Wanted), node(there, circuit.Main)
	for t := from; t < to; t += book.Second {
		if here.At(h, t) == 0 && there.At(n, t) != 0 && here.At(wanted, t) != 0 {
			return true
		}
	}
	return false
}

// TestCosts_ALossThatIsLivedThroughClosesNothing: a blower that stops for a minute is
// over before any touchdown. That closes every field where the book does not say how
// long one lives without it, or says less than the minute, and none where it says a
// second more; a blower that is never back closes all.
func TestCosts_ALossThatIsLivedThroughClosesNothing(t *testing.T) {
	for _, x := range []struct {
		says   string
		lasts  book.Time
		closes bool
	}{
		{"", 60 * book.Second, true},
		{"survivable_s = 61", 60 * book.Second, false},
		{"survivable_s = 59", 60 * book.Second, true},
		{"survivable_s = 90000", 0, true},
	} {
		for _, turn := range []book.Time{0, 30 * book.Second, 300 * book.Second} {
			c := changed(t, "", "", "", `function "low_look" {
  title    = "Low look"
  works    = waste_blower
  severity = "catastrophic"
  `+x.says+`
}
`)
			s := failing("cruise", 300, "waste_blower")
			s.Strikes[0].Lasts = x.lasts
			at, err := c.Resolve(context.Background(), s.Strikes[0].At)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range priceAt(t, c, islands(t), s, at+turn, 2).Places {
				if got := len(p.Failed.fatal()) > 0; got != x.closes {
					t.Errorf("%q, gone for %v s, turned after %v s, %s: %v", x.says, x.lasts.Seconds(), turn.Seconds(), p.Airfield.Ident, p.Failed.fatal())
				}
			}
		}
	}
}

// TestSide_SaysOnWhichSideOfThePlaceAFlightEnds: one that cannot come down flies
// on over the place until it runs dry.
func TestSide_SaysOnWhichSideOfThePlaceAFlightEnds(t *testing.T) {
	for nm, want := range map[float64]string{-1366: "runs out of fuel 1,366 NM beyond it", 45: "runs out of fuel 45 NM short of it"} {
		s := Side{Ending: energy.Dry, ShortNM: nm, record: &run.Record{}}
		if s.weigh(); s.Reasons[0].Text != want {
			t.Errorf("%v: %s", nm, s.Reasons[0].Text)
		}
	}
}
