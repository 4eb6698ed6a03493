# ATA 21, told: what the crew rely on for air and pressure, and what they hear of its loss.

chapter = 21

function "cabin_pressure" {
  title    = "Cabin below 10,000 ft"
  works    = cabin_altitude_ft < 10000
  severity = "major"
  severity_if_hidden = "catastrophic"
}

function "cabin_auto" {
  title    = "Automatic cabin pressure"
  works    = cabin_steered
  wanted   = first_climb || climb || cruise || descent || approach
  severity = "minor"
}

function "cabin_air" {
  title    = "Fresh air for the cabin"
  works    = packs_blow || (fresh_air_inlet && fresh_air_inlet_switch == "open" && real.altitude_ft < 12000)
  severity = "major"
  noticed_at_once = true
  noticed_by     = "heard"
  noticed_source = "common practice"
}

function "cabin_temperature" {
  title    = "Cabin temperature"
  works    = (pack_left && pack_controller_left) || (pack_right && pack_controller_right)
  severity = "minor"
  noticed_when   = held(!cabin_temperature, 300)
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "cabin_emptied" {
  title    = "Cabin free of pressure before the doors are opened"
  works    = !real.on_ground || real.airspeed_kt >= 90 || cabin_open_to_air
  wanted   = taxi_in
  severity = "major"
}

function "bay_cooling" {
  title    = "Cooling air for the electronics bay"
  works    = bay_fan
  severity = "minor"
}

function "cool_bay" {
  title    = "Electronics bay cool enough"
  works    = !bay_too_hot
  severity = "minor"
}

signal "cabin_seen_high" {
  title   = "A sender sees the cabin above 9,800 ft"
  value   = (cabin_sender_1 || cabin_sender_2) && cabin_altitude_ft > 9800
}

# The senders of the warning and of the readout have capsules of their own; what the
# controllers feel is not asked (14 CFR 25.841(b)(6)).
alert "cabin_high" {
  title     = "Cabin too high"
  level     = "warning"
  message   = "Cabin too high"
  when      = cabin_seen_high
  true_when = cabin_altitude_ft > 9800
  given_by  = warned_direct
  repeats_s = 20
  until     = cabin_altitude_ft < 9000
  tells     = [cabin_pressure]
  procedure = cabin_high_list
}

alert "pack_left_lost" {
  mirror    = true
  title     = "Left pack lost"
  level     = "caution"
  message   = "Left pack lost"
  when      = held(pack_left_switch == "on" && !pack_left, 8)
  given_by  = news_left
  quiet_in  = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells     = [cabin_air, cabin_temperature]
  procedure = pack_lost_list
}

alert "cabin_auto_lost" {
  title     = "Automatic cabin pressure lost"
  level     = "caution"
  message   = "Cabin pressure not controlled"
  when      = outflow_selector == "auto" && !cabin_steered
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [cabin_auto, cabin_emptied]
  procedure = cabin_auto_list
}

# A controller that has shut its valve and still sees the cabin climb has done all it can.
alert "cabin_climbs" {
  title     = "Outflow valve shut, cabin climbs"
  level     = "caution"
  message   = "Outflow valve is shut and the cabin climbs"
  when      = held(cabin_steered && cabin_altitude_ft > cabin_set_ft + 300 && packs_blow, 20)
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [cabin_pressure]
  procedure = cabin_climbs_list
}

alert "cabin_controller_lost" {
  title    = "One cabin pressure controller lost"
  level    = "advisory"
  message  = "One cabin pressure controller lost"
  when     = (cabin_controller_1 && !cabin_controller_2) || (!cabin_controller_1 && cabin_controller_2)
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
}

# On the first series the flow sensor hangs on the same bus as the fan: when the bus
# dies, the sensor cannot see what the fan does not do. The second series moved it.
alert "bay_cooling_lost" {
  title    = "Electronics bay not cooled"
  level    = "caution"
  message  = "Electronics bay not cooled"
  when     = bay_flow_sensor && held(!bay_fan, 5)
  given_by = alerting
  variant "first_series" { given_by = news_left }
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [bay_cooling, cool_bay]
  procedure = bay_cooling_list
}

alert "cabin_not_empty" {
  title     = "Cabin still under pressure"
  level     = "caution"
  message   = "Cabin still under pressure"
  when      = (cabin_sender_1 || cabin_sender_2) && taxi_in && !cabin_open_to_air
  tells     = [cabin_emptied, escape]
  procedure = cabin_not_empty_list
  only      = [second_series, island_kit]
}
indication "cabin_altitude_shown" {
  title   = "Cabin altitude readout"
  shows   = cabin_altitude_ft
  means   = cabin_altitude_ft
  within  = 300
  lit_by  = systems_either_drawn && (cabin_sender_1 || cabin_sender_2)
  tells   = [cabin_pressure]
  place   = "air picture"
}

# A needle on a capsule: nothing but air moves it.
indication "cabin_altitude_needle" {
  title   = "Cabin altitude needle"
  shows   = cabin_altitude_ft
  means   = cabin_altitude_ft
  within  = 300
  tells   = [cabin_pressure]
  place   = "overhead panel"
}
indication "pack_left_lamp" {
  mirror  = true
  title   = "Left pack off lamp"
  shows   = !pack_left
  means   = !pack_left
  lit_by  = lamp_power_left
  tells   = [cabin_air]
  place   = "overhead panel"
}

# The lamp of the switch: it says that the fan was told to run.
indication "bay_fan_lamp" {
  title   = "Bay fan lamp"
  shows   = bay_fan_switch == "on"
  means   = bay_cooling
  lit_by  = dc_vital
  place   = "overhead panel"
}
indication "bay_flow_shown" {
  title   = "Bay air flow line"
  shows   = bay_fan
  means   = bay_cooling
  lit_by  = systems_left_drawn && bay_flow_sensor
  place   = "air picture"
}
indication "outflow_shown" {
  title   = "Outflow valve steering line"
  shows   = cabin_steered
  means   = cabin_auto
  lit_by  = systems_either_drawn
  place   = "air picture"
}
indication "doors_may_open_lamp" {
  title   = "Cabin depressurised lamp"
  shows   = cabin_open_to_air
  means   = cabin_open_to_air
  tells   = [cabin_emptied, escape]
  lit_by  = lamp_power_left
  place   = "overhead panel"
}

limit "cabin_difference" {
  title    = "Pressure between cabin and outside, in feet of altitude"
  quantity = real.altitude_ft - cabin_altitude_ft
  most     = 29500
}
