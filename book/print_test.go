package book

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"strings"
	"testing"
)

// A book that says different things on different builds.
const variedBook = `
aircraft "varied" {
  title           = "Varied \"type\""
  alerts_given_by = computer
  flyable = computer
  flyable_again_s = 12
  told_within_s   = 8
  telling "warning" {
    text  = computer
    sound = true
  }
  wing_area_m2    = 120
  variant "late" {
    wing_area_m2 = 121.5
    span_m       = 34
  }
}
variant "early" {
  title = "As delivered"
  note  = "a\tb\nc \u0024{d} \u0001"
}
variant "middle" { title = "After the first change" }
variant "late" {
  title   = "After the second change"
  chapter = 29
}
phase "ground" {}
phase "climb" {
  begins = !real.on_ground
}
unit "computer" {
  rate_per_hour   = 3.2e-5
  checked_every_h = 500
  place           = "E2"
  reset_by        = knob == "reset"
  reset_tries     = 2
  fault "stuck" {
    title           = "Stuck output"
    stops           = true
    rate_per_hour   = 1e-7
    checked_every_h = 50
  }
  fault "slow" {}
}
unit "extra" {
  title  = "The extra one"
  except = [early]
  variant "late" {
    needs = computer
  }
}
control "knob" {
  positions = ["off", "on", "reset"]
  initial   = "off"
  place     = "Overhead"
  variant "middle" {
    positions = ["off", "arm", "on", "reset"]
    initial   = "arm"
  }
}
event "burst" {
  fails         = [computer, computer.slow]
  rate_per_hour = 1e-9
}
signal "latched" {
  set     = !computer
  reset   = knob == "reset"
  initial = true
}
signal "height_ft" {
  value = (
    real.height_ft - (100 - 3 * -2) + 4 / (2 / real.mach) > 5 ? 1 : latched ? 2 : 3
  )
}
signal "mode" {
  value = latched && (computer || !latched) ? "a \\ b" : knob
  variant "late" {
    value = extra ? "x" : "on"
  }
}
signal "logic" {
  value = any(latched, at_least(2, computer, failed(computer), computer.stuck)) == (mode != "on" || all(latched))
  variant "early" {
    value = held(latched, 2.5) || pulse(before(latched), 0) || frozen(latched, computer)
  }
  variant "late" {
    value = total(latched ? 1 : 0, 5, 0, 10) < count(latched) * aircraft.wing_area_m2 / aircraft.span_m
  }
}
function "thinking" {
  works              = computer
  wanted             = climb
  severity           = "major"
  severity_if_hidden = "catastrophic"
  survivable_s       = 90
  over_on_purpose    = "a lesson"
  noticed_when       = !latched && climb
  noticed_by         = "tried"
  noticed_source     = "common practice"
}
function "sensing" {
  works           = computer
  noticed_at_once = true
  noticed_by      = "felt"
  noticed_source  = "common practice"
}
alert "own_ways" {
  level       = "advisory"
  message     = "OWN WAYS"
  when        = !computer
  quiet_when  = latched
  text        = latched
  sound       = true
  claims_down = [computer, computer.stuck, latched]
}
performance "manual" {
  source  = "Tables"
  combine = "sum"
  except  = [middle]
  landing "full" {
    columns = ["code", "mass_kg", "distance_m"]
    rows    = [[6, 20000, 900.5], [6, 30000, 2 * 600]]
  }
  engine_out {
    columns = ["mass_kg", "ceiling_ft", "mach", "fuel_kg_per_h"]
    rows    = [[20000, 25000, 0.6, 1500]]
  }
  factor "jammed" {
    title         = "Knob jammed"
    when          = knob == "reset"
    covers        = ["anti_skid"]
    landing_ratio = 1.25
    adds_m        = 75
  }
}
deferral "computer_out" {
  title             = "Computer"
  source            = "Made-up list, 31-1, revision 2, 2026-10-01"
  items             = [computer, computer.stuck]
  category          = "A"
  days              = 2
  words_crew        = "Look twice."
  words_maintenance = "Collar the breaker."
  only_if           = !failed(computer) || flight.fuel_kg > aircraft.wing_area_m2 * 2 && !computer.stuck
  most_altitude_ft  = 25000
  no_icing          = true
  not_with          = [slow_out]
  set_up "Knob off" {
    set = knob
    to  = "off"
  }
}
deferral "slow_out" {
  items    = [computer.slow]
  category = "C"
}
bulletin "change" {
  procedure = list
  from      = "2026-11-01"
  until     = "2027-03-31"
  after     = 0
  check {
    that = lamp < 3
  }
}
bulletin "other_change" {
  procedure = list
  replaces  = 2
  except    = [late]
  note {
    says = "Nothing."
  }
}
alert "low" {
  level     = "warning"
  message   = "LOW"
  when      = logic
  true_when = latched
  given_by  = computer
  quiet_in  = [ground, climb]
  repeats_s = 1.5
  until     = knob == "reset"
  tells     = [thinking]
  procedure = list
  variant "middle" {
    quiet_in = [climb]
    given_by = !latched
  }
}
indication "lamp" {
  shows  = height_ft
  means  = -real.height_ft
  within = 20
  lit_by = computer
  place  = "Front"
  tells  = [thinking]
}
procedure "list" {
  priority = 5
  last     = true
  do {
    set         = knob
    to          = "reset"
    says        = "Knob ... reset"
    by          = "PF"
    from_memory = true
    sensed      = true
    wait_s      = 90
    if          = lamp < 9 && flight.rotate_kt > 100
    because     = "it clears the latch"
  }
  note {
    says  = "Go on there."
    go_to = other_list
    leave = true
  }
  tell {
    whom = "cabin"
    says = "All is well."
  }
  check {
    that = lamp > 3 || called_by(low) || seen.on_ground
    by   = "PM"
  }
  decide {
    that = low
    by   = "both"
    else {
      note {
        says = "Nothing to do."
      }
    }
    unknown {
      note {
        says = "It is dark."
      }
    }
    then {
      later {
        in = climb
        check {
          says = "again"
        }
      }
    }
  }
  later {
    in   = climb
    says = "Then"
  }
  later {
    when = lamp < 5 && !seen.icing
    note {
      says = "Down there."
    }
  }
}
procedure "other_list" {
  note {
    says = "Other."
  }
}
limit "top" {
  quantity = real.altitude_ft
  most     = 41000
  least    = latched ? 0 : 1000
  applies  = climb
  only     = [early, late]
}
flight "short" {
  from               = "North"
  to                 = "South"
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 30000
  distance_nm        = 300
  from_elevation_ft  = -12.5
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.76
  descent_kt         = 290
  approach_kt        = 135
  headwind_kt        = 0
  runway_wet         = false
  act "knob on" {
    set  = knob
    to   = "on"
    when = climb
  }
}
claim "one" {
  says   = "One"
  source = "fictional"
  note   = "n"
  given "title" {
    inoperative = [computer.slow]
    fail        = [burst, computer]
    at          = "climb + 2 min"
    for_s       = 30
    resettable  = true
    variant     = middle
    flight      = short
    act "off" {
      set  = knob
      to   = "off"
      when = false
    }
    also {
      fail = extra
      when = latched
    }
  }
  given {
    fail   = computer.stuck
    crew   = "by_the_book"
    plan   = ["divert HERE/17 @ climb + 60 s", "return @ when latched", "land"]
    turn   = "climb"
    expect = in_order(flown("return"), climb) && about(fuel_to("HERE"), 5, 1) && !told(thinking) && (first(latched) < 5 || at(3, latched) && in_phase(climb, logic))
  }
  expect = [lost(thinking), times(low) == 0, told_wrong(lamp)]
}
claim "two" {
  says   = "Two"
  source = "fictional"
  only   = [late]
  expect = always(extra)
}
`

