package energy

import (
	"math/rand/v2"
	"slices"
	"testing"

	"knockon/book"
)

// odd is a random configuration.
func odd(r *rand.Rand) Config {
	c := Clean()
	c.GearOut, c.Iced = r.IntN(3) == 0, r.IntN(3) == 0
	c.Setting = r.IntN(3)
	c.ExtraDrag = 0.01 * float64(r.IntN(3))
	if r.IntN(4) == 0 {
		c.Engines[r.IntN(2)] = 0
	}
	c.Frozen = r.IntN(5) == 0
	return c
}

// TestPath_FlownAheadIsTheWholePath: a path that is flown bit by bit has, as far
// as it is known, the knots and the values of the path flown to its end, and
// comes to the same.
func TestPath_FlownAheadIsTheWholePath(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 1))
	for _, m := range demoMissions(t) {
		first := crewed(m)
		for range 25 {
			at := book.Time(r.Int64N(int64(first.End())))
			c := odd(r)
			whole, open := first.Leave(at, c), first.LeaveAhead(at, c)
			bits := 0
			for ; open.Open(); open = open.FlyOn(at) {
				bits++
				sameSoFar(t, r, open, whole, at)
				if open.End() >= whole.End() {
					t.Fatalf("left at %v: open at %v, the end is at %v", at, open.End(), whole.End())
				}
			}
			if open.End() != whole.End() || !slices.Equal(open.Knots(), whole.Knots()) || open.Ending() != whole.Ending() {
				t.Fatalf("left at %v with %+v, in %d bits: ends %v at %v, whole %v at %v", at, c, bits, open.Ending(), open.End(), whole.Ending(), whole.End())
			}
			sameSoFar(t, r, open, whole, at)
		}
	}
}

// TestTurn_FlownAheadIsTheWholeTurn: the same of turns, one upon another; and each
// keeps what was flown before it, with its knots.
func TestTurn_FlownAheadIsTheWholeTurn(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 2))
	for _, m := range demoMissions(t) {
		for range 40 {
			p := crewed(m)
			for range 3 {
				at := oddMoment(r, p)
				turn, c := oddTurn(r, p, at), oddest(r)
				whole, open := p.Turn(at, turn, c), p.TurnAhead(at, turn, c)
				for ; open.Open(); open = open.FlyOn(at) {
					sameSoFar(t, r, open, whole, at)
				}
				sameSoFar(t, r, open, whole, at)
				if open.End() != whole.End() || open.Ending() != whole.Ending() {
					t.Fatalf("%v at %v: ends %v at %v, whole %v at %v", turn.Kind, at, open.Ending(), open.End(), whole.Ending(), whole.End())
				}
				n, _ := slices.BinarySearch(whole.Knots(), at+1)
				k, _ := slices.BinarySearch(p.Knots(), at+1)
				if !slices.Equal(whole.Knots()[:n], p.Knots()[:k]) {
					t.Fatalf("%v at %v: other knots before it", turn.Kind, at)
				}
				p = whole
			}
		}
	}
}

// sameSoFar compares knots and values from a moment to the end of an open path.
func sameSoFar(t *testing.T, r *rand.Rand, open, whole *Path, from book.Time) {
	t.Helper()
	knots := whole.Knots()
	if open.Open() {
		n, _ := slices.BinarySearch(knots, open.End()+1)
		knots = knots[:n]
	}
	if !slices.Equal(open.Knots(), knots) {
		t.Fatalf("known up to %v, the knots are %v, want %v", open.End(), open.Knots(), knots)
	}
	moments := []book.Time{open.End(), from}
	for range 40 {
		moments = append(moments, from+book.Time(r.Int64N(max(1, int64(open.End()-from)))))
	}
	for _, at := range moments {
		for q, quantity := range book.Quantities {
			if a, b := open.Value(q, at), whole.Value(q, at); a != b {
				t.Fatalf("%s at %v, known up to %v: %v, want %v", quantity.Name, at, open.End(), a, b)
			}
		}
	}
}
