package geo

import "math"

// Wind is where it blows from, true, and how fast in knots.
type Wind struct{ From, Kt float64 }

// Components gives the wind along and across a course or a runway: a headwind
// is positive, a tailwind negative; a wind from the right is positive.
func (w Wind) Components(course float64) (head, right float64) {
	t := degrees(w.From - course)
	return w.Kt * t.c, w.Kt * t.s
}

// Triangle gives the heading that holds a course and the ground speed in
// knots. ok is false if the wind is too strong for the true airspeed: the
// course cannot be held, or leads backwards.
func (w Wind) Triangle(course, tasKt float64) (heading, groundKt float64, ok bool) {
	head, right := w.Components(course)
	if !(math.Abs(right) <= tasKt) || tasKt == 0 {
		return 0, 0, false
	}
	drift := math.Asin(right / tasKt)
	groundKt = tasKt*math.Cos(drift) - head
	if groundKt < 0 {
		return 0, 0, false
	}
	return Course(course + drift*radian), groundKt, true
}
