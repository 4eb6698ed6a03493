package crew_test

import (
	"context"
	"slices"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestLists_AsACaptainHasThem: what a training captain expects of the lists of the
// demonstration, one failure each.
func TestLists_AsACaptainHasThem(t *testing.T) {
	b := corvane.Build(t, "")
	tm := team(t, b, "northern_link", crew.Setting{})
	for _, c := range []struct {
		name string
		at   string
		fail []string
		out  []string
		must func(p *crew.Plan) bool
	}{
		{"no decision of the take-off roll in the cruise", "cruise + 60 s", []string{"engine_left"}, nil, func(p *crew.Plan) bool {
			return done(p, "engine_failed", "3") && !done(p, "engine_failed", "2")
		}},
		{"below the decision speed of the flight it stops", "take_off_fast + 3 s", []string{"engine_left"}, nil, func(p *crew.Plan) bool {
			return done(p, "engine_failed", "2") && !done(p, "engine_failed", "3") && done(p, "engine_failed", "6") && stops(p)
		}},
		{"with a failure before the take-off nobody goes", "taxi_out + 60 s", []string{"engine_left"}, nil, func(p *crew.Plan) bool {
			return stops(p) && p.Lines[0].Kind == crew.StayLine && !done(p, "engine_failed", "3") && p.Record.Ending().Arrived()
		}},
		{"a caution on the slow part of the roll stops it", "take_off_roll + 1 s", []string{"gen_left"}, nil, stops},
		{"what the aircraft was dispatched without keeps nobody", "cruise + 60 s", []string{"tr_right"}, []string{"tr_left"}, func(p *crew.Plan) bool { return !stops(p) }},
		{"nor does an advisory", "taxi_out + 60 s", []string{"battery_apu"}, nil, func(p *crew.Plan) bool { return !stops(p) }},
		{"on the ground the gear handle stays where it is", "taxi_out + 60 s", []string{"gear_sense_a", "gear_sense_b"}, nil, func(p *crew.Plan) bool {
			return done(p, "gear_not_followed_list", "2") && len(p.Actions()) == 0
		}},
		{"a fire on the ground is fought where it stands, and said", "taxi_out + 60 s", []string{"nacelle_left.burns"}, nil, func(p *crew.Plan) bool {
			return stops(p) && done(p, "engine_fire_list", "8") && done(p, "engine_fire_list", "3") && done(p, "evacuation_list", "4") && done(p, "evacuation_list", "6") && done(p, "evacuation_list", "7.then.2") && p.Record.End > p.Lines[0].To+300*book.Second
		}},
		{"the generator of an engine that is off is not cycled", "cruise + 60 s", []string{"nacelle_left.burns"}, nil, func(p *crew.Plan) bool {
			return !slices.ContainsFunc(p.Actions(), func(a run.Action) bool { return a.Control == "gen_left_switch" })
		}},
		{"no autopilot on a blocked tube", "climb + 60 s", []string{"pitot_1.blocked"}, nil, func(p *crew.Plan) bool {
			return done(p, "autopilot_off_drill", "3.else.1") && !slices.ContainsFunc(p.Actions(), func(a run.Action) bool { return a.Control == "autopilot_button" && a.Position == "on" })
		}},
		{"too fast by one tube alone is a matter of the tubes", "climb + 60 s", []string{"pitot_1.blocked"}, nil, func(p *crew.Plan) bool { return sent(p, "too_fast_drill", "airspeeds_differ_drill") == 1 }},
		{"both packs are one list, done once", "cruise + 60 s", []string{"pack_left", "pack_right"}, nil, func(p *crew.Plan) bool {
			return times(p, "pack_lost_list", "1") == 1 && done(p, "pack_lost_list", "1.then.2") && !done(p, "pack_lost_list", "1.else.2")
		}},
		{"a cabin that climbs fast gets its masks by hand", "cruise + 60 s", []string{"cabin_wall.leaks"}, nil, func(p *crew.Plan) bool { return done(p, "cabin_high_list", "3.then.1") }},
		{"the last engine that gives thrust is not shut off because it burns", "lift_off + 4 s", []string{"nacelle_right.burns", "engine_left"}, nil, func(p *crew.Plan) bool {
			return done(p, "engine_fire_list", "2") && !done(p, "engine_fire_list", "5") && !done(p, "engine_fire_list", "7")
		}},
		{"both engines have a list of their own, begun once", "cruise + 60 s", []string{"engine_left", "engine_right"}, nil, func(p *crew.Plan) bool {
			return sent(p, "engine_failed", "all_engines_out_list") >= 2 && times(p, "all_engines_out_list", "3") == 1 && !done(p, "engine_failed", "8.else.1")
		}},
		{"past the decision speed nothing is done on an engine below 400 ft", "lift_off - 2 s", []string{"nacelle_left.burns"}, nil, func(p *crew.Plan) bool {
			return start(p, "engine_fire_list", "2") > 0 && radioFt(p, start(p, "engine_fire_list", "2")) > 400 && start(p, "engine_fire_list", "4") > start(p, "engine_fire_list", "2")
		}},
		{"nor on one that has failed", "lift_off - 1 s", []string{"engine_left"}, nil, func(p *crew.Plan) bool {
			return start(p, "engine_failed", "8") > 0 && radioFt(p, start(p, "engine_failed", "8")) > 400
		}},
		{"the second bottle waits for nothing but its time", "climb", []string{"nacelle_left.burns", "bottle_1"}, nil, func(p *crew.Plan) bool {
			gap := start(p, "engine_fire_list", "11.then.1") - start(p, "engine_fire_list", "8")
			return gap > 30*book.Second && gap < 45*book.Second && start(p, "left_generator_off", "6") > start(p, "engine_fire_list", "13")
		}},
		{"a flight that did not take off stands until its lists are done", "taxi_out + 60 s", []string{"engine_left", "engine_right"}, nil, func(p *crew.Plan) bool {
			return stops(p) && p.Record.End > p.Lines[0].To+300*book.Second
		}},
		{"without air for the cabin they go no higher, from the climb too, and land", "climb + 30 s", []string{"pack_left", "pack_right"}, nil, func(p *crew.Plan) bool {
			return done(p, "pack_lost_list", "1.then.5.later.2") && !done(p, "pack_lost_list", "1.then.3")
		}},
		{"an engine put off for its reverser is the end of the flight", "climb", []string{"reverse_hook_left.stays_open", "reverse_lock_left.stays_open", "reverser_left.creeps"}, nil, func(p *crew.Plan) bool {
			return done(p, "reverser_list", "2.then.2") && lands(p)
		}},
		{"gear that stays out and fuel that does not reach: back", "lift_off", []string{"gear_valve"}, nil, func(p *crew.Plan) bool {
			return done(p, "gear_not_followed_list", "1.else.2.else.1") && lands(p)
		}},
		{"on the ground the APU has its time too", "take_off_fast + 3 s", []string{"engine_left"}, nil, func(p *crew.Plan) bool { return answer(p, "engine_failed", "13") == crew.Yes }},
		{"alternate brakes without anti-skid are called that", "cruise + 60 s", []string{"brake_channel_a", "brake_channel_b"}, nil, func(p *crew.Plan) bool {
			return done(p, "brakes_normal_lost_list", "2.then.1.else.1") && !done(p, "brakes_normal_lost_list", "2.then.1.then.1")
		}},
		{"masks stay on while the cabin is high", "cruise + 60 s", []string{"cabin_wall.leaks"}, nil, func(p *crew.Plan) bool {
			at := start(p, "cabin_high_list", "6.later.2")
			return at > 0 && shows(p, "cabin_altitude_ft", at) < 10000 && shows(p, "cabin_high", at) == 0
		}},
		{"masks that never were on do not come off", "climb + 270 s", []string{"pack_left", "pack_right"}, nil, func(p *crew.Plan) bool {
			return done(p, "cabin_high_list", "3.else.1") && !done(p, "cabin_high_list", "6.later.2")
		}},
		{"the APU has its time to start, and what it feeds is not called shed", "take_off_roll + 30 s", []string{"engine_left"}, nil, func(p *crew.Plan) bool {
			return answer(p, "engine_failed", "13") == crew.Yes && done(p, "left_generator_off", "6") && !done(p, "left_generator_off", "5")
		}},
		{"pressure that goes at lift-off: the light in the lever sends them back", "lift_off", []string{"reservoir_right"}, nil, func(p *crew.Plan) bool {
			return sent(p, "hyd_right_low_list", "gear_not_followed_list") > 0 && done(p, "gear_not_followed_list", "1.else.2.else.1") && lands(p)
		}},
		{"pressure that goes in the cruise leaves the gear up", "cruise + 60 s", []string{"reservoir_right"}, nil, func(p *crew.Plan) bool {
			return done(p, "hyd_right_low_list", "2.else.1") && !done(p, "hyd_right_low_list", "2.else.2")
		}},
		{"on the taxi out nobody thinks of a landing", "taxi_out + 60 s", []string{"reservoir_right"}, nil, func(p *crew.Plan) bool {
			return stops(p) && done(p, "fluid_right_low_list", "1") && !done(p, "fluid_right_low_list", "2") && !done(p, "hyd_right_low_list", "3")
		}},
		{"an engine put off for a fire: another generator is started, low enough", "cruise + 60 s", []string{"nacelle_right.burns"}, nil, func(p *crew.Plan) bool {
			return done(p, "right_generator_off", "4.later.1") && answer(p, "right_generator_off", "6.later.1") == crew.Yes
		}},
		{"whether a generator is there they ask when the APU has had its time", "climb + 60 s", []string{"gen_left", "gen_right"}, nil, func(p *crew.Plan) bool {
			return start(p, "all_generators_off", "8")-start(p, "all_generators_off", "7.later.1") > 60*book.Second && answer(p, "all_generators_off", "8") == crew.Yes
		}},
		{"smoke before the take-off: they stand, and nobody is told of a landing", "taxi_out + 60 s", []string{"hold.smoulders"}, nil, func(p *crew.Plan) bool {
			return done(p, "smoke_list", "5") && done(p, "evacuation_list", "7.else.2") && !done(p, "smoke_list", "3") && !done(p, "smoke_list", "4")
		}},
		{"a leak that is found sends to its list", "cruise + 60 s", []string{"feed_line_left.leaks"}, nil, func(p *crew.Plan) bool { return sent(p, "fuel_unbalanced_list", "fuel_leak_list") > 0 }},
	} {
		s := failing(t, b, c.at, c.fail...)
		for _, u := range c.out {
			s.Inoperative = append(s.Inoperative, book.FailureRef{Unit: u})
		}
		p, err := tm.Fly(context.Background(), s)
		if err != nil {
			t.Fatal(c.name, err)
		}
		if !c.must(p) {
			t.Errorf("%s: it is not so", c.name)
			for _, l := range p.Lines {
				t.Log(l.From, l.Kind, l.Procedure.ID, l.Number, l.Answer, l.Control, l.Position)
			}
		}
	}
}

// start is when a line of a list is begun first; 0 where it is not.
func start(p *crew.Plan, list, number string) book.Time {
	for _, l := range p.Lines {
		if l.Procedure.ID == list && l.Number == number {
			return l.From
		}
	}
	return 0
}

// answer is what a line of a list found last.
func answer(p *crew.Plan, list, number string) (a crew.Answer) {
	for _, l := range p.Lines {
		if l.Procedure.ID == list && l.Number == number {
			a = l.Answer
		}
	}
	return a
}

// shows is the value of an item of the book at a moment.
func shows(p *crew.Plan, id string, at book.Time) float64 {
	n, ok := p.Record.Circuit().Node(circuit.Value{Item: id})
	if !ok {
		panic(id)
	}
	return p.Record.At(n, at)
}

func radioFt(p *crew.Plan, at book.Time) float64 { return shows(p, "radio_height_1_ft", at) }

// lands says that a line sends the flight to a field (the team of the test has no
// fields, so where it goes is a matter of claims).
func lands(p *crew.Plan) bool {
	return slices.ContainsFunc(p.Lines, func(l crew.Line) bool { return l.Step != nil && l.Step.Leg == "land" })
}

// done says that a line of a list was done.
func done(p *crew.Plan, list, number string) bool { return times(p, list, number) > 0 }

func times(p *crew.Plan, list, number string) (n int) {
	for _, l := range p.Lines {
		if l.Procedure.ID == list && l.Number == number {
			n++
		}
	}
	return n
}

// sent counts how often one list sends to another.
func sent(p *crew.Plan, from, to string) (n int) {
	for _, c := range p.Calls {
		if c.From != nil && c.From.ID == from && c.Procedure.ID == to {
			n++
		}
	}
	return n
}

// stops says that the take-off was not flown.
func stops(p *crew.Plan) bool {
	return slices.ContainsFunc(p.Record.Turns, func(x run.Turned) bool { return x.Leg.Do == run.Reject && x.Why == "" })
}
