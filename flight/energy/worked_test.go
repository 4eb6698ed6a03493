package energy

import (
	"math"
	"strings"
	"testing"

	"knockon/flight/roll"
	"knockon/internal/checks"
)

// round is an aircraft of round numbers: 125 m2, CD = 0.020 + 0.045 CL2.
func round() *Aircraft {
	return &Aircraft{
		WingAreaM2: 125, Engines: 2, ThrustN: 60000, DensityExponent: 0.75, Climb: 1, Cruise: 1,
		SpeedBrakeDrag: 0.08, Settings: []Polar{{Name: "0", ZeroLift: 0.020, Induced: 0.045, MostLift: 1.4, MaxKt: 1e6}},
		MaxKt: 330, MaxMach: 0.82, MaxGearKt: 1e6, MaxAltitudeFt: 41000,
	}
}

// over0 is a guide of that aircraft on a flight to sea level, at an equivalent airspeed.
func over0(a *Aircraft, c Config, kg, ft, easKt, headKt float64) *missionGuide {
	plan := Plan{Wind: func(float64) float64 { return headKt }, ClimbKt: 280, ClimbMach: 0.8, DescentKt: 280, ApproachKt: 250, CruiseFt: ft}
	m := &Mission{a: a, plan: plan, massKg: kg, levelFt: ft, capFt: 1e6, fromKt: headKt, home: roll.Runway{HeadwindKt: headKt}}
	sigma := airAt(plan.Air, ft*feet).sigma
	p := newProfile(State{AltitudeFt: ft, TASKt: easKt / math.Sqrt(sigma), MassKg: kg, FuelKg: kg})
	p.tag.leg = legCruise
	g := m.guide(c, p)
	g.to = 1e9
	return g
}

func dead() Config {
	c := Clean()
	c.Engines = [2]float64{}
	return c
}

// glided glides from a height to the ground, slowing down nowhere.
func glided(n []float64, at func(g *missionGuide) law) *Profile {
	a := round()
	g := over0(a, dead(), n[0], n[1], a.bestGlideKt(&Config{}, n[0], 0), n[2])
	g.fly(g.shape(), at(g), step, g.whenDown(0, levelled))
	return g.p
}

// calmly is the glide that the guide itself flies, to the height of the flare and
// in the same way on to the ground.
func calmly(n []float64) *Profile {
	a := round()
	g := over0(a, dead(), n[0], n[1], a.bestGlideKt(&Config{}, n[0], 0), n[2])
	for g.glideStretch() != levelled {
	}
	g.fly(g.shape(), law{hold: holdEAS}, step, g.whenDown(0, levelled))
	return g.p
}

func driftedTo(kg, ft float64) *Profile {
	a, c := round(), Clean()
	c.Engines[1] = 0
	g := over0(a, c, kg, 35000, a.bestGlideKt(&Config{}, kg, 0), 0)
	g.level = 35000 * feet
	for g.altitude() > ft+1 && g.cruise() == levelled {
	}
	p := g.p
	for i := range p.pieces {
		if q := &p.pieces[i]; q.z[iAltitude] <= ft*feet {
			s := q.length * (q.y[iAltitude] - ft*feet) / (q.y[iAltitude] - q.z[iAltitude])
			p.now, p.t = q.at(s), q.start+s
			break
		}
	}
	return p
}

