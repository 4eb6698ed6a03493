package flight

import (
	"fmt"

	"knockon/book"
)

// Plan flies a flight of a book along its prescribed profile: taxi, take-off
// roll, rotation and climb (250 kt below 10,000 ft, then climb_kt, then
// climb_mach), cruise, descent the same way back, a 3 degree glide path,
// flare, landing roll and taxi to a stop. Thrust and fuel flow are typical of
// a twin turbofan; if the aircraft has a number cruise_fuel_kg_per_h the fuel
// flow is scaled to it. Wheels, heights and the 50 ft over the threshold are
// geometric on pressure altitude: a temperature deviation changes speeds, not
// heights. The ground below lies at the departure's elevation until the end of
// the climb and goes evenly over to the destination's during the cruise.
//
// Numbers that are missing, senseless or do not fit each other give an error
// that holds a *BadNumber for each; a nil flight is an error too.
func Plan(f *book.Flight, a *book.Aircraft) (Path, error) {
	if f == nil {
		return nil, fmt.Errorf("no flight to fly: the book needs a flight block")
	}
	p, n, err := planned(f, a)
	if err != nil {
		return nil, err
	}
	if left := p.fuelAtEnd(); left < 0 {
		r := reader{flight: f}
		r.bad("fuel_kg", "is %g, too little: this flight burns %.0f kg after brake release; give more, or shorten the flight", n.fuel, n.fuel-left)
		return nil, r.errs[0]
	}
	return p, nil
}

// Fits says what is wrong with the numbers of a flight, as Plan does, but for fuel that
// does not last: a flight that is flown with drag and thrust finds that out by itself.
func Fits(f *book.Flight, a *book.Aircraft) error {
	_, _, err := planned(f, a)
	return err
}

func planned(f *book.Flight, a *book.Aircraft) (*flown, numbers, error) {
	n, err := readNumbers(f, a)
	if err != nil {
		return nil, n, err
	}
	legs, err := profile(f, n)
	if err != nil {
		return nil, n, err
	}
	return integrate(n, legs), n, nil
}

// leastCruise is the shortest cruise, in nautical miles, that joins the climb
// to the descent.
const leastCruise = 1.0

// profile puts departure, cruise and arrival together so that lift-off to
// touchdown is the flight's distance, and prepares the legs.
func profile(f *book.Flight, n numbers) ([]leg, error) {
	up := depart(n)
	down, touchdown := arrive(n, up)
	climb, descent := airDistance(n, up.legs), airDistance(n, down.legs[:touchdown])
	left := n.distance - climb - descent
	if left < leastCruise {
		r := reader{flight: f}
		r.bad("distance_nm", "is %g, too short: climb and descent alone take %.1f nm; give at least %.1f, or lower cruise_altitude_ft",
			n.distance, climb+descent, climb+descent+leastCruise)
		return nil, r.errs[0]
	}
	cruise := up.cruise(left)
	legs := append(append(append([]leg{}, up.legs...), cruise), down.legs...)
	return prepare(n, legs), nil
}

// setGround notes on every leg the field that lies below, and the wind on it.
func (d *drawing) setGround() {
	for i := range d.legs {
		d.legs[i].elevation, d.legs[i].surface = steady(d.field), steady(d.surface)
	}
}

// cruise is the level leg of the given length at the end of the climb.
func (d *drawing) cruise(nm float64) leg {
	l := leg{
		basis: byCAS, speed: steady(d.cas), altitude: steady(d.altitude),
		thrust: steady(cruiseThrust), elevation: [2]float64{d.n.from, d.n.to}, surface: [2]float64{d.n.fromWind, d.n.toWind},
	}
	if d.onMach {
		l.basis, l.speed = byMach, steady(d.n.mach)
	}
	wind := d.n.windsOf(l)
	there := newSpan(d.n, l)
	l.seconds = nm / (there.trueAirspeed(0) - (wind[0]+wind[1])/2) * 3600
	return l
}
