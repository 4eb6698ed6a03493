# ATA 32, landing gear: sensing, extension, brakes, steering.
#
# Two boxes, A and B, know where the gear is and whether the weight is on it. Much else asks them: the spoilers, the
# reversers, the cabin's outflow valve, the brakes. They share no supply, and the gear comes down without either. A box
# that has died cannot say "I do not know": on the wire it says "in the air, gear not locked".

chapter = 32

control "gear_lever" {
  title     = "Gear lever"
  positions = ["up", "down"]
  initial   = "down"
  place     = "centre panel"
}

# Pulled up out of the floor, it opens the uplocks and the doors by cable. There is no way to push it back in flight.
control "alternate_gear_handle" {
  title     = "Alternate gear handle"
  positions = ["in", "pulled"]
  initial   = "in"
  place     = "flight deck floor"
}

control "gear_horn_button" {
  title     = "Gear warning silence button"
  positions = ["out", "pressed"]
  initial   = "out"
  place     = "centre panel"
}

unit "weight_switch_left" {
  mirror          = true
  title           = "Weight-on-wheels switch on the left leg"
  rate_per_hour   = 5e-6
  checked_every_h = 500
  place           = "left main leg"
  fault "stays_air" {
    title           = "says \"in the air\" for good"
    rate_per_hour   = 3e-6
    checked_every_h = 500
  }
  fault "stays_ground" {
    title           = "says \"on the ground\" for good"
    rate_per_hour   = 2e-6
    checked_every_h = 500
  }
}

unit "weight_switch_nose" {
  title           = "Weight-on-wheels switch on the nose leg"
  rate_per_hour   = 5e-6
  checked_every_h = 500
  place           = "nose leg"
  fault "stays_air" {
    title           = "says \"in the air\" for good"
    rate_per_hour   = 3e-6
    checked_every_h = 500
  }
  fault "stays_ground" {
    title           = "says \"on the ground\" for good"
    rate_per_hour   = 2e-6
    checked_every_h = 500
  }
}

unit "lock_sensors_a" {
  title         = "Lock sensors of box A"
  rate_per_hour = 1e-5
  checked_every_h = 1.3
  place         = "the three legs"
  fault "see_unlocked" {
    title         = "see \"not locked\" for good"
    rate_per_hour = 5e-6
    checked_every_h = 10
  }
  fault "see_locked" {
    title         = "see \"locked\" for good"
    rate_per_hour = 1e-6
  }
}

unit "lock_sensors_b" {
  title         = "Lock sensors of box B"
  rate_per_hour = 1e-5
  checked_every_h = 1.3
  place         = "the three legs"
  fault "see_unlocked" {
    title         = "see \"not locked\" for good"
    rate_per_hour = 5e-6
    checked_every_h = 10
  }
  fault "see_locked" {
    title         = "see \"locked\" for good"
    rate_per_hour = 1e-6
  }
}

