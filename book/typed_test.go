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
		"climb + 120 s":     {Phase: "climb", Offset: 120 * Second},
		"climb+2 min":       {Phase: "climb", Offset: 120 * Second},
		"climb+2min":        {Phase: "climb", Offset: 120 * Second},
		" climb  -  30 s ":  {Phase: "climb", Offset: -30 * Second},
		"landing_roll-0.5s": {Phase: "landing_roll", Offset: -Second / 2},
		"1800 s":            {Offset: 1800 * Second},
		"30 min":            {Offset: 1800 * Second},
		"0.5 h":             {Offset: 1800 * Second},
		"+ 5 s":             {Offset: 5 * Second},
		".5 s":              {Offset: Second / 2},
		"0.000001 s":        {Offset: 1},
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
		"120 lightyears":     `"lightyears" is no unit of time. Use s, min or h.`,
		"1:60:00":            `no unit of time`,
		"0 ft in the climb":  `"ft in the climb" is no unit of time`,
		"-5 s":               "A time from the start of the flight cannot be negative.",
		"climb +":            `"" is no time`,
		"climb + soon":       `"soon" is no time`,
		"climb + 1..5 s":     `"1..5 s" is no time`,
		"1e9 s":              `"e9 s" is no unit of time`,
		"99999999999 h":      "That is longer than any flight.",
		"climb + 5 s + 5 s":  `is no unit of time`,
		"Climbs":             `Did you mean "climb"?`,
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

// TestParseMoment_AsPeopleSayIt: each way of saying a moment, on a book whose
// phases have titles and other names.
func TestParseMoment_AsPeopleSayIt(t *testing.T) {
	b := oneBuild(t, strings.NewReplacer(
		`phase "climb" { begins`, "phase \"climb\" {\n title = \"Climb, above 600 ft\"\n also_called = [\"en-route climb\", \"climb-out\"]\n begins",
		"!real.on_ground }", "!real.on_ground\n}\nphase \"descent\" {\n title = \"Going down\"\n begins = real.vertical_speed_ft_per_min < -200\n}",
	).Replace(smallBook))
	for text, want := range map[string]Moment{
		"Climb":                         {Phase: "climb"},
		"climb, above 600 ft":           {Phase: "climb"},
		"En-route climb + 1 min":        {Phase: "climb", Offset: 60 * Second},
		"in the climb-out":              {Phase: "climb"},
		"landing roll":                  {Phase: "landing_roll"},
		"Landing-roll-2s":               {Phase: "landing_roll", Offset: -2 * Second},
		"45:00":                         {Offset: 2700 * Second},
		"1:20:00":                       {Offset: 4800 * Second},
		"climb + 1:02:03":               {Phase: "climb", Offset: 3723 * Second},
		"short final":                   {Phase: ShortFinal},
		"on short final":                {Phase: ShortFinal},
		"Short Final - 10 s":            {Phase: ShortFinal, Offset: -10 * Second},
		"top of descent":                {Phase: "descent"},
		"at the top of descent":         {Phase: "descent"},
		"2 min before top of descent":   {Phase: "descent", Offset: -120 * Second},
		"going down":                    {Phase: "descent"},
		"10,000 ft in the climb":        {Phase: "climb", AtFt: 10000},
		"10000 feet in climb":           {Phase: "climb", AtFt: 10000},
		"passing FL120 in the descent":  {Phase: "descent", AtFt: 12000},
		"climb at 10,000 ft":            {Phase: "climb", AtFt: 10000},
		"10,000 ft in the climb + 30 s": {Phase: "climb", AtFt: 10000, Offset: 30 * Second},
		"2 minutes into the climb":      {Phase: "climb", Offset: 120 * Second},
		"30 s after the landing roll":   {Phase: "landing_roll", Offset: 30 * Second},
		"1:30 into climb":               {Phase: "climb", Offset: 90 * Second},
	} {
		got, err := ParseMoment(text, b)
		if err != nil || got != want {
			t.Errorf("%q is %+v, %v; want %+v", text, got, err, want)
		}
		if again, err := ParseMoment(got.String(), b); err != nil || again != got {
			t.Errorf("%q is written as %q, which reads as %+v, %v", text, got, again, err)
		}
	}
	for _, text := range []string{"10,000 ft in the stratosphere", "10,000 ft", "0 ft in the climb", "FL in the climb", "5 into the climb", "1:2:3", "99:99", "in the", "top of climb"} {
		if got, err := ParseMoment(text, b); err == nil {
			t.Errorf("%q is read as %+v", text, got)
		}
	}
}

func TestMoment_Spoken(t *testing.T) {
	b := oneBuild(t, smallBook)
	for text, want := range map[string]string{
		"": "the start of the flight", "45:00": "45:00 after the start", "climb": "the beginning of “climb”", "climb + 90 s": "90 s after the beginning of “climb”",
		"climb - 3 s": "3 s before the beginning of “climb”", "10,000 ft in the climb": "10,000 ft in “climb”", "short final - 10 s": "10 s before short final",
	} {
		if m, err := ParseMoment(text, b); err != nil || m.Spoken(b) != want {
			t.Errorf("%q is spoken as %q, %v", text, m.Spoken(b), err)
		}
	}
}
