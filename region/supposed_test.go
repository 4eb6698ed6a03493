package region_test

import (
	"math"
	"testing"

	"knockon/airfield"
	"knockon/demo"
	"knockon/internal/corvane"
	"knockon/region"
)

// TestStripsOf_TheRunwayThatWasLeft: what is supposed of the runways holds for who comes
// back to the field of departure, and for no third one.
func TestStripsOf_TheRunwayThatWasLeft(t *testing.T) {
	list, _, err := airfield.ReadFS(demo.Region(), ".")
	if err != nil {
		t.Fatal(err)
	}
	g, _ := region.New(list, "", "", "")
	b := corvane.Build(t, "")
	f, err := b.FlightNamed("northern_link,surface=-10,runway=1")
	if err != nil {
		t.Fatal(err)
	}
	from, _ := g.Find(f.From)
	most := 0.0
	for _, s := range g.StripsOf(f, from) {
		if s.Ground.Code != 1 || s.TailKt != max(0, -s.Ground.HeadwindKt) {
			t.Errorf("%s: %+v", s.End.Ident, s)
		}
		most = max(most, math.Abs(s.Ground.HeadwindKt))
	}
	if math.Abs(most-10) > 1e-9 {
		t.Errorf("most wind along an end %g kt", most)
	}
	other, _ := g.Find("QSTO")
	for _, s := range g.StripsOf(f, other) {
		if s.Ground.Code != 6 {
			t.Errorf("%s of a field that nobody left: code %d", s.End.Ident, s.Ground.Code)
		}
	}
}
