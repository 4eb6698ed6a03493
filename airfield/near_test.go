package airfield

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/flight/geo"
)

// scan is Near the slow way: a geodesic to every airfield.
func scan(l *List, at geo.Place, withinM float64) (hits []Hit) {
	for a := range l.All() {
		if line := geo.Between(at, a.Place); line.Metres <= withinM {
			hits = append(hits, Hit{a, line})
		}
	}
	slices.SortStableFunc(hits, func(a, b Hit) int { return cmp.Compare(a.Line.Metres, b.Line.Metres) })
	return hits
}

func sameHits(a, b []Hit) bool {
	return slices.EqualFunc(a, b, func(x, y Hit) bool { return x.Airfield.Ident == y.Airfield.Ident && x.Line == y.Line })
}

// scattered has airfields everywhere, at both poles, on both sides of the date
// line, opposite each other and at one place.
func scattered(chance *rand.Rand, count int) *List {
	all := make([]Airfield, count)
	for i := range all {
		all[i] = Airfield{Ident: fmt.Sprintf("Q%05d", i), Place: somewhere(chance)}
	}
	for i, p := range []geo.Place{{Lat: 90, Lon: 0}, {Lat: 90, Lon: 77}, {Lat: -90, Lon: 12}, {Lat: 0, Lon: 180}, {Lat: 0, Lon: -180}, {Lat: 0, Lon: 0}} {
		all[i].Place = p
	}
	return newList(all)
}

func somewhere(chance *rand.Rand) geo.Place {
	p := geo.Place{Lat: math.Asin(2*chance.Float64()-1) * 180 / math.Pi, Lon: 360*chance.Float64() - 180}
	switch chance.IntN(8) {
	case 0:
		p.Lat = math.Copysign(90-chance.ExpFloat64()*0.1, p.Lat)
	case 1:
		p.Lon = math.Copysign(180-min(1, chance.ExpFloat64()*0.1), p.Lon)
	case 2:
		p.Lat, p.Lon = math.Round(p.Lat/30)*30, math.Round(p.Lon/30)*30
	}
	return p
}

func TestNear_EqualsTheFullScan(t *testing.T) {
	chance := rand.New(rand.NewPCG(3, 4))
	l := scattered(chance, 80)
	for i := range 2000 {
		at := somewhere(chance)
		within := 2.0e7 * math.Pow(chance.Float64(), 3)
		switch i % 8 {
		case 0: // exactly as far as some airfield
			within = geo.Between(at, l.airfields[chance.IntN(l.Len())].Place).Metres
		case 1: // all round the globe
			within = 2.0004e7 - 20000*chance.Float64()
		}
		all := scan(l, at, math.Inf(1))
		want := all[:len(scanWithin(all, within))]
		if got := l.Near(at, within); !sameHits(got, want) {
			t.Fatalf("at %v within %v m: %d, not %d", at, within, len(got), len(want))
		}
		count := 1 + chance.IntN(20)
		if got := l.Nearest(at, count); !sameHits(got, all[:count]) {
			t.Fatalf("at %v: the nearest %d are others", at, count)
		}
	}
}

func scanWithin(sorted []Hit, within float64) []Hit {
	n := 0
	for n < len(sorted) && sorted[n].Line.Metres <= within {
		n++
	}
	return sorted[:n]
}

// The angle between two places bounds their distance, everywhere.
func TestNear_TheBoundsHold(t *testing.T) {
	chance := rand.New(rand.NewPCG(5, 6))
	for range 20000 {
		a, b := somewhere(chance), somewhere(chance)
		if chance.IntN(3) == 0 {
			b = geo.Place{Lat: a.Lat + 0.01*chance.NormFloat64(), Lon: a.Lon + 0.01*chance.NormFloat64()}
			b.Lat = max(-90, min(90, b.Lat))
		}
		m := geo.Between(a, b).Metres
		arc := 2 * math.Asin(min(1, math.Sqrt(pointer(a).chord(pointer(b)))/2))
		if m < leastArc*arc*(1-1e-9)-0.5 || m > mostArc*arc*(1+1e-9)+0.5 {
			t.Fatalf("%v to %v: %v m for %v", a, b, m, arc)
		}
	}
}

