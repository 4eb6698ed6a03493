package book

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestParseMoment(t *testing.T) {
	b := oneBuild(t, smallBook)
	for text, want := range map[string]Moment{
		"":                  {},
		"  ":                {},
		"climb":             {Phase: "climb"},
		"climb + 120 s":     {"climb", 120 * Second},
		"climb+2 min":       {"climb", 120 * Second},
		"climb+2min":        {"climb", 120 * Second},
		" climb  -  30 s ":  {"climb", -30 * Second},
		"landing_roll-0.5s": {"landing_roll", -Second / 2},
		"1800 s":            {"", 1800 * Second},
		"30 min":            {"", 1800 * Second},
		"0.5 h":             {"", 1800 * Second},
		"+ 5 s":             {"", 5 * Second},
		".5 s":              {"", Second / 2},
		"0.000001 s":        {"", 1},
	} {
		got, err := ParseMoment(text, b)
		if err != nil || got != want {
			t.Errorf("%q is %+v, %v; want %+v", text, got, err, want)
		}
	}
}

func TestParseMoment_SaysWhatIsWrong(t *testing.T) {
	b := oneBuild(t, smallBook)
	for text, want := range map[string]string{
		"clmb":               `There is no phase called "clmb". Did you mean "climb"?`,
		"cruise + 5 s":       "The phases are: ground, climb, landing_roll.",
		"climb 120 s":        `Write + or - between the phase and the time, as in "climb + 120 s".`,
		"climb + 120":        `Say the unit of the time: "120 s"`,
		"120":                `Say the unit of the time: "120 s"`,
		"120 sec":            `"sec" is no unit of time. Use s, min or h.`,
		"-5 s":               "A time from the start of the flight cannot be negative.",
		"climb +":            `"" is no time`,
		"climb + soon":       `"soon" is no time`,
		"climb + 1..5 s":     `"1..5 s" is no time`,
		"1e9 s":              `"e9 s" is no unit of time`,
		"99999999999 h":      "That is longer than any flight.",
		"climb + 5 s + 5 s":  `is no unit of time`,
		"Climb":              `Did you mean "climb"?`,
		"\xff\xff":           "There is no phase called",
		"climb + 99999999 s": "That is longer than any flight.",
	} {
		got, err := ParseMoment(text, b)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q is %+v, %v; want %q", text, got, err, want)
		}
	}
}

func TestMoment_StringReadsBack(t *testing.T) {
	b := oneBuild(t, smallBook)
	rapid.Check(t, func(t *rapid.T) {
		m := Moment{Phase: rapid.SampledFrom([]string{"", "ground", "climb"}).Draw(t, "phase")}
		m.Offset = Time(rapid.Int64Range(-1e12, 1e12).Draw(t, "offset"))
		if m.Phase == "" {
			m.Offset = max(m.Offset, -m.Offset)
		}
		got, err := ParseMoment(m.String(), b)
		if err != nil || got != m {
			t.Fatalf("%+v is written as %q, which reads as %+v, %v", m, m, got, err)
		}
	})
}

func TestParseFailure(t *testing.T) {
	b := oneBuild(t, smallBook)
	for text, want := range map[string]string{"pump_1": "pump_1", " pump_1.leaks ": "pump_1.leaks", "bird_strike": "bird_strike"} {
		got, err := ParseFailure(text, b)
		if err != nil || got.String() != want {
			t.Errorf("%q is %v, %v", text, got, err)
		}
	}
	for text, want := range map[string]string{
		"pump_2":            `nothing that can fail is called "pump_2"; did you mean "pump_1"?`,
		"pump_1.leak":       `unit "pump_1" has no fault called "leak"; did you mean "leaks"?`,
		"pump_1.stuck_open": `unit "pump_1" has no fault called "stuck_open"; there is only leaks`,
		"bird_strike.x":     `"bird_strike" is an event; it has no faults`,
		"main_brakes":       `"main_brakes" is a function; only units and events can fail`,
		"pressure_low":      `"pressure_low" is an alert; only units and events can fail`,
		"":                  `nothing that can fail is called ""`,
		"pump_1.":           `unit "pump_1" has no fault called ""`,
		"engine_1.x":        `unit "engine_1" has no fault called "x"`,
	} {
		got, err := ParseFailure(text, b)
		if err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%q is %v, %v; want %q", text, got, err, want)
		}
	}
}
