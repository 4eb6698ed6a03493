package ledger_test

import (
	"context"
	"strings"
	"testing"

	"knockon/book"
	"knockon/ledger"
	"knockon/run"
)

// gap is a function that is always called for.
const gap = `
			unit "pump" {}
			function "brakes" { works = pump }`

func TestOf_Losses(t *testing.T) {
	check(t, []rule{
		{"nothing fails", brakes, "", ``},
		{"a unit that nothing uses", brakes, "sensor@120", ``},
		{"a loss of no duration is none", `
			unit "pump" {}
			function "brakes" { works = !(before(pump) && !pump) }`, "pump@120", `
			kept brakes: without pump by  at 120`},
		{"a function that does not work there cannot be lost", `
			unit "pump" {}
			function "brakes" { works = pump && cruise }`, "pump@120", `
			lost brakes: not told
			  200-300 not told`},
		{"stretches less than two seconds apart are one", `
			unit "pump" {}
			function "brakes" { works = pump || held(!pump, 10) && !held(!pump, 11.5) }`, "pump@120", `
			lost brakes: not told
			  120-end not told`},
		{"two seconds apart they are two", `
			unit "pump" {}
			function "brakes" { works = pump || held(!pump, 10) && !held(!pump, 12) }`, "pump@120", `
			lost brakes: not told
			  120-130 not told
			  132-end not told`},
		{"an alert while it works again between two stretches tells of the second", `
			unit "pump" {}
			function "brakes" { works = pump || held(!pump, 20) && !held(!pump, 30) }
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 25) && !held(!pump, 26)
			  tells   = [brakes]
			}`, "pump@120", `
			lost brakes: not told
			  120-140 not told
			  150-end told, by low at 145
			given low: 145-146`},
		{"told of by an earlier failure ten seconds before", `
			unit "pump" {}
			unit "sensor" {}
			function "brakes" { works = pump }
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = pulse(!sensor, 3)
			  tells   = [brakes]
			}`, "pump@150 sensor@137", `
			lost brakes: told
			  150-end told, by low at 137
			given low: 137-140`},
		{"inoperative in both runs", brakes, "sensor@120 /pump", ``},
	})
}

func TestOf_Wanted(t *testing.T) {
	check(t, []rule{
		{"wanted later", `
			unit "pump" {}
			function "brakes" {
			  works  = pump
			  wanted = landing
			}`, "pump@120", `
			lost brakes: not told
			  120-end not told, wanted 300-400`},
		{"not wanted in the span", `
			unit "pump" {}
			function "brakes" {
			  works  = pump
			  wanted = landing
			}`, "pump@120+60", `
			lost brakes: not told, not wanted
			  120-180 not told, not wanted`},
		{"wanted from the moment at which it is back", `
			unit "pump" {}
			function "brakes" {
			  works  = pump
			  wanted = landing
			}`, "pump@120+180", `
			lost brakes: not told, not wanted
			  120-300 not told, not wanted`},
		{"the worst of the stretches that mattered", `
			unit "pump" {}
			function "brakes" {
			  works  = pump
			  wanted = landing
			}
			alert "low" {
			  level   = "caution"
			  message = "LOW"
			  when    = held(!pump, 15)
			  tells   = [brakes]
			}`, "pump@120+10 pump@310", `
			lost brakes: told late
			  120-130 not told, not wanted
			  310-end told late, by low at 325, late 15
			given low: 325-end`},
		{"a gap of two seconds no crew misses", gap, "pump@120+2", `
			lost brakes: not told, not wanted
			  120-122 not told, not wanted`},
		{"half a second more they do", gap, "pump@120+2.5", `
			lost brakes: not told
			  120-122.5 not told`},
		{"called for during a thousandth of a second it is not called for", `
			unit "pump" {}
			function "brakes" {
			  works  = pump
			  wanted = pulse(!pump, 0.001)
			}`, "pump@120", `
			lost brakes: not told, not wanted
			  120-end not told, not wanted`},
		{"a little longer it is", `
			unit "pump" {}
			function "brakes" {
			  works  = pump
			  wanted = pulse(!pump, 0.0011)
			}`, "pump@120", `
			lost brakes: not told
			  120-end not told, wanted 120-120.0011`},
		{"the last two seconds of a flight count", gap, "pump@399", `
			lost brakes: not told
			  399-end not told`},
		{"wanted here, whatever is wanted there", `
			unit "pump" {}
			function "brakes" {
			  works  = pump
			  wanted = !pump
			}`, "pump@120", `
			lost brakes: not told
			  120-end not told`},
	})
}

