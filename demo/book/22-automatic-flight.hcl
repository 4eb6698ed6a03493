# ATA 22, automatic flight: two autopilots, one autothrottle, two yaw dampers.
#
# An autopilot is a chain: it must know its attitude and its speed, and it must be
# able to move the surfaces. Break any link and it lets go. What it does when it
# lets go, and what the crew are told then, is the heart of this chapter.

# --------------------------------------------------------------------- units

unit "autopilot_1" {
  title         = "Autopilot 1"
  chapter       = 22
  needs         = dc_vital && inertial_1 && air_data_1
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

unit "autopilot_2" {
  title         = "Autopilot 2"
  chapter       = 22
  needs         = dc_right && inertial_2 && air_data_2
  rate_per_hour = 4e-5
  place         = "electronics bay, right rack"
}

# Both autopilots push through the same two servo motors, and those hang on the
# right DC bus: two boxes are not two autopilots.
unit "servo_pitch" {
  title         = "Pitch servo motor"
  chapter       = 22
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "tail"
}

unit "servo_roll" {
  title         = "Roll servo motor"
  chapter       = 22
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "left wing root"
}

unit "guidance_1" {
  title         = "Guidance computer 1"
  chapter       = 22
  needs         = dc_vital && inertial_1 && air_data_1
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

unit "guidance_2" {
  title         = "Guidance computer 2"
  chapter       = 22
  needs         = dc_right && inertial_2 && air_data_2
  rate_per_hour = 4e-5
  place         = "electronics bay, right rack"
}

unit "mode_panel" {
  title         = "Mode panel"
  chapter       = 22
  needs         = dc_vital || dc_right
  rate_per_hour = 2e-5
  place         = "glare shield"
}

unit "trim_motor" {
  title         = "Automatic pitch trim motor"
  chapter       = 22
  needs         = ac_vital || ac_right
  rate_per_hour = 3e-5
  place         = "tail"
}

unit "yaw_damper_1" {
  title         = "Yaw damper 1"
  chapter       = 22
  needs         = dc_vital && inertial_1
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "yaw_damper_2" {
  title         = "Yaw damper 2"
  chapter       = 22
  needs         = dc_right && inertial_2
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "autothrottle_box" {
  title         = "Autothrottle computer"
  chapter       = 22
  needs         = dc_left && (air_data_1 || air_data_2)
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

unit "lever_motor" {
  title         = "Thrust lever motor"
  chapter       = 22
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "centre pedestal"
  fault "slips" {
    title         = "turns but does not move the levers"
    rate_per_hour = 3e-6
  }
}

# ------------------------------------------------------------------ controls

control "autopilot_button" {
  title     = "Autopilot button"
  chapter   = 22
  positions = ["off", "on"]
  initial   = "off"
  place     = "glare shield"
}

control "autothrottle_switch" {
  title     = "Autothrottle switch"
  chapter   = 22
  positions = ["off", "on"]
  initial   = "off"
  place     = "glare shield"
}

control "approach_button" {
  title     = "Approach button"
  chapter   = 22
  positions = ["off", "armed"]
  initial   = "off"
  place     = "glare shield"
}

control "thrust_levers" {
  title     = "Thrust levers"
  chapter   = 22
  positions = ["left where they are", "moved by hand"]
  initial   = "left where they are"
  place     = "centre pedestal"
}

# ----------------------------------------------------------------- autopilot

signal "autopilot_able" {
  title   = "An autopilot could fly"
  chapter = 22
  value   = (autopilot_1 || autopilot_2) && servo_pitch && servo_roll && mode_panel && (control_computer_1 || control_computer_2)
}

# It is engaged by the press of the button, not by the button being on: one that
# has let go does not come back by itself.
signal "autopilot_on" {
  title   = "The autopilot is engaged"
  chapter = 22
  set     = autopilot_button == "on" && before(autopilot_button) == "off" && autopilot_able
  reset   = !autopilot_able || autopilot_button == "off" || airspeeds_disagree
}

signal "autopilot_let_go" {
  title   = "The autopilot let go by itself"
  chapter = 22
  set     = before(autopilot_on) && !autopilot_on && autopilot_button == "on"
  reset   = autopilot_button == "off"
}

# With the trim motor dead the autopilot holds the elevator against a growing load,
# and hands that load to the pilot in one piece when it lets go.
signal "out_of_trim" {
  title   = "The aircraft is flown out of trim"
  chapter = 22
  value   = held(autopilot_on && !trim_motor, 90)
}

# -------------------------------------------------------------- autothrottle

signal "autothrottle_able" {
  title   = "The autothrottle could work"
  chapter = 22
  value   = autothrottle_box && lever_motor
}

signal "autothrottle_on" {
  title   = "The autothrottle is engaged"
  chapter = 22
  set     = autothrottle_switch == "on" && before(autothrottle_switch) == "off" && autothrottle_able
  reset   = !autothrottle_able || autothrottle_switch == "off"
}

# When the autothrottle lets go by itself the thrust stays where it was, and stays
# there until somebody moves the levers or switches it off. In a climb that is too
# much thrust for the cruise; in a descent it is too little for the level-off.
signal "thrust_locked" {
  title   = "The thrust is locked where it was"
  chapter = 22
  set     = before(autothrottle_on) && !autothrottle_on && autothrottle_switch == "on"
  reset   = thrust_levers == "moved by hand" || autothrottle_switch == "off"
}

# Near the ground the autothrottle closes the levers for the flare. It knows "near
# the ground" from the radio height that the boxes use, once the approach is armed.
signal "flare_believed" {
  title   = "The autothrottle believes that the aircraft flares"
  chapter = 22
  value   = autothrottle_on && radio_height_trusted && height_for_boxes_ft < 30 && approach_button == "armed"
}

signal "thrust_asked_pct" {
  title   = "Thrust that the levers ask for"
  chapter = 22
  value   = (flare_believed ? 5 : frozen(real.thrust_pct, thrust_locked || (autothrottle_on && lever_motor.slips)))
}

signal "thrust_mode" {
  title   = "What the autothrottle does"
  chapter = 22
  value = (!autothrottle_on ? (thrust_locked ? "locked" : "off")
    : flare_believed ? "closes for the flare"
  : "holds the speed")
}

# --------------------------------------------------------------- the approach

# Captured: the guidance has seen the beam and follows it. From then on it needs
# the receivers only. The route computers, which tuned them, may die; before the
# capture they may not.
signal "beam_captured" {
  title   = "The guidance follows the landing beam"
  chapter = 22
  set     = approach_button == "armed" && beam_received && real.on_glide_path && (guidance_1 || guidance_2)
  reset   = approach_button == "off" || !beam_received || (!guidance_1 && !guidance_2)
}

# What the guidance computers think the approach may be. They look at their own
# friends only: sensors, receivers, autopilots. They know nothing of the voice unit,
# of the yaw dampers or of a radio altimeter that lies.
signal "capability_believed" {
  title   = "Approach capability as computed"
  chapter = 22
  value = (!(guidance_1 || guidance_2) ? "none"
    : autopilot_able && autopilot_1 && autopilot_2 && landing_receiver_1 && landing_receiver_2 && radio_alt_1 && radio_alt_2 && autothrottle_able ? "low"
    : (landing_receiver_1 || landing_receiver_2) && (radio_alt_1 || radio_alt_2) ? "standard"
  : "basic")
}

signal "capability_true" {
  title   = "Approach capability in truth"
  chapter = 22
  value = (approach_low ? "low"
    : approach_standard ? "standard"
    : approach_basic ? "basic"
  : "none")
}

# ----------------------------------------------------------------- functions

function "autopilot_flying" {
  title    = "Autopilot"
  chapter  = 22
  works    = autopilot_on
  wanted   = climb || cruise || descent || approach
  severity = "minor"
}

function "second_autopilot" {
  title    = "A second autopilot"
  chapter  = 22
  works    = autopilot_1 && autopilot_2
  severity = "minor"
}

function "guidance_left" {
  title    = "Guidance bars, left"
  chapter  = 22
  works    = guidance_1 && left_flight_picture
  wanted   = first_climb || climb || cruise || descent || approach || final
  severity = "minor"
}

function "guidance_right" {
  title    = "Guidance bars, right"
  chapter  = 22
  works    = guidance_2 && right_flight_picture
  wanted   = first_climb || climb || cruise || descent || approach || final
  severity = "minor"
}

function "pitch_in_trim" {
  title    = "Pitch trim that follows"
  chapter  = 22
  works    = trim_motor && !out_of_trim
  wanted   = climb || cruise || descent || approach
  severity = "major"
}

function "yaw_damping" {
  title    = "Yaw damping"
  chapter  = 22
  works    = yaw_damper_1 || yaw_damper_2
  wanted   = climb || cruise || descent
  severity = "major"
}

function "speed_hold" {
  title    = "Thrust that holds the speed"
  chapter  = 22
  works    = autothrottle_on && !flare_believed && !lever_motor.slips
  wanted   = (first_climb || climb || cruise || descent || approach || final) && autothrottle_switch == "on"
  severity = "major"
}

# Thrust within reach of what the flight needs: the sum of what the autothrottle
# does and of what the crew do when it does not.
function "thrust_fits" {
  title    = "Thrust that fits the flight"
  chapter  = 22
  works    = thrust_levers == "moved by hand" || size(thrust_asked_pct - real.thrust_pct) < 15
  wanted   = lift_off || first_climb || climb || cruise || descent || approach || final
  severity = "hazardous"
}

function "thrust_for_flare" {
  title    = "Thrust closed for the flare, and only then"
  chapter  = 22
  works    = autothrottle_able && height_for_boxes_good && !flare_believed
  wanted   = approach || final
  severity = "major"
}

function "approach_guidance" {
  title    = "Guidance along the landing beam"
  chapter  = 22
  works    = (guidance_1 || guidance_2) && (landing_receiver_1 || landing_receiver_2) && (beam_captured || route_computed)
  wanted   = approach || final
  severity = "hazardous"
}

# Three sorts of approach. Low: the aircraft flies itself down to a low decision
# height and every part of it is doubled. Standard: one of each. Basic: a pilot with
# needles and a picture.
function "approach_low" {
  title   = "Approach to low minima"
  chapter = 22
  works = all(autopilot_able, autopilot_1, autopilot_2, landing_receiver_1, landing_receiver_2, radio_alt_1, radio_alt_2, height_for_boxes_good,
    inertial_1, inertial_2, autothrottle_able, two_ac_sources, control_computer_1, control_computer_2, yaw_damping, voice,
  approach_guidance, airspeed_by_majority)
  wanted   = approach || final
  severity = "minor"
}

function "approach_standard" {
  title    = "Approach to standard minima"
  chapter  = 22
  works    = approach_guidance && height_for_boxes_good && any_attitude && (left_flight_picture || right_flight_picture)
  wanted   = approach || final
  severity = "major"
}

function "approach_basic" {
  title    = "Approach by beacons and needles"
  chapter  = 22
  works    = (approach_guidance || beacon_navigation) && any_attitude
  wanted   = approach || final
  severity = "hazardous"
}

# ------------------------------------------------------------------- alerts

alert "autopilot_off" {
  title     = "Autopilot off"
  chapter   = 22
  level     = "warning"
  message   = "Autopilot has let go"
  when      = autopilot_let_go
  repeats_s = 8
  tells     = [autopilot_flying]
  procedure = autopilot_off_drill
}

# Repeats every half minute until somebody takes the levers or switches off.
alert "thrust_locked_alert" {
  title     = "Thrust locked"
  chapter   = 22
  level     = "caution"
  message   = "Thrust locked: move the levers"
  when      = thrust_locked
  repeats_s = 30
  until     = thrust_levers == "moved by hand" || autothrottle_switch == "off"
  tells     = [speed_hold, thrust_fits]
  procedure = thrust_locked_drill
}

alert "trim_stuck" {
  title     = "Pitch trim does not move"
  chapter   = 22
  level     = "caution"
  message   = "Pitch trim does not move"
  when      = held(!trim_motor && autopilot_on, 20)
  quiet_in  = [take_off_roll, take_off_fast, lift_off, landing_roll]
  tells     = [pitch_in_trim]
  procedure = trim_stuck_drill
}

alert "yaw_dampers_off" {
  title     = "Yaw dampers off"
  chapter   = 22
  level     = "caution"
  message   = "Both yaw dampers off"
  when      = !yaw_damper_1 && !yaw_damper_2
  quiet_in  = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells     = [yaw_damping]
  procedure = yaw_dampers_off_drill
}

alert "guidance_off" {
  title     = "Guidance off"
  chapter   = 22
  level     = "caution"
  message   = "No guidance bars"
  when      = !guidance_1 && !guidance_2
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [guidance_left, guidance_right, approach_guidance]
  procedure = guidance_off_drill
}

alert "second_autopilot_off" {
  title    = "One autopilot off"
  chapter  = 22
  level    = "advisory"
  message  = "One autopilot left"
  when     = held(autopilot_1 != autopilot_2, 5)
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [second_autopilot]
}

# Held back until the approach: told late by design, because it is a question for
# the approach briefing. The crew who brief early do not hear it.
alert "approach_downgraded" {
  title     = "Approach downgraded"
  chapter   = 22
  level     = "caution"
  message   = "Approach capability reduced"
  when      = capability_believed != "low"
  true_when = capability_true != "low"
  quiet_in  = [taxi_out, take_off_roll, take_off_fast, lift_off, first_climb, climb, cruise, landing_roll, taxi_in]
  tells     = [approach_low, approach_standard, approach_guidance]
  procedure = approach_downgraded_drill
  variant "second_series" {
    when = capability_believed != "low" || !voice || !yaw_damping || radio_heights_doubted
  }
  variant "island_kit" {
    when = capability_believed != "low" || !voice || !yaw_damping || radio_heights_doubted
  }
}

# -------------------------------------------------------------- indications

indication "autopilot_label" {
  title   = "Autopilot label"
  chapter = 22
  shows   = autopilot_on
  means   = autopilot_on
  lit_by  = left_flight_picture || right_flight_picture
  place   = "top of the flight pictures"
  tells   = [autopilot_flying]
}

indication "thrust_label" {
  title   = "Autothrottle label"
  chapter = 22
  shows   = thrust_mode
  means   = thrust_mode
  lit_by  = left_flight_picture || right_flight_picture
  place   = "top of the flight pictures"
  tells   = [speed_hold, thrust_for_flare]
}

# A plain lamp in the switch, older than the label: on is what was asked for.
indication "autothrottle_lamp" {
  title   = "Autothrottle switch lamp"
  chapter = 22
  shows   = autothrottle_switch == "on"
  means   = speed_hold
  lit_by  = dc_vital
  place   = "glare shield"
}

indication "capability_label" {
  title   = "Approach capability label"
  chapter = 22
  shows   = approach || final ? capability_believed : ""
  means   = approach || final ? capability_true : ""
  lit_by  = left_flight_picture || right_flight_picture
  place   = "top of the flight pictures"
  tells   = [approach_low, approach_standard, approach_basic]
}

indication "beam_captured_label" {
  title   = "Landing beam label"
  chapter = 22
  shows   = beam_captured ? "on the beam" : receivers_tuned ? "armed" : ""
  means   = beam_captured ? "on the beam" : receivers_tuned ? "armed" : ""
  lit_by  = left_flight_picture || right_flight_picture
  place   = "top of the flight pictures"
  tells   = [approach_guidance]
}

indication "bars_left" {
  title   = "Guidance bars, left"
  chapter = 22
  shows   = guidance_1
  means   = guidance_1
  lit_by  = left_flight_picture
  place   = "screen 1"
  tells   = [guidance_left]
}

indication "bars_right" {
  title   = "Guidance bars, right"
  chapter = 22
  shows   = guidance_2
  means   = guidance_2
  lit_by  = right_flight_picture
  place   = "screen 5"
  tells   = [guidance_right]
}

indication "yaw_lamp" {
  title   = "Yaw damper button lamp"
  chapter = 22
  shows   = !yaw_damper_1 && !yaw_damper_2
  means   = !yaw_damper_1 && !yaw_damper_2
  lit_by  = lamp_power_left
  place   = "overhead panel, left half"
  tells   = [yaw_damping]
}

indication "trim_wheel" {
  title   = "Pitch trim wheel: turns"
  chapter = 22
  shows   = trim_motor
  means   = trim_motor
  place   = "centre pedestal"
  tells   = [pitch_in_trim]
}

indication "thrust_lever_angle" {
  title   = "Thrust asked by the levers"
  chapter = 22
  shows   = thrust_asked_pct
  means   = thrust_asked_pct
  within  = 3
  place   = "centre pedestal"
  tells   = [thrust_fits]
}
