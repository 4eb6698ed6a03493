package ledger_test

import (
	"context"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/ledger"
	"knockon/say"
	"knockon/scenario"
)

// TestView_SaysWhereItEnds: the opening says where, when and in how much runway the
// flight is over, as its record has it; nothing where it breaks off, where the failure
// never comes, and nothing of a stop where it runs off the end.
func TestView_SaysWhereItEnds(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands.Region(t))
	for _, c := range []struct {
		crew, fail, at string
		says, never    string
	}{
		{scenario.Nobody, "waste_blower", "descent", "Hands off it lands at ", ""},
		{scenario.ByTheBook, "hold.smoulders", "cruise + 10 min", "With a crew by the book it lands at Tolmarry, runway 06, ", ""},
		{scenario.ByTheBook, "engine_left", "take_off_roll + 5 s", "With a crew by the book the take-off is rejected, and the flight goes nowhere: it stops on ", "lands at"},
		{scenario.Nobody, "engine_left,engine_right", "climb", "", "lands at"},
		{scenario.Nobody, "brake_left,brake_right", "final", "", "and stops on"},
	} {
		q := ask.Question{Crew: c.crew, Fail: []scenario.Strike{{What: strings.Split(c.fail, ","), At: c.at}}}
		a, err := desk.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		v := a.Ledger.View()
		if !strings.HasPrefix(v.Ends, c.says) || c.never != "" && strings.Contains(v.Ends, c.never) {
			t.Errorf("%s at %s: %q", c.fail, c.at, v.Ends)
		}
		holdEnds(t, a, v)
	}
}

// holdEnds holds the sentence to the record.
func holdEnds(t *testing.T, a *ask.Answer, v *ledger.View) {
	t.Helper()
	switch at, down := a.Here.Touchdown(); {
	case !a.Here.Ending().Arrived():
		if v.Ends != "" {
			t.Errorf("%s breaks off, and %q", v.Heading, v.Ends)
		}
	case strings.Contains(v.Ends, "it lands"):
		if !down || !strings.Contains(v.Ends, " at "+v.Stop.Field+", runway "+v.Stop.Runway+", "+say.Lasts(at-a.Ledger.Strike)+" after the failure") {
			t.Errorf("%s: %q, of %+v", v.Heading, v.Ends, v.Stop)
		}
	}
}

// TestView_SaysThatFollowingAWrongReadingIsLeftOut: where a speed or a height in front of a
// pilot is wrong before it lands, the opening says that what following it would do is not
// worked out, and names each; else it says nothing of the kind.
func TestView_SaysThatFollowingAWrongReadingIsLeftOut(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands.Region(t))
	for _, c := range []struct {
		fail, at, says string
	}{
		{"pitot_1.blocked", "climb + 60 s", " Not worked out: what following left airspeed, which shows wrong, would do."},
		{"pitot_1.blocked,pitot_2.blocked", "climb + 60 s", " Not worked out: what following left airspeed and right airspeed, which show wrong, would do."},
		{"pitot_1.blocked", "taxi_in", ""},
		{"waste_blower", "descent", ""},
	} {
		q := ask.Question{Crew: scenario.Nobody, Fail: []scenario.Strike{{What: strings.Split(c.fail, ","), At: c.at}}}
		a, err := desk.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		ends := a.Ledger.View().Ends
		if !strings.HasSuffix(ends, c.says) || c.says == "" && strings.Contains(ends, "Not worked out") {
			t.Errorf("%s at %s: %q, not %q", c.fail, c.at, ends, c.says)
		}
	}
}

// TestView_EndsOfWhatNeverComes: a failure that never comes ends nowhere, also where the
// flight arrives.
func TestView_EndsOfWhatNeverComes(t *testing.T) {
	q := ask.Question{Crew: scenario.Nobody, Plan: []string{"return @ climb"}, Fail: []scenario.Strike{{What: []string{"waste_blower"}, At: "1:30:00"}}}
	a, err := ask.NewDesk(corvane.Book(t)).Over(islands.Region(t)).Answer(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	if v := a.Ledger.View(); v.Ends != "" || v.Unanswered == "" {
		t.Errorf("%q, %q", v.Ends, v.Unanswered)
	}
}
