# ATA 49, auxiliary power unit (APU): a small engine in the tail that turns a generator and gives bleed air. It starts
# from a battery of its own, so that a dead aircraft can still be woken, and it is off in ordinary flight.

chapter = 49

control "apu_switch" {
  title     = "APU switch"
  positions = ["off", "run"]
  initial   = "off"
  place     = "overhead panel"
}

unit "apu_control" {
  title         = "APU control unit"
  needs         = dc_direct
  rate_per_hour = 2e-5
  checked_every_h = 10
  place         = "tail"
}

unit "apu_starter" {
  title         = "APU starter motor"
  needs         = battery_apu
  rate_per_hour = 5e-5
  checked_every_h = 10
  place         = "tail"
}

unit "apu_inlet" {
  title         = "APU air inlet door"
  needs         = battery_apu || dc_right
  rate_per_hour = 2e-5
  checked_every_h = 10
  place         = "tail"
}

signal "apu_fit" {
  title   = "Nothing keeps the APU from running"
  value   = !failed(apu) && apu_control && apu_inlet && fuel_feed_apu && fire_handle_apu == "in"
}

# Forty seconds of cranking, below 25,000 ft. Once alight it runs by itself, and higher.
signal "apu_alight" {
  title   = "The APU is alight"
  set     = held(apu_fit && apu_starter && apu_switch == "run" && real.altitude_ft < aircraft.apu_light_up_ft, 40)
  reset   = !apu_fit || apu_switch == "off"
}

unit "apu" {
  title         = "Auxiliary power unit"
  needs         = apu_alight
  rate_per_hour = 2e-4
  checked_every_h = 10
  place         = "tail"
}

# Off, but there: what counts is that it would start. Nothing on the first series says that it would not.
function "apu_start" {
  title    = "An APU that would start"
  works    = apu || (apu_fit && apu_starter)
  wanted   = climb || descent || approach
  severity = "minor"
}

function "apu_power" {
  title    = "AC power from the APU"
  works    = apu_gen
  wanted   = apu_switch == "run"
  severity = "major"
}

alert "apu_no_start" {
  title     = "APU did not start"
  level     = "caution"
  message   = "APU did not start"
  when      = held(apu_switch == "run" && !apu, 70)
  given_by  = alerting && data_unit_2
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [apu_power, apu_start]
  procedure = apu_no_start_drill
}

alert "apu_fault_waiting" {
  title    = "APU not ready"
  except   = [first_series]
  level    = "advisory"
  message  = "APU not ready"
  when     = held(!apu_fit || !apu_starter, 20)
  given_by = alerting && data_unit_2
  quiet_in = [take_off_roll, take_off_fast, lift_off, first_climb, final, landing_roll]
  tells    = [apu_start]
}
indication "apu_lamp" {
  title   = "APU switch: running lamp"
  shows   = apu
  means   = apu
  lit_by  = lamp_power_right
  place   = "overhead panel, right half"
  tells   = [apu_power]
}
indication "apu_speed" {
  title   = "APU speed"
  shows   = apu ? 100 : 0
  means   = apu ? 100 : 0
  within  = 5
  lit_by  = system_picture && data_unit_2
  place   = "APU picture"
  tells   = [apu_power]
}
indication "apu_inlet_label" {
  title   = "APU inlet door label"
  shows   = apu_switch == "run" && apu_inlet ? "open" : "closed"
  means   = apu_switch == "run" && apu_inlet ? "open" : "closed"
  lit_by  = system_picture && data_unit_2
  place   = "APU picture"
}
