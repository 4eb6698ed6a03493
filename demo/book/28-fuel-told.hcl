# ATA 28, told: fuel as the crew see it.

chapter = 28

function "fuel_to_left" {
  mirror   = true
  title    = "Fuel to the left engine"
  works    = fuel_feed_left
  wanted   = engine_left_switch == "run" && fire_handle_left == "in" # one that is put off wants none
  severity = "major"
  noticed_when   = held(!fuel_to_left && !engine_left && engine_left_switch == "run" && (left_windmills || left_starter_zone), 60) # the relight that does not come, where one can
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "fuel_pressure_left" {
  mirror   = true
  title    = "Fuel pump pressure, left engine"
  works    = main_pressure_left
  severity = "minor"
}

function "fuel_crossfeed" {
  title    = "Fuel crossfeed"
  works    = crossfeed_valve
  wanted   = climb || cruise || descent || approach
  severity = "major"
}

function "fuel_reserve" {
  title    = "Fuel enough in both tanks"
  works    = tank_left_kg > 300 && tank_right_kg > 300
  severity = "major"
}

function "fuel_balance" {
  title    = "Fuel balanced between the wings"
  works    = size(tank_left_kg - tank_right_kg) < 600
  severity = "minor"
}

function "fuel_quantity" {
  title    = "Fuel quantity known"
  works    = fuel_gauge_left && fuel_gauge_right && !fuel_gauge_left.stays_put && !fuel_gauge_right.stays_put
  severity = "minor"
  noticed_when   = (cruise || descent || approach) && held(engine_picture && !(fuel_gauge_left && fuel_gauge_right), 60)
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "fuel_low_watch" {
  title    = "Low fuel watched in both tanks"
  works    = low_float_left && low_float_right && alerting
  severity = "major"
}

function "fuel_to_apu" {
  title    = "Fuel to the APU"
  works    = fuel_feed_apu
  wanted   = apu_switch == "run"
  severity = "minor"
}

alert "fuel_pumps_left" {
  mirror     = true
  title      = "Left fuel pumps low"
  level      = "caution"
  message    = "Left fuel pump pressure low"
  when       = held(!main_pressure_left, 2) # by a line of its own: 14 CFR 25.1305(a)
  quiet_in   = [take_off_fast, lift_off, landing_roll]
  quiet_when = all_gens_off && pressed_left
  tells      = [fuel_pressure_left, fuel_to_left]
  procedure  = fuel_pumps_list
}

alert "fuel_low_left" {
  mirror    = true
  title     = "Left fuel low"
  level     = "caution"
  message   = "Left fuel low"
  when      = low_float_left && tank_left_kg < low_fuel_kg
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [fuel_reserve, fuel_to_left]
  procedure = fuel_low_list
}

# Compares what the gauges say. A gauge that stays put makes this alert lie, or keeps it silent.
alert "fuel_unbalanced" {
  title     = "Fuel unbalanced"
  level     = "caution"
  message   = "Fuel unbalanced"
  when      = fuel_gauge_left && fuel_gauge_right && size(sensed_left_kg - sensed_right_kg) > 500
  true_when = size(tank_left_kg - tank_right_kg) > 500
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [fuel_balance]
  procedure = fuel_unbalanced_list
}

alert "fuel_gauge_lost" {
  title    = "Fuel gauge lost"
  level    = "advisory"
  message  = "Fuel gauge lost"
  when     = !fuel_gauge_left || !fuel_gauge_right
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [fuel_quantity]
  only     = [second_series, island_kit]
}

# The second series adds up what was burnt and compares it with what is left.
alert "fuel_missing" {
  title     = "Fuel loss"
  level     = "caution"
  message   = "Fuel loss"
  when      = flow_meter_left && flow_meter_right && sensed_left_kg + sensed_right_kg < real.fuel_kg + lost_left_kg + lost_right_kg - 250
  true_when = lost_left_kg + lost_right_kg > 200
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [fuel_reserve, fuel_balance]
  procedure = fuel_unbalanced_list
  only      = [second_series, island_kit]
}

alert "crossfeed_not_followed" {
  title     = "Crossfeed does not follow its switch"
  level     = "caution"
  message   = "Fuel crossfeed does not follow its switch"
  when      = held((crossfeed_switch == "open" && !crossfeed_open) || (crossfeed_switch == "shut" && crossfeed_open), 4)
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [fuel_crossfeed]
  procedure = fuel_unbalanced_list
}
indication "fuel_left_shown" {
  mirror  = true
  title   = "Left fuel quantity"
  shows   = sensed_left_kg
  means   = tank_left_kg
  within  = 100
  lit_by  = engine_picture && fuel_gauge_left
  tells   = [fuel_reserve, fuel_balance, fuel_quantity]
  place   = "engine picture"
}
indication "fuel_total_shown" {
  title   = "Total fuel"
  shows   = sensed_left_kg + sensed_right_kg
  means   = tank_left_kg + tank_right_kg
  within  = 150
  lit_by  = engine_picture && fuel_gauge_left && fuel_gauge_right
  tells   = [fuel_reserve]
  place   = "engine picture"
}
indication "fuel_used_shown" {
  title   = "Fuel used"
  shows   = burnt_kg
  means   = burnt_kg
  within  = 50
  lit_by  = engine_picture && flow_meter_left && flow_meter_right
  place   = "engine picture"
}
indication "fuel_pumps_left_lamp" {
  mirror  = true
  title   = "Left fuel pumps lamp"
  shows   = !boosted_left
  means   = !boosted_left
  lit_by  = lamp_power_left
  tells   = [fuel_pressure_left]
  place   = "overhead panel"
}

# Lights with the switch, not with the valve.
indication "crossfeed_lamp" {
  title   = "Crossfeed lamp"
  shows   = crossfeed_switch == "open"
  means   = crossfeed_open
  lit_by  = dc_vital
  tells   = [fuel_crossfeed]
  place   = "overhead panel"
}
indication "low_floats_shown" {
  title   = "Low-fuel floats line"
  shows   = low_float_left && low_float_right
  means   = low_float_left && low_float_right
  lit_by  = systems_either_drawn
  tells   = [fuel_low_watch]
  place   = "fuel picture"
}
indication "apu_fuel_shown" {
  title   = "APU fuel line"
  shows   = fuel_feed_apu
  means   = fuel_to_apu
  lit_by  = systems_either_drawn
  place   = "fuel picture"
}

# 800 kg on an arm of 5.5 m ask for a rolling moment of 0.007 of dynamic pressure, wing
# area and span at 128 kt: a fifth of what the ailerons have, as an assumption.
limit "fuel_difference" {
  title    = "Fuel difference between the wings"
  quantity = size(tank_left_kg - tank_right_kg)
  most     = 800
}
