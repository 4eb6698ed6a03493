package rescue

import (
	"context"
	"testing"

	"knockon/book"
)

// TestUntil_SomebodyIsThere: masks save a flight with a cabin that leaks, and until just
// before the pilots cannot put them on any more, however much later it breaks off.
func TestUntil_SomebodyIsThere(t *testing.T) {
	c, s := demoCourse(t, "northern_link"), failing("cruise", 60, "cabin_wall.leaks")
	w := newSlow(t, c, s, nil)
	asleep := after(w.plain["pilots_awake"], w.strike)[0].From
	a, err := Of(context.Background(), c, Question{Scenario: s, Order: 1, Workers: 2}, nil)
	if err != nil || len(a.Rescues) == 0 {
		t.Fatal(err, a)
	}
	for _, x := range a.Rescues {
		until := x.Windows[len(x.Windows)-1].To
		if until > asleep || until < asleep-2*book.Second {
			t.Errorf("%s until %.0f s; they are awake until %.0f s", x.Set.key(), until.Seconds(), asleep.Seconds())
		}
	}
	if end := w.base.End; end < asleep+1000*book.Second {
		t.Errorf("it breaks off at %.0f s, hardly after they are asleep", end.Seconds())
	}
}
