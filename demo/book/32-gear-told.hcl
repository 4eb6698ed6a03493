# ATA 32, told: the gear as the crew see it. Two rows of lamps, one warning, and two boxes behind all of them.

chapter = 32

function "ground_sensing_a" {
  title    = "Box A knows air from ground"
  works    = real.on_ground ? sensed_on_ground_a : (gear_sense_a && !sensed_on_ground_a)
  severity = "minor"
}

function "ground_sensing_b" {
  title    = "Box B knows air from ground"
  works    = real.on_ground ? sensed_on_ground_b : (gear_sense_b && !sensed_on_ground_b)
  severity = "minor"
}

function "gear_extension" {
  title    = "Gear extension by the lever"
  works    = gear_powered && nose_leg && left_leg && right_leg
  wanted   = (descent || approach || final) && (gear_lever == "down" || !gear_powered) # a leg is missed when it is called for
  severity = "minor"
}

function "gear_extension_any" {
  title   = "Gear extension by any means"
  works = (all(nose_leg || nose_leg.stays_up, left_leg || left_leg.stays_up, right_leg || right_leg.stays_up)
  && (alternate_release || (gear_powered && nose_leg && left_leg && right_leg)))
  wanted   = approach || final
  severity = "hazardous"
  # The handle is pulled and the lamps stay out.
  noticed_when   = held(alternate_gear_handle == "pulled", 20) && !gear_extension_any
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "gear_retraction" {
  title    = "Gear retraction"
  works    = gear_powered && !gear_freed && (real.on_ground || gear_may_go_up)
  wanted   = lift_off || first_climb
  severity = "major"
}

function "gear_position" {
  title    = "Gear position known on the flight deck"
  works    = (gear_down && gear_seen_down) || (!gear_down && !gear_seen_down && (sees_locks_a || sees_locks_b))
  wanted   = approach || final
  severity = "major"
}

function "gear_guard" {
  title    = "Warning of a landing with the gear up"
  works    = (sees_locks_a || sees_locks_b) && !(gear_seen_down && !gear_down) && (radio_alt_1 || radio_alt_2) && alerting && !gear_horn_cut
  wanted   = approach || final
  severity = "major"
  noticed_when   = gear_horn_cut # by their own hand
  noticed_by     = "heard"
  noticed_source = "common practice"
}

# The silence lasts until the gear is seen down again.
signal "gear_horn_cut" {
  title   = "The gear warning was silenced"
  set     = gear_horn_button == "pressed"
  reset   = gear_seen_down
}

signal "radio_says_low" {
  title   = "A radio altimeter says: below 750 ft"
  value = ((radio_alt_1 && radio_height_1_ft < 750)
  || (radio_alt_2 && radio_height_2_ft < 750))
}

# Low, levers back and no gear seen; or flaps for landing and no gear seen. One radio altimeter that reads a few feet is
# enough, and so are two blind boxes: the warning then shouts about a danger that is not there. With flaps for landing
# the button does nothing before the alternate handle is pulled (14 CFR 25.729(e): not silenced by reflex).
alert "gear_not_down" {
  title   = "Landing, and the wheels are not out"
  level   = "warning"
  message = "Landing, and the wheels are not out"
  when = (!gear_seen_down && ((radio_says_low && real.thrust_pct < 50 && !believed_on_ground && !gear_horn_cut)
  || (flap_lever == "full" && !(gear_horn_cut && alternate_gear_handle == "pulled"))))
  true_when = !gear_down && (real.height_ft < 750 || flap_lever == "full")
  given_by  = warned_direct
  quiet_in  = [taxi_out, take_off_roll, take_off_fast, lift_off, landing_roll, taxi_in]
  repeats_s = 15
  tells     = [gear_extension, gear_extension_any]
  procedure = gear_not_down_list
}

# Twenty-five seconds: the climb has tried both rows.
alert "gear_rows_differ" {
  title   = "Gear position sensors differ"
  level   = "caution"
  message = "Gear position sensors differ"
  when = held(sees_locks_a && sees_locks_b && (nose_seen_down_a != nose_seen_down_b
  || left_seen_down_a != left_seen_down_b || right_seen_down_a != right_seen_down_b), 25)
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [gear_position]
  procedure = gear_rows_list
}

# Fifteen seconds is longer than any healthy travel of the gear.
alert "gear_not_followed" {
  title   = "Gear does not follow its lever"
  level   = "warning"
  message = "Gear does not follow its lever"
  when = held((gear_lever == "down" && !gear_seen_down)
  || (gear_lever == "up" && gear_seen_down), 15)
  true_when = (gear_lever == "down" && !gear_down) || (gear_lever == "up" && gear_extended)
  given_by  = warned_direct
  quiet_in  = [take_off_roll, take_off_fast, landing_roll]
  tells     = [gear_extension, gear_retraction]
  procedure = gear_not_followed_list
}

alert "gear_sense_a_lost" {
  title    = "Gear sensing A lost"
  level    = "advisory"
  message  = "Gear sensing A lost"
  when     = !gear_sense_a
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [ground_sensing_a, reverse_left]
}

alert "gear_sense_b_lost" {
  title    = "Gear sensing B lost"
  level    = "advisory"
  message  = "Gear sensing B lost"
  when     = !gear_sense_b
  given_by = news_right
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [ground_sensing_b, reverse_right]
}

# Both boxes have a wire straight to the alerting computers: silence on both is itself the news.
alert "gear_sense_lost" {
  title     = "Gear sensing lost"
  level     = "caution"
  message   = "No gear sensing"
  when      = held(!gear_sense_a && !gear_sense_b, 2)
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [ground_sensing_a, ground_sensing_b, ground_spoilers, reverse_left, reverse_right, gear_extension, gear_position, autobrake, cabin_emptied]
  procedure = gear_sense_lost_list
}

# The boxes compare the three legs. Which of them is wrong they cannot say.
alert "ground_sensing_differs" {
  title   = "Air/ground sensing differs"
  level   = "advisory"
  message = "Air/ground sensing differs"
  when = (held(any(left_switch_pressed, right_switch_pressed, nose_switch_pressed)
  && !all(left_switch_pressed, right_switch_pressed, nose_switch_pressed), 8) && (gear_sense_a || gear_sense_b))
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, landing_roll]
  tells    = [ground_sensing_a, ground_sensing_b]
  only     = [second_series, island_kit]
}

