# ATA 78, thrust reversers.
#
# Each reverser is moved by its own hydraulic side, held shut by a lock on its own DC
# bus, and let out only when the sensing box of its own side says "on the ground". It
# makes a neat division and an ugly surprise: one dead box, and the aircraft reverses
# on one side only, without anyone having been told.

control "reverse_left_lever" {
  title     = "Left reverse lever"
  chapter   = 78
  positions = ["stowed", "idle", "full"]
  initial   = "stowed"
  place     = "thrust levers"
}

control "reverse_right_lever" {
  title     = "Right reverse lever"
  chapter   = 78
  positions = ["stowed", "idle", "full"]
  initial   = "stowed"
  place     = "thrust levers"
}

unit "reverser_left" {
  title         = "Left reverser"
  chapter       = 78
  needs         = hyd_left
  rate_per_hour = 2e-5
  place         = "left engine"
  fault "creeps" {
    title         = "leaks inwards and creeps towards open"
    rate_per_hour = 3e-6
  }
}

unit "reverser_right" {
  title         = "Right reverser"
  chapter       = 78
  needs         = hyd_right
  rate_per_hour = 2e-5
  place         = "right engine"
  fault "creeps" {
    title         = "leaks inwards and creeps towards open"
    rate_per_hour = 3e-6
  }
}

# Needs current to open. Without current it is a locked lock.
unit "reverse_lock_left" {
  title         = "Left reverser lock"
  chapter       = 78
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left engine"
  fault "stays_open" {
    title         = "no longer locks"
    rate_per_hour = 1e-6
  }
}

unit "reverse_lock_right" {
  title         = "Right reverser lock"
  chapter       = 78
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "right engine"
  fault "stays_open" {
    title         = "no longer locks"
    rate_per_hour = 1e-6
  }
}

unit "reverse_sender_left" {
  title         = "Left reverser position sender"
  chapter       = 78
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left engine"
}

unit "reverse_sender_right" {
  title         = "Right reverser position sender"
  chapter       = 78
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "right engine"
}

signal "reverse_left_open" {
  title   = "The left reverser is open"
  chapter = 78
  value = ((reverse_left_lever != "stowed" && reverser_left && reverse_lock_left && sensed_on_ground_a)
  || (reverser_left.creeps && reverse_lock_left.stays_open))
}

signal "reverse_right_open" {
  title   = "The right reverser is open"
  chapter = 78
  value = ((reverse_right_lever != "stowed" && reverser_right && reverse_lock_right && sensed_on_ground_b)
  || (reverser_right.creeps && reverse_lock_right.stays_open))
}

function "reverse_left" {
  title    = "Left reverse thrust"
  chapter  = 78
  works    = engine_left && reverser_left && reverse_lock_left && (!real.on_ground || sensed_on_ground_a)
  wanted   = landing_roll
  severity = "minor"
  noticed_when   = landing_roll && !reverse_left
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "reverse_right" {
  title    = "Right reverse thrust"
  chapter  = 78
  works    = engine_right && reverser_right && reverse_lock_right && (!real.on_ground || sensed_on_ground_b)
  wanted   = landing_roll
  severity = "minor"
  noticed_when   = landing_roll && !reverse_right
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "reverse_even" {
  title    = "Reverse thrust even on both sides"
  chapter  = 78
  works    = (reverse_left && reverse_right) || (!reverse_left && !reverse_right)
  wanted   = landing_roll
  severity = "major"
  noticed_when   = landing_roll && !reverse_even
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "reverse_shut" {
  title    = "Reversers shut in flight"
  chapter  = 78
  works    = real.on_ground || (!reverse_left_open && !reverse_right_open)
  severity = "catastrophic"
}

# The first of two locks has let go; the second one holds. It is worth a caution,
# because nothing would tell of the second.
alert "reverser_left_creeps" {
  title     = "Left reverser not locked"
  chapter   = 78
  level     = "caution"
  message   = "Left reverser not locked"
  when      = reverse_sender_left && reverser_left.creeps
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off]
  tells     = [reverse_shut]
  procedure = reverser_left_creeps_list
}

alert "reverser_right_creeps" {
  title     = "Right reverser not locked"
  chapter   = 78
  level     = "caution"
  message   = "Right reverser not locked"
  when      = reverse_sender_right && reverser_right.creeps
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off]
  tells     = [reverse_shut]
  procedure = reverser_right_creeps_list
}

alert "reverse_left_lost" {
  title    = "Left reverser lost"
  chapter  = 78
  level    = "advisory"
  message  = "Left reverser is not available"
  when     = !reverser_left || !reverse_lock_left
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, landing_roll]
  tells    = [reverse_left, reverse_even]
  only     = [second_series, island_kit]
}

alert "reverse_right_lost" {
  title    = "Right reverser lost"
  chapter  = 78
  level    = "advisory"
  message  = "Right reverser is not available"
  when     = !reverser_right || !reverse_lock_right
  given_by = news_right
  quiet_in = [take_off_fast, lift_off, landing_roll]
  tells    = [reverse_right, reverse_even]
  only     = [second_series, island_kit]
}

indication "reverse_left_mark" {
  title   = "Left reverser open mark"
  chapter = 78
  shows   = reverse_left_open
  means   = reverse_left_open
  lit_by  = engine_picture && reverse_sender_left
  tells   = [reverse_left, reverse_shut]
  place   = "engine picture"
}

indication "reverse_right_mark" {
  title   = "Right reverser open mark"
  chapter = 78
  shows   = reverse_right_open
  means   = reverse_right_open
  lit_by  = engine_picture && reverse_sender_right
  tells   = [reverse_right, reverse_shut]
  place   = "engine picture"
}
