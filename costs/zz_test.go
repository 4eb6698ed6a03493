package costs

import (
	"context"
	"io/fs"
	"testing"
	"time"

	"knockon/airfield"
	"knockon/book"
	"knockon/demo"
	"knockon/flight/fuel"
	"knockon/run"
)

func TestZZ(t *testing.T) {
	bk, _ := book.Load(context.Background(), demo.Book())
	build, _ := bk.Build("")
	course, err := run.NewCourse(build, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	list, probs, err := airfield.ReadFS(demo.Region(), ".")
	t.Log(probs, err)
	text := func(n string) string { b, _ := fs.ReadFile(demo.Region(), n); return string(b) }
	g, told := NewRegion(list, text("weather.txt"), text("conditions.csv"), text("aloft.txt"))
	t.Log(told)
	s := run.Scenario{Strikes: []run.Strike{{Fail: []book.FailureRef{{Unit: "tr_right"}}, At: book.Moment{Phase: "climb", Offset: book.AtSeconds(120)}}}, Inoperative: []book.FailureRef{{Unit: "tr_left"}}}
	at, _ := course.Resolve(context.Background(), s.Strikes[0].At)
	rule, _ := fuel.Named("european")
	t0 := time.Now()
	c, err := Of(context.Background(), course, g, Question{Scenario: s, At: at, Rule: rule})
	if err != nil {
		t.Fatal(err)
	}
	t.Log(time.Since(t0), c.Position, c.State)
	for _, p := range c.Places {
		for i, s := range []Side{p.Healthy, p.Failed} {
			l := Landing{}
			if len(s.Landings) > 0 {
				l = s.Landings[0]
			}
			t.Logf("%-14s %d %4.0f nm %3.0f min fuel %5.0f left %5.0f | %s %s avail %4.0f dist %4.0f req %4.0f x %2.0f/%2.0f %s| %v", p.Airfield.Name, i, p.Line.NM(), s.Minutes, s.FuelKg, s.LandsKg, l.End, l.Surface, l.AvailableM, l.DistanceM, l.RequiredM, l.CrossKt, l.MostCrossKt, s.Ending, s.Reasons)
		}
	}
	a, b := c.Places[0].Failed.Path(), c.Places[0].Healthy.Path()
	_ = b
	l, r, _ := a.Landing()
	t.Log(l.Changes, r.Events)
	l, r, _ = b.Landing()
	t.Log(l.Changes, r.Events)
}
