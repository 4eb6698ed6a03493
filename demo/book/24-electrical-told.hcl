# ATA 24, electrical power: what the crew rely on and what they are told.

chapter = 24

function "two_ac_sources" {
  title    = "Two independent AC sources"
  works    = at_least(2, gen_left, gen_right, apu_gen)
  severity = "minor"
}

function "engine_generator" {
  title    = "A generator that an engine drives"
  works    = gen_left || gen_right
  severity = "major"
}

function "both_ac_sides" {
  title    = "Both main AC buses"
  works    = ac_left && ac_right
  severity = "major"
}

function "ac_cross_feed" {
  title    = "Either AC side able to feed the other"
  works    = tie_left && tie_right
  severity = "minor"
}

function "both_dc_sides" {
  title    = "Both main DC buses"
  works    = dc_left && dc_right
  severity = "major"
}

function "second_dc_source" {
  title    = "A second DC source behind the first"
  works    = tr_left && tr_right
  severity = "minor"
}

function "third_dc_source" {
  title    = "A third DC source for the vital bus"
  works    = tr_vital
  severity = "minor"
}

# Graded by themselves: what hangs on a bus has functions of its own.
function "vital_dc_power" {
  title    = "Vital DC power"
  works    = dc_vital
  severity = "major"
}

function "direct_dc_power" {
  title    = "Hot battery power"
  works    = dc_direct
  severity = "minor"
}

function "vital_ac_power" {
  title    = "Vital AC power"
  works    = ac_vital
  severity = "major"
}

function "backup_ac_power" {
  title    = "Backup AC power"
  works    = ac_backup
  severity = "major"
}

# Asked for once no main AC bus is left; that it would not come nobody sees before.
function "emergency_source" {
  title    = "The emergency source feeds the vital buses"
  works    = (ram_gen && ram_contactor && ac_vital) || !held(!ac_left && !ac_right && !real.on_ground, 10)
  wanted   = !real.on_ground && real.airspeed_kt > aircraft.least_ram_turbine_kt
  severity = "major"
}

# A reserve that nobody uses is easily forgotten. It counts from the doors to the
# end of the landing roll, because that is when it would be needed.
function "battery_reserve" {
  title    = "Ten minutes of battery for the vital buses"
  works    = battery_true_min > 10
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
}

function "battery_charging" {
  title    = "Charging of the main battery"
  works    = charger_main && battery_main
  severity = "minor"
}

function "cabin_supply" {
  title    = "Galley and cabin supply"
  works    = galley_feed
  wanted   = climb || cruise || descent
  severity = "minor"
  noticed_when   = held(!cabin_supply && !take_off_fast && !lift_off && !first_climb, 180) # the cabin calls
  noticed_by     = "tried"
  noticed_source = "common practice"
}

# ------------------------------------------------------------------- alerts
#
# Cautions wait from 75 kt to 600 ft and from 1,200 ft to the end of the landing
# roll: the crew have better things to do. What was given before stays.

alert "left_gen_off" {
  mirror    = true
  title     = "Left generator off"
  level     = "caution"
  message   = "Left generator off line"
  when      = !gen_left && !bus_sense_left.says_powered
  true_when = !gen_left
  given_by  = alerting && left_power_reports
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [two_ac_sources, cabin_supply, engine_generator]
  procedure = left_generator_off
}

# Wired straight from the generators' control units: it asks no data unit.
alert "all_gens_off" {
  title     = "All generators off"
  level     = "warning"
  message   = "No generator on line"
  when      = !gen_left && !gen_right && !apu_gen
  given_by  = alert_computer_1
  tells     = [two_ac_sources, engine_generator, both_ac_sides, vital_ac_power, cabin_supply, pitch_trim, fuel_pressure_left, fuel_pressure_right]
  procedure = all_generators_off
}

alert "apu_gen_off" {
  title     = "APU generator off"
  level     = "caution"
  message   = "APU generator off line"
  when      = held(apu && !apu_gen && apu_gen_switch == "on", 5)
  given_by  = alerting && data_unit_2
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  procedure = apu_generator_off
}

alert "left_drive_hot" {
  mirror    = true
  title     = "Left drive hot"
  level     = "caution"
  message   = "Left generator drive hot"
  when      = held(drive_left.runs_hot && drive_left_joined && !drive_left_broken, 20)
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  procedure = left_drive_hot_list
}

alert "left_ac_off" {
  mirror    = true
  title     = "Left AC bus dead"
  level     = "caution"
  message   = "Left AC bus dead"
  when      = !ac_left && !bus_sense_left.says_powered
  true_when = !ac_left
  given_by  = alerting && left_power_reports
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [both_ac_sides, cabin_supply]
  procedure = ac_bus_off
}

alert "vital_ac_off" {
  title     = "Vital AC bus dead"
  level     = "caution"
  message   = "Vital AC bus dead"
  when      = !ac_vital && !bus_sense_left.says_powered
  true_when = !ac_vital
  given_by  = alerting && left_power_reports
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [vital_ac_power]
  procedure = vital_ac_off_drill
}

alert "left_dc_source_off" {
  mirror    = true
  title     = "Left DC source off"
  level     = "caution"
  message   = "Left DC source off line"
  when      = held(!tr_left && ac_left && !bus_sense_left.says_powered, 3)
  true_when = !tr_left
  given_by  = alerting && left_power_reports
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [second_dc_source]
  procedure = dc_source_off
}

alert "left_dc_off" {
  title     = "Left DC bus dead"
  level     = "caution"
  message   = "Left DC bus dead"
  when      = !dc_left && !bus_sense_left.says_powered
  true_when = !dc_left
  given_by  = alerting && left_power_reports
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [both_dc_sides, system_pictures, warning_sounds, battery_charging, fuel_quantity, nose_steering, autobrake]
  procedure = dc_bus_off
}

