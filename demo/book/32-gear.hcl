# ATA 32, landing gear: sensing, extension, brakes, steering.
#
# Two boxes, A and B, know where the gear is and whether the weight is on it. Much
# else asks them: the spoilers, the reversers, the cabin's outflow valve, the
# brakes. A box that has died cannot say "I do not know": on the wire it says "in
# the air, gear not locked". The aircraft believes it.

# ------------------------------------------------------------------ controls

control "gear_lever" {
  title     = "Gear lever"
  chapter   = 32
  positions = ["up", "down"]
  initial   = "down"
  place     = "centre panel"
}

# Pulled up out of the floor, it opens the uplocks and the doors by cable. There is
# no way to push it back in flight.
control "alternate_gear_handle" {
  title     = "Alternate gear handle"
  chapter   = 32
  positions = ["in", "pulled"]
  initial   = "in"
  place     = "flight deck floor"
}

control "gear_horn_button" {
  title     = "Gear warning silence button"
  chapter   = 32
  positions = ["out", "pressed"]
  initial   = "out"
  place     = "centre panel"
}

control "autobrake_selector" {
  title     = "Automatic brake selector"
  chapter   = 32
  positions = ["off", "stop", "low", "medium"]
  initial   = "stop"
  place     = "centre panel"
}

control "parking_brake_lever" {
  title     = "Parking brake lever"
  chapter   = 32
  positions = ["off", "set"]
  initial   = "off"
  place     = "centre pedestal"
}

# Only for pressing the pedals at a moment of one's own choice: the ordinary
# braking of a landing needs no act.
control "brake_pedals" {
  title     = "Brake pedals"
  chapter   = 32
  positions = ["released", "pressed"]
  initial   = "released"
  place     = "pedals"
}

# ------------------------------------------------------------------- sensing

unit "weight_switch_left" {
  title         = "Weight switch on the left leg"
  chapter       = 32
  rate_per_hour = 5e-6
  place         = "left main leg"
  fault "stays_air" {
    title         = "says \"in the air\" for good"
    rate_per_hour = 3e-6
  }
  fault "stays_ground" {
    title         = "says \"on the ground\" for good"
    rate_per_hour = 2e-6
  }
}

unit "weight_switch_right" {
  title         = "Weight switch on the right leg"
  chapter       = 32
  rate_per_hour = 5e-6
  place         = "right main leg"
  fault "stays_air" {
    title         = "says \"in the air\" for good"
    rate_per_hour = 3e-6
  }
  fault "stays_ground" {
    title         = "says \"on the ground\" for good"
    rate_per_hour = 2e-6
  }
}

unit "lock_sensors_a" {
  title         = "Lock sensors of box A"
  chapter       = 32
  rate_per_hour = 1e-5
  place         = "the three legs"
  fault "see_unlocked" {
    title         = "see \"not locked\" for good"
    rate_per_hour = 5e-6
  }
  fault "see_locked" {
    title         = "see \"locked\" for good"
    rate_per_hour = 1e-6
  }
}

unit "lock_sensors_b" {
  title         = "Lock sensors of box B"
  chapter       = 32
  rate_per_hour = 1e-5
  place         = "the three legs"
  fault "see_unlocked" {
    title         = "see \"not locked\" for good"
    rate_per_hour = 5e-6
  }
  fault "see_locked" {
    title         = "see \"locked\" for good"
    rate_per_hour = 1e-6
  }
}