func printed(t *testing.T, b *Book) string {
	t.Helper()
	var s bytes.Buffer
	if err := Print(&s, b); err != nil {
		t.Fatal(err)
	}
	return s.String()
}

func TestPrint_ReadsBackTheSame(t *testing.T) {
	books := map[string]fs.FS{"small": filesOf(smallBook), "varied": filesOf(variedBook), "base": filesOf(readText(t, "testdata/base.hcl"))}
	if _, err := os.Stat("../demo/book"); err == nil {
		books["demonstration"] = os.DirFS("../demo/book")
	}
	for name, files := range books {
		t.Run(name, func(t *testing.T) {
			first, problems := Load(context.Background(), files)
			if problems.HasErrors() {
				t.Skipf("the book has errors: %s", problems[0])
			}
			text := printed(t, first)
			second := bookOf(t, text)
			if d := difference(first, second); d != "" {
				t.Errorf("%s\n%s", d, text[:min(len(text), 4000)])
			}
			if again := printed(t, second); again != text {
				t.Error("printed again it is another text")
			}
		})
	}
}

func TestPrint_Difference(t *testing.T) {
	one := bookOf(t, variedBook)
	for _, change := range [][2]string{
		{`message   = "LOW"`, `message   = "LOw"`}, {"repeats_s = 1.5", "repeats_s = 1.6"},
		{"priority = 5", "priority = 6"}, {"last     = true", ""}, {"after     = 0", "after     = 1"}, {"replaces  = 2", "replaces  = 1"}, {"2027-03-31", "2027-03-30"}, {"wait_s      = 90", "wait_s      = 91"}, {"reset_tries     = 2", "reset_tries     = 3"}, {"checked_every_h = 50", "checked_every_h = 60"}, {"checked_every_h = 500", "checked_every_h = 600"}, {"\"a lesson\"", "\"another\""},
		{"lamp < 5", "lamp < 6"}, {"lamp < 9", "lamp < 8"}, {"flight.rotate_kt", "flight.climb_kt"}, {"leave = true", ""}, {`"cabin"`, `"company"`}, {"seen.on_ground", "seen.icing"}, {"It is dark", "It is lit"}, {"held(latched, 2.5)", "held(latched, 2.6)"}, {"initial = true", "initial = false"},
		{"span_m       = 34", "span_m       = 35"}, {"900.5", "900.6"}, {`combine = "sum"`, `combine = "greatest"`}, {"adds_m        = 75", "adds_m        = 76"}, {`landing "full"`, `landing "half"`}, {`except = [early]`, ``},
	} {
		text := strings.Replace(variedBook, change[0], change[1], 1)
		if text == variedBook {
			t.Fatalf("%q is not in the book", change[0])
		}
		if change[1] == "" {
			text = strings.Replace(text, "only     = [early, late]", "", 1)
		}
		if difference(one, bookOf(t, text)) == "" {
			t.Errorf("no difference is seen after %q became %q", change[0], change[1])
		}
	}
}

func TestPrint_Layout(t *testing.T) {
	text := printed(t, bookOf(t, variedBook))
	for _, want := range []string{`
unit "extra" {
  title = "The extra one"
  only  = [middle, late]
  variant "late" {
    needs = computer
  }
}
`, `
  variant "middle" {
    given_by = !latched
    quiet_in = [climb]
  }
`, `
    positions = ["off", "arm", "on", "reset"]
    initial   = "arm"
`, `
  value = real.height_ft - (100 - 3 * -2) + 4 / (2 / real.mach) > 5 ? 1 : latched ? 2 : 3
`} {
		if !strings.Contains(text, want) {
			t.Errorf("this is missing: %s\nin\n%s", want, text)
		}
	}
}
