# ATA 36, told: hot air as the crew see it.

chapter = 36

function "air_left" {
  mirror   = true
  title    = "Bleed air on the left side"
  works    = bleed_left
  severity = "minor"
  noticed_when   = engine_left_switch == "off" || fire_handle_left == "pulled" || pack_left_lost # by their own hand; bleed pressure beside the pack
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "air_trim" {
  title    = "Bleed pressure and heat held in bounds"
  works    = bleed_controller_left && bleed_controller_right
  severity = "minor"
}

function "leak_watch_left" {
  mirror   = true
  title    = "Bleed leak detected and shut off, left"
  works    = leak_wire_left && bleed_controller_left
  severity = "minor"
}

function "sound_wing" {
  title    = "Wing structure free of overheating"
  works    = !wing_baked
  severity = "catastrophic"
  over_on_purpose = "The lesson of the burst duct: its leak wire runs where the duct bursts, and only the crew shut the air off."
}

alert "bleed_left_lost" {
  mirror    = true
  title     = "Left bleed lost"
  level     = "caution"
  message   = "No bleed air from the left engine"
  when      = held(bleed_controller_left && !left_own_air, 3)
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [air_left]
  procedure = bleed_left_lost_list
}

alert "leak_left" {
  mirror    = true
  title     = "Left bleed duct leaks"
  level     = "caution"
  message   = "Left bleed duct leaks"
  when      = leak_seen_left
  true_when = duct_left.bursts
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off]
  tells     = [air_left, sound_wing]
  procedure = leak_left_list
}

# The second series tests the wires by itself; the first series leaves it to the mechanic, every fifty hours.
alert "leak_wire_fault" {
  title    = "Bleed leak detector failed"
  level    = "advisory"
  message  = "No detection of a bleed leak"
  when     = !leak_wire_left || !leak_wire_right
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [leak_watch_left, leak_watch_right]
  only     = [second_series, island_kit]
}

alert "bleed_untrimmed" {
  title    = "Bleed air not regulated"
  level    = "advisory"
  message  = "Bleed pressure is not regulated"
  when     = !bleed_controller_left || !bleed_controller_right
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [air_trim]
  only     = [second_series, island_kit]
}
indication "bleed_left_shown" {
  mirror  = true
  title   = "Left bleed pressure"
  shows   = bleed_left
  means   = air_left
  lit_by  = systems_left_drawn && bleed_controller_left
  place   = "air picture"
}
indication "bleed_left_lamp" {
  mirror  = true
  title   = "Left bleed shut lamp"
  shows   = bleed_shut_left
  means   = bleed_shut_left
  lit_by  = lamp_power_left
  tells   = [air_left]
  place   = "overhead panel"
}
indication "cross_bleed_shown" {
  title   = "Cross-bleed valve symbol"
  shows   = cross_bleed_open
  means   = cross_bleed_open
  lit_by  = systems_right_drawn
  place   = "air picture"
}

# The first thing that the hot air meets is the wire that ought to report it.
event "duct_burst" {
  title         = "Left bleed duct bursts and takes its leak detector along"
  rate_per_hour = 1e-9
  fails         = [duct_left.bursts, leak_wire_left, wing_heat_valve_left]
}
