package worth

import (
	"regexp"
	"testing"

	"knockon/book"
	"knockon/crew"
	"knockon/internal/corvane"
	"knockon/run"
)

// TestWords_SayTitles: no line of the demonstration says by program text where it
// belongs; and some say it word by word. What is denied as a whole is denied part by part.
func TestWords_SayTitles(t *testing.T) {
	b := corvane.Build(t, "")
	tm, err := crew.NewTeam(b, nil, crew.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	w := &Worth{Right: &Flown{Plan: &crew.Plan{Record: &run.Record{Course: tm.Course()}}}}
	code := regexp.MustCompile(`[a-z]_[a-z]|&&|\|\||==|!|(seen|aircraft|flight)\.[a-z]| [<>?+] `)
	got := map[string]string{}
	for _, p := range b.Procedures {
		crew.Walk(p.Steps, func(s *book.Step, n string) {
			if s.If == nil {
				return
			}
			text := w.words(s.If)
			if got[s.If.String()] = text; code.MatchString(text) {
				t.Errorf("%s %s: %s", p.ID, n, text)
			}
		})
	}
	for text, want := range map[string]string{
		"seen.on_ground":                         "on the ground",
		"approach || final":                      "in the phase “Approach”, or in the phase “Final, below 1,200 ft”",
		"!(fuel_pumps_left && fuel_pumps_right)": "“Left fuel pump pressure low” is not given, or “Right fuel pump pressure low” is not given",
		`called_by(fire_left) && (seen.on_ground || !right_engine_failed && engine_right_switch == "run")`:                                           "the list is done for “Left engine fire” and (on the ground, or “Right engine has failed” is not given and right engine switch is at “run”)",
		"fuel_low_left == fuel_low_right ? fuel_left_shown + 50 < fuel_right_shown : fuel_low_left":                                                  "(“Left fuel low” is given and “Right fuel low” is given, or “Left fuel low” is not given and “Right fuel low” is not given) and left fuel quantity plus 50 kg is below right fuel quantity, or (“Left fuel low” is not given, or “Right fuel low” is not given) and (“Left fuel low” is given, or “Right fuel low” is given) and “Left fuel low” is given",
		`engine_left_switch == "run" && !(left_engine_failed && right_engine_failed) && !at_least(2, !gen_left_lamp, !gen_right_lamp, apu_gen_lamp)`: "left engine switch is at “run” and (“Left engine has failed” is not given, or “Right engine has failed” is not given) and fewer than 2 of these: left generator button: off lamp says no; right generator button: off lamp says no; APU generator button: on-line lamp says yes",
		"altitude_1_readout >= aircraft.relight_ceiling_ft":                                                                                          "left altitude is at least 25,000 ft",
		"!seen.on_ground || take_off_fast && airspeed_1_readout > flight.decision_kt + 3":                                                            "in the air, or in the phase “Take-off roll, from 75 kt” and left airspeed is above the flight's decision speed plus 3 kt",
	} {
		if got[text] != want {
			t.Errorf("%s\n got %s\nwant %s", text, got[text], want)
		}
	}
}

// TestBroughtAndSpared: what a wrong way spares is said to be spared, also where it is
// all that comes of it.
func TestBroughtAndSpared(t *testing.T) {
	for _, c := range []struct{ bad, good, want string }{
		{"flow lost", "", "flow lost"},
		{"", "noise", "it spares: noise"},
		{"flow lost", "noise", "flow lost; it spares: noise"},
	} {
		if got := broughtAndSpared(c.bad, c.good); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
