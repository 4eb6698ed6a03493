# ATA 22, automatic flight: what the crew rely on, what they are told, what they see.

chapter = 22

function "autopilot_flying" {
  title    = "Autopilot"
  works    = autopilot_on
  wanted   = climb || cruise || descent || approach
  severity = "minor"
  noticed_when   = held(any_flight_display && !autopilot_on, 30) # in trim nobody feels it
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "second_autopilot" {
  title    = "A second autopilot"
  works    = autopilot_1 && autopilot_2
  severity = "minor"
}

function "guidance_left" {
  title    = "Flight director, left"
  works    = guidance_1 && left_flight_picture
  wanted   = first_climb || climb || cruise || descent || approach || final
  severity = "minor"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "guidance_right" {
  title    = "Flight director, right"
  works    = guidance_2 && right_flight_picture
  wanted   = first_climb || climb || cruise || descent || approach || final
  severity = "minor"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "pitch_in_trim" {
  title    = "Pitch trim that follows"
  works    = trim_motor && !out_of_trim
  wanted   = climb || cruise || descent || approach
  severity = "minor"
}

function "yaw_damping" {
  title    = "Yaw damping"
  works    = yaw_damper_1 || yaw_damper_2
  wanted   = climb || cruise || descent
  severity = "major"
  noticed_when   = held(real.altitude_ft > 24000 && !yaw_damping, 60)
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "speed_hold" {
  title    = "Thrust that holds the speed"
  works    = autothrottle_on && !flare_believed && !lever_motor.slips
  wanted   = (first_climb || climb || cruise || descent || approach || final) && autothrottle_switch == "on"
  severity = "minor"
}

# Thrust within reach of what the flight needs: the sum of what the autothrottle
# does and of what the crew do when it does not.
function "thrust_fits" {
  over_on_purpose = "Hands off nobody moves the levers; that the autothrottle is off is told, and a pilot moves them."
  title    = "Thrust that fits the flight"
  works    = thrust_levers == "moved by hand" || size(thrust_asked_pct - real.thrust_pct) < 15
  wanted   = lift_off || first_climb || climb || cruise || descent || approach || final
  severity = "hazardous"
  noticed_when   = any_flight_display && ((approach || final) && held(!thrust_fits, 15) || held(!thrust_fits, 60)) # a speed that runs away from what was set
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "thrust_for_flare" {
  title    = "Thrust closed for the flare, and only then"
  works    = autothrottle_able && radio_height_trusted && height_for_boxes_good && !flare_believed
  wanted   = (approach || final) && autothrottle_switch == "on" # else the pilot closes it
  severity = "major"
  over_on_purpose = "Hands off nobody closes the thrust; that the autothrottle is off is told, and a pilot closes it."
}

function "approach_guidance" {
  title    = "Guidance along the localiser and glide path"
  works    = (guidance_1 || guidance_2) && (landing_receiver_1 || landing_receiver_2) && (beam_captured || route_computed)
  wanted   = approach || final
  severity = "major"
}

# Three sorts of approach. Low: the aircraft flies itself down to a low decision height and every part of it is doubled.
# Standard: one of each. Basic: a pilot with needles and a picture.
function "approach_low" {
  title   = "Approach to low minima"
  works = all(autopilot_able, autopilot_1, autopilot_2, landing_receiver_1, landing_receiver_2, both_radio_heights_right,
    inertial_1, inertial_2, autothrottle_able, two_ac_sources, control_computer_1, control_computer_2, yaw_damping, voice,
  approach_guidance, airspeed_by_majority)
  wanted   = approach || final
  severity = "minor"
}

function "approach_standard" {
  title    = "Approach to standard minima"
  works    = approach_guidance && height_for_boxes_good && any_attitude && (left_flight_picture || right_flight_picture)
  wanted   = approach || final
  severity = "major"
}

function "approach_basic" {
  title    = "Approach by VOR and DME"
  works    = (approach_guidance || beacon_navigation) && any_attitude
  wanted   = approach || final
  severity = "major"
}

alert "autopilot_off" {
  title     = "Autopilot off"
  level     = "warning"
  message   = "Autopilot has disengaged"
  when      = autopilot_let_go
  repeats_s = 8
  tells     = [autopilot_flying]
  procedure = autopilot_off_drill
}

# Repeats every half minute until somebody takes the levers or switches off.
alert "thrust_unmoved_alert" {
  title     = "Thrust no longer controlled"
  level     = "caution"
  message   = "Thrust is no longer controlled: set it by hand"
  when      = thrust_unmoved
  repeats_s = 30
  until     = thrust_levers == "moved by hand" || autothrottle_switch == "off"
  tells     = [speed_hold, thrust_fits]
  procedure = thrust_unmoved_drill
}

alert "trim_stuck" {
  title     = "Pitch trim does not move"
  level     = "caution"
  message   = "Pitch trim does not move"
  when      = held(!trim_motor && autopilot_on, 20)
  quiet_in  = [take_off_roll, take_off_fast, lift_off, landing_roll]
  tells     = [pitch_in_trim]
  procedure = trim_stuck_drill
}

alert "yaw_dampers_off" {
  title     = "Yaw dampers off"
  level     = "caution"
  message   = "Both yaw dampers off"
  when      = !yaw_damper_1 && !yaw_damper_2
  quiet_in  = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells     = [yaw_damping]
  procedure = yaw_dampers_off_drill
}

alert "guidance_off" {
  title     = "Flight director off"
  level     = "caution"
  message   = "No flight director"
  when      = !guidance_1 && !guidance_2
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [guidance_left, guidance_right, approach_guidance]
  procedure = guidance_off_drill
}

alert "second_autopilot_off" {
  title      = "One autopilot off"
  level      = "advisory"
  message    = "One autopilot left"
  when       = held(autopilot_1 != autopilot_2, 5)
  quiet_in   = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost
  tells      = [second_autopilot]
}

# Held back until the approach: told late by design, because it is a question for
# the approach briefing. The crew who brief early do not hear it.
alert "low_minima_lost" {
  title     = "Low minima lost"
  level     = "caution"
  message   = "Low minima lost"
  when      = minima_believed != "low" || !voice || !yaw_damping
  true_when = minima_true != "low"
  quiet_in  = [taxi_out, take_off_roll, take_off_fast, lift_off, first_climb, climb, cruise, landing_roll, taxi_in]
  tells     = [approach_low, approach_standard, approach_guidance]
  procedure = low_minima_lost_drill
  variant "first_series" { when = minima_believed != "low" }
}
indication "autopilot_label" {
  title   = "Autopilot label"
  shows   = autopilot_on
  means   = autopilot_on
  lit_by  = left_flight_picture || right_flight_picture
  place   = "top of the flight displays"
  tells   = [autopilot_flying]
}
indication "autopilot_ready_label" {
  title   = "Autopilot panel: an autopilot can be engaged"
  shows   = autopilot_able
  means   = autopilot_able
  lit_by  = autopilot_panel
  place   = "glare shield"
}
indication "thrust_label" {
  title   = "Autothrottle label"
  shows   = thrust_mode
  means   = autothrottle_on && lever_motor.slips ? "turns in vain" : thrust_mode
  lit_by  = left_flight_picture || right_flight_picture
  place   = "top of the flight displays"
  tells   = [speed_hold, thrust_for_flare]
}

# A plain lamp in the switch, older than the label: on is what was asked for.
indication "autothrottle_lamp" {
  title   = "Autothrottle switch lamp"
  shows   = autothrottle_switch == "on"
  means   = speed_hold
  lit_by  = dc_vital
  place   = "glare shield"
}
indication "minima_label" {
  title   = "Lowest minima label"
  shows   = approach || final ? minima_believed : ""
  means   = approach || final ? minima_true : ""
  lit_by  = left_flight_picture || right_flight_picture
  place   = "top of the flight displays"
  tells   = [approach_low, approach_standard, approach_basic]
}
indication "beam_captured_label" {
  title   = "ILS label"
  shows   = beam_captured ? "on the beam" : receivers_tuned ? "armed" : ""
  means   = beam_captured ? "on the beam" : receivers_tuned ? "armed" : ""
  lit_by  = left_flight_picture || right_flight_picture
  place   = "top of the flight displays"
  tells   = [approach_guidance]
}
indication "bars_left" {
  title   = "Flight director, left"
  shows   = guidance_1
  means   = guidance_1
  lit_by  = left_flight_picture
  place   = "left outer screen"
  tells   = [guidance_left]
}
indication "bars_right" {
  title   = "Flight director, right"
  shows   = guidance_2
  means   = guidance_2
  lit_by  = right_flight_picture
  place   = "right outer screen"
  tells   = [guidance_right]
}
indication "yaw_lamp" {
  title   = "Yaw damper button lamp"
  shows   = !yaw_damper_1 && !yaw_damper_2
  means   = !yaw_damper_1 && !yaw_damper_2
  lit_by  = lamp_power_left
  place   = "overhead panel, left half"
  tells   = [yaw_damping]
}
indication "trim_wheel" {
  title   = "Pitch trim wheel: turns"
  shows   = trim_motor
  means   = trim_motor
  place   = "centre pedestal"
  tells   = [pitch_in_trim]
}
indication "thrust_lever_angle" {
  title   = "Thrust asked by the levers"
  shows   = thrust_asked_pct
  means   = thrust_asked_pct
  within  = 3
  place   = "centre pedestal"
  tells   = [thrust_fits]
}