unit "gear_sense_a" {
  title         = "Gear sensing box A"
  chapter       = 32
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "gear_sense_b" {
  title         = "Gear sensing box B"
  chapter       = 32
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
}

# What each box believes about the weight. A box or a switch that is dead says "in
# the air".
signal "sensed_on_ground_a" {
  title   = "Box A believes that the aircraft is on the ground"
  chapter = 32
  value = (gear_sense_a && (weight_switch_left.stays_ground
  || (weight_switch_left && !weight_switch_left.stays_air && real.on_ground)))
}

signal "sensed_on_ground_b" {
  title   = "Box B believes that the aircraft is on the ground"
  chapter = 32
  value = (gear_sense_b && (weight_switch_right.stays_ground
  || (weight_switch_right && !weight_switch_right.stays_air && real.on_ground)))
}

signal "sees_locks_a" {
  title   = "Box A can see an open lock"
  chapter = 32
  value   = gear_sense_a && lock_sensors_a && !lock_sensors_a.see_unlocked
}

signal "sees_locks_b" {
  title   = "Box B can see a closed lock"
  chapter = 32
  value   = gear_sense_b && lock_sensors_b && !lock_sensors_b.see_unlocked
}

signal "nose_seen_down_a" {
  title   = "Box A sees the nose leg locked down"
  chapter = 32
  value   = sees_locks_a && (nose_leg_down || lock_sensors_a.see_locked)
}

signal "left_seen_down_a" {
  title   = "Box A sees the left leg locked down"
  chapter = 32
  value   = sees_locks_a && (left_leg_down || lock_sensors_a.see_locked)
}

signal "right_seen_down_a" {
  title   = "Box A sees the right leg locked down"
  chapter = 32
  value   = sees_locks_a && (right_leg_down || lock_sensors_a.see_locked)
}

signal "nose_seen_down_b" {
  title   = "Box B sees the nose leg locked down"
  chapter = 32
  value   = sees_locks_b && (nose_leg_down || lock_sensors_b.see_locked)
}

signal "left_seen_down_b" {
  title   = "Box B sees the left leg locked down"
  chapter = 32
  value   = sees_locks_b && (left_leg_down || lock_sensors_b.see_locked)
}

signal "right_seen_down_b" {
  title   = "Box B sees the right leg locked down"
  chapter = 32
  value   = sees_locks_b && (right_leg_down || lock_sensors_b.see_locked)
}

signal "gear_seen_down" {
  title   = "At least one box sees the whole gear locked down"
  chapter = 32
  value = ((nose_seen_down_a && left_seen_down_a && right_seen_down_a)
  || (nose_seen_down_b && left_seen_down_b && right_seen_down_b))
}

# ----------------------------------------------------- extension, retraction

unit "gear_valve" {
  title         = "Gear selector valve"
  chapter       = 32
  needs         = dc_left || dc_right
  rate_per_hour = 1e-5
  place         = "main gear bay"
}

unit "nose_leg" {
  title         = "Nose leg"
  chapter       = 32
  rate_per_hour = 1e-6
  place         = "nose gear bay"
  fault "stays_up" {
    title         = "its hydraulic uplock does not open"
    stops         = true
    rate_per_hour = 2e-6
  }
}

unit "left_leg" {
  title         = "Left main leg"
  chapter       = 32
  rate_per_hour = 1e-6
  place         = "left gear bay"
  fault "stays_up" {
    title         = "its hydraulic uplock does not open"
    stops         = true
    rate_per_hour = 2e-6
  }
}

unit "right_leg" {
  title         = "Right main leg"
  chapter       = 32
  rate_per_hour = 1e-6
  place         = "right gear bay"
  fault "stays_up" {
    title         = "its hydraulic uplock does not open"
    stops         = true
    rate_per_hour = 2e-6
  }
}

unit "alternate_release" {
  title         = "Alternate gear release cable"
  chapter       = 32
  rate_per_hour = 5e-6
  place         = "under the flight deck floor"
}

# The boxes time the doors and the legs. With both boxes dead the lever moves
# nothing, whatever pressure there is.
signal "gear_powered" {
  title   = "The gear follows its lever"
  chapter = 32
  value   = hyd_right && gear_valve && (gear_sense_a || gear_sense_b)
}

# Box A decides whether the gear may go up; box B only when A is dead.
signal "gear_may_go_up" {
  title   = "The sensing allows the gear to go up"
  chapter = 32
  value   = gear_sense_a ? !sensed_on_ground_a : (gear_sense_b && !sensed_on_ground_b)
}

# Once freed by the cable, the doors hang open and the legs stay down. Nothing in
# flight brings them up again: the drag stays until landing.
signal "gear_freed" {
  title   = "The gear was freed by the alternate handle"
  chapter = 32
  set     = alternate_release && alternate_gear_handle == "pulled"
  reset   = false
}

signal "gear_extended" {
  title   = "The gear has travelled down"
  chapter = 32
  initial = true
  set     = held(gear_lever == "down" && gear_powered, 9) || held(gear_freed, 14)
  reset   = held(gear_lever == "up" && gear_powered && gear_may_go_up && !gear_freed, 2)
}

signal "gear_stowed" {
  title   = "The gear is up and its doors are closed"
  chapter = 32
  set     = held(gear_lever == "up" && gear_powered && gear_may_go_up && !gear_freed, 8)
  reset   = gear_freed || (gear_lever == "down" && gear_powered)
}

# A leg whose hydraulic uplock is stuck still comes down by the cable, which has
# hooks of its own.
signal "nose_leg_down" {
  title   = "Nose leg down and locked"
  chapter = 32
  value   = gear_extended && (nose_leg || (nose_leg.stays_up && gear_freed))
}

signal "left_leg_down" {
  title   = "Left main leg down and locked"
  chapter = 32
  value   = gear_extended && (left_leg || (left_leg.stays_up && gear_freed))
}

signal "right_leg_down" {
  title   = "Right main leg down and locked"
  chapter = 32
  value   = gear_extended && (right_leg || (right_leg.stays_up && gear_freed))
}

signal "gear_down" {
  title   = "Gear down and locked"
  chapter = 32
  value   = nose_leg_down && left_leg_down && right_leg_down
}

# ------------------------------------------------- brakes, tyres, steering

unit "brake_valve_normal" {
  title         = "Normal brake valve"
  chapter       = 32
  rate_per_hour = 5e-6
  place         = "main gear bay"
}

unit "brake_valve_alternate" {
  title         = "Alternate brake valve"
  chapter       = 32
  rate_per_hour = 5e-6
  place         = "main gear bay"
}

# Charged by the left system, good for six applications of the pedals and for the
# parking brake. Its gas can leak away over weeks; only the gauge tells.
unit "brake_accumulator" {
  title         = "Brake accumulator"
  chapter       = 32
  rate_per_hour = 2e-5
  place         = "main gear bay"
}

unit "brake_channel_a" {
  title         = "Brake control channel A"
  chapter       = 32
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "brake_channel_b" {
  title         = "Brake control channel B"
  chapter       = 32
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "wheel_sender_left" {
  title         = "Left wheel speed sender"
  chapter       = 32
  rate_per_hour = 1e-5
  place         = "left main wheels"
}

unit "wheel_sender_right" {
  title         = "Right wheel speed sender"
  chapter       = 32
  rate_per_hour = 1e-5
  place         = "right main wheels"
}

unit "autobrake_box" {
  title         = "Automatic brake unit"
  chapter       = 32
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "brake_left" {
  title         = "Left wheel brakes"
  chapter       = 32
  rate_per_hour = 5e-6
  place         = "left main wheels"
  fault "drags" {
    title         = "drags: never quite lets go"
    rate_per_hour = 1e-5
  }
}

unit "brake_right" {
  title         = "Right wheel brakes"
  chapter       = 32
  rate_per_hour = 5e-6
  place         = "right main wheels"
  fault "drags" {
    title         = "drags: never quite lets go"
    rate_per_hour = 1e-5
  }
}

unit "brake_heat_box" {
  title         = "Brake temperature unit"
  chapter       = 32
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
}

unit "tyre_left" {
  title         = "Left main tyres"
  chapter       = 32
  rate_per_hour = 1e-5
  place         = "left main wheels"
}

unit "tyre_right" {
  title         = "Right main tyres"
  chapter       = 32
  rate_per_hour = 1e-5
  place         = "right main wheels"
}

unit "tyre_pressure_box" {
  title         = "Tyre pressure unit"
  chapter       = 32
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
  only          = [second_series, island_kit]
}

unit "steering_box" {
  title         = "Nose wheel steering unit"
  chapter       = 32
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "steering_motor" {
  title         = "Nose wheel steering motor"
  chapter       = 32
  needs         = hyd_right
  rate_per_hour = 1e-5
  place         = "nose leg"
}

signal "brakes_normal_ok" {
  title   = "Normal brakes have pressure and control"
  chapter = 32
  value   = hyd_right && brake_valve_normal && (brake_channel_a || brake_channel_b)
}

# Every press of the pedals without pump pressure behind it costs one stroke of the
# accumulator. Pumping the pedals is the way to run out of brakes.
signal "press_on_accumulator" {
  title   = "The pedals are pressed with no pump behind them"
  chapter = 32
  value   = (brake_pedals == "pressed" || real.braking) && !brakes_normal_ok && !hyd_left
}

signal "strokes_used_count" {
  title   = "Brake applications taken from the accumulator"
  chapter = 32
  value   = count(press_on_accumulator)
}

signal "strokes_left_count" {
  title   = "Brake applications left in the accumulator"
  chapter = 32
  value   = most_of(0, 6 - strokes_used_count)
}

signal "brakes_alternate_ok" {
  title   = "Alternate brakes have pressure"
  chapter = 32
  value   = brake_valve_alternate && (hyd_left || accumulator_holds)
}

# The sixth press still brakes for as long as it is held.
signal "accumulator_holds" {
  title   = "The accumulator still gives pressure"
  chapter = 32
  value   = brake_accumulator && (strokes_used_count < 6 || (strokes_used_count == 6 && press_on_accumulator))
}

# From the accumulator there is pressure, but nothing that lets go of a locked
# wheel.
signal "antiskid_ok" {
  title   = "A locked wheel is let go"
  chapter = 32
  value = ((brake_channel_a || brake_channel_b) && wheel_sender_left && wheel_sender_right
  && (brakes_normal_ok || (brake_valve_alternate && hyd_left)))
}

signal "believed_on_ground" {
  title   = "At least one box believes that the aircraft is on the ground"
  chapter = 32
  value   = sensed_on_ground_a || sensed_on_ground_b
}

# Heat of the hotter side: eight degrees for each second of braking at speed, three
# for each second that a dragging brake is towed along.
signal "brake_heat_c" {
  title   = "Temperature of the hottest wheel brake"
  chapter = 32
  value = total(((brake_left.drags || brake_right.drags) && real.on_ground && real.wheel_speed_kt > 5
    ? 3
    : real.braking && real.wheel_speed_kt > 40 ? 8 : -0.4),
  15, 15, 800)
}

# ----------------------------------------------------------------- functions

function "ground_sensing_a" {
  title    = "Box A knows air from ground"
  chapter  = 32
  works    = real.on_ground ? sensed_on_ground_a : (gear_sense_a && !sensed_on_ground_a)
  severity = "major"
}

function "ground_sensing_b" {
  title    = "Box B knows air from ground"
  chapter  = 32
  works    = real.on_ground ? sensed_on_ground_b : (gear_sense_b && !sensed_on_ground_b)
  severity = "major"
}

function "gear_extension" {
  title    = "Gear extension by the lever"
  chapter  = 32
  works    = gear_powered && nose_leg && left_leg && right_leg
  wanted   = descent || approach || final
  severity = "major"
}

function "gear_extension_any" {
  title   = "Gear extension by any means"
  chapter = 32
  works = (all(nose_leg || nose_leg.stays_up, left_leg || left_leg.stays_up, right_leg || right_leg.stays_up)
  && (alternate_release || (gear_powered && nose_leg && left_leg && right_leg)))
  wanted   = approach || final
  severity = "hazardous"
}

function "gear_retraction" {
  title    = "Gear retraction"
  chapter  = 32
  works    = gear_powered && !gear_freed && (real.on_ground || gear_may_go_up)
  wanted   = lift_off || first_climb
  severity = "major"
}

function "gear_position" {
  title    = "Gear position known on the flight deck"
  chapter  = 32
  works    = (gear_down && gear_seen_down) || (!gear_down && !gear_seen_down && (sees_locks_a || sees_locks_b))
  wanted   = approach || final
  severity = "major"
}

function "gear_guard" {
  title    = "Warning of a landing with the gear up"
  chapter  = 32
  works    = (sees_locks_a || sees_locks_b) && (radio_alt_1 || radio_alt_2) && alerting && !gear_horn_cut
  wanted   = approach || final
  severity = "major"
}

function "brakes" {
  title    = "Wheel brakes by any means"
  chapter  = 32
  works    = (brakes_normal_ok || brakes_alternate_ok) && (brake_left || brake_right)
  wanted   = taxi_out || take_off_roll || take_off_fast || landing_roll || taxi_in
  severity = "catastrophic"
}

function "brakes_normal" {
  title    = "Normal brakes"
  chapter  = 32
  works    = brakes_normal_ok && brake_left && brake_right
  wanted   = taxi_out || take_off_roll || take_off_fast || landing_roll || taxi_in
  severity = "major"
}

function "antiskid" {
  title    = "Anti-skid"
  chapter  = 32
  works    = antiskid_ok
  wanted   = take_off_roll || take_off_fast || landing_roll
  severity = "major"
}

function "autobrake" {
  title    = "Automatic braking"
  chapter  = 32
  works    = autobrake_box && brakes_normal_ok && antiskid_ok && (!real.on_ground || believed_on_ground)
  wanted   = take_off_fast || landing_roll
  severity = "minor"
}

function "parking_brake" {
  title    = "Parking brake"
  chapter  = 32
  works    = brake_valve_alternate && accumulator_holds
  wanted   = taxi_in
  severity = "minor"
}

function "nose_steering" {
  title    = "Nose wheel steering"
  chapter  = 32
  works    = steering_box && steering_motor && (!real.on_ground || sensed_on_ground_a)
  wanted   = taxi_out || landing_roll || taxi_in
  severity = "minor"
}

function "tyres" {
  title    = "Tyres that hold"
  chapter  = 32
  works    = tyre_left && tyre_right
  wanted   = take_off_roll || take_off_fast || landing_roll
  severity = "major"
}

function "cool_brakes" {
  title    = "Brakes cool enough to stop the aircraft"
  chapter  = 32
  works    = brake_heat_c < 400
  wanted   = take_off_fast || landing_roll
  severity = "major"
}

function "brake_heat_watch" {
  title    = "Brake temperature watched"
  chapter  = 32
  works    = brake_heat_box
  wanted   = taxi_out || taxi_in
  severity = "minor"
}

# -------------------------------------------------------------------- alerts

# The silence lasts until the gear is seen down again.
signal "gear_horn_cut" {
  title   = "The gear warning was silenced"
  chapter = 32
  set     = gear_horn_button == "pressed"
  reset   = gear_seen_down
}

signal "radio_says_low" {
  title   = "A radio altimeter says: below 750 ft"
  chapter = 32
  value = ((radio_alt_1 && radio_height_1_ft < 750)
  || (radio_alt_2 && radio_height_2_ft < 750))
}

# Low, levers back and no gear seen; or flaps for landing and no gear seen. One
# radio altimeter that reads a few feet is enough, and so are two blind boxes: the
# warning then shouts about a danger that is not there.
alert "gear_not_down" {
  title   = "Gear not down"
  chapter = 32
  level   = "warning"
  message = "Gear not down"
  when = (!gear_seen_down
  && ((radio_says_low && real.thrust_pct < 50 && !believed_on_ground) || flap_lever == "3"))
  true_when = !gear_down && (real.height_ft < 750 || flap_lever == "3")
  quiet_in  = [taxi_out, take_off_roll, take_off_fast, lift_off, landing_roll, taxi_in]
  repeats_s = 15
  until     = gear_horn_cut
  tells     = [gear_extension, gear_extension_any]
  procedure = gear_not_down_list
}

# Fifteen seconds is longer than any healthy travel of the gear.
alert "gear_disagrees" {
  title   = "Gear does not follow its lever"
  chapter = 32
  level   = "warning"
  message = "Gear does not follow its lever"
  when = held((gear_lever == "down" && !gear_seen_down)
  || (gear_lever == "up" && gear_seen_down), 15)
  true_when = (gear_lever == "down" && !gear_down) || (gear_lever == "up" && gear_extended)
  quiet_in  = [take_off_roll, take_off_fast, landing_roll]
  tells     = [gear_extension, gear_retraction]
  procedure = gear_disagrees_list
}

alert "gear_sense_a_lost" {
  title    = "Gear sensing A lost"
  chapter  = 32
  level    = "advisory"
  message  = "Gear sensing A lost"
  when     = !gear_sense_a
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [ground_sensing_a, reverse_left]
}

alert "gear_sense_b_lost" {
  title    = "Gear sensing B lost"
  chapter  = 32
  level    = "advisory"
  message  = "Gear sensing B lost"
  when     = !gear_sense_b
  given_by = news_right
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [ground_sensing_b, reverse_right]
}

# The second series has a wire from both boxes straight to the alerting computers:
# silence on both is itself the news.
alert "gear_sense_lost" {
  title     = "Gear sensing lost"
  chapter   = 32
  level     = "caution"
  message   = "No gear sensing"
  when      = held(!gear_sense_a && !gear_sense_b, 2)
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [ground_sensing_a, ground_sensing_b, ground_spoilers, reverse_left, reverse_right, gear_extension, gear_position, autobrake, cabin_emptied]
  procedure = gear_sense_lost_list
  only      = [second_series, island_kit]
}

# The boxes compare their two beliefs. Which of them is wrong they cannot say.
alert "weight_disagrees" {
  title   = "Air-ground sensing disagrees"
  chapter = 32
  level   = "advisory"
  message = "Air-ground sensing disagrees"
  when = held(gear_sense_a && gear_sense_b
  && ((sensed_on_ground_a && !sensed_on_ground_b) || (!sensed_on_ground_a && sensed_on_ground_b)), 5)
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, landing_roll]
  tells    = [ground_sensing_a, ground_sensing_b]
  only     = [second_series, island_kit]
}

alert "brakes_normal_lost" {
  title     = "Normal brakes lost"
  chapter   = 32
  level     = "caution"
  message   = "Normal brakes lost"
  when      = held(!brakes_normal_ok, 2)
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, first_climb, landing_roll]
  tells     = [brakes_normal, autobrake]
  procedure = brakes_normal_lost_list
}

alert "antiskid_lost" {
  title   = "Anti-skid lost"
  chapter = 32
  level   = "caution"
  message = "Anti-skid lost"
  when = (brake_channel_a || brake_channel_b) && !antiskid_ok
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, first_climb]
  tells     = [antiskid, autobrake]
  procedure = antiskid_lost_list
}

alert "autobrake_lost" {
  title    = "Automatic brakes lost"
  chapter  = 32
  level    = "advisory"
  message  = "Automatic brakes lost"
  when     = autobrake_selector != "off" && !(autobrake_box && brakes_normal_ok && antiskid_ok)
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, first_climb]
  tells    = [autobrake]
}

alert "brakes_hot" {
  title     = "Brakes hot"
  chapter   = 32
  level     = "caution"
  message   = "Brakes hot"
  when      = brake_heat_box && brake_heat_c > 400
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [cool_brakes]
  procedure = brakes_hot_list
}

alert "steering_lost" {
  title     = "Nose wheel steering lost"
  chapter   = 32
  level     = "caution"
  message   = "Nose wheel steering lost"
  when      = !steering_box || !steering_motor
  given_by  = news_left
  quiet_in  = [take_off_roll, take_off_fast, lift_off, first_climb, climb, cruise, descent, landing_roll]
  tells     = [nose_steering]
  procedure = steering_lost_list
}

alert "tyre_low" {
  title     = "Tyre pressure low"
  chapter   = 32
  level     = "caution"
  message   = "Tyre pressure low"
  when      = tyre_pressure_box && (!tyre_left || !tyre_right)
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [tyres]
  procedure = tyre_low_list
  only      = [second_series, island_kit]
}

alert "accumulator_low" {
  title    = "Brake accumulator low"
  chapter  = 32
  level    = "advisory"
  message  = "Brake accumulator low"
  when     = !brake_accumulator || strokes_left_count < 3
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, landing_roll]
  tells    = [parking_brake, brakes]
  only     = [second_series, island_kit]
}

