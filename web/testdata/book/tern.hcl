# The Tern 2 is invented for the tests of the pages: a small aircraft in which
# every way of being told happens, each by one line.

aircraft "tern_2" {
  title = "Tern 2"
}

variant "plain" { title = "As first built" }
variant "told" { title = "With the fan watched" }

phase "taxi_out" { title = "Taxi out" }
phase "take_off" {
  title  = "Take-off"
  begins = real.on_ground && real.airspeed_kt > 40
}
phase "climb" {
  title  = "Climb"
  begins = real.height_ft > 1500
}
phase "cruise" {
  title  = "Cruise"
  begins = held(size(real.vertical_speed_ft_per_min) < 100, 20)
}
phase "descent" {
  title  = "Descent"
  begins = real.vertical_speed_ft_per_min < -200
}
phase "landing_roll" {
  title  = "Landing roll"
  begins = real.on_ground
}

flight "hop" {
  title              = "Across the sound"
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 31000
  fuel_kg            = 3000
  cruise_altitude_ft = 4000
  distance_nm        = 40
  rotate_kt          = 122
  climb_kt           = 240
  climb_mach         = 0.5
  descent_kt         = 240
  approach_kt        = 125
  taxi_out_min       = 2
  taxi_in_min        = 2
}

flight "leg" {
  title              = "To the far side"
  from               = "Here"
  to                 = "Elsewhere"
  takeoff_mass_kg    = 31000
  fuel_kg            = 4000
  cruise_altitude_ft = 12000
  distance_nm        = 150
  rotate_kt          = 122
  climb_kt           = 240
  climb_mach         = 0.5
  descent_kt         = 240
  approach_kt        = 125
}

unit "source_1" {
  title   = "First source"
  chapter = 24
}
unit "source_2" {
  not_modelled = "how its voltage <falls>"
  title   = "Second source"
  chapter = 24
  fault "surges" { title = "gives too much" }
}
unit "fan" {
  title   = "Cabin fan"
  chapter = 21
  needs   = source_1 || source_2
}
unit "brake_box" {
  title   = "Brake box <b>&amp;</b>" # what a page must not take for its own
  chapter = 32
  needs   = source_2
}
event "lightning" {
  title   = "Lightning strike"
  chapter = 24
  fails   = [source_1, source_2]
}
control "fan_switch" {
  title     = "Fan switch"
  chapter   = 21
  positions = ["off", "on"]
  initial   = "on"
}

function "cabin_air" {
  title    = "Air for the cabin"
  chapter  = 21
  works    = fan
  severity = "major"
}
function "brakes" {
  title    = "Wheel brakes, all wheels"
  chapter  = 32
  works    = brake_box
  severity = "hazardous"
}
function "steering" {
  title   = "Steering"
  chapter = 32
  works   = source_2
}
function "power" {
  title    = "Power from any source"
  chapter  = 24
  works    = source_1 || source_2
  severity = "catastrophic"
}

# Held back in the take-off and the landing roll: what the tests drag across.
alert "brakes_lost" {
  level    = "warning"
  message  = "Brakes lost"
  when     = !brake_box
  quiet_in = [take_off, landing_roll]
  tells    = [brakes]
}
alert "no_power" {
  level   = "caution"
  message = "No power"
  when    = !source_1 && !source_2
  tells   = [power]
}
alert "surge" {
  level     = "advisory"
  message   = "Surge"
  when      = source_2.surges
  true_when = source_2.surges && source_1
}
alert "fan_stopped" {
  only    = [told]
  level   = "advisory"
  message = "Fan stopped"
  when    = !fan
  tells   = [cabin_air]
}

indication "fan_lamp" {
  title = "Fan lamp"
  shows = fan_switch == "on"
  means = fan
}
indication "steering_mark" {
  title  = "Steering mark"
  shows  = steering
  means  = steering
}
indication "brake_gauge" {
  title  = "Brake gauge"
  shows  = brake_box
  means  = brake_box
  lit_by = source_2
}

claim "fan_goes_without_a_word" {
  says   = "With both sources gone the cabin fan stops, and nobody is told."
  source = "For the tests of the pages"
  given {
    inoperative = [source_1]
    fail        = [source_2]
    at          = "climb + 60 s"
  }
  expect = [lost(cabin_air), not_told(cabin_air)]
}
