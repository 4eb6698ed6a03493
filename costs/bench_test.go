package costs

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"strings"
	"testing"

	"knockon/airfield"
	"knockon/flight/fuel"
	"knockon/flight/geo"
	"knockon/region"
)

// fields is a list of so many airfields strewn within a distance of a place, with
// a runway each.
func fields(tb testing.TB, n int, withinM float64, at geo.Place) *airfield.List {
	tb.Helper()
	airports, runways := "id,ident,type,name,latitude_deg,longitude_deg,elevation_ft\n", "id,airport_ref,airport_ident,length_ft,surface,closed,le_ident,le_heading_degT,he_ident,he_heading_degT\n"
	var a, r []byte
	for i := range n {
		p, _ := geo.Along(at, float64(i*137%360), withinM*float64(i+1)/float64(n))
		a = fmt.Appendf(a, "%d,F%05d,small_airport,Field %d,%.5f,%.5f,%d\n", i, i, i, p.Lat, p.Lon, i%3000)
		r = fmt.Appendf(r, "%d,%d,F%05d,7000,ASP,0,09,90,27,270\n", i, i, i)
	}
	list, _, err := airfield.Read(reader(airports, a), reader(runways, r))
	if err != nil {
		tb.Fatal(err)
	}
	return list
}

// BenchmarkCosts is the price of a failure at 50 airfields, failed and healthy,
// with the ends of the flight among them.
func BenchmarkCosts(b *testing.B) {
	course, g := courseOf(b, ""), islands(b)
	rule, _ := fuel.Named("european")
	at, _ := course.Resolve(context.Background(), headline().Strikes[0].At)
	from, _ := g.Find("Kestrin")
	near := fields(b, 48, 900e3, from.Place)
	merged := merge(b, near, g)
	whole, err := course.Fly(context.Background(), headline())
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		c, err := Of(context.Background(), course, merged, Question{Scenario: headline(), At: at, Rule: rule, Most: 50, Whole: whole})
		if err != nil {
			b.Fatal(err)
		}
		if len(c.Places) != 50 {
			b.Fatal(len(c.Places))
		}
	}
}

// BenchmarkReach is which of 70,000 airfields fuel reaches: both boundaries, and
// the list.
func BenchmarkReach(b *testing.B) {
	course, g := courseOf(b, ""), islands(b)
	c := price(b, course, g, headline(), 0)
	world := fields(b, 70000, 19e6, c.Position)
	b.ResetTimer()
	for b.Loop() {
		failed, healthy, err := c.Boundaries(context.Background())
		if err != nil {
			b.Fatal(err)
		}
		if n, m := len(failed.Reached(world)), len(healthy.Reached(world)); n == 0 || m <= n {
			b.Fatal(n, m)
		}
	}
}

// BenchmarkAttribution is what each thing adds on the way to one airfield.
func BenchmarkAttribution(b *testing.B) {
	c := price(b, courseOf(b, ""), islands(b), headline(), 0)
	for b.Loop() {
		if _, ok, err := c.Attribute(context.Background(), "QSBR"); !ok || err != nil {
			b.Fatal(ok, err)
		}
	}
}

func reader(head string, rows []byte) io.Reader {
	return io.MultiReader(strings.NewReader(head), bytes.NewReader(rows))
}

// merge is the near fields with the two ends of the flight in place of the first.
func merge(tb testing.TB, near *airfield.List, g *region.Region) *region.Region {
	tb.Helper()
	airports, runways := "id,ident,type,name,latitude_deg,longitude_deg,elevation_ft\n", "id,airport_ref,airport_ident,length_ft,surface,closed,le_ident,le_heading_degT,he_ident,he_heading_degT\n"
	var a, r []byte
	id := 0
	add := func(f airfield.Airfield) {
		id++
		a = fmt.Appendf(a, "%d,%s,%s,%s,%.6f,%.6f,%.0f\n", id, f.Ident, f.Kind, f.Name, f.Place.Lat, f.Place.Lon, f.ElevationFt)
		for _, w := range f.Runways {
			r = fmt.Appendf(r, "%d,%d,%s,%.0f,%s,0,%s,%.1f,%s,%.1f\n", id, id, f.Ident, w.LengthFt, w.Surface, w.Ends[0].Ident, w.Ends[0].HeadingTrue, w.Ends[1].Ident, w.Ends[1].HeadingTrue)
		}
	}
	for f := range near.All() {
		add(f)
	}
	for _, name := range []string{"Kestrin", "Vardholm"} {
		f, _ := g.Find(name)
		add(f)
	}
	list, _, err := airfield.Read(reader(airports, a), reader(runways, r))
	if err != nil {
		tb.Fatal(err)
	}
	return &region.Region{Airfields: list}
}
