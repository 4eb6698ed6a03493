package run_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"knockon/book"
	"knockon/run"
)

// steered is an aircraft that cannot be flown in the air without its steering.
const steered = `
function "steering" {
  works    = a || b
  severity = "catastrophic"
  title    = "Steering"
}
`

func steeredCourse(t *testing.T) *run.Course {
	t.Helper()
	text := strings.Replace(hop, `{ title = "Small" }`, "{\n  title = \"Small\"\n  flyable = steering || ground\n}", 1)
	return courseOf(t, text+steered)
}

// TestEnding_NotFlyable: a run ends two seconds (wrong_after_s) after the steering
// is gone for good, not when it is back before that, and not on the ground.
func TestEnding_NotFlyable(t *testing.T) {
	ctx := context.Background()
	c := steeredCourse(t)
	up := float64(600)
	for name, x := range map[string]struct {
		strikes []run.Strike
		ends    float64 // 0: it arrives
	}{
		"for good":          {[]run.Strike{strike(up, 0, "a", "b")}, up + 2},
		"one after another": {[]run.Strike{strike(up, 0, "a"), strike(up+50, 0, "b")}, up + 52},
		"one is left":       {[]run.Strike{strike(up, 0, "a")}, 0},
		"back in time":      {[]run.Strike{strike(up, 0, "a"), strike(up, book.AtSeconds(1.9), "b")}, 0},
		"back, too late":    {[]run.Strike{strike(up, 0, "a"), strike(up, book.AtSeconds(2.1), "b")}, up + 2},
		"on and off":        {[]run.Strike{strike(up, book.AtSeconds(1.5), "a", "b"), strike(up+1.6, book.AtSeconds(1.5), "a", "b")}, 0},
		"before the flight": {[]run.Strike{strike(1, book.AtSeconds(20), "a", "b")}, 0},
		"ninety seconds":    {[]run.Strike{strike(up, book.AtSeconds(90), "a", "b")}, up + 2},
	} {
		r, err := c.Fly(ctx, run.Scenario{Strikes: x.strikes})
		if err != nil {
			t.Fatal(name, err)
		}
		e := r.Ending()
		var lost *run.Uncontrolled
		switch {
		case x.ends == 0 && !e.Arrived():
			t.Errorf("%s: %+v, not arrived", name, e)
		case x.ends != 0 && (e.How != run.NotFlyable || e.At != book.AtSeconds(x.ends) || !errors.As(r.Fault, &lost)):
			t.Errorf("%s: %+v, not at %g s", name, e, x.ends)
		case x.ends != 0 && e.Why != "the aircraft can no longer be flown, without steering":
			t.Errorf("%s: %q", name, e.Why)
		}
		on, err := c.Fly(ctx, run.Scenario{Strikes: x.strikes, FliesOn: true})
		if err != nil || !on.Ending().Arrived() || on.End != c.Path.End() {
			t.Errorf("%s, flown on: %+v %v", name, on.Ending(), err)
		}
	}
}
