package energy

import "context"

// Hold flies level at the holding speed for so many seconds, without wind. The
// profile ends with Arrived, Dry, or Sinks where the thrust cannot hold it up.
func Hold(ctx context.Context, a *Aircraft, c Config, s State, plan Plan, seconds float64) (*Profile, error) {
	if err := check(a, s, plan, 0); err != nil {
		return nil, err
	}
	g := newGuide(a, c, s, plan)
	g.wind, g.stage = still, cruising
	s.TASKt = plan.Air.TASOfCAS(a.holdKt(g.shape(), s.MassKg), s.AltitudeFt)
	g.p = newProfile(s)
	return g.p, g.holdOn(ctx, s.TimeS+seconds)
}

// holdOn keeps level, sinking where it must, until a time.
func (g *guide) holdOn(ctx context.Context, until float64) error {
	done := end{Arrived, func(_ *vector, t float64) float64 { return until - t }}
	l := law{pathGiven: true, needed: true, hold: holdCAS}
	for range mostStretch {
		if err := ctx.Err(); err != nil {
			return err
		}
		f := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: l}
		short := end{starved, func(y *vector, _ float64) float64 { o := f.forces(y); return g.a.Climb*o.full - o.thrust }}
		e := g.fly(g.shape(), l, cruiseStep, done, short)
		if e == starved {
			sink := law{hold: holdCAS, lever: g.lever(g.a.Climb)}
			fs := &flyer{a: g.a, c: g.shape(), air: g.plan.Air, wind: g.wind, law: sink}
			holds := end{levelled, func(y *vector, _ float64) float64 { o := fs.forces(y); return 1.005*o.drag - o.thrust }}
			e = g.fly(g.shape(), sink, step, done, holds)
		}
		g.p.mark(e)
		if e == Arrived || e == Dry || e == Sinks || e == Lost {
			g.p.End = e
			return nil
		}
	}
	g.p.End = Lost
	return nil
}