func TestOf_LossesAreSortedWorstFirst(t *testing.T) {
	text := `unit "pump" {}
alert "low" {
  level   = "caution"
  message = "LOW"
  when    = !pump
  tells   = [quick, idle_told]
}
`
	add := func(id, more string) {
		text += "function \"" + id + "\" {\n works = pump\n" + more + "\n}\n"
	}
	add("minor_first", `severity = "minor"`)
	add("idle_told", `wanted = ground`)
	add("idle_untold", `wanted = ground`)
	add("none", ``)
	add("quick", `severity = "catastrophic"`)
	add("major", `severity = "major"`)
	add("minor_second", `severity = "minor"`)
	l := answer(t, course(t, text), failing(t, "pump@120"))
	var got []string
	for _, x := range l.Losses {
		got = append(got, x.Function.ID)
	}
	want := "major minor_first minor_second none quick idle_untold idle_told"
	if strings.Join(got, " ") != want {
		t.Errorf("got  %s\nwant %s", strings.Join(got, " "), want)
	}
}

func TestOf_Readings(t *testing.T) {
	check(t, []rule{
		{"dark and lit again", brakes + `
			indication "lamp" {
			  shows  = true
			  lit_by = sensor
			}`, "sensor@120+20", `
			dark lamp: 120-140`},
		{"dark there too", brakes + `
			indication "lamp" {
			  shows  = true
			  lit_by = sensor && ground
			}`, "sensor@120", ``},
		{"dark for no duration", brakes + `
			indication "lamp" {
			  shows  = true
			  lit_by = !(before(sensor) && !sensor)
			}`, "sensor@120", ``},
		{"a number off by more than it may be", `
			unit "sensor" {}
			signal "charge_min" { value = total(1, 10, 0, 1000) }
			signal "read_min" { value = sensor ? charge_min : charge_min + 5 }
			indication "gauge" {
			  shows  = read_min
			  means  = charge_min
			  within = 4
			}`, "sensor@120+60", `
			wrong gauge: 120-180 165 min for 160 min`},
		{"a number that is near enough", `
			unit "sensor" {}
			signal "charge_min" { value = total(1, 10, 0, 1000) }
			signal "read_min" { value = sensor ? charge_min : charge_min + 5 }
			indication "gauge" {
			  shows  = read_min
			  means  = charge_min
			  within = 5
			}`, "sensor@120", ``},
		{"a word", `
			unit "sensor" {}
			signal "mode" { value = sensor ? "armed" : "off" }
			indication "label" {
			  shows = "armed"
			  means = mode
			}`, "sensor@120", `
			wrong label: 120-end armed for off`},
	})
}

func TestOf_NumbersThatShowALoss(t *testing.T) {
	gauge := func(within string) string {
		return `
			unit "pump" {}
			function "brakes" { works = pump }
			signal "fluid_l" { value = total(pump ? 0 : -0.1, 20, 0, 20) }
			indication "gauge" {
			  shows  = fluid_l
			  means  = fluid_l
			  tells  = [brakes]
			  within = ` + within + `
			}`
	}
	check(t, []rule{
		{"once it has moved further than the eye can see", gauge("2"), "pump@120", `
			lost brakes: only shown
			  120-end only shown, via gauge at 140.000001`},
		{"not before the loss ends", gauge("2"), "pump@120+15", `
			lost brakes: not told
			  120-135 not told`},
		{"a difference that comes and goes between two instants", `
			unit "pump" {}
			function "brakes" { works = pump }
			signal "hump_s" { value = pump ? 0 : most_of(0, 10 - size(real.time_s - 250)) }
			indication "gauge" {
			  shows  = hump_s
			  means  = hump_s
			  tells  = [brakes]
			  within = 4
			}`, "pump@120", `
			lost brakes: only shown
			  120-end only shown, via gauge at 244.000001`},
		{"rounding is no difference", `
			unit "pump" {}
			function "brakes" { works = pump }
			signal "tick" { value = pump ? true : held(!pump, 7.3) }
			signal "sum_s" { value = total(real.time_s * real.time_s / 7.3) }
			indication "gauge" {
			  shows = sum_s
			  means = sum_s
			  tells = [brakes]
			}`, "pump@120.7", `
			lost brakes: not told
			  120.7-end not told`},
	})
}

