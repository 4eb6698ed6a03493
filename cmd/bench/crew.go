package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"time"

	"knockon/airfield"
	"knockon/ask"
	"knockon/book"
	"knockon/crew/worth"
	"knockon/demo"
	"knockon/region"
	"knockon/run"
	"knockon/scenario"
)

// ground is the demonstration's region; where more fields are wanted than it has,
// each is there again a little farther east.
func ground(least int) *region.Region {
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	check(err)
	if list.Len() < least {
		list = more(list, least)
	}
	var texts [3]string
	for i, name := range []string{"weather.txt", "conditions.csv", "aloft.txt"} {
		text, err := fs.ReadFile(demo.Region(), name)
		check(err)
		texts[i] = string(text)
	}
	g, _ := region.New(list, texts[0], texts[1], texts[2])
	return g
}

// more is a list with each airfield again a little farther north and east, until
// there are enough.
func more(list *airfield.List, least int) *airfield.List {
	airports := []byte("id,ident,type,name,latitude_deg,longitude_deg,elevation_ft\n")
	runways := []byte("id,airport_ref,airport_ident,length_ft,surface,closed,le_ident,le_heading_degT,he_ident,he_heading_degT\n")
	for id, copies := 0, 0; id < least; copies++ {
		for f := range list.All() {
			ident, step := f.Ident, 0.3*float64(copies)
			if copies > 0 {
				ident = fmt.Sprintf("%s%d", f.Ident, copies)
			}
			id++
			airports = fmt.Appendf(airports, "%d,%s,%s,%s%s,%.6f,%.6f,%.0f\n", id, ident, f.Kind, f.Name, suffix(copies), f.Place.Lat+step, f.Place.Lon+step, f.ElevationFt)
			for _, w := range f.Runways {
				runways = fmt.Appendf(runways, "%d,%d,%s,%.0f,%s,0,%s,%.1f,%s,%.1f\n", id, id, ident, w.LengthFt, w.Surface, w.Ends[0].Ident, w.Ends[0].HeadingTrue, w.Ends[1].Ident, w.Ends[1].HeadingTrue)
			}
		}
	}
	all, _, err := airfield.Read(bytes.NewReader(airports), bytes.NewReader(runways))
	check(err)
	return all
}

// suffix tells copies of a name apart; the first is the name.
func suffix(copies int) string {
	if copies == 0 {
		return ""
	}
	return fmt.Sprint(" ", copies)
}

// crewed are the rows of one run of failures, conduct and plan.
func crewed(b *book.Book) []row {
	few, many := ground(0), ground(50)
	over, far := ask.NewDesk(b).Over(few), ask.NewDesk(b).Over(many)
	return []row{
		{"a crewed, diverted flight and its ledger", 40 * time.Millisecond, 40, func(i int) time.Duration {
			return timed(func() { diverted(over, i) })
		}},
		{"13 airfields failed and healthy, with a crew, a new moment", 200 * time.Millisecond, 12, func(i int) time.Duration {
			return priced(over, few, i, 13)
		}},
		{"50 airfields failed and healthy, with a crew", 700 * time.Millisecond, 5, func(i int) time.Duration {
			return priced(far, many, i, 50)
		}},
		{"what each step of one procedure is worth", 2 * time.Second, 3, func(i int) time.Duration {
			return timed(func() { assessed(over, i) })
		}},
	}
}

func asked(i int) ask.Question {
	return ask.Question{Fail: []scenario.Strike{{What: []string{"tr_right"}, At: question(i)}}, Out: []string{"tr_left"}}
}

func diverted(d *ask.Desk, i int) {
	q := asked(i)
	q.Plan = []string{"divert QSTO"}
	a, err := d.Answer(context.Background(), q)
	check(err)
	if len(a.Here.Turns) == 0 || a.Here.Turns[0].Why != "" {
		check(fmt.Errorf("not diverted: %+v", a.Here.Turns))
	}
}

// priced is the time that the price of an answer takes, not that of the answer.
func priced(d *ask.Desk, g *region.Region, i, fields int) time.Duration {
	a, err := d.Answer(context.Background(), asked(i))
	check(err)
	return timed(func() {
		c, err := a.Costs(context.Background(), g, ask.Price{Most: fields})
		check(err)
		if len(c.Places) < fields {
			check(fmt.Errorf("%d airfields, want %d", len(c.Places), fields))
		}
	})
}

func assessed(d *ask.Desk, i int) {
	c, err := d.Courses.Prescribed("", "")
	check(err)
	k := run.Strike{Fail: []book.FailureRef{{Unit: "tr_left"}, {Unit: "tr_right"}, {Unit: "tr_vital"}}, At: book.Moment{Phase: "cruise", Offset: book.AtSeconds(float64(600 + i))}}
	p, err := book.Find("procedure", "vital_battery_drill", c.Build.Procedures)
	check(err)
	_, err = worth.Assess(context.Background(), d.Team(c), run.Scenario{Strikes: []run.Strike{k}}, p)
	check(err)
}
