# ATA 78, thrust reversers.
#
# Each reverser is moved by its own hydraulic side and let out only when the sensing box of its own side says "on the
# ground". Three locks hold it shut, and any one of them is enough (14 CFR 25.933(a)(1)): two hooks, which pressure
# opens, and a bolt on a supply of its own that the other box must let go. An engine whose reverser moves where it
# should not goes to idle by its own control (25.933(a)(3)). What is left is an ugly surprise on the ground: one dead
# box, and the aircraft reverses on one side only, without anyone having been told.

chapter = 78

control "reverse_left_lever" {
  mirror    = true
  title     = "Left reverse lever"
  positions = ["stowed", "idle", "full"]
  initial   = "stowed"
  place     = "thrust levers"
}

unit "reverser_left" {
  mirror        = true
  title         = "Left reverser"
  needs         = hyd_left
  rate_per_hour = 2e-5
  place         = "left engine"
  fault "creeps" {
    title         = "leaks inwards: its first hook lets go and it pushes towards open"
    rate_per_hour = 3e-6
  }
}

# The second hook. Nothing looks at it but a check on the ground.
unit "reverse_hook_left" {
  mirror  = true
  title   = "Left reverser, second hook"
  place   = "left engine"
  fault "stays_open" {
    title           = "no longer holds"
    rate_per_hour   = 1e-6
    checked_every_h = 600
  }
}

# The third lock, on another supply than the reverser's own, and let go by the sensing
# box of the other side. Without current it is a locked lock.
unit "reverse_lock_left" {
  mirror        = true
  title         = "Left reverser bolt"
  needs         = dc_vital
  rate_per_hour = 1e-5
  place         = "left engine"
  fault "stays_open" {
    title           = "no longer locks"
    rate_per_hour   = 1e-6
    checked_every_h = 600
  }
}

unit "reverse_sender_left" {
  mirror        = true
  title         = "Left reverser position sender"
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left engine"
}

signal "reverse_left_open" {
  title   = "The left reverser is open"
  value = ((reverse_left_lever != "stowed" && reverser_left && sensed_on_ground_a && ((reverse_lock_left && sensed_on_ground_b) || reverse_lock_left.stays_open))
  || (reverser_left.creeps && reverse_hook_left.stays_open && reverse_lock_left.stays_open))
}

# An engine's own control takes its thrust back from a reverser that moves and was not asked to.
signal "reverse_left_idles" {
  mirror  = true
  title   = "The left engine goes to idle: its reverser moves"
  value   = reverse_left_open && (!real.on_ground || reverse_left_lever == "stowed")
}

signal "reverse_right_open" {
  title   = "The right reverser is open"
  value = ((reverse_right_lever != "stowed" && reverser_right && sensed_on_ground_b && ((reverse_lock_right && sensed_on_ground_a) || reverse_lock_right.stays_open))
  || (reverser_right.creeps && reverse_hook_right.stays_open && reverse_lock_right.stays_open))
}

function "reverse_left" {
  mirror   = true
  title    = "Left reverse thrust"
  works    = engine_left && reverser_left && reverse_lock_left && (!real.on_ground || (sensed_on_ground_a && sensed_on_ground_b))
  wanted   = landing_roll
  severity = "minor"
  noticed_when   = landing_roll && !reverse_left
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "reverse_even" {
  title    = "Reverse thrust even on both sides"
  works    = (reverse_left && reverse_right) || (!reverse_left && !reverse_right)
  wanted   = landing_roll
  severity = "minor"
  noticed_when   = landing_roll && !reverse_even
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "reverse_shut" {
  title    = "Reversers shut in flight"
  works    = real.on_ground || (!reverse_left_open && !reverse_right_open)
  severity = "catastrophic"
}

# The first of three locks has let go; two hold. It is worth a caution, because nothing would tell of the others.
alert "reverser_left_unlocked" {
  mirror    = true
  title     = "Left reverser not locked"
  level     = "caution"
  message   = "Left reverser not locked"
  when      = reverse_sender_left && reverser_left.creeps
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off]
  tells     = [reverse_shut]
  procedure = reverser_list
}

alert "reverse_left_lost" {
  mirror   = true
  title    = "Left reverser lost"
  level    = "advisory"
  message  = "Left reverser is not available"
  when     = !reverser_left || !reverse_lock_left
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, landing_roll]
  tells    = [reverse_left, reverse_even]
  only     = [second_series, island_kit]
}
indication "reverse_left_mark" {
  mirror  = true
  title   = "Left reverser open mark"
  shows   = reverse_left_open
  means   = reverse_left_open
  lit_by  = engine_picture && reverse_sender_left
  tells   = [reverse_left, reverse_shut]
  place   = "engine picture"
}
