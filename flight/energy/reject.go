package energy

// rejecting is the mission from a rejected take-off on: a roll to the stop with the
// devices as the systems have them.
func (m *Mission) rejecting(turn Turn, q *Profile) *Mission {
	r := turn.To.Runway
	head := m.plan.Wind(q.now[iAltitude] / feet)
	r.HeadwindKt, r.AltitudeFt, r.Air = head, m.fromFt, m.plan.Air
	if r.Code == 0 { // no runway was given
		r.Code = 6
	}
	n := m.diverted(Diversion{DistanceM: 1, Wind: m.plan.Wind, Runway: r}, q.now[iDistance], m.fromFt)
	n.rejected = true
	q.tag.detour, q.tag.touch = 0, q.t
	q.next(legBrake)
	return n
}
