package roll

// The roll is stepped by the classical Runge-Kutta method of fourth order. A
// step never crosses a jump: it ends where a device's stretch ends, where the
// speed reaches a mark, or where something else comes to set the brake force.
// Such a place is found by halving the step, since what is sought changes
// sign across it.

// run goes through the stretches of the schedule.
func (s *rolling) run(stretches []levels) {
	for i := range stretches {
		s.levels = &stretches[i]
		s.devicesMove(stretches, i)
		end := longestRoll
		if i+1 < len(stretches) {
			end = min(end, stretches[i+1].since)
		}
		if s.stretch(end) {
			return
		}
	}
}

// devicesMove notes what begins to come or go with a stretch, but for the thrust.
func (s *rolling) devicesMove(stretches []levels, i int) {
	now := &stretches[i]
	for d := range Levers {
		var before, rate float64
		if i > 0 {
			before, rate = stretches[i-1].of(d, now.since), stretches[i-1].rate[d]
		}
		if now.at[d] != before || now.rate[d] != 0 && rate == 0 {
			s.event(d.String())
		}
	}
}

// stretch steps until the moment end; over tells that the roll is at an end.
func (s *rolling) stretch(end float64) (over bool) {
	s.settle()
	for range mostSteps {
		if s.now.t >= end {
			return end >= longestRoll
		}
		if s.passMarks() {
			return true
		}
		h := min(s.longest, end-s.now.t)
		last := h == end-s.now.t
		next := s.step(h)
		ended := s.ended(&next)
		if ended {
			next = s.locate(h)
		} else if last {
			next.t = end
		}
		s.now = next
		s.roll.Track = append(s.roll.Track, s.point())
		if s.now.v <= stopped {
			s.now.v, s.roll.Stops = 0, true
			return true
		}
		if s.now.x > farthest {
			return true
		}
		if ended {
			s.settle()
		}
	}
	return true
}

// settle makes the phase agree with the present state.
func (s *rolling) settle() {
	f := s.forces(s.now.t, s.now.v, &s.phase)
	if light := f.load < 0; light != s.phase.light {
		s.phase.light = light
		f = s.forces(s.now.t, s.now.v, &s.phase)
	}
	s.phase.holding = s.held(s.now.t, &f)
}

// passMarks applies the marks that the speed has reached; over says that the last event
// that anybody asked for was among them.
func (s *rolling) passMarks() (over bool) {
	for len(s.marks) > 0 && s.now.v <= s.marks[0].v+stopped {
		m := s.marks[0]
		s.marks = s.marks[1:]
		m.apply(&s.phase)
		if m.what != "" {
			s.event(m.what)
		}
		if m.what == s.last && m.what != "" {
			return true
		}
		s.settle()
	}
	return false
}

// ended tells whether a state lies beyond the present phase.
func (s *rolling) ended(n *state) bool {
	if n.v < 0 || len(s.marks) > 0 && n.v < s.marks[0].v {
		return true
	}
	f := s.forces(n.t, n.v, &s.phase)
	return (f.load < 0) != s.phase.light || s.held(n.t, &f) != s.phase.holding
}

// locate finds the end of the phase within a step that goes beyond it.
func (s *rolling) locate(h float64) state {
	inside, beyond := 0.0, h
	for beyond-inside > 1e-8 {
		mid := (inside + beyond) / 2
		n := s.step(mid)
		if s.ended(&n) {
			beyond = mid
		} else {
			inside = mid
		}
	}
	n := s.step(beyond)
	n.v = max(0, n.v)
	return n
}

// slopes are the derivatives of a state: speed, acceleration, brake power.
type slopes struct{ x, v, work float64 }

func (s *rolling) slopes(n *state) slopes {
	f := s.forces(n.t, n.v, &s.phase)
	brake := s.brake(n.t, &f, s.phase.holding)
	return slopes{n.v, -(brake + f.other) / s.mass, brake * n.v}
}

func (n state) plus(h float64, d *slopes) state {
	return state{n.t + h, n.x + h*d.x, n.v + h*d.v, n.work + h*d.work}
}

// step is one Runge-Kutta step of h seconds within the present phase.
func (s *rolling) step(h float64) state {
	a := s.slopes(&s.now)
	mid := s.now.plus(h/2, &a)
	b := s.slopes(&mid)
	mid = s.now.plus(h/2, &b)
	c := s.slopes(&mid)
	end := s.now.plus(h, &c)
	d := s.slopes(&end)
	return s.now.plus(h/6, &slopes{
		a.x + 2*(b.x+c.x) + d.x, a.v + 2*(b.v+c.v) + d.v, a.work + 2*(b.work+c.work) + d.work,
	}).at(s.now.t + h)
}

func (n state) at(t float64) state { n.t = t; return n }
