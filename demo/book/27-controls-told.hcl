# ATA 27, told: what the crew rely on for control, and what they hear of its loss.

chapter = 27

function "pitch_control" {
  title    = "Pitch control"
  works    = control_passes && (elevator_left_servo || elevator_right_servo || elevator_electric_servo) && !(elevator_left_servo.jams && elevator_right_servo.jams)
  severity = "catastrophic"
  noticed_when   = !pitch_control && (taxi_out || take_off_fast || !real.on_ground && (control_passes || !autopilot_on)) # a stick that does nothing is felt by who holds it
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "roll_control" {
  title    = "Roll control"
  works    = control_passes && (aileron_left_servo || aileron_right_servo || aileron_electric_servo) && !(aileron_left_servo.jams && aileron_right_servo.jams) && !flaps_split
  severity = "catastrophic"
  noticed_when   = !roll_control && (taxi_out || take_off_fast || !real.on_ground && (control_passes || !autopilot_on))
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "yaw_control" {
  title    = "Rudder control"
  works    = control_passes && (rudder_upper_servo || rudder_lower_servo || rudder_electric_servo)
  severity = "hazardous"
  noticed_when   = (taxi_out || take_off_roll || take_off_fast || landing_roll || (final && !autopilot_on)) && !yaw_control
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "shaped_control" {
  title    = "Shaped control"
  works    = control_shaped
  severity = "major"
}

function "pitch_trim" {
  title    = "Stabiliser trim by hand"
  works    = trim_motor_1 || trim_motor_2
  severity = "major"
}

function "rudder_travel" {
  title    = "Enough rudder for the speed"
  works    = rudder_travel_deg >= rudder_wanted_deg
  wanted   = lift_off || approach || final || landing_roll
  severity = "major"
}

function "rudder_limit" {
  title    = "Not too much rudder for the speed"
  works    = rudder_travel_deg <= rudder_wanted_deg
  wanted   = climb || cruise || descent
  severity = "major"
}

function "speed_brakes" {
  title    = "Speed brakes"
  works    = spoilers_inner || spoilers_outer
  wanted   = descent || approach
  severity = "minor"
  noticed_when   = (spoiler_lever == "half" || spoiler_lever == "full") && !real.on_ground && !speed_brakes
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "ground_spoilers" {
  title    = "Ground spoilers, at least one pair"
  works    = (spoilers_inner || spoilers_outer) && (!real.on_ground || believed_on_ground)
  wanted   = landing_roll
  severity = "major"
  noticed_when   = landing_roll && !ground_spoilers # the pilot monitoring looks and calls
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "ground_spoilers_full" {
  title    = "Ground spoilers, both pairs"
  works    = spoilers_inner && spoilers_outer && (!real.on_ground || believed_on_ground)
  wanted   = landing_roll
  severity = "minor"
  noticed_when   = (landing_roll && !ground_spoilers) || (!real.on_ground && (spoilers_inner.rise || spoilers_outer.rise)) # one pair that stays down nobody sees
  noticed_by     = "seen"
  noticed_source = "common practice"
}

alert "controls_plain" {
  title     = "Controls plain"
  level     = "caution"
  message   = "Controls plain: no stall or bank protection"
  when      = !control_shaped
  quiet_in  = [take_off_fast, lift_off]
  tells     = [shaped_control, stall_guard]
  procedure = controls_plain_list
}

alert "control_computer_1_lost" {
  title     = "Flight control computer 1 lost"
  level     = "caution"
  message   = "Flight control computer 1 lost"
  when      = !control_computer_1
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [ground_spoilers_full]
  procedure = control_computer_list
}

# The second computer has no wire of its own to the alerting computers. Its loss
# goes by data unit 2, which hangs on the same bus.
alert "control_computer_2_lost" {
  title     = "Flight control computer 2 lost"
  level     = "caution"
  message   = "Flight control computer 2 lost"
  when      = !control_computer_2
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [ground_spoilers_full]
  procedure = control_computer_list
}

alert "trim_lost" {
  title      = "Stabiliser trim by hand lost"
  level      = "caution"
  message    = "Pilots' trim lost"
  when       = held(!trim_motor_1 && !trim_motor_2, 2)
  quiet_in   = [take_off_fast, lift_off, landing_roll]
  quiet_when = all_gens_off
  tells      = [pitch_trim]
  procedure  = trim_lost_list
}

alert "rudder_limiter_lost" {
  title     = "Rudder stop stands still"
  level     = "caution"
  message   = "Rudder stop stands still"
  when      = !rudder_limiter
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [rudder_travel, rudder_limit]
  procedure = rudder_limiter_list
}

alert "spoilers_lost" {
  title     = "Spoilers lost"
  level     = "caution"
  message   = "No spoilers"
  when      = !spoilers_inner && !spoilers_outer
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [speed_brakes, ground_spoilers, ground_spoilers_full]
  procedure = spoilers_lost_list
}

alert "spoiler_pair_lost" {
  title    = "One pair of spoilers lost"
  level    = "advisory"
  message  = "One pair of spoilers lost"
  when     = (spoilers_inner && !spoilers_outer) || (!spoilers_inner && spoilers_outer)
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [ground_spoilers_full]
  only     = [second_series, island_kit]
}

alert "spoilers_against_thrust" {
  title     = "Speed brakes out against thrust"
  level     = "caution"
  message   = "Speed brakes against thrust"
  when      = held((spoiler_lever == "half" || spoiler_lever == "full") && real.thrust_pct > 65 && !real.on_ground, 5)
  quiet_in  = [take_off_fast, landing_roll]
  procedure = spoilers_lost_list
}

alert "spoilers_not_in" {
  title     = "Take-off with spoilers out"
  level     = "warning"
  message   = "Spoilers are not in"
  when      = real.on_ground && levers_forward && spoiler_lever_switch && spoiler_lever != "in"
  given_by  = warned_direct
  quiet_in  = [landing_roll, taxi_in]
  procedure = take_off_setting_list
}
indication "plain_control_lamp" {
  title   = "Plain control lamp"
  shows   = !control_shaped
  means   = !shaped_control
  lit_by  = dc_direct
  place   = "glare shield"
}
indication "control_computer_1_lamp" {
  title   = "Flight control computer 1 lamp"
  shows   = !control_computer_1
  means   = !control_computer_1
  lit_by  = lamp_power_left
  tells   = [ground_spoilers_full]
  place   = "overhead panel"
}
indication "control_computer_2_lamp" {
  title   = "Flight control computer 2 lamp"
  shows   = !control_computer_2
  means   = !control_computer_2
  lit_by  = lamp_power_right
  tells   = [ground_spoilers_full]
  place   = "overhead panel"
}
indication "elevator_shown" {
  title   = "Elevator servos"
  shows   = elevator_left_servo && elevator_right_servo
  means   = elevator_left_servo && elevator_right_servo
  lit_by  = systems_either_drawn
  tells   = [pitch_control]
  place   = "surfaces picture"
}
indication "aileron_shown" {
  title   = "Aileron servos"
  shows   = aileron_left_servo && aileron_right_servo
  means   = aileron_left_servo && aileron_right_servo
  lit_by  = systems_either_drawn
  tells   = [roll_control]
  place   = "surfaces picture"
}
indication "rudder_shown" {
  title   = "Rudder servos"
  shows   = rudder_upper_servo && rudder_lower_servo
  means   = rudder_upper_servo && rudder_lower_servo
  lit_by  = systems_either_drawn
  tells   = [yaw_control]
  place   = "surfaces picture"
}
indication "rudder_travel_shown" {
  title   = "Rudder travel"
  shows   = rudder_travel_deg
  means   = rudder_travel_deg
  within  = 1
  lit_by  = systems_either_drawn && rudder_limiter
  tells   = [rudder_travel, rudder_limit]
  place   = "surfaces picture"
}
indication "trim_shown" {
  title   = "Hand trim line"
  shows   = trim_motor_1 || trim_motor_2
  means   = pitch_trim
  lit_by  = systems_either_drawn
  place   = "surfaces picture"
}
indication "spoilers_inner_shown" {
  title   = "Inner spoilers line"
  shows   = spoilers_inner
  means   = spoilers_inner
  lit_by  = systems_left_drawn
  tells   = [speed_brakes, ground_spoilers_full]
  place   = "surfaces picture"
}
indication "spoilers_outer_shown" {
  title   = "Outer spoilers line"
  shows   = spoilers_outer
  means   = spoilers_outer
  lit_by  = systems_right_drawn
  tells   = [speed_brakes, ground_spoilers_full]
  place   = "surfaces picture"
}

# The line follows the lever. Whether the spoilers will rise it does not know.
indication "spoilers_armed_line" {
  title   = "Spoilers armed line"
  shows   = spoiler_lever == "armed"
  means   = spoiler_lever == "armed" && ground_spoilers
  lit_by  = engine_picture
  place   = "engine picture"
}