alert "parking_brake_on" {
  title     = "Take-off with the parking brake set"
  chapter   = 32
  level     = "warning"
  message   = "Parking brake is set"
  when      = parking_brake_lever == "set" && real.thrust_pct > 60
  quiet_in  = [lift_off, first_climb, climb, cruise, descent, approach, final, landing_roll, taxi_in]
  procedure = take_off_setting_list
}

# --------------------------------------------------------------- indications

# Two rows of gear lamps, one from each box. A lamp that is powered over a dead box
# is simply off, which says "not locked".
indication "nose_gear_lamp" {
  title   = "Nose gear lamp, main row"
  chapter = 32
  shows   = nose_seen_down_a
  means   = nose_leg_down
  lit_by  = lamp_power_left
  tells   = [gear_extension, gear_position]
  place   = "centre panel"
}

indication "left_gear_lamp" {
  title   = "Left gear lamp, main row"
  chapter = 32
  shows   = left_seen_down_a
  means   = left_leg_down
  lit_by  = lamp_power_left
  tells   = [gear_extension, gear_position]
  place   = "centre panel"
}

indication "right_gear_lamp" {
  title   = "Right gear lamp, main row"
  chapter = 32
  shows   = right_seen_down_a
  means   = right_leg_down
  lit_by  = lamp_power_left
  tells   = [gear_extension, gear_position]
  place   = "centre panel"
}

