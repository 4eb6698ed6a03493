# ATA 22, automatic flight: two autopilots, one autothrottle, two yaw dampers.
#
# An autopilot is a chain: it must know its attitude and its speed, and it must be able to move the surfaces. Break any
# link and it lets go. What it does when it lets go, and what the crew are told then, is the heart of this chapter.

chapter = 22

unit "autopilot_1" {
  title         = "Autopilot 1"
  needs         = dc_vital && inertial_1 && air_data_1
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

unit "autopilot_2" {
  title         = "Autopilot 2"
  needs         = dc_right && inertial_2 && air_data_2
  rate_per_hour = 4e-5
  place         = "electronics bay, right rack"
}

# Both autopilots push through the same two servo motors, and those hang on the
# right DC bus: two boxes are not two autopilots.
unit "servo_pitch" {
  title         = "Pitch servo motor"
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "tail"
}

unit "servo_roll" {
  title         = "Roll servo motor"
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "left wing root"
}

unit "guidance_1" {
  title         = "Flight guidance computer 1"
  needs         = core_fed && inertial_1 && air_data_1
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

unit "guidance_2" {
  title         = "Flight guidance computer 2"
  needs         = dc_right && inertial_2 && air_data_2
  rate_per_hour = 4e-5
  place         = "electronics bay, right rack"
}

unit "autopilot_panel" {
  title         = "Autopilot panel"
  needs         = dc_vital || dc_right
  rate_per_hour = 2e-5
  place         = "glare shield"
}

unit "trim_motor" {
  title         = "Automatic pitch trim motor"
  needs         = ac_vital || ac_right
  rate_per_hour = 3e-5
  place         = "tail"
}

unit "yaw_damper_1" {
  title         = "Yaw damper 1"
  needs         = dc_vital && inertial_1
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

unit "yaw_damper_2" {
  title         = "Yaw damper 2"
  needs         = dc_right && inertial_2
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, right rack"
}

unit "autothrottle_box" {
  title         = "Autothrottle computer"
  needs         = dc_left && (air_data_1 || air_data_2)
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

unit "lever_motor" {
  title         = "Thrust lever motor"
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "centre pedestal"
  fault "slips" {
    title         = "turns but does not move the levers"
    rate_per_hour = 3e-6
    checked_every_h = 1.3
  }
}

control "autopilot_button" {
  title     = "Autopilot button"
  positions = ["off", "on"]
  initial   = "off"
  place     = "glare shield"
}

control "autothrottle_switch" {
  title     = "Autothrottle switch"
  positions = ["off", "on"]
  initial   = "off"
  place     = "glare shield"
}

control "approach_button" {
  title     = "Approach button"
  positions = ["off", "armed"]
  initial   = "off"
  place     = "glare shield"
}

control "thrust_levers" {
  title     = "Thrust levers"
  positions = ["left where they are", "moved by hand"]
  initial   = "left where they are"
  place     = "centre pedestal"
}

signal "autopilot_able" {
  title   = "An autopilot could fly"
  value   = (autopilot_1 || autopilot_2) && servo_pitch && servo_roll && autopilot_panel && (control_computer_1 || control_computer_2)
}

# It is engaged by the press of the button, not by the button being on: one that
# has let go does not come back by itself.
signal "autopilot_on" {
  title   = "The autopilot is engaged"
  set     = autopilot_button == "on" && before(autopilot_button) == "off" && autopilot_able
  reset   = !autopilot_able || autopilot_button == "off" || airspeeds_differ || attitudes_differ || trim_runs
}

signal "autopilot_let_go" {
  title   = "The autopilot let go by itself"
  set     = before(autopilot_on) && !autopilot_on && autopilot_button == "on"
  reset   = autopilot_button == "off"
}

# With the trim motor dead the autopilot holds the elevator against a growing load,
# and hands that load to the pilot in one piece when it lets go.
signal "out_of_trim" {
  title   = "The aircraft is flown out of trim"
  value   = held(autopilot_on && !trim_motor, 90)
}

signal "autothrottle_able" {
  title   = "The autothrottle could work"
  value   = autothrottle_box && lever_motor
}

signal "autothrottle_on" {
  title   = "The autothrottle is engaged"
  set     = autothrottle_switch == "on" && before(autothrottle_switch) == "off" && autothrottle_able
  reset   = !autothrottle_able || autothrottle_switch == "off"
}

# When the autothrottle lets go by itself the thrust stays where it was, and stays
# there until somebody moves the levers or switches it off. In a climb that is too
# much thrust for the cruise; in a descent it is too little for the level-off.
signal "thrust_unmoved" {
  title   = "The thrust stays where it was"
  set     = before(autothrottle_on) && !autothrottle_on && autothrottle_switch == "on"
  reset   = thrust_levers == "moved by hand" || autothrottle_switch == "off"
}

# Near the ground the autothrottle closes the levers for the flare. It knows "near the ground" from the radio height
# that the boxes use, once the approach is armed; a hand on the levers is stronger.
signal "flare_believed" {
  title   = "The autothrottle believes that the aircraft flares"
  value   = autothrottle_on && thrust_levers != "moved by hand" && radio_height_trusted && height_for_boxes_ft < 30 && approach_button == "armed"
}

signal "thrust_asked_pct" {
  title   = "Thrust that the levers ask for"
  value   = (flare_believed ? 5 : frozen(real.thrust_pct, thrust_unmoved || (autothrottle_on && lever_motor.slips)))
}

signal "thrust_mode" {
  title   = "What the autothrottle does"
  value = (!autothrottle_on ? (thrust_unmoved ? "left as set" : "off")
    : flare_believed ? "closes for the flare"
  : "holds the speed")
}

# Captured: the guidance has seen the beam and follows it. From then on it needs the receivers only. The flight
# management computers, which tuned them, may die; before the capture they may not.
signal "beam_captured" {
  title   = "The guidance follows the localiser and glide path"
  set     = approach_button == "armed" && beam_received && real.on_glide_path && (guidance_1 || guidance_2)
  reset   = approach_button == "off" || !beam_received || (!guidance_1 && !guidance_2)
}

# What the guidance computers think the approach may be. They look at their own friends only: sensors, receivers,
# autopilots. They know nothing of the voice unit or of the yaw dampers.
signal "minima_believed" {
  title   = "Lowest minima as computed"
  value = (!(guidance_1 || guidance_2) ? "none"
    : autopilot_able && autopilot_1 && autopilot_2 && landing_receiver_1 && landing_receiver_2 && radio_alt_1 && radio_alt_2 && !radio_heights_doubted && autothrottle_able ? "low"
    : (landing_receiver_1 || landing_receiver_2) && radio_height_trusted ? "standard"
  : "basic")
}

signal "minima_true" {
  title   = "Lowest minima in truth"
  value = (approach_low ? "low"
    : approach_standard ? "standard"
    : approach_basic ? "basic"
  : "none")
}