func TestOf_Alarms(t *testing.T) {
	check(t, []rule{
		{"false where the sensor lies", `
			unit "sensor" {}
			unit "pump" {}
			alert "low" {
			  level     = "warning"
			  message   = "LOW"
			  when      = !pump || !sensor
			  true_when = !pump
			}`, "sensor@120 pump@150", `
			given low: 120-end
			false low: 120-150`},
		{"false there too", `
			unit "sensor" {}
			unit "pump" {}
			alert "low" {
			  level     = "warning"
			  message   = "LOW"
			  when      = !sensor
			  true_when = !pump
			}`, "pump@150+20 /sensor", ``},
		{"given there too, and false here only", `
			unit "sensor" {}
			unit "pump" {}
			alert "low" {
			  level     = "warning"
			  message   = "LOW"
			  when      = cruise || !sensor
			  true_when = pump
			}`, "pump@150", `
			false low: 200-300`},
		{"false for no duration, but it sounds", `
			unit "sensor" {}
			alert "chime" {
			  level     = "caution"
			  message   = "CHIME"
			  when      = before(sensor) && !sensor
			  true_when = false
			}`, "sensor@120", `
			given chime: 120-120
			false chime: 120-120`},
		{"repeats until it is silenced", `
			unit "pump" {}
			alert "low" {
			  level     = "warning"
			  message   = "LOW"
			  when      = !pump
			  repeats_s = 10
			  until     = held(!pump, 25)
			}`, "pump@120", `
			given low: 120-145, sounds 120 130 140`},
		{"what sounds there already", `
			unit "pump" {}
			alert "low" {
			  level     = "warning"
			  message   = "LOW"
			  when      = climb && real.time_s < 130 || !pump
			  repeats_s = 10
			}`, "pump@120+30", `
			given low: 130-150, sounds 130 140`},
	})
}

func TestOf_FailureThatNeverComes(t *testing.T) {
	c := course(t, brakes+`signal "never" { value = false }`)
	s := failing(t, "pump@120")
	s.Strikes[0].When = &book.Expr{Op: book.OpRef, ID: "never", Type: book.YesNo}
	l := answer(t, c, s)
	if got := dump(l); got != "" {
		t.Errorf("got %s", got)
	}
	if l.Strike != 0 {
		t.Errorf("the strike is at %g s", l.Strike.Seconds())
	}
}

func TestOf_RunThatEndsEarly(t *testing.T) {
	c := course(t, `
unit "pump" {}
unit "bell" {}
signal "round" { value = !pump && !before(round) }
function "brakes" { works = pump }
function "later" { works = bell }
`)
	l := answer(t, c, failing(t, "pump@120 bell@200"))
	if l.Here.Fault == nil {
		t.Fatal("the loop settled: this tests nothing")
	}
	if l.Loss("later") != nil {
		t.Error("a loss after the end of the run is in the ledger")
	}
	var w strings.Builder
	if err := ledger.WriteText(&w, l, 80); err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(strings.Split(w.String(), "\n")[2], "The flight breaks off 2:00 into the flight") {
		t.Errorf("the page does not open with the run that broke off:\n%s", w.String())
	}
}

func TestOf_SameRecordsSameLedger(t *testing.T) {
	c := demoCourse(t)
	s := failing(t, "dc_left@1500 dc_right@2000")
	first := dump(answer(t, c, s))
	for range 3 {
		if again := dump(answer(t, c, s)); again != first {
			t.Fatal("two ledgers of the same records differ")
		}
	}
	finer, err := run.NewCourse(c.Build, c.Flight, run.Setting{Step: book.Second / 2})
	if err != nil {
		t.Fatal(err)
	}
	l, err := ledger.Answer(context.Background(), finer, s)
	if err != nil {
		t.Fatal(err)
	}
	if got := dump(l); got != first {
		t.Error("the ledger depends on the step of the search for crossings")
	}
}