indication "nose_gear_mark" {
  title   = "Nose gear mark, second row"
  chapter = 32
  shows   = nose_seen_down_b
  means   = nose_leg_down
  lit_by  = lamp_power_right
  tells   = [gear_extension, gear_position]
  place   = "overhead panel"
}

indication "left_gear_mark" {
  title   = "Left gear mark, second row"
  chapter = 32
  shows   = left_seen_down_b
  means   = left_leg_down
  lit_by  = lamp_power_right
  tells   = [gear_extension, gear_position]
  place   = "overhead panel"
}

indication "right_gear_mark" {
  title   = "Right gear mark, second row"
  chapter = 32
  shows   = right_seen_down_b
  means   = right_leg_down
  lit_by  = lamp_power_right
  tells   = [gear_extension, gear_position]
  place   = "overhead panel"
}

# In the lever's head: the gear is on its way, or not where the lever says.
indication "gear_lever_light" {
  title   = "Gear lever light"
  chapter = 32
  shows   = (gear_lever == "down") ? !gear_seen_down : !gear_stowed
  means   = (gear_lever == "down") ? !gear_down : !gear_stowed
  lit_by  = dc_vital
  tells   = [gear_extension, gear_retraction]
  place   = "centre panel"
}

indication "gear_silence_lamp" {
  title   = "Gear warning silenced lamp"
  chapter = 32
  shows   = gear_horn_cut
  means   = gear_horn_cut
  lit_by  = dc_vital
  tells   = [gear_guard]
  place   = "centre panel"
}