// levelOff is where the remaining thrust is the least drag, found along the drift-down.
func levelOff(kg float64) float64 {
	a, c := round(), Clean()
	c.Engines[1] = 0
	lo, hi := 0.0, 41000.0
	for range 60 {
		mid := (lo + hi) / 2
		g := over0(a, c, kg, mid, a.bestGlideKt(&c, kg, 0), 0)
		if o := g.forcesNow(law{pathGiven: true, lever: 1}); o.thrust > o.drag {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// dived comes down at the limits from there to a level.
func dived(n []float64) *Profile {
	a, c := round(), Clean()
	c.SpeedBrakes = n[1] / a.SpeedBrakeDrag
	g := over0(a, c, n[0], n[2], 100, 0)
	g.p.now[iSpeed] = min(0.82*g.plan.Air.SoundKt(n[2]), g.plan.Air.TASOfCAS(330, n[2])) * knot
	g.level = n[3] * feet
	g.p.tag.leg = legEmergency
	for g.p.tag.leg == legEmergency {
		g.dive()
	}
	return g.p
}

// stops is the accelerate-stop distance of 25.109(a).
func stops(v1 float64, fails bool) float64 {
	a := round()
	a.ThrustN, a.DensityExponent, a.EngineOutDrag, a.RollingMu, a.Grip, a.BrakedShare = 110000, 0, 0.010, 0.015, 0.35/0.9, 1
	a.Settings[0] = Polar{ZeroLift: 0.075 - 0.045*0.25, Induced: 0.045, MostLift: 2, GroundLift: 0.5, MaxKt: 1e6}
	a.SpoilerLift, a.SpoilerDrag, a.TyrePSI = 0.5, 0.035, 200
	c := Clean()
	g := over0(a, c, 70000, 0, 0.01, 0)
	g.p.tag.leg = legRoll
	if fails {
		full := g.p
		g.rollTo(v1, legRotate)
		vef := full.At(full.t - 1).TASKt // about a second of both engines: the second of one gains less
		for range 30 {
			h := over0(a, c, 70000, 0, 0.01, 0)
			h.p.tag.leg = legRoll
			h.rollTo(vef, legRotate)
			h.c.Engines[1] = 0
			before := h.p.t
			h.onWheels(1, end{sped, func(_ *vector, t float64) float64 { return before + 1 - t }})
			vef += v1 - h.cas()
			g = h
		}
	} else {
		g.rollTo(v1, legRotate)
	}
	frame := a.Airframe(g.c, roll.Runway{Code: 6})
	if !fails {
		frame = a.Airframe(c, roll.Runway{Code: 6})
	} else {
		frame.Drag -= a.EngineOutDrag // of the stop, 0.11 is all
	}
	r, err := roll.Stop(roll.Landing{
		Airframe: frame, Runway: roll.Runway{Code: 6}, MassKg: 70000, FromKt: v1,
		Changes: []roll.Change{{Device: roll.Spoilers, To: 1}, {Device: roll.Brakes, To: 1}},
	})
	if err != nil {
		return math.NaN()
	}
	return g.p.now[iDistance] + 2*v1*knot + r.TotalM
}

// The values and their sources stand in internal/checks/tables/manoeuvres.tsv.
func TestManoeuvres_AgreeWithTheTables(t *testing.T) {
	nm := func(p *Profile) float64 { return p.now[iDistance] / 1852 }
	of := func(fly func(n []float64) *Profile, read func(*Profile) float64) checks.How {
		return checks.Of(func(n []float64) float64 { return read(fly(n)) })
	}
	minutes := func(p *Profile) float64 { return p.Seconds() / 60 }
	calm := func(n []float64) *Profile { return glided(n, func(*missionGuide) law { return law{hold: holdEAS} }) }
	drift := func(n []float64) *Profile { return driftedTo(n[0], 25000) }
	dive := func(v checks.Value) *Profile {
		n := v.Numbers()
		if !strings.Contains(v.Given, " to ") || len(n) != 4 {
			return &Profile{}
		}
		return dived(n)
	}
	checks.Run(t, "manoeuvres", map[string]checks.How{
		"glide, nm": of(calmly, nm), "glide, min": of(calmly, minutes),
		"glide at the speed for calm air, nm":   of(calm, nm),
		"glide speed, kt EAS":                   checks.Of(func(n []float64) float64 { return round().bestGlideKt(&Config{}, n[0], n[1]) }),
		"level-off of a drift-down, ft":         checks.Of(func(n []float64) float64 { return levelOff(n[0]) }),
		"drift-down to FL250, min":              of(drift, minutes),
		"drift-down to FL250, nm":               of(drift, nm),
		"emergency descent, min":                func(v checks.Value) any { return minutes(dive(v)) },
		"emergency descent, nm":                 func(v checks.Value) any { return nm(dive(v)) },
		"accelerate-stop with an engine out, m": checks.Of(func(n []float64) float64 { return stops(n[0], true) }),
		"accelerate-stop, m":                    checks.Of(func(n []float64) float64 { return stops(n[0], false) }),
	})
}
