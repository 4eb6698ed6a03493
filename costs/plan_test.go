package costs

import (
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/region"
	"knockon/run"
)

// TestCosts_AreThoseOfThePlan: what is said of a field is to the digit what the
// flight is that is planned to go there at that moment; and so is every value of
// the two records.
func TestCosts_AreThoseOfThePlan(t *testing.T) {
	g := islands(t)
	course, err := run.NewCourse(courseOf(t, "").Build, nil, run.Setting{Router: region.Router{Region: g}})
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(10, 30))
	for range 6 {
		units := course.Build.Units
		s := failing("climb", rng.Float64()*3000, units[rng.IntN(len(units))].ID, units[rng.IntN(len(units))].ID)
		c := price(t, course, g, s, 5)
		for i := range c.Places {
			p := &c.Places[i]
			if !p.Failed.Arrives || p.Failed.Unjudged() {
				continue
			}
			s.Plan = []run.Leg{{Do: run.Divert, To: p.Airfield.Ident + "/" + p.Failed.Landings[0].End, At: book.Moment{Offset: c.At}}}
			r, err := course.Fly(context.Background(), s)
			if err != nil {
				t.Fatal(err)
			}
			sameFrom(t, p.Failed.Record(), r, c.At)
		}
	}
}

// sameFrom holds two records to the same values from a moment on.
func sameFrom(t *testing.T, a, b *run.Record, at book.Time) {
	t.Helper()
	if len(b.Turns) != 1 || b.Turns[0].Why != "" {
		t.Fatalf("turned %+v", b.Turns)
	}
	if a.End != b.End || a.Ended != b.Ended {
		t.Fatalf("ends %v at %v, and %v at %v", a.Ended, a.End, b.Ended, b.End)
	}
	instants := slices.DeleteFunc(slices.Clone(b.Instants()), func(x book.Time) bool { return x < at })
	for n := range circuit.Node(a.Circuit().Size()) {
		for _, x := range instants {
			if a.At(n, x) != b.At(n, x) {
				t.Fatalf("node %d at %v: %v and %v", n, x, a.At(n, x), b.At(n, x))
			}
		}
	}
}
