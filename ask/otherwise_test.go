package ask_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/scenario"
)

// TestOtherwise_SaysWhatDiffers, and can say that nothing does.
func TestOtherwise_SaysWhatDiffers(t *testing.T) {
	plain, over := ask.NewDesk(corvane.Book(t)), ask.NewDesk(corvane.Book(t)).Over(islands(t))
	for _, x := range []struct {
		desk       *ask.Desk
		fail, crew string
		want, not  string
	}{
		{plain, "tr_right ac_left", "", "Hands off this is lost more than a minute sooner: an attitude to fly by", "the flight ends"},
		{plain, "left_leg.stays_up", "", "Hands off it lands with the gear not all down and locked.", "the same is lost"},
		{plain, "left_leg.stays_up", scenario.Nobody, "With a crew by the book it lands with the gear down and locked.", "not all"},
		{plain, "gen_left", "", "Hands off this is lost as well: approach to low minima.", "the same is lost"},
		{over, "tr_left tr_right", "", "Hands off the flight ends at Vardholm", "sooner"},
		{over, "tr_left tr_right", scenario.Nobody, "With a crew by the book the flight ends at Kestrin", "the same is lost"},
		{plain, "nacelle_left.burns", "", "Hands off the flight breaks off at 29:31: the aircraft can no longer be flown.", "is lost"},
		{plain, "nacelle_left.burns", scenario.Nobody, "With a crew by the book the flight arrives.", "breaks off"},
		{plain, "gen_left gen_right battery_main", "", "Hands off this is lost to the end: two airspeeds that agree, stall warning", "only for a while"},
		{plain, "gen_left gen_right battery_main", scenario.Nobody, "With a crew by the book this is lost only for a while: two airspeeds that agree, stall warning", "to the end"},
		{plain, "radio_alt_1", "", "Hands off the same is lost", "Nothing is said"},
		{plain, "radio_alt_1", "", "Hands off the same is lost, none of it more than a minute sooner or later.", "as well"},
		{plain, "gen_left gen_right ram_gen", "", "Hands off the flight breaks off at 40:01: the aircraft can no longer be flown, without pitch control and roll control.", "is lost"},
		{plain, "engine_left engine_right", "", "Hands off the flight breaks off", "is lost"},
	} {
		a, err := x.desk.Answer(context.Background(), ask.Question{Crew: x.crew, Fail: []scenario.Strike{{What: strings.Fields(x.fail), At: "climb + 120 s"}}})
		if err != nil {
			t.Fatal(err)
		}
		o, err := x.desk.Otherwise(context.Background(), a)
		if err != nil {
			t.Fatal(err)
		}
		if says := strings.Join(o.Says, " "); !strings.Contains(says, x.want) || strings.Contains(says, x.not) {
			t.Errorf("%s, %q: %s", x.fail, x.crew, says)
		}
		again, both, err := x.desk.Both(context.Background(), a.Question)
		if err != nil || both == nil || both.Crew != o.Crew || !slices.Equal(both.Says, o.Says) || again.Ledger.View().Found != a.Ledger.View().Found {
			t.Errorf("%s, %q: %v; %+v and %+v", x.fail, x.crew, err, both, o)
		}
	}
	if _, _, err := plain.Both(context.Background(), ask.Question{Fail: []scenario.Strike{{What: []string{"nothing"}}}}); err == nil {
		t.Error("an answer to no question")
	}
}

// TestAnswer_APlanToNowhere is refused before anything is flown.
func TestAnswer_APlanToNowhere(t *testing.T) {
	for says, d := range map[string]*ask.Desk{"--airfields": ask.NewDesk(corvane.Book(t)), `no airfield "NONE"`: ask.NewDesk(corvane.Book(t)).Over(islands(t))} {
		_, err := d.Answer(context.Background(), ask.Question{Plan: []string{"divert NONE @ cruise"}})
		if err == nil || !strings.HasPrefix(err.Error(), "plan: ") || !strings.Contains(err.Error(), says) {
			t.Errorf("%v", err)
		}
	}
}

// TestAnswer_TheCrewGoesWhereItsListSays: a line that says land turns the flight,
// and nobody turns it hands off or where the ground is not known.
func TestAnswer_TheCrewGoesWhereItsListSays(t *testing.T) {
	q := ask.Question{Fail: []scenario.Strike{{What: []string{"gen_left", "gen_right"}, At: "climb + 120 s"}}}
	over := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	turns := func(d *ask.Desk, q ask.Question) int {
		a, err := d.Answer(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		return len(a.Here.Turns)
	}
	if n := turns(over, q); n != 1 {
		t.Errorf("turned %d times", n)
	}
	if n := turns(ask.NewDesk(corvane.Book(t)), q); n != 0 {
		t.Errorf("without airfields turned %d times", n)
	}
	q.Crew = scenario.Nobody
	if n := turns(over, q); n != 0 {
		t.Errorf("hands off turned %d times", n)
	}
	q.Crew, q.Plan = "", []string{"divert QSTO"}
	if n := turns(over, q); n != 1 {
		t.Errorf("with a plan turned %d times", n)
	}
}

// TestAnswer_AnOverrunIsSaid: a flight that is planned to a runway that is too short
// for what is left of its brakes says so; to a long one it does not.
func TestAnswer_AnOverrunIsSaid(t *testing.T) {
	d := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	for field, over := range map[string]bool{"Pell Ridge": true, "Kestrin": false} {
		a, err := d.Answer(context.Background(), ask.Question{Fail: []scenario.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}, Plan: []string{"divert " + field}})
		if err != nil {
			t.Fatal(err)
		}
		if says := a.Ledger.View().Landing; strings.Contains(says, "runs off the end") != over {
			t.Errorf("%s: %s", field, says)
		}
	}
}
