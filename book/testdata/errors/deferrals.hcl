# a deferral that says everything
unit "fan" {}
unit "horn" {}
signal "noise" {
  value = fan || horn
}
deferral "fan_out" {
  items             = [fan, pump.leaks]
  category          = "A"
  days              = 2
  words_crew        = "Listen."
  words_maintenance = "Collar the breaker."
  only_if           = !all(failed(fan), pump.leaks) && flight.fuel_kg > 2 * 1000 && aircraft.wing_area_m2 > 50
  most_altitude_ft  = 25000
  no_icing          = true
  source            = "Example list, 21-1, revision 1, 2026-11-01"
  set_up "Lever off" {
    set = lever
    to  = "off"
  }
}
deferral "horn_out" {
  items    = [horn]
  category = "D"
  not_with = [fan_out]
}
---
# what must be there
deferral "a" {   ### "missing-attribute: A deferral needs \"items\""
  category = "C"
}
deferral "b" {   ### "missing-attribute: A deferral needs \"category\""
  items = [pump]
}
---
# items that are none
deferral "a" {
  items = [
    pumq,   ### "unknown-id: No unit is called \"pumq\". Did you mean \"pump\""
    burst,   ### "wrong-kind: \"burst\" is an event, not a unit"
    pump.leeks,   ### "unknown-fault: Unit \"pump\" has no fault \"leeks\". Did you mean \"leaks\""
    brakes,   ### "wrong-kind: \"brakes\" is a function, not a unit"
  ]
  category = "C"
}
---
# an item twice
deferral "a" {
  items    = [pump, pump]   ### "duplicate: \"pump\" is in the list twice"
  category = "C"
}
---
# no items
deferral "a" {
  items    = []   ### "incomplete: The list \"items\" is empty"
  category = "C"
}
---
# category A without days
deferral "a" {   ### "missing-attribute: Deferral \"a\" is of category A and does not say for how many days. Add a line days"
  items    = [pump]
  category = "A"
}
---
# days of a category that has its own
deferral "a" {
  items    = [pump]
  category = "C"
  days     = 5   ### "contradiction: Category C has days of its own. It is 10 days"
}
---
# a category that does not exist
deferral "a" {
  items    = [pump]
  category = "E"   ### "unknown-word: .*\"E\".*"
}
---
# days that are none
deferral "a" {
  items    = [pump]
  category = "A"
  days     = 0   ### "out-of-range: "
}
---
# only_if reads what nobody knows before the flight
deferral "a" {
  items    = [pump]
  category = "C"
  only_if = (
    brakes   ### "not-beforehand: brakes is not known before the flight. only_if may read"
    || real.on_ground   ### "not-beforehand: real.on_ground is not known before the flight"
    || held(failed(pump), 2)   ### "not-beforehand: held.failed.pump., 2. is not known"
    || seen.icing   ### "not-beforehand: seen.icing is not known"
    || lever == "on"   ### "not-beforehand: lever is not known"
    || pump   ### "not-beforehand: pump is not known"
  )
}
---
# only_if is a yes/no
deferral "a" {
  items    = [pump]
  category = "C"
  only_if  = flight.fuel_kg   ### "wrong-type: "
}
---
# a number of the flight that there is not
deferral "a" {
  items    = [pump]
  category = "C"
  only_if  = flight.fuel_lb > 3   ### "unknown-fact: A flight has no number"
}
---
# a deferral that excludes itself
deferral "a" {   ### "contradiction: Deferral \"a\" excludes itself"
  items    = [pump]
  category = "C"
  not_with = [a]
}
---
# excluded is a deferral
deferral "a" {
  items    = [pump]
  category = "C"
  not_with = [pump]   ### "wrong-kind: \"pump\" is a unit, not a deferral"
}
---
# a set-up holds from the start, and stays
deferral "a" {
  items    = [pump]
  category = "C"
  set_up "Later" {   ### "contradiction: A deferral's set-up holds from the start"
    set = lever
    to  = "off"
    at  = "climb"
  }
  set_up "Again" {   ### "contradiction: The deferral sets \"lever\" twice"
    set = lever
    to  = "on"
  }
}
---
# a cap below the ground
deferral "a" {
  items            = [pump]
  category         = "C"
  most_altitude_ft = 100   ### "out-of-range: "
}
---
# a source on any block, and a text
unit "fan" {
  source = "Made-up drawing, 21-3, revision 4, 2026-01-02"
}
signal "noise" {
  value  = fan
  source = fan   ### "wrong-value: "
}
