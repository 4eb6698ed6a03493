package region

import (
	"math"

	"knockon/flight/geo"
)

// The samples are invented.

// away is the place at a distance and an initial course.
func away(from Place, course, miles float64) Place {
	p, _ := geo.Along(geo.Place{Lat: from.Lat, Lon: from.Lon}, course, miles*geo.MetresPerNM)
	return Place{p.Lat, p.Lon}
}

var idents = []string{"ALFA", "BRAV", "CHAR", "DELT", "ECHO", "FOXT", "GOLF", "HOTE", "INDI", "JULI", "KILO", "LIMA", "MIKE", "NOVE"}

func bound(here Place, miles, squeeze float64) (places []Place) {
	for b := 0.0; b < 360; b += 5 {
		places = append(places, away(here, b, miles*(1+squeeze*math.Cos((b-80)*math.Pi/180))))
	}
	return places
}

func sampleMap(here Place, n int) Map {
	m := Map{ID: "map", Here: here, Track: 74, Healthy: bound(here, 620, 0.25), Failed: bound(here, 260, 0.18)}
	for i := range n {
		miles, bearing := 30+float64(i*i*37%640), float64(i*97%360)
		a := Airfield{Ident: idents[i%len(idents)], Name: "Field", At: away(here, bearing, miles), Healthy: Can, Failed: Can}
		if n > len(idents) {
			a.Ident = string([]byte{'A' + byte(i/26/26%26), 'A' + byte(i/26%26), 'A' + byte(i%26), 'X'})
		}
		switch {
		case miles > 600:
			a.Healthy, a.Failed, a.Reason = CanNot, CanNot, "fuel"
		case miles > 270:
			a.Failed, a.Reason = CanNot, "fuel"
		case i%5 == 2:
			a.Failed, a.Reason = CanNot, "runway 240 m short"
		case i == 9:
			a.Healthy, a.Failed = CanNot, Can
		case i == 11:
			a.Healthy, a.Failed = NotAsked, NotAsked
		}
		m.Airfields = append(m.Airfields, a)
	}
	return m
}
