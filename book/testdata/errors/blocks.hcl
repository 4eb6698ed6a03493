# an unknown block
unitt "a" {}   ### "unknown-block: There is no block \"unitt\" in a book. Did you mean \"unit\"\\?"
---
# a block that is like no other
hydraulics "a" {}   ### "unknown-block: There is no block \"hydraulics\" in a book. The blocks of a book are: aircraft, variant, unit"
---
# an unknown sub-block
unit "a" {
  falt "leaks" {}   ### "unknown-block: There is no block \"falt\" in a unit. Did you mean \"fault\"\\?"
}
signal "b" {
  value = a
}
---
# an unknown attribute
unit "a" {
  chaptr = 29   ### "unknown-attribute: A unit has no attribute \"chaptr\". Did you mean \"chapter\"\\?"
}
---
# an attribute that is like no other
event "a" {
  fails = [pump]
  causes = "x"   ### "unknown-attribute: An event has no attribute \"causes\". An event takes: title, also_called, chapter, note, source, not_modelled, only, except, mirror, fails, rate_per_hour\\."
}
---
# an attribute outside blocks
title = "Book"   ### "unknown-attribute: \"title\" stands outside any block"
---
# a block written as an attribute
unit "a" {
  fault = "leaks"   ### "unknown-attribute: \"fault\" is a block, not an attribute"
}
---
# a number of the aircraft without a unit, alone
aircraft "a" {
  title     = "A"
  wing_area = 120   ### "unknown-attribute: An aircraft has no attribute \"wing_area\". A number of the aircraft ends in its unit"
}
---
# a number of the aircraft with a dash, alone
aircraft "a" {
  title        = "A"
  wing-area_m2 = 120   ### "unknown-attribute: .*no dashes"
}
---
# attributes are missing
alert "a" {   ### "missing-attribute: An alert needs \"level\". Add a line level = " "missing-attribute: An alert needs \"message\"" "missing-attribute: An alert needs \"when\""
}
indication "b" {}   ### "missing-attribute: An indication needs \"shows\""
function "c" {}   ### "missing-attribute: A function needs \"works\""
event "d" {}   ### "missing-attribute: An event needs \"fails\""
control "e" {}   ### "missing-attribute: .*\"positions\"" "missing-attribute: .*\"initial\""
limit "f" {}   ### "missing-attribute: .*\"quantity\"" "incomplete: Limit \"f\" has no bound"
claim "g" {}   ### "missing-attribute: .*\"says\"" "missing-attribute: .*\"source\"" "incomplete: The claim expects nothing"
signal "h" {}   ### "missing-attribute: A signal needs \"value\""
phase "i" {}   ### "missing-attribute: A phase needs \"begins\""
---
# numbers of a flight are missing
flight "a" {   ### "needs \"fuel_kg\"" "needs \"distance_nm\"" "needs \"climb_mach\""
  takeoff_mass_kg    = 60000
  cruise_altitude_ft = 30000
  rotate_kt          = 140
  climb_kt           = 290
  descent_kt         = 290
  approach_kt        = 135
}
---
# attributes are missing in sub-blocks
procedure "a" {
  note {}   ### "missing-attribute: A note needs \"says\""
  later {   ### "missing-attribute: A later needs \"in\""
    says = "Then"
  }
}
claim "b" {
  says   = "b"
  source = "b"
  given {
    fail = [pump]
    also {}   ### "missing-attribute: An also needs \"fail\""
    act "move" {   ### "missing-attribute: An act needs \"set\"" "missing-attribute: An act needs \"when\""
      to = "on"
    }
  }
  expect = lost(brakes)
}
---
# a block without an id
unit {}   ### "label: The unit has no name. Write an id in quotes before the brace: unit \"…\" { … }."
---
# an act without a title
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
  act {   ### "label: The act has no name. Write a title"
    set  = lever
    to   = "on"
    when = climb
  }
}
---
# two names
unit "a" "b" {}   ### "label: The unit has one name too many"
---
# a step with a name
procedure "a" {
  note "b" {   ### "label: The note has one name too many. Write it as note { … }."
    says = "x"
  }
}
---
# capitals in an id
unit "Pump_2" {}   ### "bad-id: \"Pump_2\" is no id. .*Write \"pump_2\"\\."
signal "a" {
  value = Pump_2 && pump_2
}
---
# an id that differs in capitals only
unit "Pump" {}   ### "bad-id: \"Pump\" is no id, and hardly differs from \"pump\"\\. .*people can tell"
---
# a dash in an id
unit "pump-2" {}   ### "bad-id: \"pump-2\" is no id.*Write \"pump_2\""
---
# an id begins with a digit
unit "2_valve" {}   ### "bad-id: .*Write \"valve\""
---
# an empty id
unit "" {}   ### "bad-id: \"\" is no id"
---
# a word of the language as an id
signal "real" {   ### "bad-id: \"real\" cannot be an id"
  value = pump
}
---
# an id of another file
signal "pump" {   ### "duplicate: The id \"pump\" is there twice. It is already the id of a unit"
  value = pressure
}
---
# a fault twice
unit "a" {
  fault "stuck" {}
  fault "stuck" {}   ### "duplicate: Unit \"a\" has two faults \"stuck\""
}
---
# an entry twice in a list
event "a" {
  fails = [pump, pump.leaks, pump]   ### "duplicate: \"pump\" is in the list twice"
}
control "b" {
  positions = ["x", "y", "x"]   ### "duplicate: \"x\" is in the list twice"
  initial   = "x"
}
alert "c" {
  level    = "advisory"
  message  = "c"
  when     = pump
  quiet_in = [climb, climb]   ### "duplicate: \"climb\" is in the list twice"
}
---
# two then blocks
procedure "a" {
  decide {
    that = pump
    then {
      note {
        says = "x"
      }
    }
    then {   ### "duplicate: There are two then blocks"
      note {
        says = "y"
      }
    }
  }
}
---
# two aircraft blocks
aircraft "other" {   ### "no-aircraft: The book has two aircraft blocks"
  title = "Other"
}
---
# no aircraft block, alone
unit "a" {}
### whole "no-aircraft: The book has no aircraft block"
---
# a later waits for one thing
procedure "a" {
  later {   ### "missing-attribute: A later needs .in. or .when."
    says = "a"
  }
  later {   ### "contradiction: Both in and when are given"
    in   = climb
    when = seen.on_ground
    says = "a"
  }
}
---
# an act of every flight
act "move" {   ### "missing-attribute: An act needs \"when\""
  set = lever
  to  = "onn"   ### "unknown-word: Control \"lever\" has no position \"onn\". Did you mean \"on\""
}
act {   ### "label: The act has no name. Write a title"
  set  = lever
  to   = "on"
  when = climb
}
act "late" {
  set   = lever
  to    = "on"
  when  = climb
  after = 3   ### "unknown-attribute"
}
---
# a chapter after a block is no chapter of the file
unit "late" { title = "Late" }
chapter = 24   ### "unknown-attribute: \"chapter\" stands outside any block, and blocks stand before it. The chapter of a whole file is said once"
signal "of_late" { value = late }
---
# what is wrong with the chapter of a file is said once
chapter = 2.5   ### "not-a-number|whole"
unit "one" { title = "One" }
unit "two" { title = "Two" }
signal "of_both" { value = one && two }
---
# a block without a side has no other one
unit "middle" {
  mirror = true   ### "bad-mirror: The other side of this block has the same id"
  title  = "Middle"
}
signal "of_middle" { value = middle }
---
# mirrored or not: there is nothing to say no to
unit "pump_left" {
  mirror = false   ### "bad-mirror: \"mirror\" is false"
}
signal "of_pump" { value = pump_left }
---
# what is wrong with a mirrored block is said once, and what reads the other side is not blamed
unit "valve_left" {
  mirror = true
  needed = true   ### "unknown-attribute"
}
signal "of_valves" { value = valve_left && valve_right }
---
# the other side that stands there already
unit "gauge_left" {
  mirror = true
}
unit "gauge_right" {}   ### "duplicate"
signal "of_gauges" { value = gauge_left && gauge_right }
