package ledger_test

import (
	"strings"
	"testing"
)

// rule is one sentence of docs/meaning.md section 5: a book, failures, and the
// whole ledger that they give.
type rule struct {
	name, book, fail, want string
}

func check(t *testing.T, rules []rule) {
	t.Helper()
	for _, r := range rules {
		t.Run(r.name, func(t *testing.T) {
			got := dump(answer(t, course(t, r.book), failing(t, r.fail)))
			if want := unindented(r.want); got != want {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

// unindented takes the common margin of tabs off a text.
func unindented(text string) string {
	var lines []string
	for line := range strings.SplitSeq(strings.Trim(text, "\n\t "), "\n") {
		lines = append(lines, strings.ReplaceAll(line, "\t", ""))
	}
	return strings.TrimLeft(strings.Join(lines, "\n")+"\n", "\n")
}

// brakes is a function that a pump carries.
const brakes = `
unit "pump" {}
unit "sensor" {}
function "brakes" {
  works    = pump
  severity = "major"
}
`

func TestOf_ToldAndToldLate(t *testing.T) {
	check(t, []rule{
		{"an alert at once", brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = !pump
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told
			  120-end told, by low at 120
			given low: 120-end`},
		{"an alert ten seconds after is not late", brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 10)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told
			  120-end told, by low at 130
			given low: 130-end`},
		{"half a second more is late", brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 10.5)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told late
			  120-end told late, by low at 130.5, late 10.5
			given low: 130.5-end`},
		{"the book says how soon is in time", `# aircraft: told_within_s = 30
` + brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 30)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told
			  120-end told, by low at 150
			given low: 150-end`},
		{"an alert that ended ten seconds before the loss", `
			unit "pump" {}
			function "brakes" { works = !held(!pump, 60) }
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = pulse(!pump, 50)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told
			  180-end told, by low at 120
			given low: 120-170`},
		{"half a second more before the loss is too long ago", `
			unit "pump" {}
			function "brakes" { works = !held(!pump, 60) }
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = pulse(!pump, 49.5)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: not told
			  180-end not told
			given low: 120-169.5`},
		{"a relapse long after the alert went out", brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = pulse(count(!pump) == 1, 10)
			  tells   = [brakes]
			}`, "pump@120+5 pump@330", `
			lost brakes: not told
			  120-125 told, by low at 120
			  330-end not told
			given low: 120-130`},
		{"a relapse while the alert still stands", brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = count(!pump) > 0
			  tells   = [brakes]
			}`, "pump@120+5 pump@330", `
			lost brakes: told
			  120-125 told, by low at 120
			  330-end told, by low at 120
			given low: 120-end`},
		{"a false alarm tells nothing", `
			unit "pump" {}
			unit "sensor" {}
			function "brakes" { works = pump && sensor }
			alert "low" {
			  level     = "caution"
			  message   = "LOW"
			  when      = !pump
			  true_when = !sensor
			  tells     = [brakes]
			}`, "pump@120", `
			lost brakes: not told
			  120-end not told
			given low: 120-end
			false low: 120-end`},
		{"a false alarm that becomes true tells from then on", `
			unit "pump" {}
			unit "sensor" {}
			function "brakes" { works = pump }
			alert "low" {
			  level     = "caution"
			  message   = "LOW"
			  when      = !pump || !sensor
			  true_when = !pump
			  tells     = [brakes]
			}`, "sensor@120 pump@150", `
			lost brakes: told
			  150-end told, by low at 150
			given low: 120-end
			false low: 120-150`},
		{"late counts from when it is first wanted", wanted("cruise") + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 95)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told late
			  120-end told late, by low at 215, late 15, wanted 200-300
			given low: 215-end`},
		{"five seconds after it is first wanted is in time", wanted("cruise") + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 85)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told
			  120-end told, by low at 205, wanted 200-300
			given low: 205-end`},
		{"long after the loss, and before it is wanted", wanted("cruise") + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 30)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told
			  120-end told, by low at 150, wanted 200-300
			given low: 150-end`},
		{"an alert at the moment at which the loss ends is none", brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 20) || count(!pump) > 0 && pump
			  tells   = [brakes]
			}`, "pump@120+15", `
			lost brakes: not told
			  120-135 not told
			given low: 135-end`},
		{"an alert that tells something else", brakes + `
			function "other" { works = true }
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = !pump
			  tells   = [other]
			}`, "pump@120", `
			lost brakes: not told
			  120-end not told
			given low: 120-end`},
		{"a standing alert that is given there too", brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = !pump || !sensor
			  tells   = [brakes]
			}`, "pump@120 /sensor", `
			lost brakes: not told
			  120-end not told`},
		{"an alert that is given there too, and longer here", brakes + `
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = real.time_s >= 110 && real.time_s < 150 || !pump
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told late
			  120-end told late, by low at 150, late 30
			given low: 150-end`},
		{"the higher level of two at one moment", brakes + `
			alert "small" {
			  level   = "advisory"
			  message = "SMALL"
			  when    = !pump
			  tells   = [brakes]
			}
			alert "large" {
			  level   = "warning"
			  message = "LARGE"
			  when    = !pump
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told
			  120-end told, by large at 120
			given large: 120-end
			given small: 120-end`},
		{"an alert of no duration sounds, and tells nothing", brakes + `
			alert "chime" {
			  level   = "caution"
			  message = "CHIME"
			  when    = before(pump) && !pump
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: not told
			  120-end not told
			given chime: 120-120`},
		{"nor does one of less than half a second", brakes + `
			alert "blink" {
			  level   = "caution"
			  message = "BLINK"
			  when    = pulse(!pump, 0.49)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: not told
			  120-end not told
			given blink: 120-120.49`},
		{"half a second is enough", brakes + `
			alert "blink" {
			  level   = "caution"
			  message = "BLINK"
			  when    = pulse(!pump, 0.5)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told
			  120-end told, by blink at 120
			given blink: 120-120.5`},
		{"an alert that needs the unit that failed", brakes + `
			alert "low" {
			  level    = "caution"
			  message  = "LOW"
			  when     = !pump
			  given_by = sensor
			  tells    = [brakes]
			}`, "sensor@110 pump@120", `
			lost brakes: not told
			  120-end not told`},
	})
}

// wanted is a function that a pump carries and that is wanted in a phase only.
func wanted(phase string) string {
	return strings.Replace(brakes, "works    = pump", "works    = pump\n  wanted   = "+phase, 1)
}

// silent is a warning that the crew can silence.
const silent = `
unit "pump" {}
control "switch" {
  positions = ["normal", "silent"]
  initial   = "normal"
}
function "warning" { works = pump && switch == "normal" }
alert "low" {
  level   = "caution"
  message = "LOW"
  when    = !pump
  tells   = [warning]
}
`

func TestOf_TwoSides(t *testing.T) {
	check(t, []rule{
		{"what the crew move does not end a loss by taking the function there", silent, "pump@120 switch=silent@150", `
			lost warning: told
			  120-end told, by low at 120
			given low: 120-end`},
		{"what is set up is so in both", silent, "pump@120 =switch=silent@150", `
			lost warning: told
			  120-150 told, by low at 120
			given low: 120-end`},
		{"set up from the start", silent, "pump@120 =switch=silent", `
			given low: 120-end`},
		{"what the crew take away themselves is lost", silent, "pump@150 switch=silent@120", `
			lost warning: told late
			  120-end told late, by low at 150, late 30
			given low: 150-end`},
		{"though nothing fails", silent, "switch=silent@120", `
			lost warning: not told
			  120-end not told`},
		{"what the crew put right is found again", `
			unit "pump" {}
			control "standby" {
			  positions = ["off", "on"]
			  initial   = "off"
			}
			function "brakes" { works = pump || standby == "on" }`, "pump@120 standby=on@150", `
			lost brakes: not told
			  120-150 not told`},
		{"of a setting and an act at one moment the act counts", silent, "pump@120 =switch=silent@150 switch=normal@150", `
			lost warning: told
			  120-150 told, by low at 120
			given low: 120-end`},
	})
}

func TestOf_HeldBack(t *testing.T) {
	quiet := func(when, phases string) string {
		return brakes + `
			alert "low" {
			  level    = "caution"
			  message  = "LOW"
			  when     = ` + when + `
			  quiet_in = [` + phases + `]
			  tells    = [brakes]
			}`
	}
	check(t, []rule{
		{"held back and released", quiet("!pump", "climb"), "pump@120", `
			lost brakes: told late
			  120-end told late, by low at 200, late 80, held in climb
			given low: 200-end
			held low: 120-200, in climb, given at 200`},
		{"released in time", quiet("!pump", "climb"), "pump@195", `
			lost brakes: told
			  195-end told, by low at 200
			given low: 200-end
			held low: 195-200, in climb, given at 200`},
		{"held back in one phase after another", quiet("!pump", "climb, cruise"), "pump@120", `
			lost brakes: told late
			  120-end told late, by low at 300, late 180, held in climb cruise
			given low: 300-end
			held low: 120-300, in climb cruise, given at 300`},
		{"held back to the end", quiet("!pump", "climb, cruise, landing"), "pump@320", `
			lost brakes: not told
			  320-end not told, held in landing
			held low: 320-end, in landing, never given`},
		{"over before it is released", quiet("!pump", "climb"), "pump@120+30", `
			lost brakes: not told
			  120-150 not told, held in climb
			held low: 120-150, in climb, never given`},
		{"what stood before a quiet phase stands on", quiet("!pump", "climb"), "pump@90", `
			lost brakes: told
			  90-end told, by low at 90
			given low: 90-end`},
		{"held back twice, given between", quiet("!pump", "climb, landing"), "pump@150+100 pump@310", `
			lost brakes: not told
			  150-250 told late, by low at 200, late 50, held in climb
			  310-end not told, held in landing
			given low: 200-250
			held low: 150-200 310-end, in climb landing, given at 200`},
		{"given before, held back later", quiet("!pump", "climb"), "pump@50+10 pump@120", `
			lost brakes: told late
			  50-60 told, by low at 50
			  120-end told late, by low at 200, late 80, held in climb
			given low: 50-60 200-end, sounds 50 200
			held low: 120-200, in climb, given at 200`},
		{"held back there too", `
			unit "pump" {}
			unit "sensor" {}
			alert "low" {
			  level    = "caution"
			  message  = "LOW"
			  when     = !pump || !sensor
			  quiet_in = [climb, cruise]
			}
			function "brakes" { works = pump }`, "pump@120 /sensor", `
			lost brakes: not told
			  120-end not told`},
	})
}

func TestOf_ToldWrongAndOnlyShown(t *testing.T) {
	lamp := func(more string) string {
		return brakes + `
			indication "lamp" {
			  ` + strings.ReplaceAll(more, "; ", "\n") + `
			}`
	}
	check(t, []rule{
		{"a lamp that lies", lamp("shows = true; means = brakes"), "pump@120", `
			lost brakes: told wrong
			  120-end told wrong, via lamp at 120, lie lamp
			wrong lamp: 120-end on for off`},
		{"a lamp that lies for two seconds does not count", lamp("shows = brakes || pulse(!brakes, 2); means = brakes"), "pump@120", `
			lost brakes: only shown
			  120-end only shown, via lamp at 122`},
		{"for half a second more it does", lamp("shows = brakes || pulse(!brakes, 2.5); means = brakes"), "pump@120", `
			lost brakes: told wrong
			  120-end told wrong, via lamp at 120, lie lamp, shown by lamp at 122.5
			wrong lamp: 120-122.5 on for off`},
		{"the book says how long counts", `# aircraft: wrong_after_s = 5
` + lamp("shows = brakes || pulse(!brakes, 5); means = brakes"), "pump@120", `
			lost brakes: only shown
			  120-end only shown, via lamp at 125`},
		{"a break starts the count again", lamp("shows = brakes || pulse(!brakes, 1.5) || held(!brakes, 2) && !held(!brakes, 3.5); means = brakes"), "pump@120", `
			lost brakes: only shown
			  120-end only shown, via lamp at 121.5`},
		{"wrong there too", lamp("shows = true; means = brakes && sensor"), "pump@120 /sensor", `
			lost brakes: not told
			  120-end not told`},
		{"a lamp that is wrong but not lit", lamp("shows = true; means = brakes; lit_by = pump"), "pump@120", `
			lost brakes: not told
			  120-end not told
			dark lamp: 120-end`},
		{"a lamp that lies longer than the loss lasts", lamp("shows = !held(!pump, 1.5); means = brakes && pump"), "pump@120+1.5", `
			lost brakes: not told, not wanted
			  120-121.5 not told, not wanted`},
		{"a lie that lies mostly after the loss", lamp("shows = true; means = brakes && !(count(!pump) > 0); tells = [brakes]"), "pump@120+1.5", `
			lost brakes: not told, not wanted
			  120-121.5 not told, not wanted
			wrong lamp: 120-end on for off`},
		{"a lamp that goes dark later lied before", lamp("shows = true; means = brakes; lit_by = !held(!pump, 30)"), "pump@120", `
			lost brakes: told wrong
			  120-end told wrong, via lamp at 120, lie lamp
			wrong lamp: 120-150 on for off
			dark lamp: 150-end`},
		{"a lamp that shows it", lamp("shows = pump; means = brakes"), "pump@120", `
			lost brakes: only shown
			  120-end only shown, via lamp at 120`},
		{"a lamp with no meaning shows nothing", lamp("shows = pump; tells = [brakes]"), "pump@120", `
			lost brakes: not told
			  120-end not told`},
		{"a lamp that covers by tells", lamp("shows = pump; means = pump; tells = [brakes]"), "pump@120", `
			lost brakes: only shown
			  120-end only shown, via lamp at 120`},
		{"a meaning that does not name the function does not cover it", lamp("shows = pump; means = pump"), "pump@120", `
			lost brakes: not told
			  120-end not told`},
		{"a lamp that looks the same as ever shows nothing", lamp("shows = sensor; means = sensor; tells = [brakes]"), "pump@120", `
			lost brakes: not told
			  120-end not told`},
		{"what shows it only after the loss", lamp("shows = !held(!brakes, 40); means = !held(!brakes, 40); tells = [brakes]"), "pump@120+30", `
			lost brakes: not told
			  120-150 not told`},
		{"a lamp that is lit by the failure alone", lamp("shows = true; means = true; lit_by = !pump; tells = [brakes]"), "pump@120", `
			lost brakes: only shown
			  120-end only shown, via lamp at 120`},
		{"one that lies does not hide one that shows", brakes + `
			indication "gauge" {
			  shows = pump
			  means = brakes
			}
			indication "lamp" {
			  shows = !held(!pump, 20)
			  means = brakes
			}`, "pump@120", `
			lost brakes: told wrong
			  120-end told wrong, via lamp at 120, lie lamp, shown by gauge at 120
			wrong lamp: 120-140 on for off`},
		{"an alert outweighs one that lies", brakes + `
			indication "lamp" {
			  shows = true
			  means = brakes
			}
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 60)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: told late
			  120-end told late, by low at 180, late 60, lie lamp
			wrong lamp: 120-end on for off
			given low: 180-end`},
		{"the one that lies first", brakes + `
			indication "one" {
			  shows = pump || held(!pump, 10)
			  means = brakes
			}
			indication "two" {
			  shows = true
			  means = brakes
			}`, "pump@120", `
			lost brakes: told wrong
			  120-end told wrong, via two at 120, lie one, lie two, shown by one at 120
			wrong one: 130-end on for off
			wrong two: 120-end on for off`},
	})
}
