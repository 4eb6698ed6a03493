package roll

import "sort"

// levels are the devices at a moment, and how fast they change.
type levels struct {
	since float64 // s after touchdown
	at    [devices]float64
	rate  [devices]float64
}

func (l *levels) of(d Device, t float64) float64 { return l.at[d] + l.rate[d]*(t-l.since) }

// schedule turns changes into stretches on each of which every device changes
// evenly; the first begins at touchdown.
func schedule(changes []Change) []levels {
	stretches := make([]levels, 0, 2*len(changes)+1)
	for _, moment := range moments(changes) {
		next := levels{since: moment}
		for d := range devices {
			next.at[d], next.rate[d] = level(changes, d, moment)
		}
		stretches = append(stretches, next)
	}
	return stretches
}

// moments are the times at which a change begins or ends, in order, from 0.
func moments(changes []Change) []float64 {
	all := []float64{0}
	for _, c := range changes {
		all = append(all, c.At, c.At+c.Over)
	}
	sort.Float64s(all)
	n := 1
	for _, m := range all[1:] {
		if m > all[n-1] {
			all[n] = m
			n++
		}
	}
	return all[:n]
}

// level is a device's level at a moment and its rate from then on. Of changes
// that begin together the later in the list counts.
func level(changes []Change, d Device, moment float64) (at, rate float64) {
	begin := 0.0 // level at the start of the change that counts
	var now *Change
	for {
		next := following(changes, d, now, moment)
		if next == nil {
			return reached(now, begin, moment)
		}
		begin, _ = reached(now, begin, next.At)
		now = next
	}
}

// following is the first change of a device after another that has begun by
// the moment.
func following(changes []Change, d Device, after *Change, moment float64) *Change {
	var first *Change
	for i := range changes {
		c := &changes[i]
		if c.Device != d || c.At > moment || after != nil && c.At <= after.At {
			continue
		}
		if first == nil || c.At <= first.At {
			first = c
		}
	}
	return first
}

// reached is how far a change has got, and its rate.
func reached(c *Change, begin, moment float64) (at, rate float64) {
	if c == nil {
		return begin, 0
	}
	if moment >= c.At+c.Over {
		return c.To, 0
	}
	rate = (c.To - begin) / c.Over
	return begin + rate*(moment-c.At), rate
}