# Two rows of gear lamps, one from each box. A lamp that is powered over a dead box
# is simply off, which says "not locked".
indication "nose_gear_lamp" {
  title   = "Nose gear lamp, main row"
  shows   = nose_seen_down_a
  means   = nose_leg_down
  lit_by  = lamp_power_left
  tells   = [gear_extension, gear_position]
  place   = "centre panel"
}
indication "left_gear_lamp" {
  title   = "Left gear lamp, main row"
  shows   = left_seen_down_a
  means   = left_leg_down
  lit_by  = lamp_power_left
  tells   = [gear_extension, gear_position]
  place   = "centre panel"
}
indication "right_gear_lamp" {
  title   = "Right gear lamp, main row"
  shows   = right_seen_down_a
  means   = right_leg_down
  lit_by  = lamp_power_left
  tells   = [gear_extension, gear_position]
  place   = "centre panel"
}
indication "nose_gear_mark" {
  title   = "Nose gear mark, second row"
  shows   = nose_seen_down_b
  means   = nose_leg_down
  lit_by  = dc_vital
  tells   = [gear_extension, gear_position]
  place   = "overhead panel"
}
indication "left_gear_mark" {
  mirror  = true
  title   = "Left gear mark, second row"
  shows   = left_seen_down_b
  means   = left_leg_down
  lit_by  = dc_vital
  tells   = [gear_extension, gear_position]
  place   = "overhead panel"
}

# No wire, no box: a rod on each leg lifts a painted pin out of the skin.
indication "gear_pins" {
  title   = "Gear pins on nose and wings, seen through the windows"
  shows   = gear_down
  means   = gear_down
  tells   = [gear_position]
  place   = "wings and nose"
}

# In the lever's head: the gear is on its way, or not where the lever says.
indication "gear_lever_light" {
  title   = "Gear lever light"
  shows   = (gear_lever == "down") ? !gear_seen_down : !gear_stowed
  means   = (gear_lever == "down") ? !gear_down : !gear_stowed
  lit_by  = dc_vital
  tells   = [gear_extension, gear_retraction]
  place   = "centre panel"
}
indication "gear_silence_lamp" {
  title   = "Gear warning silenced lamp"
  shows   = gear_horn_cut
  means   = gear_horn_cut
  lit_by  = dc_vital
  tells   = [gear_guard]
  place   = "centre panel"
}

limit "gear_speed" {
  title    = "Speed with the gear not stowed"
  quantity = real.airspeed_kt
  most     = aircraft.max_gear_kt
  applies  = !gear_stowed
}

# Thrown up in the taxi, frozen in the climb, still there at touchdown.
event "frozen_slush" {
  title         = "Slush frozen on the weight-on-wheels switches"
  rate_per_hour = 2e-7
  fails         = [weight_switch_left.stays_air, weight_switch_right.stays_air, weight_switch_nose.stays_air]
}

# The same hands, the same gauge, the same night: two sets of sensors set alike and both wrong.
event "sensors_misset" {
  title         = "Lock sensors of both boxes misset"
  rate_per_hour = 1e-7
  fails         = [lock_sensors_a.see_unlocked, lock_sensors_b.see_unlocked]
}
