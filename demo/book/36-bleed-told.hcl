# ATA 36, told: hot air as the crew see it.

# ----------------------------------------------------------------- functions

function "air_left" {
  title    = "Bleed air on the left side"
  chapter  = 36
  works    = bleed_left
  severity = "minor"
  noticed_when   = engine_left_switch == "off" || fire_handle_left == "pulled" # by their own hand
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "air_right" {
  title    = "Bleed air on the right side"
  chapter  = 36
  works    = bleed_right
  severity = "minor"
  noticed_when   = engine_right_switch == "off" || fire_handle_right == "pulled" # by their own hand
  noticed_by     = "seen"
  noticed_source = "common practice"
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
  title    = "Wing structure free of overheating"
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
# mechanic, every fifty hours.
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
  lit_by  = systems_left_drawn && bleed_controller_left
  place   = "air picture"
}

indication "bleed_right_shown" {
  title   = "Right bleed pressure"
  chapter = 36
  shows   = bleed_right
  means   = air_right
  lit_by  = systems_right_drawn && bleed_controller_right
  place   = "air picture"
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
  lit_by  = systems_right_drawn
  place   = "air picture"
}

# -------------------------------------------------------------------- events

# The first thing that the hot air meets is the wire that ought to report it.
event "duct_burst" {
  title         = "Left bleed duct bursts and takes its leak wire along"
  chapter       = 36
  rate_per_hour = 1e-9
  fails         = [duct_left.bursts, leak_wire_left, wing_heat_valve_left]
}
