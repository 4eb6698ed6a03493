# ATA 27, what jams, and what moves by itself. The sticks are coupled, and the coupling parts
# when one of them is pulled hard; each then moves the half of its own side (14 CFR
# 25.671(c)(3)). A servo that drives hard over is cut by a monitor, or else by hand, with all surfaces of its pressure;
# left alone it takes the travel of the half that still obeys, and nothing is left to steer with. Trim that runs moves
# a quarter of a degree a second. Up to three degrees the stick is light enough, up to six the elevator holds it, and
# half an elevator holds three (common practice: round numbers for a jet of this size).

chapter = 27

unit "stick_left" {
  mirror = true
  title  = "Left pilot's stick and its linkage"
  not_modelled = "Where a stick jams is not worked out: it counts as jammed near neutral, with all that the other one needs left."
  place  = "under the flight deck floor"
  fault "jams" {
    title         = "jams: the coupling parts when the other stick is pulled"
    rate_per_hour = 1e-7
  }
}

unit "surface_monitor" {
  title           = "Monitor that cuts a servo which moves by itself"
  needs           = control_computer_1 || control_computer_2
  rate_per_hour   = 1e-5
  checked_every_h = 10
  place           = "electronics bay, between the racks"
}

control "trim_cut_switch" {
  title     = "Trim motor 1 stop switch"
  positions = ["running", "stopped"]
  initial   = "running"
  place     = "centre pedestal"
}

signal "trim_runs" {
  title   = "Trim motor 1 runs by itself"
  value   = trim_motor_1 && trim_motor_1.runs
}

signal "drives_left" {
  title   = "A servo on left pressure drives a surface hard over"
  value   = !surface_monitor && surface_pressure_left && any(elevator_left_servo.drives, aileron_left_servo.drives, rudder_upper_servo.drives)
}

signal "drives_right" {
  title   = "A servo on right pressure drives a surface hard over"
  value   = !surface_monitor && surface_pressure_right && any(elevator_right_servo.drives, aileron_right_servo.drives, rudder_lower_servo.drives)
}

# Motor 2 brings it back in half a minute.
signal "trim_far" {
  title   = "The stabiliser stands where the stick has to be held"
  set     = held(trim_runs, 12)
  reset   = held(!trim_runs && pitch_trim, 30)
}

signal "trim_full" {
  title   = "The stabiliser stands beyond what the whole elevator can hold"
  set     = held(trim_runs, 24)
  reset   = !trim_far
}

signal "driven_over" {
  title   = "A servo drives a surface hard over, or spoilers rise by themselves"
  value   = any(elevator_left_servo.drives, elevator_right_servo.drives, aileron_left_servo.drives, aileron_right_servo.drives, rudder_upper_servo.drives, rudder_lower_servo.drives, spoilers_inner.rise, spoilers_outer.rise)
}

function "surfaces_obey" {
  title    = "Surfaces that obey"
  works    = !drives_left && !drives_right
  severity = "catastrophic"
  noticed_at_once = true
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "surfaces_whole" {
  title    = "Both sticks, and both halves of every surface"
  works    = !driven_over && !any(stick_left.jams, stick_right.jams, elevator_left_servo.jams, elevator_right_servo.jams, aileron_left_servo.jams, aileron_right_servo.jams)
  severity = "major"
  noticed_when   = driven_over || (taxi_out || !real.on_ground && !autopilot_on) && !surfaces_whole # checked in the taxi; near neutral the autopilot hides a jam
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "trim_held" {
  title    = "Trim where the stick is light"
  works    = !trim_far
  severity = "major"
  noticed_at_once = true
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "trim_in_reach" {
  title    = "Trim that the elevator can hold"
  works    = !trim_full && !(trim_far && !(elevator_left_servo && elevator_right_servo))
  severity = "catastrophic"
  over_on_purpose = "Hands off nobody cuts the motor; that it runs is a warning, and by the list it is cut within ten seconds."
  noticed_at_once = true
  noticed_by     = "felt"
  noticed_source = "common practice"
}

alert "surface_drives_left" {
  mirror    = true
  title     = "A surface is driven over by left pressure"
  level     = "warning"
  message   = "Surface driven over by left pressure"
  when      = held(drives_left, 1)
  given_by  = warned_direct
  tells     = [surfaces_obey]
  procedure = surface_drives_list
}

alert "surface_off" {
  title     = "A control surface does not follow"
  level     = "caution"
  message   = "A control surface does not follow"
  when      = held(!surfaces_whole, 1)
  quiet_in  = [take_off_fast, lift_off]
  tells     = [surfaces_whole, surfaces_obey]
  procedure = surface_list
}

alert "trim_runs_away" {
  title     = "Trim runs on its own"
  level     = "warning"
  message   = "Trim runs on its own"
  when      = held(trim_runs, 1)
  given_by  = warned_direct
  tells     = [trim_held, trim_in_reach]
  procedure = trim_runs_list
}

alert "stick_sensors_lost" {
  title    = "Sensors of one stick lost"
  level    = "advisory"
  message  = "Sensors of one stick are lost"
  when     = held(stick_sensors_left != stick_sensors_right, 2)
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
}
