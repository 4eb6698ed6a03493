# a number where a text is needed
unit "a" {
  title = 5   ### "wrong-value: \"title\" needs a text in quotes"
}
---
# an empty text
unit "a" {
  title = ""   ### "wrong-value: The text of \"title\" is empty"
}
---
# a text where a number is needed
unit "a" {
  chapter = "29"   ### "wrong-value: \"chapter\" needs a plain number"
}
---
# an id where a number is needed
unit "a" {
  rate_per_hour = pump   ### "wrong-value: \"rate_per_hour\" needs a plain number"
}
---
# a chapter with a fraction
unit "a" {
  chapter = 29.5   ### "wrong-value: \"chapter\" needs a whole number"
}
---
# a chapter that does not exist
unit "a" {
  chapter = 290   ### "out-of-range: .*from 0 to 100"
}
---
# a negative rate
unit "a" {
  rate_per_hour = -1e-5   ### "out-of-range: The number of \"rate_per_hour\""
}
---
# a number may be worked out
unit "a" {
  rate_per_hour = 2 * 1e-5 / (3 - 1)
  chapter       = 29
}
signal "b" {
  value = a
}
---
# a division by zero in a plain number
unit "a" {
  rate_per_hour = 1 / 0   ### "zero-division" "wrong-value: \"rate_per_hour\""
}
---
# a number that is too big
limit "a" {
  quantity = real.height_ft
  most     = 1e400   ### "out-of-range: The number is too big"
}
---
# a word where true or false is needed
signal "a" {
  set     = pump
  reset   = false
  initial = "yes"   ### "wrong-value: \"initial\" needs true or false"
}
---
# an id where true or false is needed
unit "a" {
  fault "stuck" {
    stops = pump   ### "wrong-value: \"stops\" needs true or false"
  }
}
---
# a word that is none of those possible
alert "a" {
  level   = "cauton"   ### "unknown-word: \"level\" cannot be \"cauton\". Did you mean \"caution\"\\?"
  message = "a"
  when    = pump
}
function "b" {
  works    = pump
  severity = "terrible"   ### "unknown-word: .*It is one of: \"minor\", \"major\", \"hazardous\", \"catastrophic\""
}
---
# a step by nobody known
procedure "a" {
  do {
    says = "x"
    by   = "pf"   ### "unknown-word: \"by\" cannot be \"pf\". Did you mean \"PF\""
  }
}
---
# a control starts where it cannot be
control "a" {
  positions = ["up", "down"]
  initial   = "dwon"   ### "unknown-word: \"initial\" cannot be \"dwon\". Did you mean \"down\""
}
---
# a control with one position
control "a" {
  positions = ["up"]   ### "incomplete: Control \"a\" has fewer than two positions"
  initial   = "up"
}
---
# an act sets a position that is not there
flight "a" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 30000
  distance_nm        = 300
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.76
  descent_kt         = 290
  approach_kt        = 135
  act "lever on" {
    set  = lever
    to   = "onn"   ### "unknown-word: Control \"lever\" has no position \"onn\". Did you mean \"on\""
    when = climb
  }
  act "pump on" {
    set  = pump   ### "wrong-kind: \"pump\" is a unit, not a control"
    to   = "on"
    when = climb
  }
  act "leaver on" {
    set  = leaver   ### "unknown-id: No control is called \"leaver\". Did you mean \"lever\""
    to   = "on"
    when = climb
  }
}
---
# a step sets a position that is not there
procedure "a" {
  do {
    set = lever
    to  = "half"   ### "unknown-word: .*Its positions are: \"off\", \"on\""
  }
}
---
# numbers of a procedure that cannot be
procedure "a" {
  priority = 0   ### "out-of-range: The number of \"priority\""
  do {
    says   = "a"
    wait_s = -1   ### "out-of-range: The number of \"wait_s\""
  }
  later {
    in     = climb
    says   = "a"
    wait_s = 1   ### "unknown-attribute: A later has no attribute \"wait_s\""
  }
}
procedure "b" {
  priority = 1.5   ### "wrong-value: .*whole"
  note {
    says = "b"
  }
}
unit "c" {
  reset_by    = pump
  reset_tries = 100   ### "out-of-range: The number of \"reset_tries\""
}
---
# numbers of a flight that cannot be
flight "a" {
  takeoff_mass_kg    = -60000   ### "out-of-range: .*takeoff_mass_kg"
  fuel_kg            = 8000
  cruise_altitude_ft = 30000
  distance_nm        = 300
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.76
  descent_kt         = 290
  approach_kt        = 135
  runway_wet         = 2   ### "out-of-range: .*runway_wet"
  headwind_kt        = -30
  speed_kt           = 3   ### "unknown-attribute: A flight has no attribute \"speed_kt\""
}
---
# times are not negative
alert "a" {
  level     = "advisory"
  message   = "a"
  when      = held(pump, -5)   ### "out-of-range: The time of \"held\""
  until     = pulse(pump, 0 - 5)   ### "out-of-range: The time of \"pulse\""
  repeats_s = -1   ### "out-of-range: The number of \"repeats_s\""
}
claim "b" {
  says   = "b"
  source = "b"
  given {
    fail  = pump
    for_s = -2   ### "out-of-range: The number of \"for_s\""
  }
  expect = at(-1, pump)   ### "out-of-range: The time of \"at\""
}
indication "c" {
  shows  = height_ft
  means  = real.height_ft
  within = -5   ### "out-of-range: The number of \"within\""
}
---
# times of the aircraft are not negative, alone
aircraft "a" {
  title         = "A"
  told_within_s = -10   ### "out-of-range: .*told_within_s"
  wrong_after_s = -2    ### "out-of-range: .*wrong_after_s"
}
---
# ids in quotes
alert "a" {
  level     = "advisory"
  message   = "a"
  when      = pump
  tells     = ["brakes"]   ### "quoted-id: .*Write it without quotes: brakes\\."
  procedure = "list"   ### "quoted-id"
}
---
# a position without quotes
procedure "a" {
  do {
    set = lever
    to  = on   ### "wrong-value: \"to\" needs a text in quotes"
  }
}
---
# an operator where an id is needed
event "a" {
  fails = [pump && pump]   ### "wrong-value: The id of a unit is needed here"
}
---
# an empty list
event "a" {
  fails = []   ### "incomplete: The list \"fails\" is empty"
}
---
# a unit that is not there
event "a" {
  fails = [pmup]   ### "unknown-id: No unit is called \"pmup\". Did you mean \"pump\""
}
---
# a list names a fault that is not there
event "a" {
  fails = [pump.leeks, lever.stuck]   ### "unknown-fault: Unit \"pump\" has no fault \"leeks\". Did you mean \"leaks\"" "wrong-kind: \"lever\" is a control, not a unit"
}
---
# ids of the wrong kind
alert "a" {
  level     = "advisory"
  message   = "a"
  when      = pump
  tells     = [pump]       ### "wrong-kind: \"pump\" is a unit, not a function"
  quiet_in  = [brakes]     ### "wrong-kind: \"brakes\" is a function, not a phase"
  procedure = pressure     ### "wrong-kind: \"pressure\" is a signal, not a procedure"
}
---
# ids that nothing has
alert "a" {
  level     = "advisory"
  message   = "a"
  when      = pump
  tells     = [breaks]     ### "unknown-id: No function is called \"breaks\". Did you mean \"brakes\""
  quiet_in  = [climbing]   ### "unknown-id: No phase is called \"climbing\". Did you mean \"climb\""
  procedure = pressure_lost_list   ### "unknown-id: No procedure is called .*add procedure \"pressure_lost_list\" { … }"
}
