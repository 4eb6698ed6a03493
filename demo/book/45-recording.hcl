# ATA 45 and 31-30, recording: what the aircraft remembers for those on the ground.

chapter = 45

unit "flight_recorder" {
  title         = "Flight recorder"
  needs         = ac_right
  rate_per_hour = 3e-5
  place         = "tail"
}

unit "voice_recorder" {
  title         = "Voice recorder"
  needs         = dc_vital
  rate_per_hour = 3e-5
  checked_every_h = 10
  place         = "tail"
}

unit "area_microphone" {
  title         = "Flight deck area microphone"
  needs         = dc_vital
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "overhead panel"
}

unit "fault_memory" {
  title         = "Fault memory"
  needs         = dc_left
  rate_per_hour = 4e-5
  checked_every_h = 600
  place         = "electronics bay, left rack"
}

# The recorder needs the data units for most of what it writes down.
function "flight_recording" {
  title    = "Recording of the flight"
  works    = flight_recorder && (data_unit_1 || data_unit_2)
  severity = "minor"
}

function "voice_recording" {
  title    = "Recording of the voices"
  works    = voice_recorder && area_microphone
  severity = "minor"
}

# The mechanics find out when they read it, and it is empty. Nothing tells the crew.
function "fault_recording" {
  title    = "Memory of faults for the mechanics"
  works    = fault_memory && data_unit_1 && data_unit_2
  severity = "minor"
}

alert "flight_recorder_off" {
  title    = "The flight is not recorded"
  level    = "advisory"
  message  = "The flight is not recorded"
  when     = held(!flight_recorder, 10)
  given_by = alerting && data_unit_2
  quiet_in = [take_off_roll, take_off_fast, lift_off, first_climb, climb, approach, final, landing_roll]
  tells    = [flight_recording]
}
indication "flight_recorder_lamp" {
  title   = "Flight recorder lamp"
  shows   = !flight_recorder
  means   = !flight_recording
  lit_by  = lamp_power_right
  place   = "overhead panel, right half"
}
indication "voice_test_needle" {
  title   = "Voice recorder test needle"
  shows   = voice_recorder && area_microphone
  means   = voice_recording
  lit_by  = dc_vital
  place   = "overhead panel, centre"
}