alert "right_dc_off" {
  title     = "Right DC bus dead"
  level     = "caution"
  message   = "Right DC bus dead"
  when      = !dc_right && !bus_sense_right.says_powered
  true_when = !dc_right
  given_by  = alerting && right_power_reports
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [both_dc_sides, right_flight_display, fuel_quantity, brake_heat_watch, deck_door]
  procedure = dc_bus_off
}

# The one electrical alert with a wire of its own into the vital alerting computer. When both DC sources are gone it is
# all that is left to say so. Beside the message stands a printed list of what goes with the two sides. The list is not
# complete: whoever wrote it thought of what the crew would look for, not of what they would miss. What only follows is
# not announced one by one while it stands: those alerts wait for it.
alert "main_dc_lost" {
  title    = "Main DC lost"
  level    = "warning"
  message  = "Main DC lost, vital buses on last source"
  when     = !vital_diode_left && !vital_diode_right
  given_by = alert_computer_1
  tells = [
    both_dc_sides, second_dc_source, battery_charging, system_pictures, route_display, right_flight_display,
    guidance_right, airspeed_right, altitude_right, attitude_right, weather_picture, flight_recording,
    antiskid, autobrake, brakes_normal, nose_steering, reverse_left, reverse_right,
    window_left, window_right, window_any, wing_ice_protection, wipers,
    cabin_auto, cabin_temperature, fuel_quantity, deck_door,
    route_guidance, second_route_computer, transponder_reply, traffic_warning, second_autopilot,
    left_reports, right_reports, attention, data_messages,
  ]
  claims_down = [dc_left, dc_right]
  procedure   = main_dc_lost_drill
}

# It waits for the ram turbine to come up.
alert "vital_battery" {
  title     = "Vital buses on battery"
  level     = "warning"
  message   = "Vital buses on battery"
  when      = held(vital_on_battery, 9)
  true_when = vital_on_battery
  given_by  = alert_computer_1
  tells     = [third_dc_source, battery_charging, emergency_source]
  procedure = vital_battery_drill
}

alert "ram_gen_on" {
  title    = "Emergency generator on line"
  level    = "advisory"
  message  = "Emergency generator feeds the vital buses"
  when     = ram_gen && ram_contactor && !ac_left && !ac_right
  given_by = alert_computer_1
}

alert "ram_gen_off" {
  title     = "Emergency generator not on line"
  level     = "caution"
  message   = "Emergency generator not on line"
  when      = held(!ac_left && !ac_right && !(ram_gen && ram_contactor) && !real.on_ground, 9)
  given_by  = alert_computer_1
  tells     = [emergency_source, vital_ac_power]
  procedure = ram_gen_off_list
}

alert "third_dc_source_off" {
  title    = "Vital DC source off"
  level    = "advisory"
  message  = "Vital DC source off line"
  when     = held(!tr_vital && ac_vital, 3)
  given_by = alert_computer_1
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [third_dc_source]
}

alert "backup_ac_off" {
  title     = "Backup AC bus dead"
  level     = "caution"
  message   = "Backup AC bus dead"
  when      = held(!ac_backup, 3)
  given_by  = alert_computer_1
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [backup_ac_power]
  procedure = backup_ac_off_list
}

alert "direct_dc_off" {
  title     = "Hot battery bus dead"
  level     = "caution"
  message   = "Hot battery bus dead"
  when      = held(!dc_direct, 3)
  given_by  = alert_computer_1
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [direct_dc_power, fire_fighting, hold_fire_fighting]
  procedure = direct_dc_off_list
}

alert "vital_dc_off" {
  title     = "Vital DC bus dead"
  level     = "caution"
  message   = "Vital DC bus dead"
  when      = held(!dc_vital, 2)
  given_by  = alert_computer_1
  tells     = [vital_dc_power]
  procedure = vital_dc_off_drill
}

# The first series goes by the voltage, which falls late; later series count.
alert "battery_low" {
  title     = "Battery low"
  level     = "caution"
  message   = "Main battery low"
  when      = vital_on_battery && counted_left_min < 10
  true_when = battery_true_min < 10
  given_by  = alert_computer_1 && charge_counter
  tells     = [battery_reserve]
  procedure = battery_low_drill
  variant "first_series" {
    when     = vital_on_battery && battery_volts_v < 22
    given_by = alert_computer_1
  }
}

alert "battery_off" {
  title    = "Main battery not available"
  level    = "advisory"
  message  = "Main battery not available"
  when     = failed(battery_main)
  given_by = alerting && charger_main && data_unit_1
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [battery_reserve, battery_charging]
}

alert "battery_not_charging" {
  title    = "Main battery not charging"
  except   = [first_series]
  level    = "advisory"
  message  = "Main battery not charging"
  when     = held(failed(charger_main), 30)
  given_by = alerting && data_unit_1
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [battery_charging]
}

# Later series test the waiting parts (ties, relay, inverter) before each flight and
# say so when a test fails. On the first series they are found out when needed.
alert "waiting_part_failed" {
  title    = "Electrical self-test failed"
  except   = [first_series]
  level    = "advisory"
  message  = "Electrical self-test: a stand-by part failed"
  when     = failed(tie_left) || failed(tie_right) || failed(vital_relay) || failed(inverter)
  given_by = alerting && data_unit_2
  quiet_in = [take_off_roll, take_off_fast, lift_off, first_climb, final, landing_roll]
  tells    = [ac_cross_feed]
}

alert "apu_battery_off" {
  title    = "APU battery not available"
  level    = "advisory"
  message  = "APU battery not available"
  when     = failed(battery_apu)
  given_by = alerting && data_unit_2
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [apu_start]
}
