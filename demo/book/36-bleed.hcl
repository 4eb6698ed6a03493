# ATA 36, bleed air.
#
# Each engine gives hot air for its own side: the pack, the wing's ice protection, the pressure in the cabin. A cross
# valve joins the two sides. A leak is sensed by a wire along the duct; the side's own valves shut by themselves, before
# the heat reaches anything. That needs the side's own controller, and the controller its bus.

chapter = 36

control "bleed_left_switch" {
  mirror    = true
  title     = "Left bleed switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "cross_bleed_selector" {
  title     = "Cross-bleed valve switch"
  positions = ["automatic", "shut", "open"]
  initial   = "automatic"
  place     = "overhead panel"
}

control "apu_bleed_switch" {
  title     = "APU bleed switch"
  positions = ["off", "on"]
  initial   = "off"
  place     = "overhead panel"
}

unit "bleed_valve_left" {
  mirror        = true
  title         = "Left engine bleed valve"
  rate_per_hour = 2e-5
  place         = "left engine"
  fault "stays_open" {
    title           = "does not shut"
    rate_per_hour   = 5e-6
    checked_every_h = 10
  }
}

# A valve without its controller stays as it is: air goes on flowing, at a pressure that nobody trims.
unit "bleed_controller_left" {
  mirror        = true
  title         = "Left bleed controller"
  needs         = dc_left
  rate_per_hour = 2e-5
  checked_every_h = 10
  place         = "electronics bay, left rack"
}

unit "cross_bleed_valve" {
  title         = "Cross-bleed valve"
  needs         = dc_right
  rate_per_hour = 1e-5
  checked_every_h = 500
  place         = "centre fuselage"
}

unit "duct_left" {
  mirror        = true
  title         = "Left bleed duct"
  rate_per_hour = 1e-7
  place         = "left pylon and wing"
  fault "bursts" {
    title         = "a joint lets go: hot air blows into the wing"
    rate_per_hour = 1e-6
  }
}

unit "leak_wire_left" {
  mirror        = true
  title         = "Left bleed leak detector"
  needs         = dc_left
  rate_per_hour = 1e-5
  checked_every_h = 50
  place         = "left pylon and wing"
}

unit "apu_bleed_valve" {
  title         = "APU bleed valve"
  needs         = dc_right
  rate_per_hour = 2e-5
  checked_every_h = 50
  place         = "tail"
}

signal "leak_seen_left" {
  mirror  = true
  title   = "The left leak detector has seen a leak"
  set     = leak_wire_left && held(duct_left.bursts && left_duct_fed, 3)
  reset   = bleed_left_switch == "off"
}

signal "bleed_shut_left" {
  mirror  = true
  title   = "The left bleed valve is shut"
  value = (!bleed_valve_left.stays_open && (!bleed_valve_left || bleed_left_switch == "off"
  || fire_handle_left == "pulled" || leak_shut_left))
}

# Shut by a leak, it stays shut for the rest of the flight.
signal "leak_shut_left" {
  mirror  = true
  title   = "The left side was shut because of a leak"
  set     = leak_seen_left && bleed_controller_left
  reset   = false
}

# In auto the cross valve opens when one side has no air of its own, and never onto a leak that it knows of.
signal "cross_bleed_open" {
  title   = "The cross-bleed valve is open"
  value = (cross_bleed_valve && cross_bleed_selector != "shut" && !leak_seen_left && !leak_seen_right
    && !leak_shut_left && !leak_shut_right
  && (cross_bleed_selector == "open" || !left_own_air || !right_own_air))
}

signal "left_own_air" {
  mirror  = true
  title   = "The left engine gives air"
  value   = engine_left && !bleed_shut_left
}

signal "apu_air" {
  title   = "The APU gives air"
  value   = apu && apu_bleed_valve && apu_bleed_switch == "on" && real.altitude_ft < aircraft.apu_air_ft
}

signal "left_duct_fed" {
  mirror  = true
  title   = "Air is let into the left duct"
  value   = left_own_air || (bleed_crossed && right_own_air)
}

signal "bleed_crossed" {
  title   = "The cross-bleed valve has opened"
  value   = held(cross_bleed_open, 2)
}

signal "bleed_left" {
  title   = "Air from the left bleed"
  value   = !duct_left.bursts && duct_left && (left_own_air || apu_air || (bleed_crossed && right_own_air))
}

signal "bleed_right" {
  title   = "Air from the right bleed"
  value   = !duct_right.bursts && duct_right && (right_own_air || (bleed_crossed && (left_own_air || apu_air)))
}

# Ten minutes of hot air on the structure of the wing.
signal "wing_baked" {
  title   = "Hot air has blown into a wing for ten minutes"
  value   = total((duct_left.bursts && left_duct_fed) || (duct_right.bursts && right_duct_fed)) > 600
}