func TestNear_SenselessQuestions(t *testing.T) {
	l := scattered(rand.New(rand.NewPCG(7, 8)), 20)
	for _, at := range []geo.Place{{Lat: math.NaN()}, {Lon: math.NaN()}, {Lon: math.Inf(1)}} {
		if l.Near(at, 1e6) != nil || l.Nearest(at, 3) != nil {
			t.Errorf("something near %v", at)
		}
	}
	if l.Near(geo.Place{}, -1) != nil || l.Near(geo.Place{}, math.NaN()) != nil || l.Nearest(geo.Place{}, 0) != nil {
		t.Error("something within nothing")
	}
	if got := l.Nearest(geo.Place{}, 500); len(got) != 20 {
		t.Errorf("%d of 20", len(got))
	}
	empty := newList(nil)
	if empty.Len() != 0 || empty.Near(geo.Place{}, 1e9) != nil || len(empty.Nearest(geo.Place{}, 2)) != 0 {
		t.Error("an empty list is not empty")
	}
}

func TestList_Where(t *testing.T) {
	l := scattered(rand.New(rand.NewPCG(9, 9)), 50)
	north := l.Where(func(a Airfield) bool { return a.Place.Lat > 0 })
	count := 0
	for a := range l.All() {
		_, found := north.Find(a.Ident)
		if found != (a.Place.Lat > 0) {
			t.Errorf("%s: %v", a.Ident, found)
		}
		if found {
			count++
		}
	}
	if count != north.Len() || count == 0 || count == 50 {
		t.Errorf("%d of %d", count, north.Len())
	}
	if hits := north.Near(geo.Place{Lat: -10}, 3e7); len(hits) != count {
		t.Errorf("%d near, not %d", len(hits), count)
	}
}

// world is a list as large as the public one, with names and runways.
func world(airfields int) (airports, runways string) {
	chance := rand.New(rand.NewPCG(10, 11))
	var a, r strings.Builder
	a.WriteString("id,ident,type,name,latitude_deg,longitude_deg,elevation_ft,continent,iso_country,iso_region,municipality,scheduled_service,gps_code,iata_code,local_code,home_link,wikipedia_link,keywords\n")
	r.WriteString(runwayHead)
	for i := range airfields {
		p := somewhere(chance)
		fmt.Fprintf(&a, "%d,Q%05d,small_airport,\"Field number %d, invented\",%.6f,%.6f,%d,EU,QQ,QQ-Q,Somewhere,no,,,,https://example.org/%d,,\n", i, i, i, p.Lat, p.Lon, chance.IntN(6000), i)
		if chance.IntN(3) > 0 {
			n := chance.IntN(18) + 1
			fmt.Fprintf(&r, "%d,%d,Q%05d,%d,98,ASP,0,%02d,%.6f,%.6f,,%d,,%02d,,,,%d,\n", i, i, i, 1500+chance.IntN(9000), n, p.Lat, p.Lon, n*10, n+18, n*10+180)
		}
	}
	return a.String(), r.String()
}

func TestRead_AMillionRows(t *testing.T) {
	if testing.Short() {
		t.Skip("a million rows take a second or two")
	}
	row := strings.NewReader("")
	count := 0
	many := readerFunc(func(p []byte) (int, error) { // rows are made as they are read
		for row.Len() == 0 {
			if count == 1_000_000 {
				return 0, io.EOF
			}
			row.Reset(fmt.Sprintf("%d,Q%d,x,,%d,20,\n", count, count, count%180-90))
			count++
		}
		return row.Read(p)
	})
	l, p, err := Read(io.MultiReader(strings.NewReader(airportHead), many), strings.NewReader(runwayHead))
	if err != nil || l.Len() != 0 || p.More != 1_000_000-MostProblems {
		t.Errorf("%v: %d airfields, %d more messages", err, l.Len(), p.More)
	}
}

type readerFunc func([]byte) (int, error)

func (f readerFunc) Read(p []byte) (int, error) { return f(p) }

func BenchmarkRead_World(b *testing.B) {
	airports, runways := world(70000)
	for b.Loop() {
		l, p, err := Read(strings.NewReader(airports), strings.NewReader(runways))
		if err != nil || l.Len() != 70000 || len(p.List) > 0 {
			b.Fatal(err, p)
		}
	}
}

func BenchmarkNear_World(b *testing.B) {
	airports, runways := world(70000)
	l, _, err := Read(strings.NewReader(airports), strings.NewReader(runways))
	if err != nil {
		b.Fatal(err)
	}
	for _, nm := range []float64{100, 500, 2000, 12000} {
		b.Run(fmt.Sprintf("%vnm", nm), func(b *testing.B) {
			found := 0
			for b.Loop() {
				found = len(l.Near(geo.Place{Lat: 48, Lon: 11}, nm*geo.MetresPerNM))
			}
			b.ReportMetric(float64(found), "airfields")
		})
	}
	b.Run("nearest 50", func(b *testing.B) {
		for b.Loop() {
			l.Nearest(geo.Place{Lat: 48, Lon: 11}, 50)
		}
	})
}
