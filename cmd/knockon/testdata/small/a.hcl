aircraft "test" { title = "Test aircraft" }
phase "early" { title = "Early" }
phase "late" {
  title  = "Late"
  begins = real.on_ground && real.time_s > 100 || real.height_ft > 500
}
flight "hop" {
  from = "A"
  to   = "B"
  takeoff_mass_kg = 30000
  fuel_kg = 5000
  cruise_altitude_ft = 4000
  distance_nm = 25
  rotate_kt = 130
  climb_kt = 250
  climb_mach = 0.7
  descent_kt = 250
  approach_kt = 130
}
control "lever" {
  title     = "Lever"
  positions = ["up", "down"]
  initial   = "down"
}
unit "pump_1" { title = "Pump 1" }
unit "pump_2" { title = "Pump 2" }
function "brakes" {
  title    = "Wheel brakes"
  severity = "hazardous"
  works    = (pump_1 || pump_2) && lever == "down"
  wanted   = real.braking
}
alert "pump_low" {
  level     = "caution"
  message   = "Pump low"
  when      = !pump_1
  procedure = pump_list
}
procedure "pump_list" {
  title = "Pump low"
  do {
    set = lever
    to  = "up"
  }
  do { says = "Tell the cabin" }
}
claim "pumps" {
  says   = "Both pumps take the brakes."
  source = "Test manual (fictional)"
  given {
    fail = [pump_1, pump_2]
    at   = "early"
  }
  expect = [lost(brakes)]
}
