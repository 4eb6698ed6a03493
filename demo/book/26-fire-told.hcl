# ATA 26, told: what watches for fire and what fights it, and how the crew hear of it.

chapter = 26

function "fire_watch_left" {
  mirror   = true
  title    = "Fire detection, left engine"
  works    = (fire_loop_left_a || fire_loop_left_b) && warned_direct
  severity = "major"
}

function "fire_watch_apu" {
  title    = "Fire detection, APU"
  works    = fire_loop_apu && warned_direct
  wanted   = apu_switch == "run"
  severity = "major"
}

# One sensor on each side's bus, and news by either way.
function "smoke_watch" {
  title    = "Smoke detection, cargo hold"
  works    = (smoke_sensor_1 || smoke_sensor_2) && news_either
  severity = "major"
}

function "fire_fighting" {
  title    = "A bottle for an engine fire"
  works    = dc_direct && ((bottle_1 && !bottle_1_fired) || (bottle_2 && !bottle_2_fired))
  severity = "major"
}

function "hold_fire_fighting" {
  title    = "The bottles for the cargo hold"
  works    = hold_slow_bottle && dc_direct && hold_bottle && !hold_bottle_fired
  severity = "major"
}

function "no_fire_left" {
  mirror   = true
  title    = "Left engine free of fire"
  works    = !left_burns
  severity = "major" # told, and put out: an engine is lost
  severity_if_hidden = "catastrophic"
}

function "fire_yields_left" {
  mirror   = true
  title    = "Left engine fire put out within five minutes"
  works    = !held(left_burns, 300)
  severity = "hazardous" # the firewall holds a quarter of an hour; five minutes of it: an assumption
  severity_if_hidden = "catastrophic"
}

function "sound_pylons" {
  title    = "Pylons and wing roots whole"
  works    = !left_pylon_burnt && !right_pylon_burnt
  severity = "catastrophic"
  over_on_purpose = "Hands off nobody pulls the handle; by the list the fuel is shut off within a minute."
}

function "no_smoke" {
  title    = "Cargo hold free of smoke"
  works    = !hold_smoke
  severity = "hazardous" # told, and held down to the landing
  severity_if_hidden = "catastrophic"
}

function "clear_deck_air" {
  title    = "Air on the flight deck free of smoke"
  works    = !bay_smoke
  severity = "major" # masks and goggles are for this: 14 CFR 25.1439
  severity_if_hidden = "hazardous"
  noticed_at_once = true
  noticed_by      = "felt" # smelt
  noticed_source  = "common practice"
}

alert "fire_left" {
  mirror    = true
  title     = "Left engine fire"
  level     = "warning"
  message   = "Left engine fire"
  when      = left_fire_believed
  true_when = left_burns
  given_by  = warned_direct
  tells     = [no_fire_left, fire_yields_left, sound_pylons]
  procedure = engine_fire_list
}

alert "fire_apu" {
  title     = "APU fire"
  level     = "warning"
  message   = "APU fire"
  when      = fire_loop_apu && apu_burns
  given_by  = warned_direct
  quiet_in  = [take_off_fast, lift_off]
  procedure = fire_apu_list
}

alert "smoke_in_hold" {
  title     = "Smoke in the cargo hold"
  level     = "warning"
  message   = "Smoke in the cargo hold"
  when      = smoke_believed
  true_when = hold_smoke
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off]
  tells     = [no_smoke]
  procedure = smoke_list
}

alert "smoke_sensors_differ" {
  title     = "Cargo hold smoke sensors differ"
  level     = "caution"
  message   = "Hold smoke sensors differ"
  when      = held((smoke_seen_1 || smoke_seen_2) && !smoke_believed, 5)
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  procedure = smoke_sensors_list
}

alert "smoke_watch_lost" {
  title    = "No smoke detection in the hold"
  level    = "advisory"
  message  = "A hold smoke sensor is out"
  when     = !smoke_sensor_1 || !smoke_sensor_2
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [smoke_watch]
}

alert "bay_smokes" {
  title     = "Smoke in the electronics bay"
  level     = "warning"
  message   = "Smoke in the electronics bay"
  when      = bay_smoke_sensor && bay_smoke
  true_when = bay_smoke
  given_by  = warned_direct
  quiet_in  = [take_off_fast, lift_off]
  tells     = [clear_deck_air]
  procedure = bay_smoke_list
}

