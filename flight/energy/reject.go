package energy

// RejectedM is how far a rejected take-off goes from where the take-off roll began
// to the stop, in metres; ok is false where none was rejected, or it does not stop.
func (p *Path) RejectedM() (m float64, ok bool) {
	if !p.mission.rejected || p.flown.End != Arrived {
		return 0, false
	}
	for i := range p.flown.pieces {
		if x := &p.flown.pieces[i]; x.tag.leg >= legSpool {
			return p.flown.now[iDistance] - x.y[iDistance], true
		}
	}
	return 0, false
}

// Rolling says that the take-off was rejected on the roll, not on the taxi out.
func (p *Path) Rolling() bool { return p.mission.rejected && !p.mission.taxiing }

// rejecting is the mission from a rejected take-off on: a roll to the stop with the
// devices as the systems have them.
func (m *Mission) rejecting(turn Turn, q *Profile) *Mission {
	r := turn.To.Runway
	r.HeadwindKt, r.AltitudeFt, r.Air = m.fromKt, m.fromFt, m.plan.Air
	if r.Code == 0 { // no runway was given
		r.Code = m.fromCode
	}
	n := m.diverted(Diversion{DistanceM: 1, Wind: m.plan.Wind, Runway: r}, q.now[iDistance], surface{m.fromFt, m.fromKt})
	n.rejected, n.taxiing = true, q.tag.leg < legSpool
	q.tag.detour, q.tag.touch = 0, q.t
	q.next(legBrake)
	return n
}
