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

func zz(t *testing.T) (*Costs, *run.Course, *Region, Question) {
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
	return c, course, g, Question{Scenario: s, At: at, Rule: rule}
}

func TestZZ(t *testing.T) {
	c, _, _, _ := zz(t)
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

func TestYY(t *testing.T) {
	c, course, g, q := zz(t)
	_ = course
	ctx := context.Background()
	t0 := time.Now()
	a, _, err := c.Attribute(ctx, "QSBR")
	t.Log(time.Since(t0), err)
	t.Logf("%+v", a.Healthy)
	t.Logf("%+v", a.Failed)
	for _, p := range a.Parts {
		var f []string
		for _, x := range p.Functions {
			f = append(f, x.Title)
		}
		t.Logf("%s %v back %.0f kg %.1f min %.0f m alone %.0f kg %.1f min %.0f m", p.Title, f, a.Failed.FuelKg-p.Back.FuelKg, a.Failed.Minutes-p.Back.Minutes, a.Failed.RequiredM-p.Back.RequiredM, p.Alone.FuelKg-a.Healthy.FuelKg, p.Alone.Minutes-a.Healthy.Minutes, p.Alone.RequiredM-a.Healthy.RequiredM)
	}
	t0 = time.Now()
	x, y, err := c.Boundaries(ctx)
	t.Log(time.Since(t0), err)
	for i := range x.Metres {
		t.Logf("%d %.0f %.0f", i*10, x.Metres[i]/1852, y.Metres[i]/1852)
	}
	t0 = time.Now()
	w, err := c.When(ctx, g, q)
	t.Log(time.Since(t0), err)
	for _, l := range w {
		t.Log(l.Airfield.Name, l.Ever, l.Always, (l.At-c.At).Seconds()/60, l.Then)
	}
}