alert "fire_loop_fault" {
  title      = "Fire loop fault"
  level      = "advisory"
  message    = "A fire loop is out"
  when       = !fire_loop_left_a || !fire_loop_left_b || !fire_loop_right_a || !fire_loop_right_b || !fire_loop_apu
  quiet_in   = [take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost && fire_loop_left_a && fire_loop_right_a
  tells      = [fire_watch_apu]
}

alert "fire_watch_lost" {
  title     = "No fire detection"
  level     = "caution"
  message   = "No fire detection on one engine"
  when      = (!fire_loop_left_a && !fire_loop_left_b) || (!fire_loop_right_a && !fire_loop_right_b)
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [fire_watch_left, fire_watch_right]
  procedure = fire_watch_list
}

alert "bottle_low" {
  title    = "Fire bottle empty"
  level    = "advisory"
  message  = "A fire bottle is empty"
  when     = !bottle_1 || bottle_1_fired || !bottle_2 || bottle_2_fired || !hold_bottle || hold_bottle_fired || !hold_slow_bottle
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [fire_fighting, hold_fire_fighting]
}
indication "fire_handle_left_light" {
  mirror  = true
  title   = "Left fire handle light"
  shows   = left_fire_believed
  means   = left_burns
  lit_by  = dc_direct
  tells   = [no_fire_left, fire_yields_left, sound_pylons]
  place   = "glare shield"
}
indication "fire_handle_apu_light" {
  title   = "APU fire handle light"
  shows   = fire_loop_apu && apu_burns
  means   = apu_burns
  lit_by  = dc_direct
  place   = "overhead panel"
}
indication "bottle_1_lamp" {
  title   = "Bottle 1 empty lamp"
  shows   = !bottle_1 || bottle_1_fired
  means   = !bottle_1 || bottle_1_fired
  lit_by  = dc_direct
  tells   = [fire_fighting]
  place   = "glare shield"
}
indication "bottle_2_lamp" {
  title   = "Bottle 2 empty lamp"
  shows   = !bottle_2 || bottle_2_fired
  means   = !bottle_2 || bottle_2_fired
  lit_by  = dc_direct
  tells   = [fire_fighting]
  place   = "glare shield"
}
indication "hold_bottle_lamp" {
  title   = "Cargo hold bottle empty lamp"
  shows   = !hold_bottle || hold_bottle_fired
  means   = !hold_bottle || hold_bottle_fired
  lit_by  = lamp_power_right
  tells   = [hold_fire_fighting]
  place   = "overhead panel"
}
indication "hold_slow_lamp" {
  title   = "Cargo hold second bottle empty lamp"
  shows   = !hold_slow_bottle || hold_slow_s >= 5400
  means   = !hold_slow_bottle || hold_slow_s >= 5400
  lit_by  = lamp_power_right
  tells   = [hold_fire_fighting]
  place   = "overhead panel"
}
indication "bay_smoke_lamp" {
  title   = "Electronics bay smoke lamp"
  shows   = bay_smoke_sensor && bay_smoke
  means   = bay_smoke
  lit_by  = dc_direct
  tells   = [clear_deck_air]
  place   = "overhead panel"
}
indication "smoke_lamp" {
  title   = "Cargo hold smoke lamp"
  shows   = smoke_believed
  means   = hold_smoke
  lit_by  = dc_direct
  tells   = [no_smoke]
  place   = "overhead panel"
}
indication "smoke_sensors_shown" {
  title   = "Smoke sensors line"
  shows   = smoke_sensor_1 && smoke_sensor_2
  means   = smoke_sensor_1 && smoke_sensor_2
  lit_by  = systems_either_drawn
  tells   = [smoke_watch]
  place   = "cabin picture"
}
indication "fire_loops_shown" {
  title   = "Fire loops line"
  shows   = fire_loop_left_a && fire_loop_left_b && fire_loop_right_a && fire_loop_right_b
  means   = fire_loop_left_a && fire_loop_left_b && fire_loop_right_a && fire_loop_right_b
  lit_by  = systems_either_drawn
  tells   = [fire_watch_left, fire_watch_right]
  place   = "engine picture"
}
