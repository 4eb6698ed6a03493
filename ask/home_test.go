package ask_test

import (
	"math"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/scenario"
)

// TestCosts_LandsAsTheFlight: at the destination of the book the costs roll the landing
// that the answer rolls, on the runway that is supposed, whatever is reported there; the
// few kilograms that the winds aloft make of the way aside. They say what is supposed,
// and at which fields it counts.
func TestCosts_LandsAsTheFlight(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t)).Over(islands(t))
	took := map[string]float64{}
	for _, supposed := range []string{"runway=dry", "runway=wet", "surface=-8,runway=wet"} {
		q := ask.Question{Crew: scenario.Nobody, Flight: "short_hop," + supposed, Fail: []scenario.Strike{{What: []string{"brake_channel_a", "brake_channel_b"}, At: "cruise + 10 s"}}}
		a, err := desk.Answer(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		c, err := a.Costs(t.Context(), a.Ground, ask.Price{})
		if err != nil {
			t.Fatal(err)
		}
		rolled, ok := a.Here.Rolled()
		if !ok || rolled.TookM == 0 {
			t.Fatalf("%s: %+v", supposed, rolled)
		}
		for _, p := range c.Places {
			if l := p.Failed.Landings; p.Own && (len(l) == 0 || math.Abs(l[0].DistanceM-rolled.TookM) > 3 || l[0].AvailableM != rolled.HasM) {
				t.Errorf("%s: the flight takes %.0f m of %.0f m, the costs say %.0f m of %.0f m", supposed, rolled.TookM, rolled.HasM, l[0].DistanceM, l[0].AvailableM)
			}
		}
		took[supposed] = rolled.TookM
		v := c.View("It fails.")
		if !strings.HasPrefix(v.Heading, "It fails; supposed ") || !strings.Contains(v.Heading, "runway.") || !strings.Contains(v.Supposed, "where the flight took off, and at Little Ansa") || strings.Contains(v.Supposed, "wind that") != strings.Contains(supposed, "surface") {
			t.Errorf("%s: %s %s", supposed, v.Heading, v.Supposed)
		}
	}
	if took["runway=wet"] < took["runway=dry"]+40 || took["surface=-8,runway=wet"] < took["runway=wet"]+100 {
		t.Errorf("nothing of it counts: %v", took)
	}
}

// TestOver_AfterAQuestion: whoever was asked before the ground was known says the same
// afterwards as a desk that knew it from the first, the length of the runway included.
func TestOver_AfterAQuestion(t *testing.T) {
	q := ask.Question{Crew: scenario.Nobody, Flight: "short_hop", Fail: []scenario.Strike{{What: []string{"brake_left"}, At: "descent"}}}
	says := func(d *ask.Desk) string {
		a, err := d.Answer(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		return a.Ledger.View().Setting
	}
	late := ask.NewDesk(corvane.Book(t))
	if text := says(late); !strings.Contains(text, "the length of the runway is not known") {
		t.Errorf("before: %s", text)
	}
	early, after := says(ask.NewDesk(corvane.Book(t)).Over(islands(t))), says(late.Over(islands(t)))
	if early != after || strings.Contains(after, "is not known") {
		t.Errorf("after: %s\nfrom the first: %s", after, early)
	}
}
