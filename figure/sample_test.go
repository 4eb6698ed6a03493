package figure

import "knockon/book"

// The samples are invented; they hold one of everything that a picture can show.

func minutes(m float64) book.Time { return book.AtSeconds(m * 60) }

func sampleFeet(t book.Time) float64 {
	m := t.Seconds() / 60
	switch {
	case m < 9:
		return 0
	case m < 29:
		return 34000 * (m - 9) / 20
	case m < 75:
		return 34000
	case m < 99:
		return 34000 * (99 - m) / 24
	}
	return 0
}

func sampleLine() Line {
	return Line{
		ID: "line", Title: "Figure 1. Loss of the second rectifier in the climb",
		Description: "Height over time with twelve phases; the failure comes two minutes into the climb; four functions are lost.",
		Phases: []Phase{
			{"taxi_out", "Taxi out", 0, minutes(8)}, {"take_off_roll", "Take-off roll, up to 75 kt", minutes(8), minutes(8.3)},
			{"take_off_fast", "Take-off roll, from 75 kt", minutes(8.3), minutes(9)}, {"lift_off", "Lift-off, up to 600 ft", minutes(9), minutes(9.3)},
			{"first_climb", "First climb, from 600 ft", minutes(9.3), minutes(10)}, {"climb", "Climb", minutes(10), minutes(29.3)},
			{"cruise", "Cruise", minutes(29.3), minutes(75)}, {"descent", "Descent", minutes(75), minutes(93)}, {"approach", "Approach", minutes(93), minutes(96)},
			{"final", "Final, below 1,200 ft", minutes(96), minutes(99)}, {"landing_roll", "Landing roll", minutes(99), minutes(99.7)}, {"taxi_in", "Taxi in", minutes(99.7), minutes(105)},
		},
		Feet: sampleFeet, Ceiling: 34000, Mark: minutes(12), MarkText: "climb + 2 min",
		Groups: sampleGroups(),
		Foot:   []string{"For training and study only, not for use in flight.", "/?fail=tr_right&out=tr_left&at=climb + 120 s"},
	}
}

func sampleGroups() []Group {
	end := minutes(105)
	return []Group{
		{Title: "Lost, not told", Ink: InkHidden, Rows: []Row{
			{"Cabin fan", 0, "lost from climb + 2 min until the end", "#loss-fan", []Piece{{minutes(12), end, InkHidden, false}}},
			{"Anti-skid protection of the left and right main wheels in the landing roll", 0, "lost twice", "#loss-skid", []Piece{{minutes(12), minutes(14), InkHidden, true}, {minutes(95), end, InkHidden, false}}},
		}},
		{Title: "Lost, told wrong", Ink: InkDenied, Rows: []Row{{"Recorder", 0, "its lamp still says ON", "#loss-rec", []Piece{{minutes(12), end, InkDenied, false}}}}},
		{Title: "Lost, only shown", Ink: InkInUse, Rows: []Row{{"Fuel temperature", 0, "shown if somebody looks", "#loss-ft", []Piece{{minutes(12), minutes(60), InkInUse, false}}}}},
		{Title: "Lost, told late", Ink: InkLate, Rows: []Row{{"Autobrake", 0, "told 80 s late", "#loss-ab", []Piece{{minutes(98), minutes(99.5), InkLate, false}, {minutes(99.5), end, InkTold, false}}}}},
		{Title: "Lost, told", Ink: InkTold, Rows: []Row{{"DC power, right side", 0, "told at once", "#loss-dc", []Piece{{minutes(12), end, InkTold, false}}}}},
		{Title: "Alerts", Plain: true, Rows: []Row{
			{"“DC RIGHT” caution", 0, "given at once", "#alert-dc", []Piece{{minutes(12), end, InkCaution, false}}},
			{"“BRAKES” warning", 0, "held back in the landing roll", "#alert-br", []Piece{{minutes(98), minutes(99.5), InkWarningHeld, false}, {minutes(99.5), minutes(101), InkWarning, false}}},
			{"“FAN <1> & 2” advisory", 0, "given for an instant", "#alert-fan", []Piece{{minutes(30), minutes(30), InkAdvisory, false}, {end, end, InkCautionHeld, false}, {minutes(40), minutes(50), InkAdvisoryHeld, false}}},
		}},
	}
}

func sampleChain() Chain {
	return Chain{
		ID: "chain", Title: "Figure 2. Why the cabin fan is lost", Description: "The cabin fan is lost because both rectifiers have failed.",
		Steps: []Step{
			{KindStep, "Cabin fan", "is lost", "since climb + 2 min", "21-air.hcl:14", []int{1, 2}},
			{KindStep, "DC bus, right side", "does not work", "", "24-electrical.hcl:80", []int{3, 4, 5}},
			{KindAction, "Fan switch", "on", "since the start", "21-air.hcl:3", nil},
			{KindFailure, "Transformer rectifier, right side", "has failed", "since climb + 2 min", "24-electrical.hcl:40", nil},
			{KindStep, "DC tie", "no", "since climb + 2 min", "24-electrical.hcl:91", []int{6, 7}},
			{KindFlight, "height of the wheels above the ground below > 600", "yes", "", "24-electrical.hcl:92", nil},
			{KindFailure, "Transformer rectifier, left side", "has failed", "inoperative at dispatch", "24-electrical.hcl:30", nil},
			{KindCondition, "Tie inhibit <&>", "yes", "as without the failure", "24-electrical.hcl:95", []int{8}},
			{KindStart, "Ground service latch", "no", "as at the start", "24-electrical.hcl:97", nil},
		},
		Left: 3,
		Foot: []string{"For training and study only, not for use in flight."},
	}
}
