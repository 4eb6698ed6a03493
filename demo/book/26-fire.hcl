# ATA 26, fire protection.
#
# Two heat loops around each engine. Both must see heat before the warning comes; if one is known to be broken, the
# other alone is believed. So one false loop tells nothing wrong, and one dead loop takes nothing away. The two together
# are another matter: that is what a failure dispatched with can lead to. The two smoke sensors of the hold ask each
# other in the same way.
#
# In the hold two bottles go with one switch: the first at once, the second slowly, so
# that what smoulders is held down to the landing (14 CFR 25.857(c)).

chapter = 26

control "fire_handle_left" {
  mirror    = true
  title     = "Left engine fire handle"
  positions = ["in", "pulled"]
  initial   = "in"
  place     = "glare shield"
}

control "fire_handle_apu" {
  title     = "APU fire handle"
  positions = ["in", "pulled"]
  initial   = "in"
  place     = "overhead panel"
}

control "bottle_switch_left" {
  mirror    = true
  title     = "Left engine bottle switch"
  positions = ["off", "bottle_1", "bottle_2"]
  initial   = "off"
  place     = "glare shield"
}

control "hold_bottle_switch" {
  title     = "Cargo hold bottle switch"
  positions = ["off", "discharge"]
  initial   = "off"
  place     = "overhead panel"
}

# Not a component but a place that can burn.
unit "nacelle_left" {
  mirror  = true
  title   = "Left engine nacelle"
  place   = "left engine"
  fault "burns" {
    title         = "fire"
    rate_per_hour = 1e-6
  }
}

unit "apu_bay" {
  title   = "APU bay"
  place   = "tail"
  fault "burns" {
    title         = "fire"
    rate_per_hour = 1e-6
  }
}

unit "hold" {
  title   = "Cargo hold"
  place   = "under the floor"
  fault "smoulders" {
    title         = "something smoulders"
    rate_per_hour = 3.5e-8 # as AC 25.1309-1B takes for a cargo fire
  }
}

unit "bay" {
  title   = "Electronics bay"
  place   = "electronics bay"
  fault "left_smokes" {
    title         = "a box on the left rack smokes"
    rate_per_hour = 1e-7
  }
  fault "right_smokes" {
    title         = "a box on the right rack smokes"
    rate_per_hour = 1e-7
  }
}

# Takes the DC bus of one side away. What is vital has feeds of its own.
control "bay_supply_switch" {
  title     = "Electronics bay supply switch"
  positions = ["both", "right only", "left only"]
  initial   = "both"
  place     = "overhead panel"
}

unit "fire_loop_left_a" {
  mirror        = true
  title         = "Left engine fire loop A"
  needs         = dc_vital
  rate_per_hour = 1e-5
  place         = "left engine"
  fault "sees_fire" {
    title         = "sees heat where there is none"
    rate_per_hour = 3e-6
    checked_every_h = 10
  }
}

unit "fire_loop_left_b" {
  title         = "Left engine fire loop B"
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "left engine"
  fault "sees_fire" {
    title         = "sees heat where there is none"
    rate_per_hour = 3e-6
    checked_every_h = 10
  }
}

unit "fire_loop_right_b" {
  title         = "Right engine fire loop B"
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "right engine"
  fault "sees_fire" {
    title         = "sees heat where there is none"
    rate_per_hour = 3e-6
    checked_every_h = 10
  }
}

unit "fire_loop_apu" {
  title         = "APU fire loop"
  needs         = dc_direct
  rate_per_hour = 1e-5
  place         = "tail"
}

unit "smoke_sensor_1" {
  title         = "Cargo hold smoke sensor 1"
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "cargo hold, forward"
  fault "sees_smoke" {
    title         = "takes damp for smoke"
    rate_per_hour = 2e-5
  }
}

unit "smoke_sensor_2" {
  title         = "Cargo hold smoke sensor 2"
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "cargo hold, aft"
  fault "sees_smoke" {
    title         = "takes damp for smoke"
    rate_per_hour = 2e-5
  }
}

unit "bay_smoke_sensor" {
  title           = "Electronics bay smoke sensor"
  needs           = dc_vital
  rate_per_hour   = 1e-5
  checked_every_h = 8
  place           = "electronics bay, air outlet"
}

unit "bottle_1" {
  title         = "Engine fire bottle 1"
  rate_per_hour = 5e-6
  place         = "rear fuselage"
}

unit "bottle_2" {
  title         = "Engine fire bottle 2"
  rate_per_hour = 5e-6
  place         = "rear fuselage"
}

unit "hold_bottle" {
  title         = "Cargo hold fire bottle"
  rate_per_hour = 5e-6
  place         = "rear fuselage"
}

