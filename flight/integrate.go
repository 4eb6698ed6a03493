package flight

import "knockon/book"

// Distance and fuel are the two integrals of a flight. Within a span the
// distance is the cubic that has the span's length (by Simpson's rule) and the
// ground speed at both ends; the fuel flow is a straight line of the thrust,
// which is a straight line of time, so the fuel is an exact square.

// integrate turns prepared legs into a flight that can be read.
func integrate(n numbers, legs []leg) *flown {
	p := &flown{knots: []book.Time{0}, zeroFuel: n.mass - n.fuel, wet: n.wet}
	fuel := n.fuel + taxiFuel(n, legs)
	distance, wheel := 0.0, 0.0
	for _, l := range legs {
		length := book.AtSeconds(l.seconds)
		if length <= 0 {
			continue
		}
		l.seconds = length.Seconds()
		sp := newSpan(n, l)
		sp.setDistance(distance)
		sp.setFuel(n, fuel)
		wheel = sp.setWheels(wheel)
		if l.onGlide && !l.beyond {
			p.threshold = sp.distanceAt(l.seconds)
		}
		distance, fuel = sp.distanceAt(l.seconds), sp.fuelAt(l.seconds)
		p.spans = append(p.spans, sp)
		p.knots = append(p.knots, p.End()+length)
	}
	return p
}

func (p *span) setDistance(start float64) {
	h := p.seconds
	v0, vm, v1 := p.overGround(0)/3600, p.overGround(h/2)/3600, p.overGround(h)/3600
	length := h * (v0 + 4*vm + v1) / 6
	p.distance = [4]float64{start, v0, (3*length/h - 2*v0 - v1) / h, (v0 + v1 - 2*length/h) / (h * h)}
}

// fuelFlow is the flow in kg/s at a thrust: a little for idling, the rest in
// proportion (common practice), through the cruise flow at cruise thrust.
func fuelFlow(n numbers, thrust float64) float64 {
	share := func(pct float64) float64 { return 0.03 + 0.97*pct/100 }
	return n.cruiseKgPerHour / 3600 * share(thrust) / share(cruiseThrust)
}

func (p *span) setFuel(n numbers, start float64) {
	from, to := fuelFlow(n, p.thrust[0]), fuelFlow(n, p.thrust[1])
	p.fuel = [3]float64{start, -from, -(to - from) / (2 * p.seconds)}
}

// taxiFuel is the fuel burnt before brake release.
func taxiFuel(n numbers, legs []leg) float64 {
	sum := 0.0
	for _, l := range legs {
		if l.taxiOut {
			sum += l.seconds * (fuelFlow(n, l.thrust[0]) + fuelFlow(n, l.thrust[1])) / 2
		}
	}
	return sum
}

// setWheels takes the speed of the wheels as the last span left it and gives
// it as this one leaves it.
func (p *span) setWheels(before float64) float64 {
	if p.wheels == wheelsRunDown {
		p.wheelStart = before
		p.wheelRate = -before / p.runDown
	}
	return p.wheelSpeed(p.seconds)
}

// airDistance is the length of the legs flown in the air, in nautical miles.
func airDistance(n numbers, legs []leg) float64 {
	sum := 0.0
	for _, l := range cutAt(cutAt(legs, TropopauseFt, altitudeOf), SurfaceLayerFt, heightOf) {
		if l.basis == onWheels {
			continue
		}
		sp := newSpan(n, l)
		sp.setDistance(0)
		sum += sp.distanceAt(l.seconds)
	}
	return sum
}