indication "brake_heat_shown" {
  title   = "Brake temperature readout"
  chapter = 32
  shows   = brake_heat_c
  means   = brake_heat_c
  within  = 30
  lit_by  = page_right && brake_heat_box
  tells   = [cool_brakes, brake_heat_watch]
  place   = "wheels page"
}

# A needle on a pressure line of its own: it needs no power at all.
indication "accumulator_gauge" {
  title   = "Brake accumulator gauge"
  chapter = 32
  shows   = brake_accumulator ? strokes_left_count : 0
  means   = brake_accumulator ? strokes_left_count : 0
  within  = 0.5
  tells   = [parking_brake]
  place   = "centre panel"
}

# Says what was selected, not what the brakes will do.
indication "autobrake_lamp" {
  title   = "Automatic brake lamp"
  chapter = 32
  shows   = autobrake_selector != "off" && autobrake_box
  means   = autobrake_selector != "off" && autobrake
  lit_by  = lamp_power_left
  place   = "centre panel"
}

indication "antiskid_shown" {
  title   = "Anti-skid line"
  chapter = 32
  shows   = antiskid_ok
  means   = antiskid
  lit_by  = page_either
  place   = "wheels page"
}

indication "steering_shown" {
  title   = "Steering line"
  chapter = 32
  shows   = steering_box && steering_motor
  means   = steering_box && steering_motor
  lit_by  = page_left
  tells   = [nose_steering]
  place   = "wheels page"
}

