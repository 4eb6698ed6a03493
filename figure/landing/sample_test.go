package landing

import "math"

// The samples are invented.

// slowing is a track from a touchdown on: metres and knots under a steady pull
// after a time without one.
func slowing(touch, kt, free, pull, end float64) (track []Point) {
	v, x := kt*1.852/3.6, touch
	track = append(track, Point{0, kt + 3}, Point{touch, kt})
	for t := 0.0; v > 0 && x < end; t += 0.25 {
		a := 0.25
		if x > free {
			a = pull
		}
		v = math.Max(0, v-a*0.25)
		x += v * 0.25
		track = append(track, Point{x, v * 3.6 / 1.852})
	}
	return track
}

// at puts events on a track, at its first point from a distance on.
func at(track []Point, events ...Event) []Event {
	for i, e := range events {
		for _, q := range track {
			if q.Metres >= e.Metres {
				events[i].Metres, events[i].Kt = q.Metres, q.Kt
				break
			}
		}
	}
	last := track[len(track)-1]
	return append(events, Event{"stop", last.Metres, last.Kt})
}

func sampleRoll() Roll {
	healthy, failed := slowing(410, 137, 560, 2.4, 4000), slowing(470, 151, 1100, 1.75, 4000)
	return Roll{
		ID: "roll", Runway: "27 of Foxtrot, wet, condition code 3", Available: 2400, Margin: 0.15,
		Healthy: Stop{
			Track:  healthy,
			Events: at(healthy, Event{"touchdown", 410, 0}, Event{"wheels turn", 420, 0}, Event{"spoilers", 500, 0}, Event{"brakes", 590, 0}, Event{"reverse", 640, 0}, Event{"reverse out", 1320, 0}),
			Metres: 1578, Factored: 1815,
		},
		Failed: Stop{
			Track:  failed,
			Events: at(failed, Event{"touchdown", 470, 0}, Event{"wheels turn", 880, 0}, Event{"spoilers", 1010, 0}, Event{"brakes", 1080, 0}, Event{"tyres grip", 1400, 0}),
			Metres: 2726, Factored: 3135, Manual: 2960,
		},
		Foot: []string{"/costs?fail=strut_left&at=cruise"},
	}
}

func sampleNeverStops() Roll {
	r := sampleRoll()
	r.Runway = "09 of Golf, standing water"
	r.Available = 1850
	track := slowing(470, 151, 4000, 0.6, 2400)
	r.Failed = Stop{Track: track, Events: at(track, Event{"touchdown", 470, 0}, Event{"spoilers", 1210, 0})[:2], NeverStops: true}
	return r
}