unit "hold_slow_bottle" {
  title         = "Cargo hold second bottle, slow"
  rate_per_hour = 5e-6
  place         = "rear fuselage"
}

# A bottle goes off only behind a pulled handle, and only once.
signal "bottle_1_fired" {
  title   = "Bottle 1 was fired"
  set = (bottle_1 && dc_direct
    && ((bottle_switch_left == "bottle_1" && fire_handle_left == "pulled")
  || (bottle_switch_right == "bottle_1" && fire_handle_right == "pulled")))
  reset = false
}

signal "bottle_2_fired" {
  title   = "Bottle 2 was fired"
  set = (bottle_2 && dc_direct
    && ((bottle_switch_left == "bottle_2" && fire_handle_left == "pulled")
  || (bottle_switch_right == "bottle_2" && fire_handle_right == "pulled")))
  reset = false
}

signal "hold_bottle_fired" {
  title   = "The cargo hold bottle was fired"
  set     = hold_bottle && dc_direct && hold_bottle_switch == "discharge"
  reset   = false
}

# The second bottle runs out through a small hole, for an hour and a half.
signal "hold_slow_runs" {
  title   = "The slow bottle runs into the hold"
  value   = hold_slow_bottle && hold_bottle_switch == "discharge" && hold_slow_s < 5400
}

signal "hold_slow_s" {
  title   = "How long the slow bottle has run"
  value   = total(hold_slow_bottle && hold_bottle_switch == "discharge")
}

# Put out ten seconds after the agent has come, if the fuel is shut off.
signal "left_fire_out" {
  mirror  = true
  title   = "The left engine fire is put out"
  set = held(feed_shut_left && ((bottle_1_fired && bottle_switch_left == "bottle_1")
  || (bottle_2_fired && bottle_switch_left == "bottle_2")), 10)
  reset = false
}

signal "left_burns" {
  mirror  = true
  title   = "The left engine burns"
  value   = nacelle_left.burns && !left_fire_out
}

# A firewall holds a fire that is fed for a quarter of an hour ("fireproof": 14 CFR
# 25.1191, AC 20-135); five minutes more and the wing root gives way (an assumption).
signal "left_pylon_burnt" {
  mirror  = true
  title   = "The fire is through the left firewall and in the pylon"
  value   = total(left_burns && !feed_shut_left) > 900
}

signal "wing_root_lost" {
  title   = "A wing root has burned through"
  value   = held(left_pylon_burnt || right_pylon_burnt, 300)
}

signal "apu_burns" {
  title   = "The APU burns"
  value   = apu_bay.burns && fire_handle_apu == "in"
}

signal "hold_smoke" {
  title   = "There is smoke in the cargo hold"
  value   = hold.smoulders && !(held(hold_bottle_fired, 60) && (!held(hold_bottle_fired, 900) || hold_slow_runs))
}

# A minute after its side has no supply it no longer smokes. Fed for ten (an
# assumption) it takes the rest of its rack, and burns on without supply.
signal "bay_smoke" {
  title   = "Smoke comes from the electronics bay"
  value   = ((bay.left_smokes && !held(!dc_left, 60)) || (bay.right_smokes && !held(!dc_right, 60))
  || left_rack_burnt || right_rack_burnt)
}

signal "left_rack_burnt" {
  mirror  = true
  title   = "The left rack of the electronics bay is burnt"
  value   = total(bay.left_smokes && !held(!dc_left, 60)) > 600
}

signal "left_a_sees_fire" {
  mirror  = true
  title   = "Left loop A sees heat"
  value   = fire_loop_left_a && (left_burns || fire_loop_left_a.sees_fire)
}

signal "left_b_sees_fire" {
  mirror  = true
  title   = "Left loop B sees heat"
  value   = fire_loop_left_b && (left_burns || fire_loop_left_b.sees_fire)
}

signal "left_fire_believed" {
  mirror  = true
  title   = "A left engine fire is believed"
  value = ((left_a_sees_fire && (left_b_sees_fire || !fire_loop_left_b))
  || (left_b_sees_fire && !fire_loop_left_a))
}

signal "smoke_seen_1" {
  title   = "Smoke sensor 1 sees smoke"
  value   = smoke_sensor_1 && (hold_smoke || smoke_sensor_1.sees_smoke)
}

signal "smoke_seen_2" {
  title   = "Smoke sensor 2 sees smoke"
  value   = smoke_sensor_2 && (hold_smoke || smoke_sensor_2.sees_smoke)
}

signal "smoke_believed" {
  title   = "Smoke in the cargo hold is believed"
  value   = (smoke_seen_1 && (smoke_seen_2 || !smoke_sensor_2)) || (smoke_seen_2 && !smoke_sensor_1)
}
