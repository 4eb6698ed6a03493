# ATA 34, air data and sensing: what the crew rely on and what they are told.

chapter = 34

function "airspeed_left" {
  title    = "Left airspeed"
  works    = airspeed_1_valid
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
  severity_if_hidden = "hazardous"
  noticed_when   = left_flight_picture && (!air_data_1 || (real.airspeed_kt > 75 && airspeed_1_kt < 40))
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "airspeed_right" {
  title    = "Right airspeed"
  works    = airspeed_2_valid
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
  severity_if_hidden = "hazardous"
  noticed_when   = right_flight_picture && (!air_data_2 || (real.airspeed_kt > 75 && airspeed_2_kt < 40))
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "airspeed_standby" {
  title    = "Standby airspeed"
  works    = airspeed_3_valid
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
  noticed_when   = held(!standby_instrument || !pitot_3, 60) || (real.airspeed_kt > 75 && airspeed_3_kt < 50) || held(air_data_1 && air_data_2 && size(airspeed_3_kt - airspeed_1_kt) > 30 && size(airspeed_3_kt - airspeed_2_kt) > 30, 60)
  noticed_by     = "seen"
  noticed_source = "common practice"
}

# With three readings the odd one out can be found. With two that differ, nobody knows which to believe.
function "airspeed_by_majority" {
  title    = "Two airspeeds that agree"
  works    = at_least(2, airspeed_1_valid, airspeed_2_valid, airspeed_3_valid)
  wanted   = !taxi_out && !taxi_in
  severity = "hazardous"
  severity_if_hidden = "catastrophic" # AC 25-11B: misleading on all sides
  over_on_purpose = "The lesson of the taped ports and of the covers: one slip on the ground closes all three."
  noticed_when   = (altitude_1_stands && altitude_2_stands) || (real.airspeed_kt > 75 && airspeed_1_kt < 40 && airspeed_2_kt < 40) || at_least(2, left_flight_picture && (!air_data_1 || (real.airspeed_kt > 75 && airspeed_1_kt < 40)), right_flight_picture && (!air_data_2 || (real.airspeed_kt > 75 && airspeed_2_kt < 40)), held(!standby_instrument || !pitot_3, 60))
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "speed_limit_warning" {
  title    = "Overspeed warning"
  works    = alerting && (air_data_1 || air_data_2) && (gear_sense_a || gear_sense_b)
  wanted   = climb || cruise || descent || approach
  severity = "minor"
}

function "altitude_left" {
  title    = "Left altitude"
  works    = air_data_1 && size(altitude_1_ft - real.altitude_ft) < 200
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
  severity_if_hidden = "hazardous"
  noticed_when   = left_flight_picture && (!air_data_1 || altitude_1_stands)
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "altitude_right" {
  title    = "Right altitude"
  works    = air_data_2 && size(altitude_2_ft - real.altitude_ft) < 200
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
  severity_if_hidden = "hazardous"
  noticed_when   = right_flight_picture && (!air_data_2 || altitude_2_stands)
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "altitude_standby" {
  title    = "Standby altitude"
  works    = standby_instrument && size(altitude_3_ft - real.altitude_ft) < 200
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
  noticed_when   = held(!standby_instrument, 60) || held(air_data_1 && air_data_2 && size(altitude_3_ft - altitude_1_ft) > 300 && size(altitude_3_ft - altitude_2_ft) > 300, 60)
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "attitude_left" {
  title    = "Left attitude and heading"
  works    = inertial_1 && left_flight_picture
  severity = "minor"
  severity_if_hidden = "hazardous"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "attitude_right" {
  title    = "Right attitude and heading"
  works    = inertial_2 && right_flight_picture
  severity = "minor"
  severity_if_hidden = "hazardous"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "any_attitude" {
  title    = "An attitude to fly by"
  works    = (inertial_1 && left_flight_picture) || (inertial_2 && right_flight_picture) || standby_instrument
  severity = "catastrophic"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "any_heading" {
  title    = "A heading to fly by"
  works    = (inertial_1 && left_flight_picture) || (inertial_2 && right_flight_picture) || standby_compass
  severity = "hazardous"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "attitude_true_left" {
  title    = "Left attitude not false"
  works    = !(inertial_1 && inertial_1.tilts)
  severity = "minor"
  severity_if_hidden = "hazardous"
}

function "attitude_true_right" {
  title    = "Right attitude not false"
  works    = !(inertial_2 && inertial_2.tilts)
  severity = "minor"
  severity_if_hidden = "hazardous"
}

# Two that tilt alike are found by the third alone, and nobody looks there first.
function "attitudes_true" {
  title    = "Attitudes, not two of three false"
  works    = !at_least(2, inertial_1 && inertial_1.tilts, inertial_2 && inertial_2.tilts, standby_instrument && standby_instrument.tilts)
  severity = "catastrophic"
}

# The autopilot makes up for a false bank with up to 25 degrees of its own, its limit; a minute on it has rolled
# past 45, by night or in cloud. Who flies by hand follows two of three alike (common practice).
signal "bank_followed" {
  title   = "Whoever flies keeps level by a false attitude"
  value   = !real.on_ground && (autopilot_on ? (autopilot_1 ? inertial_1.tilts : inertial_2.tilts) : !attitudes_true)
}

function "level_kept" {
  title    = "Wings kept level"
  works    = !held(bank_followed, 60)
  severity = "catastrophic"
}

function "altitudes_true" {
  title    = "Altitudes, not two of three false"
  works    = !at_least(2, air_data_1 && size(altitude_1_ft - real.altitude_ft) > 200, air_data_2 && size(altitude_2_ft - real.altitude_ft) > 200, standby_instrument && size(altitude_3_ft - real.altitude_ft) > 200)
  severity = "catastrophic"
  over_on_purpose = "The lesson of the taped ports: one slip on the ground closes all three."
  noticed_when   = altitude_1_stands && altitude_2_stands
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "second_inertial" {
  title    = "A second inertial unit to compare with"
  works    = inertial_1 && inertial_2
  severity = "minor"
}

function "radio_height" {
  title    = "Radio height"
  works    = height_for_boxes_good
  wanted   = approach || final
  severity = "major"
  severity_if_hidden = "hazardous"
}

alert "airspeeds_differ" {
  title     = "Airspeeds differ"
  level     = "caution"
  message   = "Airspeeds differ"
  when      = held(air_data_1 && air_data_2 && size(airspeed_1_kt - airspeed_2_kt) > 12, 5)
  quiet_in  = [lift_off]
  tells     = [airspeed_left, airspeed_right, airspeed_by_majority]
  procedure = airspeeds_differ_drill
}

control "overspeed_button" {
  title     = "Overspeed warning cancel button"
  positions = ["out", "pressed"]
  initial   = "out"
  place     = "glare shield"
}

# Cancelled until it has ended for ten seconds; never above the greatest operating speed (14 CFR 25.1322(d)).
signal "overspeed_cancelled" {
  title   = "The overspeed warning is cancelled"
  set     = overspeed_button == "pressed" && before(overspeed_button) == "out"
  reset   = held(airspeed_for_boxes_kt < speed_limit_believed_kt, 10)
}

alert "too_fast" {
  title     = "Overspeed"
  level     = "warning"
  message   = "Overspeed"
  when      = held((air_data_1 || air_data_2) && airspeed_for_boxes_kt > speed_limit_believed_kt + 5, 2)
  true_when = real.airspeed_kt > speed_limit_true_kt
  until     = overspeed_cancelled && airspeed_for_boxes_kt < aircraft.max_operating_kt + 5
  repeats_s = 5
  procedure = too_fast_drill
}

alert "too_slow" {
  title     = "Low speed"
  level     = "warning"
  message   = "Low speed"
  when      = held((air_data_1 || air_data_2) && !believed_on_ground && airspeed_for_boxes_kt < too_slow_kt, 1)
  true_when = real.airspeed_kt < too_slow_kt && !real.on_ground
  quiet_in  = [take_off_roll, take_off_fast, landing_roll, taxi_in]
  quiet_when = position_known && real.to_go_nm < 0.2 # the flare, by the position
  repeats_s = 10
  procedure = too_slow_drill
}

# Not a box but the pilot monitoring: who calls the airspeed alive early in the roll sees it when it is not. A closed tube
# keeps the pressure that it had, so the reading stands where it stood. Called from 50 kt over the ground; from 80 kt on nobody stops for it.
signal "no_airspeed_seen" {
  title = "Neither main airspeed has come alive in the roll"
  value = real.on_ground && real.ground_speed_kt > 50 && real.ground_speed_kt < 80 && !(left_flight_picture && air_data_1 && airspeed_1_kt > 45) && !(right_flight_picture && air_data_2 && airspeed_2_kt > 45)
}

alert "no_airspeed" {
  title     = "No airspeed in the roll: called by the pilot monitoring"
  level     = "warning"
  message   = "No airspeed, stop (called by the pilot monitoring)"
  when      = (take_off_roll || take_off_fast) && no_airspeed_seen
  true_when = !airspeed_1_valid && !airspeed_2_valid
  given_by  = pilots_awake
  sound     = pilots_awake
  procedure = no_airspeed_drill
}

alert "altitudes_differ" {
  title     = "Altitudes differ"
  level     = "caution"
  message   = "Altitudes differ"
  when      = held(air_data_1 && air_data_2 && size(altitude_1_ft - altitude_2_ft) > 250, 5)
  quiet_in  = [take_off_fast, lift_off]
  tells     = [altitude_left, altitude_right, altitudes_true]
  procedure = altitudes_differ_drill
}

alert "attitudes_differ" {
  title     = "Attitudes differ"
  level     = "caution"
  message   = "Attitudes differ"
  when      = held(inertial_1 && inertial_2 && inertial_1.tilts != inertial_2.tilts, 1)
  true_when = inertial_1.tilts || inertial_2.tilts
  tells     = [attitude_true_left, attitude_true_right, attitudes_true, level_kept]
  procedure = attitudes_differ_list
}

alert "air_data_1_off" {
  title     = "Air data 1 off"
  level     = "caution"
  message   = "Air data 1 off"
  when      = !air_data_1
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [airspeed_left, altitude_left, airspeed_by_majority]
  procedure = air_data_off
}

alert "air_data_2_off" {
  title      = "Air data 2 off"
  level      = "caution"
  message    = "Air data 2 off"
  when       = !air_data_2
  quiet_in   = [take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost
  tells      = [airspeed_right, altitude_right, airspeed_by_majority]
  procedure  = air_data_off
}

alert "inertial_1_off" {
  title     = "Inertial unit 1 off"
  level     = "caution"
  message   = "Inertial unit 1 off"
  when      = !inertial_1
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [attitude_left, second_inertial]
  procedure = inertial_off
}

# Its report comes through data unit 2, which lives on the same side as the unit.
alert "inertial_2_off" {
  title     = "Inertial unit 2 off"
  level     = "caution"
  message   = "Inertial unit 2 off"
  when      = !inertial_2
  given_by  = alerting && data_unit_2
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [attitude_right, second_inertial]
  procedure = inertial_off
}

# Nobody needs the radio height in the cruise, so the line waits for the approach.
alert "radio_heights_off" {
  title     = "No radio height"
  level     = "caution"
  message   = "No radio height"
  when      = !radio_alt_1 && !radio_alt_2
  quiet_in  = [take_off_roll, take_off_fast, lift_off, first_climb, climb, cruise, descent, landing_roll]
  tells     = [radio_height, height_calls, terrain_warning, approach_low]
  procedure = radio_height_off
}

# Two altimeters that differ are compared, and no box closes the thrust on either.
alert "radio_heights_told_apart" {
  title     = "Radio heights differ"
  level     = "caution"
  message   = "Radio heights differ"
  when      = held(radio_heights_doubted, 4)
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [radio_height, speed_hold, thrust_for_flare, height_calls, terrain_warning, approach_standard]
  procedure = radio_heights_told_apart_drill
}
