package energy

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"knockon/book"
	"knockon/flight/roll"
)

// oddTurn is a random turn.
func oddTurn(r *rand.Rand, p *Path, at book.Time) Turn {
	turn := Turn{Kind: Kind(r.IntN(int(Rejecting) + 1)), To: Diversion{
		DistanceM: math.Pow(r.Float64(), 3) * 400 * 1852,
		Runway:    roll.Runway{Code: roll.Code(1 + r.IntN(6)), AltitudeFt: float64(r.IntN(4) * 800), HeadwindKt: float64(r.IntN(30) - 8)},
	}}
	if w := float64(r.IntN(90) - 45); r.IntN(2) == 0 {
		turn.To.Wind = func(ft float64) float64 { return w * min(ft, 30000) / 30000 }
	}
	turn.UntilS = at.Seconds() + 60*float64(r.IntN(40))
	if r.IntN(3) == 0 {
		turn.UntilMassKg = p.of("mass_kg", at) - 2000*r.Float64()
	}
	turn.LevelFt = []float64{0, 2000, 10000, 14000, 25000}[r.IntN(5)]
	if turn.Kind == Descending {
		turn.LevelFt = max(turn.LevelFt, 4000)
	}
	return turn
}

// oddest is a random configuration with whatever can be lost.
func oddest(r *rand.Rand) Config {
	c := odd(r)
	for i := range c.Engines {
		if r.IntN(6) == 0 {
			c.Engines[i] = []float64{0, 0.02, 0.2, 0.5, 0.8}[r.IntN(5)]
		}
	}
	c.Setting, c.Closed = r.IntN(4), r.IntN(12) == 0
	c.SpeedBrakes, c.GroundSpoilers, c.Brakes = float64(r.IntN(3))/2, float64(r.IntN(3))/2, []float64{0, 0.2, 0.5, 1, 1}[r.IntN(5)]
	c.AntiSkid, c.HighIdle, c.Reverse = r.IntN(4) > 0, r.IntN(3) == 0, [2]bool{r.IntN(2) == 0, r.IntN(2) == 0}
	if r.IntN(3) == 0 {
		c.MostKt = []float64{150, 165, 190, 220, 240, 280}[r.IntN(6)]
	}
	if r.IntN(4) == 0 {
		c.MostFt = []float64{8000, 10000, 20000, 26000}[r.IntN(4)]
	}
	if r.IntN(5) == 0 {
		c.LeakKgPerS = 3 * r.Float64()
	}
	return c
}

// TestTurn_AlwaysEnds: of some thousand random states, configurations and turns
// every flight comes to an end that can be said, and none to Lost: that the model
// finds no way on.
func TestTurn_AlwaysEnds(t *testing.T) {
	r := rand.New(rand.NewPCG(10, 4))
	rounds := 3000
	if testing.Short() {
		rounds = 300
	}
	ends := map[string]int{}
	missions := demoMissions(t)
	first := []*Path{crewed(missions[0]), crewed(missions[1])}
	for i := range rounds {
		p := first[r.IntN(2)]
		said := ""
		for range 1 + r.IntN(4) {
			at := oddMoment(r, p)
			c := oddest(r)
			if r.IntN(3) == 0 {
				said += fmt.Sprintf("\n  %v leave %+v", at, c)
				p = p.Leave(at, c)
				continue
			}
			turn := oddTurn(r, p, at)
			said += fmt.Sprintf("\n  %v %v %+v with %+v", at, turn.Kind, turn, c)
			if p.CanTurn(at, turn.Kind) == nil {
				ends[turn.Kind.String()]++
			}
			p = p.Turn(at, turn, c)
		}
		ends[p.Ending().String()]++
		if p.Ending() == Lost {
			at := p.End()
			t.Errorf("%d: lost at %v, seg %+v, %.0f ft, %.0f kt, %.0f NM to go, leg %d:%s", i, at, p.flown.pieces[len(p.flown.pieces)-1].flyer.law, p.of("altitude_ft", at), p.of("airspeed_kt", at), p.LeftM(at)/1852, p.flown.tag.leg, said)
		}
		if p.End() > 24*3600*book.Second {
			t.Errorf("%d: flies %v:%s", i, p.End(), said)
		}
	}
	t.Log(ends)
}

// oddMoment is a random moment; often one of the busy first or last minutes.
func oddMoment(r *rand.Rand, p *Path) book.Time {
	end := int64(p.End())
	switch near := min(end, int64(900*book.Second)); r.IntN(3) {
	case 0:
		return book.Time(r.Int64N(near))
	case 1:
		return book.Time(end - 1 - r.Int64N(near))
	}
	return book.Time(r.Int64N(end))
}