unit "gear_sense_a" {
  title         = "Gear sensing box A"
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "gear_sense_b" {
  title         = "Gear sensing box B"
  needs         = dc_vital
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
}

# Three seconds after the main wheels the nose wheel is down.
signal "nose_wheel_down" {
  title   = "The nose wheel carries weight"
  initial = true
  set     = held(real.on_ground, 3)
  reset   = !real.on_ground
}

signal "left_switch_pressed" {
  mirror  = true
  title   = "The weight-on-wheels switch on the left leg says: on the ground"
  value   = weight_switch_left.stays_ground || (weight_switch_left && !weight_switch_left.stays_air && real.on_ground)
}

signal "nose_switch_pressed" {
  title   = "The weight-on-wheels switch on the nose leg says: on the ground"
  value   = weight_switch_nose.stays_ground || (weight_switch_nose && !weight_switch_nose.stays_air && nose_wheel_down)
}

# Each box has two contacts of its own in every leg's switch, and one wheel that it feels turn: two of four are enough.
# So one switch that sticks either way costs at most a few seconds. What freezes all three legs leaves the wheel alone,
# and the boxes fly on. A box that is dead says "in the air".
signal "sensed_on_ground_a" {
  title   = "Box A believes that the aircraft is on the ground"
  value   = gear_sense_a && at_least(2, left_switch_pressed, right_switch_pressed, nose_switch_pressed, wheel_sender_left && real.wheel_speed_kt > 20)
}

signal "sensed_on_ground_b" {
  title   = "Box B believes that the aircraft is on the ground"
  value   = gear_sense_b && at_least(2, left_switch_pressed, right_switch_pressed, nose_switch_pressed, wheel_sender_right && real.wheel_speed_kt > 20)
}

signal "sees_locks_a" {
  title   = "Box A can see an open lock"
  value   = gear_sense_a && lock_sensors_a && !lock_sensors_a.see_unlocked
}

signal "sees_locks_b" {
  title   = "Box B can see a closed lock"
  value   = gear_sense_b && lock_sensors_b && !lock_sensors_b.see_unlocked
}

signal "nose_seen_down_a" {
  title   = "Box A sees the nose leg locked down"
  value   = sees_locks_a && (nose_leg_down || lock_sensors_a.see_locked)
}

signal "left_seen_down_a" {
  mirror  = true
  title   = "Box A sees the left leg locked down"
  value   = sees_locks_a && (left_leg_down || lock_sensors_a.see_locked)
}

signal "nose_seen_down_b" {
  title   = "Box B sees the nose leg locked down"
  value   = sees_locks_b && (nose_leg_down || lock_sensors_b.see_locked)
}

signal "left_seen_down_b" {
  mirror  = true
  title   = "Box B sees the left leg locked down"
  value   = sees_locks_b && (left_leg_down || lock_sensors_b.see_locked)
}

# A row that sees a leg down while the lever is up and the other row sees none is wrong, and is not believed again
# before it has gone dark. So every climb tries the sensors, and none can say "locked" of a gear that is not.
signal "row_a_doubted" {
  title   = "The main row of gear lamps is not believed"
  set     = held(gear_lever == "up" && any_seen_down_a && sees_locks_b && !any_seen_down_b, 20)
  reset   = gear_lever == "up" && !any_seen_down_a
}

signal "row_b_doubted" {
  title   = "The second row of gear marks is not believed"
  set     = held(gear_lever == "up" && any_seen_down_b && sees_locks_a && !any_seen_down_a, 20)
  reset   = gear_lever == "up" && !any_seen_down_b
}

signal "any_seen_down_a" {
  title   = "Box A sees a leg locked down"
  value   = nose_seen_down_a || left_seen_down_a || right_seen_down_a
}

signal "any_seen_down_b" {
  title   = "Box B sees a leg locked down"
  value   = nose_seen_down_b || left_seen_down_b || right_seen_down_b
}

signal "gear_seen_down" {
  title   = "A row that is believed sees the whole gear locked down"
  value = ((nose_seen_down_a && left_seen_down_a && right_seen_down_a && !row_a_doubted)
  || (nose_seen_down_b && left_seen_down_b && right_seen_down_b && !row_b_doubted))
}

unit "gear_valve" {
  title         = "Gear selector valve"
  needs         = dc_left || dc_vital
  rate_per_hour = 1e-5
  place         = "main gear bay"
}

unit "nose_leg" {
  title         = "Nose leg"
  rate_per_hour = 2e-8
  place         = "nose gear bay"
  fault "stays_up" {
    title         = "stays locked up by its hydraulic uplock"
    stops         = true
    rate_per_hour = 2e-6
  }
}

unit "left_leg" {
  mirror        = true
  title         = "Left main leg"
  rate_per_hour = 2e-8
  place         = "left gear bay"
  fault "stays_up" {
    title         = "stays locked up by its hydraulic uplock"
    stops         = true
    rate_per_hour = 2e-6
  }
}

unit "alternate_release" {
  title           = "Alternate gear release cable"
  rate_per_hour   = 1e-6
  checked_every_h = 500
  place           = "under the flight deck floor"
}

# The boxes time the doors and the legs. With both boxes dead the lever moves nothing, whatever pressure there is.
signal "gear_powered" {
  title   = "The gear follows its lever"
  value   = hyd_right && gear_valve && (gear_sense_a || gear_sense_b)
}

# Each box that lives must say "in the air": one alone cannot fold the gear of an aircraft that stands.
signal "gear_may_go_up" {
  title   = "The sensing allows the gear to go up"
  value   = (gear_sense_a || gear_sense_b) && !believed_on_ground
}

# Once freed by the cable, the doors hang open and the legs stay down. Nothing in
# flight brings them up again: the drag stays until landing.
signal "gear_freed" {
  title   = "The gear was freed by the alternate handle"
  set     = alternate_release && alternate_gear_handle == "pulled"
  reset   = false
}

signal "gear_extended" {
  title   = "The gear has travelled down"
  initial = true
  set     = held(gear_lever == "down" && gear_powered, 9) || held(gear_freed, 14)
  reset   = held(gear_lever == "up" && gear_powered && gear_may_go_up && !gear_freed, 2)
}

signal "gear_stowed" {
  title   = "The gear is up and its doors are closed"
  set     = held(gear_lever == "up" && gear_powered && gear_may_go_up && !gear_freed, 8)
  reset   = gear_freed || (gear_lever == "down" && gear_powered)
}

# A leg whose hydraulic uplock is stuck still comes down by the cable, which has hooks of its own.
signal "nose_leg_down" {
  title   = "Nose leg down and locked"
  value   = gear_extended && (nose_leg || (nose_leg.stays_up && gear_freed))
}

signal "left_leg_down" {
  mirror  = true
  title   = "Left main leg down and locked"
  value   = gear_extended && (left_leg || (left_leg.stays_up && gear_freed))
}

signal "gear_down" {
  title   = "Gear down and locked"
  value   = nose_leg_down && left_leg_down && right_leg_down
}

signal "believed_on_ground" {
  title   = "At least one box believes that the aircraft is on the ground"
  value   = sensed_on_ground_a || sensed_on_ground_b
}