indication "parking_brake_lamp" {
  title   = "Parking brake lamp"
  chapter = 32
  shows   = parking_brake_lever == "set"
  means   = parking_brake_lever == "set" && parking_brake
  lit_by  = dc_direct
  place   = "centre panel"
}

indication "tyre_pressure_shown" {
  title   = "Tyre pressures"
  chapter = 32
  shows   = tyre_left && tyre_right
  means   = tyres
  lit_by  = page_right && tyre_pressure_box
  place   = "wheels page"
  only    = [second_series, island_kit]
}

# -------------------------------------------------------------------- limits

limit "gear_speed" {
  title    = "Speed with the gear not stowed"
  chapter  = 32
  quantity = real.airspeed_kt
  most     = 240
  applies  = !gear_stowed
}

limit "brake_heat_for_take_off" {
  title    = "Brake temperature before take-off"
  chapter  = 32
  quantity = brake_heat_c
  most     = 250
  applies  = taxi_out
}

# -------------------------------------------------------------------- events

# A tread that comes off whips what is near: the wheel's sender, the weight switch,
# a brake line.
event "tyre_burst" {
  title         = "Tyre burst on the left main gear"
  chapter       = 32
  rate_per_hour = 5e-7
  fails         = [tyre_left, wheel_sender_left, weight_switch_left.stays_air, reservoir_left.leaks]
}

# Thrown up in the taxi, frozen in the climb, still there at touchdown.
event "frozen_slush" {
  title         = "Slush frozen on the weight switches"
  chapter       = 32
  rate_per_hour = 2e-7
  fails         = [weight_switch_left.stays_air, weight_switch_right.stays_air]
}

# The same hands, the same gauge, the same night: two sets of sensors set alike and
# both wrong.
event "sensors_misset" {
  title         = "Lock sensors of both boxes misset"
  chapter       = 32
  rate_per_hour = 1e-7
  fails         = [lock_sensors_a.see_unlocked, lock_sensors_b.see_unlocked]
}
