# ATA 36, bleed air.
#
# Each engine gives hot air for its own side: the pack, the wing's ice protection,
# the pressure in the cabin. A cross valve joins the two sides. A leak is sensed by a
# wire along the duct; the side's own valves shut by themselves, before the heat
# reaches anything. That needs the side's own controller, and the controller its bus.

control "bleed_left_switch" {
  title     = "Left bleed switch"
  chapter   = 36
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "bleed_right_switch" {
  title     = "Right bleed switch"
  chapter   = 36
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "cross_bleed_selector" {
  title     = "Cross-bleed selector"
  chapter   = 36
  positions = ["auto", "shut", "open"]
  initial   = "auto"
  place     = "overhead panel"
}

control "apu_bleed_switch" {
  title     = "APU bleed switch"
  chapter   = 36
  positions = ["off", "on"]
  initial   = "off"
  place     = "overhead panel"
}

unit "bleed_valve_left" {
  title         = "Left engine bleed valve"
  chapter       = 36
  rate_per_hour = 3e-5
  place         = "left engine"
  fault "stays_open" {
    title         = "does not shut"
    rate_per_hour = 5e-6
  }
}

unit "bleed_valve_right" {
  title         = "Right engine bleed valve"
  chapter       = 36
  rate_per_hour = 3e-5
  place         = "right engine"
  fault "stays_open" {
    title         = "does not shut"
    rate_per_hour = 5e-6
  }
}

# A valve without its controller stays as it is: air goes on flowing, at a pressure
# that nobody trims.
unit "bleed_controller_left" {
  title         = "Left bleed controller"
  chapter       = 36
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "bleed_controller_right" {
  title         = "Right bleed controller"
  chapter       = 36
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
}

unit "cross_bleed_valve" {
  title         = "Cross-bleed valve"
  chapter       = 36
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "centre fuselage"
}

unit "duct_left" {
  title         = "Left bleed duct"
  chapter       = 36
  rate_per_hour = 1e-7
  place         = "left pylon and wing"
  fault "bursts" {
    title         = "a joint lets go: hot air blows into the wing"
    rate_per_hour = 3e-6
  }
}

unit "duct_right" {
  title         = "Right bleed duct"
  chapter       = 36
  rate_per_hour = 1e-7
  place         = "right pylon and wing"
  fault "bursts" {
    title         = "a joint lets go: hot air blows into the wing"
    rate_per_hour = 3e-6
  }
}

unit "leak_wire_left" {
  title         = "Left leak wire"
  chapter       = 36
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left pylon and wing"
}

unit "leak_wire_right" {
  title         = "Right leak wire"
  chapter       = 36
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "right pylon and wing"
}

unit "apu_bleed_valve" {
  title         = "APU bleed valve"
  chapter       = 36
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "tail"
}

# --------------------------------------------------------------------- logic

signal "leak_seen_left" {
  title   = "The left leak wire has seen a leak"
  chapter = 36
  set     = leak_wire_left && held(duct_left.bursts && left_duct_fed, 3)
  reset   = bleed_left_switch == "off"
}

signal "leak_seen_right" {
  title   = "The right leak wire has seen a leak"
  chapter = 36
  set     = leak_wire_right && held(duct_right.bursts && right_duct_fed, 3)
  reset   = bleed_right_switch == "off"
}

signal "bleed_shut_left" {
  title   = "The left bleed valve is shut"
  chapter = 36
  value = (!bleed_valve_left.stays_open && (!bleed_valve_left || bleed_left_switch == "off"
  || fire_handle_left == "pulled" || leak_shut_left))
}

signal "bleed_shut_right" {
  title   = "The right bleed valve is shut"
  chapter = 36
  value = (!bleed_valve_right.stays_open && (!bleed_valve_right || bleed_right_switch == "off"
  || fire_handle_right == "pulled" || leak_shut_right))
}

# Shut by a leak, it stays shut for the rest of the flight.
signal "leak_shut_left" {
  title   = "The left side was shut because of a leak"
  chapter = 36
  set     = leak_seen_left && bleed_controller_left
  reset   = false
}

signal "leak_shut_right" {
  title   = "The right side was shut because of a leak"
  chapter = 36
  set     = leak_seen_right && bleed_controller_right
  reset   = false
}

# In auto the cross valve opens when one side has no air of its own, and never onto
# a leak that it knows of.
signal "cross_bleed_open" {
  title   = "The cross-bleed valve is open"
  chapter = 36
  value = (cross_bleed_valve && cross_bleed_selector != "shut" && !leak_seen_left && !leak_seen_right
    && !leak_shut_left && !leak_shut_right
  && (cross_bleed_selector == "open" || !left_own_air || !right_own_air))
}

signal "left_own_air" {
  title   = "The left engine gives air"
  chapter = 36
  value   = engine_left && !bleed_shut_left
}

signal "right_own_air" {
  title   = "The right engine gives air"
  chapter = 36
  value   = engine_right && !bleed_shut_right
}

signal "apu_air" {
  title   = "The APU gives air"
  chapter = 36
  value   = apu && apu_bleed_valve && apu_bleed_switch == "on" && real.altitude_ft < 17000
}

signal "left_duct_fed" {
  title   = "Air is let into the left duct"
  chapter = 36
  value   = left_own_air || (bleed_crossed && right_own_air)
}

signal "right_duct_fed" {
  title   = "Air is let into the right duct"
  chapter = 36
  value   = right_own_air || (bleed_crossed && left_own_air)
}

signal "bleed_crossed" {
  title   = "The cross-bleed valve has opened"
  chapter = 36
  value   = held(cross_bleed_open, 2)
}

signal "bleed_left" {
  title   = "Air from the left bleed"
  chapter = 36
  value   = !duct_left.bursts && duct_left && (left_own_air || apu_air || (bleed_crossed && right_own_air))
}

signal "bleed_right" {
  title   = "Air from the right bleed"
  chapter = 36
  value   = !duct_right.bursts && duct_right && (right_own_air || (bleed_crossed && (left_own_air || apu_air)))
}

# Ten minutes of hot air on the structure of the wing.
signal "wing_baked" {
  title   = "Hot air has blown into a wing for ten minutes"
  chapter = 36
  value   = total((duct_left.bursts && left_duct_fed) || (duct_right.bursts && right_duct_fed)) > 600
}

# ----------------------------------------------------------------- functions

function "air_left" {
  title    = "Bleed air on the left side"
  chapter  = 36
  works    = bleed_left
  severity = "major"
}

function "air_right" {
  title    = "Bleed air on the right side"
  chapter  = 36
  works    = bleed_right
  severity = "major"
}

function "air_trim" {
  title    = "Bleed pressure and heat held in bounds"
  chapter  = 36
  works    = bleed_controller_left && bleed_controller_right
  severity = "minor"
}

function "leak_watch_left" {
  title    = "Hot air leak watched and shut off, left"
  chapter  = 36
  works    = leak_wire_left && bleed_controller_left
  severity = "major"
}

function "leak_watch_right" {
  title    = "Hot air leak watched and shut off, right"
  chapter  = 36
  works    = leak_wire_right && bleed_controller_right
  severity = "major"
}

function "sound_wing" {
  title    = "Wing structure not heated"
  chapter  = 36
  works    = !wing_baked
  severity = "catastrophic"
}

# -------------------------------------------------------------------- alerts

alert "bleed_left_lost" {
  title     = "Left bleed lost"
  chapter   = 36
  level     = "caution"
  message   = "No air from the left bleed"
  when      = held(bleed_controller_left && !left_own_air, 3)
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [air_left]
  procedure = bleed_left_lost_list
}

alert "bleed_right_lost" {
  title     = "Right bleed lost"
  chapter   = 36
  level     = "caution"
  message   = "No air from the right bleed"
  when      = held(bleed_controller_right && !right_own_air, 3)
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [air_right]
  procedure = bleed_right_lost_list
}

alert "leak_left" {
  title     = "Left hot air leak"
  chapter   = 36
  level     = "caution"
  message   = "Left hot air leak"
  when      = leak_seen_left
  true_when = duct_left.bursts
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off]
  tells     = [air_left, sound_wing]
  procedure = leak_left_list
}

alert "leak_right" {
  title     = "Right hot air leak"
  chapter   = 36
  level     = "caution"
  message   = "Right hot air leak"
  when      = leak_seen_right
  true_when = duct_right.bursts
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off]
  tells     = [air_right, sound_wing]
  procedure = leak_right_list
}

# The second series tests the wires by itself; the first series leaves it to the
# mechanic.
alert "leak_wire_fault" {
  title    = "Leak wire fault"
  chapter  = 36
  level    = "advisory"
  message  = "Hot air leak not watched"
  when     = !leak_wire_left || !leak_wire_right
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [leak_watch_left, leak_watch_right]
  only     = [second_series, island_kit]
}

alert "bleed_untrimmed" {
  title    = "Bleed air not trimmed"
  chapter  = 36
  level    = "advisory"
  message  = "Bleed pressure is not trimmed"
  when     = !bleed_controller_left || !bleed_controller_right
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [air_trim]
  only     = [second_series, island_kit]
}

# --------------------------------------------------------------- indications

indication "bleed_left_shown" {
  title   = "Left bleed pressure"
  chapter = 36
  shows   = bleed_left
  means   = air_left
  lit_by  = page_left && bleed_controller_left
  place   = "air page"
}

indication "bleed_right_shown" {
  title   = "Right bleed pressure"
  chapter = 36
  shows   = bleed_right
  means   = air_right
  lit_by  = page_right && bleed_controller_right
  place   = "air page"
}

indication "bleed_left_lamp" {
  title   = "Left bleed shut lamp"
  chapter = 36
  shows   = bleed_shut_left
  means   = bleed_shut_left
  lit_by  = lamp_power_left
  tells   = [air_left]
  place   = "overhead panel"
}

indication "bleed_right_lamp" {
  title   = "Right bleed shut lamp"
  chapter = 36
  shows   = bleed_shut_right
  means   = bleed_shut_right
  lit_by  = lamp_power_right
  tells   = [air_right]
  place   = "overhead panel"
}

indication "cross_bleed_shown" {
  title   = "Cross-bleed valve symbol"
  chapter = 36
  shows   = cross_bleed_open
  means   = cross_bleed_open
  lit_by  = page_right
  place   = "air page"
}

# -------------------------------------------------------------------- events

# The first thing that the hot air meets is the wire that ought to report it.
event "duct_burst" {
  title         = "Left bleed duct bursts and takes its leak wire along"
  chapter       = 36
  rate_per_hour = 3e-8
  fails         = [duct_left.bursts, leak_wire_left, wing_heat_valve_left]
}
