package flight

import (
	"math/rand/v2"
	"testing"

	"knockon/book"
)

// Speeds, temperatures and rates must fit each other by the published formulas
// (air_test.go, speed_test.go), whatever the profile.
func TestPlan_QuantitiesFitEachOther(t *testing.T) {
	random := rand.New(rand.NewPCG(13, 14))
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		air := Air{DeviationC: numbers["isa_deviation_c"]}
		for range 2000 {
			at := book.Time(random.Int64N(int64(p.End())))
			ft, cas, mach := p.Value(qAltitude, at), p.Value(qAirspeed, at), p.Value(qMach, at)
			within(t, name+": Mach", mach, MachOfCAS(cas, ft), 1e-9)
			within(t, name+": true airspeed", p.Value(qTrueAirspeed, at), air.TASOfCAS(cas, ft), 1e-6)
			within(t, name+": air temperature", p.Value(qAirTemperature, at), air.TemperatureC(ft), 1e-9)
			within(t, name+": total temperature", p.Value(qTotalTemperature, at), TotalC(air.TemperatureC(ft), mach, 1), 1e-9)
			wind := layered(p, at, numbers)
			within(t, name+": headwind", p.Value(qHeadwind, at), wind, 1e-6)
			within(t, name+": runway", p.Value(qRunwayWet, at), numbers["runway_wet"], 0)
			if p.Value(qOnGround, at) == 0 {
				within(t, name+": ground speed", p.Value(qGroundSpeed, at), p.Value(qTrueAirspeed, at)-wind, 1e-6)
			}
		}
	}
}

// layered is the wind by docs/meaning.md, section 8: from 2,000 ft above the ground up
// that aloft, below it in proportion to the height down to that of the runway. Where
// the ground below goes over from one field to the other, so does its wind.
func layered(p Path, at book.Time, numbers map[string]float64) float64 {
	from, to := numbers["from_headwind_kt"], numbers["to_headwind_kt"]
	height := p.Value(qHeight, at)
	surface := from
	if elevation := p.Value(qAltitude, at) - height; numbers["to_elevation_ft"] != numbers["from_elevation_ft"] {
		surface += (to - from) * (elevation - numbers["from_elevation_ft"]) / (numbers["to_elevation_ft"] - numbers["from_elevation_ft"])
	} else if p.Value(qDistance, at) > numbers["distance_nm"]/2 {
		surface = to
	}
	return surface + (numbers["headwind_kt"]-surface)*min(height/2000, 1)
}

func TestPlan_VerticalSpeedIsTheRateOfAltitude(t *testing.T) {
	for name, numbers := range sampleFlights() {
		p := mustPlan(t, numbers)
		knots := p.Knots()
		for i := 1; i < len(knots); i++ {
			rise := p.Value(qAltitude, knots[i]) - p.Value(qAltitude, knots[i-1])
			minutes := (knots[i] - knots[i-1]).Seconds() / 60
			within(t, name+": altitude gained", p.Value(qVerticalSpeed, knots[i-1])*minutes, rise, 1e-3)
		}
	}
}

func TestPlan_MeetsTheGlidePathAtItsSpeed(t *testing.T) {
	p := mustPlan(t, longFlight())
	on := changes(p, qOnGlidePath)[0]
	for at := on; p.Value(qHeight, at) > 2000; at += book.Second {
		within(t, "airspeed", p.Value(qAirspeed, at), 132+40, 1e-6)
	}
	within(t, "height", p.Value(qHeight, on), 3000, 1e-6)
	hop := mustPlan(t, with(shortFlight(), map[string]float64{"cruise_altitude_ft": 2500}))
	on = changes(hop, qOnGlidePath)[0]
	within(t, "approach speed from the start of a low path", hop.Value(qAirspeed, on), 128, 1e-6)
}

func BenchmarkPlan(b *testing.B) {
	f := flightOf(longFlight())
	for b.Loop() {
		if _, err := Plan(f, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkValue(b *testing.B) {
	p := mustPlan(b, longFlight())
	for _, q := range []int{qHeight, qAirspeed, qTrueAirspeed, qMach, qGroundSpeed, qDistance, qTotalTemperature} {
		b.Run(book.Quantities[q].Name, func(b *testing.B) {
			b.ReportAllocs()
			at, step := book.Time(0), p.End()/1009
			for b.Loop() {
				p.Value(q, at)
				if at += step; at > p.End() {
					at -= p.End()
				}
			}
		})
	}
}
