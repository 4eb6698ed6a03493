# ATA 34, air data, inertial sensing and the radio altimeters: what the aircraft
# believes about its speed, height and attitude.
#
# Three pitot tubes: left, right, and one for the standby instrument. Side 1 lives
# from the vital buses, side 2 from the right side.

unit "pitot_1" {
  title         = "Left pitot tube"
  chapter       = 34
  rate_per_hour = 5e-6
  place         = "nose, left"
  fault "blocked" {
    title         = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
  }
}

unit "pitot_2" {
  title         = "Right pitot tube"
  chapter       = 34
  rate_per_hour = 5e-6
  place         = "nose, right"
  fault "blocked" {
    title         = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
  }
}

unit "pitot_3" {
  title         = "Standby pitot tube"
  chapter       = 34
  rate_per_hour = 5e-6
  place         = "nose, below"
  fault "blocked" {
    title         = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
  }
}

unit "air_data_1" {
  title         = "Air data computer 1"
  chapter       = 34
  needs         = core_fed && pitot_1
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "air_data_2" {
  title         = "Air data computer 2"
  chapter       = 34
  needs         = dc_right && pitot_2
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

# Ice closes an unheated tube (chapter 30); dirt or an insect closes any.
signal "pitot_1_closed" {
  title   = "The left pitot tube is closed"
  chapter = 34
  value   = pitot_1.blocked || probe_1_iced
}

signal "pitot_2_closed" {
  title   = "The right pitot tube is closed"
  chapter = 34
  value   = pitot_2.blocked || probe_2_iced
}

signal "pitot_3_closed" {
  title   = "The standby pitot tube is closed"
  chapter = 34
  value   = pitot_3.blocked || probe_3_iced
}

# A closed tube keeps the speed of the moment; then the reading grows with every
# foot climbed and falls with every foot lost, like an altimeter.
signal "airspeed_1_kt" {
  title   = "Airspeed, side 1"
  chapter = 34
  value = (frozen(real.airspeed_kt, pitot_1_closed) + (real.altitude_ft - frozen(real.altitude_ft, pitot_1_closed))
  * aircraft.blocked_pitot_rise_kt / aircraft.blocked_pitot_climb_ft)
}

signal "airspeed_2_kt" {
  title   = "Airspeed, side 2"
  chapter = 34
  value = (frozen(real.airspeed_kt, pitot_2_closed) + (real.altitude_ft - frozen(real.altitude_ft, pitot_2_closed))
  * aircraft.blocked_pitot_rise_kt / aircraft.blocked_pitot_climb_ft)
}

signal "airspeed_3_kt" {
  title   = "Airspeed, standby"
  chapter = 34
  value = (frozen(real.airspeed_kt, pitot_3_closed) + (real.altitude_ft - frozen(real.altitude_ft, pitot_3_closed))
  * aircraft.blocked_pitot_rise_kt / aircraft.blocked_pitot_climb_ft)
}

signal "altitude_1_ft" {
  title   = "Altitude, side 1"
  chapter = 34
  value   = frozen(real.altitude_ft, static_left.blocked)
}

signal "altitude_2_ft" {
  title   = "Altitude, side 2"
  chapter = 34
  value   = frozen(real.altitude_ft, static_right.blocked)
}

unit "static_left" {
  title         = "Static ports of side 1"
  chapter       = 34
  rate_per_hour = 1e-6
  place         = "forward fuselage"
  fault "blocked" {
    title         = "blocked: the pressure in the line is trapped"
    rate_per_hour = 5e-7
  }
}

unit "static_right" {
  title         = "Static ports of side 2"
  chapter       = 34
  rate_per_hour = 1e-6
  place         = "forward fuselage"
  fault "blocked" {
    title         = "blocked: the pressure in the line is trapped"
    rate_per_hour = 5e-7
  }
}

# Side 1 has two feeds. Side 2 lives from the right AC bus and, when that goes, for
# five minutes from the battery-direct bus: long enough to change over, and then it
# stops without a word of its own.
unit "inertial_1" {
  title         = "Inertial unit 1"
  chapter       = 34
  needs         = ac_vital || dc_vital
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

signal "inertial_2_reserve" {
  title   = "Inertial unit 2 runs on its five-minute reserve"
  chapter = 34
  value   = dc_direct && !ac_right && !held(!ac_right, 300)
}

unit "inertial_2" {
  title         = "Inertial unit 2"
  chapter       = 34
  needs         = ac_right || inertial_2_reserve
  rate_per_hour = 4e-5
  place         = "electronics bay, right rack"
}

signal "airspeed_for_boxes_kt" {
  title   = "Airspeed as used by the warning computers"
  chapter = 34
  value   = air_data_1 ? airspeed_1_kt : airspeed_2_kt
}

# How fast is too fast depends on the gear. With both gear sensing boxes dead nobody
# says where it is, and the computers assume the worse: that it hangs out.
signal "gear_reported_up" {
  title   = "A sensing box reports that the gear is up"
  chapter = 34
  value   = (gear_sense_a || gear_sense_b) && gear_stowed
}

signal "speed_limit_believed_kt" {
  title   = "Speed limit as computed"
  chapter = 34
  value   = gear_reported_up ? aircraft.max_operating_kt : aircraft.max_gear_kt
}

signal "speed_limit_true_kt" {
  title   = "Speed limit in truth"
  chapter = 34
  value   = gear_stowed ? aircraft.max_operating_kt : aircraft.max_gear_kt
}

# Two radio altimeters, one from each DC side. They are good to 2,500 ft. Each can
# fail to a fixed belief, and the boxes that read it do not always notice.
unit "radio_alt_1" {
  title         = "Radio altimeter 1"
  chapter       = 34
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "under the rear fuselage"
  fault "reads_low" {
    title         = "reads a few feet at any height"
    rate_per_hour = 3e-6
  }
  fault "reads_high" {
    title         = "reads its highest value at any height"
    rate_per_hour = 3e-6
  }
}

unit "radio_alt_2" {
  title         = "Radio altimeter 2"
  chapter       = 34
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "under the rear fuselage"
  fault "reads_low" {
    title         = "reads a few feet at any height"
    rate_per_hour = 3e-6
  }
  fault "reads_high" {
    title         = "reads its highest value at any height"
    rate_per_hour = 3e-6
  }
}

signal "radio_height_1_ft" {
  title   = "Radio height 1"
  chapter = 34
  value = (radio_alt_1.reads_low ? 5
    : radio_alt_1.reads_high ? 2500
  : least_of(real.height_ft, 2500))
}

signal "radio_height_2_ft" {
  title   = "Radio height 2"
  chapter = 34
  value = (radio_alt_2.reads_low ? 5
    : radio_alt_2.reads_high ? 2500
  : least_of(real.height_ft, 2500))
}

# Inside the boxes: each side trusts its own radio altimeter while that has power,
# and takes the other when it has none. A dead altimeter is noticed; a lying one is
# not, unless somebody compares the two.
signal "height_for_boxes_ft" {
  title   = "Radio height as used by the warning and thrust computers"
  chapter = 34
  value   = radio_alt_1 ? radio_height_1_ft : radio_height_2_ft
}

signal "height_for_boxes_good" {
  title   = "The radio height that the boxes use is right"
  chapter = 34
  value   = radio_alt_1 ? !(radio_alt_1.reads_low || radio_alt_1.reads_high) : (radio_alt_2 && !(radio_alt_2.reads_low || radio_alt_2.reads_high))
}

signal "radio_heights_differ" {
  title   = "The two radio heights differ"
  chapter = 34
  value   = radio_alt_1 && radio_alt_2 && size(radio_height_1_ft - radio_height_2_ft) > 100
}

# Once they have differed, later series doubt both until the wheels are on the
# ground: near the ground a low lie and the truth come close again.
signal "radio_heights_doubted" {
  title   = "The radio heights have differed on this flight"
  chapter = 34
  set     = radio_heights_differ
  reset   = sensed_on_ground_a || sensed_on_ground_b
}

# The first series trusts whatever an altimeter that has power says. Later series
# trust neither when they have differed.
signal "radio_height_trusted" {
  title   = "The boxes trust the radio height"
  chapter = 34
  value   = radio_alt_1 || radio_alt_2
  variant "second_series" {
    value = (radio_alt_1 || radio_alt_2) && !radio_heights_doubted
  }
  variant "island_kit" {
    value = (radio_alt_1 || radio_alt_2) && !radio_heights_doubted
  }
}

# The standby instrument keeps speed, height and attitude for both pilots, with a
# cell of its own that carries it for half an hour when the vital bus is gone.
unit "standby_cell" {
  title         = "Cell of the standby instrument"
  chapter       = 34
  rate_per_hour = 2e-5
  place         = "centre panel"
}

unit "standby_instrument" {
  title         = "Standby instrument"
  chapter       = 34
  needs         = dc_vital || (standby_cell && !held(!dc_vital, 1800))
  rate_per_hour = 2e-5
  place         = "centre panel"
}

unit "standby_compass" {
  title         = "Standby compass"
  chapter       = 34
  rate_per_hour = 1e-6
  place         = "windscreen post"
}

signal "airspeed_1_valid" {
  title   = "Airspeed 1 is shown and right"
  chapter = 34
  value   = air_data_1 && size(airspeed_1_kt - real.airspeed_kt) < 10
}

signal "airspeed_2_valid" {
  title   = "Airspeed 2 is shown and right"
  chapter = 34
  value   = air_data_2 && size(airspeed_2_kt - real.airspeed_kt) < 10
}

signal "airspeed_3_valid" {
  title   = "Standby airspeed is shown and right"
  chapter = 34
  value   = standby_instrument && pitot_3 && size(airspeed_3_kt - real.airspeed_kt) < 10
}

# ----------------------------------------------------------------- functions

function "airspeed_left" {
  title    = "Left airspeed"
  chapter  = 34
  works    = airspeed_1_valid
  wanted   = !taxi_out && !taxi_in
  severity = "major"
}

function "airspeed_right" {
  title    = "Right airspeed"
  chapter  = 34
  works    = airspeed_2_valid
  wanted   = !taxi_out && !taxi_in
  severity = "major"
}

function "airspeed_standby" {
  title    = "Standby airspeed"
  chapter  = 34
  works    = airspeed_3_valid
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
}

# With three readings the odd one out can be found. With two that differ, nobody
# knows which to believe.
function "airspeed_by_majority" {
  title    = "Two airspeeds that agree"
  chapter  = 34
  works    = at_least(2, airspeed_1_valid, airspeed_2_valid, airspeed_3_valid)
  wanted   = !taxi_out && !taxi_in
  severity = "hazardous"
}

function "speed_limit_warning" {
  title    = "Warning of too much speed"
  chapter  = 34
  works    = alerting && (air_data_1 || air_data_2) && (gear_sense_a || gear_sense_b)
  wanted   = climb || cruise || descent || approach
  severity = "minor"
}

function "altitude_left" {
  title    = "Left altitude"
  chapter  = 34
  works    = air_data_1 && size(altitude_1_ft - real.altitude_ft) < 200
  wanted   = !taxi_out && !taxi_in
  severity = "major"
}

function "altitude_right" {
  title    = "Right altitude"
  chapter  = 34
  works    = air_data_2 && size(altitude_2_ft - real.altitude_ft) < 200
  wanted   = !taxi_out && !taxi_in
  severity = "major"
}

function "attitude_left" {
  title    = "Left attitude and heading"
  chapter  = 34
  works    = inertial_1 && left_flight_picture
  severity = "major"
}

function "attitude_right" {
  title    = "Right attitude and heading"
  chapter  = 34
  works    = inertial_2 && right_flight_picture
  severity = "major"
}

function "any_attitude" {
  title    = "An attitude to fly by"
  chapter  = 34
  works    = (inertial_1 && left_flight_picture) || (inertial_2 && right_flight_picture) || standby_instrument
  severity = "catastrophic"
}

function "any_heading" {
  title    = "A heading to fly by"
  chapter  = 34
  works    = (inertial_1 && left_flight_picture) || (inertial_2 && right_flight_picture) || standby_compass
  severity = "hazardous"
}

function "second_inertial" {
  title    = "A second inertial unit to compare with"
  chapter  = 34
  works    = inertial_1 && inertial_2
  severity = "minor"
}

function "radio_height" {
  title    = "Radio height"
  chapter  = 34
  works    = height_for_boxes_good
  wanted   = approach || final
  severity = "major"
}

# ------------------------------------------------------------------- alerts

alert "airspeeds_disagree" {
  title     = "Airspeeds disagree"
  chapter   = 34
  level     = "caution"
  message   = "Airspeeds disagree"
  when      = held(air_data_1 && air_data_2 && size(airspeed_1_kt - airspeed_2_kt) > 12, 5)
  quiet_in  = [lift_off]
  tells     = [airspeed_left, airspeed_right, airspeed_by_majority]
  procedure = airspeeds_disagree_drill
}

alert "too_fast" {
  title     = "Too fast"
  chapter   = 34
  level     = "warning"
  message   = "Too fast"
  when      = held((air_data_1 || air_data_2) && airspeed_for_boxes_kt > speed_limit_believed_kt + 5, 2)
  true_when = real.airspeed_kt > speed_limit_true_kt
  repeats_s = 5
  procedure = too_fast_drill
}

alert "altitudes_disagree" {
  title     = "Altitudes disagree"
  chapter   = 34
  level     = "caution"
  message   = "Altitudes disagree"
  when      = held(air_data_1 && air_data_2 && size(altitude_1_ft - altitude_2_ft) > 250, 5)
  quiet_in  = [take_off_fast, lift_off]
  tells     = [altitude_left, altitude_right]
  procedure = altitudes_disagree_drill
}

alert "air_data_1_off" {
  title     = "Air data 1 off"
  chapter   = 34
  level     = "caution"
  message   = "Air data 1 off"
  when      = !air_data_1
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [airspeed_left, altitude_left]
  procedure = air_data_off
}

alert "air_data_2_off" {
  title     = "Air data 2 off"
  chapter   = 34
  level     = "caution"
  message   = "Air data 2 off"
  when      = !air_data_2
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [airspeed_right, altitude_right]
  procedure = air_data_off
}

alert "inertial_1_off" {
  title     = "Inertial unit 1 off"
  chapter   = 34
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
  chapter   = 34
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
  chapter   = 34
  level     = "caution"
  message   = "No radio height"
  when      = !radio_alt_1 && !radio_alt_2
  quiet_in  = [take_off_roll, take_off_fast, lift_off, first_climb, climb, cruise, descent, landing_roll]
  tells     = [radio_height, height_calls, terrain_warning, approach_low]
  procedure = radio_height_off
}

# Two altimeters that differ are compared on later series only. On the first series
# the boxes believe the left one.
alert "radio_heights_disagree" {
  title     = "Radio heights disagree"
  chapter   = 34
  except    = [first_series]
  level     = "caution"
  message   = "Radio heights disagree"
  when      = held(radio_heights_doubted, 4)
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [radio_height, speed_hold, thrust_for_flare]
  procedure = radio_heights_disagree_drill
}

# -------------------------------------------------------------- indications

indication "airspeed_1_readout" {
  title   = "Left airspeed"
  chapter = 34
  shows   = airspeed_1_kt
  means   = real.airspeed_kt
  within  = 10
  lit_by  = left_flight_picture && air_data_1
  place   = "screen 1"
  tells   = [airspeed_left]
}

indication "airspeed_2_readout" {
  title   = "Right airspeed"
  chapter = 34
  shows   = airspeed_2_kt
  means   = real.airspeed_kt
  within  = 10
  lit_by  = right_flight_picture && air_data_2
  place   = "screen 5"
  tells   = [airspeed_right]
}

indication "speed_limit_mark" {
  title   = "Speed limit mark beside the left airspeed"
  chapter = 34
  shows   = speed_limit_believed_kt
  means   = speed_limit_true_kt
  within  = 3
  lit_by  = left_flight_picture && air_data_1
  place   = "screen 1"
  tells   = [speed_limit_warning]
}

indication "airspeed_3_readout" {
  title   = "Standby airspeed"
  chapter = 34
  shows   = airspeed_3_kt
  means   = real.airspeed_kt
  within  = 10
  lit_by  = standby_instrument && pitot_3
  place   = "standby instrument"
  tells   = [airspeed_standby]
}

indication "altitude_1_readout" {
  title   = "Left altitude"
  chapter = 34
  shows   = altitude_1_ft
  means   = real.altitude_ft
  within  = 200
  lit_by  = left_flight_picture && air_data_1
  place   = "screen 1"
  tells   = [altitude_left]
}

indication "altitude_2_readout" {
  title   = "Right altitude"
  chapter = 34
  shows   = altitude_2_ft
  means   = real.altitude_ft
  within  = 200
  lit_by  = right_flight_picture && air_data_2
  place   = "screen 5"
  tells   = [altitude_right]
}

indication "altitude_3_readout" {
  title   = "Standby altitude"
  chapter = 34
  shows   = real.altitude_ft
  means   = real.altitude_ft
  within  = 200
  lit_by  = standby_instrument
  place   = "standby instrument"
}

indication "attitude_3_ball" {
  title   = "Standby attitude"
  chapter = 34
  shows   = standby_instrument
  means   = standby_instrument
  lit_by  = standby_instrument
  place   = "standby instrument"
  tells   = [any_attitude]
}

indication "compass_card" {
  title   = "Standby compass card: moves"
  chapter = 34
  shows   = standby_compass
  means   = standby_compass
  place   = "windscreen post"
  tells   = [any_heading]
}

indication "attitude_1_flag" {
  title   = "No-attitude flag, left"
  chapter = 34
  shows   = !inertial_1
  means   = !inertial_1
  lit_by  = left_flight_picture
  place   = "screen 1"
  tells   = [attitude_left, second_inertial]
}

indication "attitude_2_flag" {
  title   = "No-attitude flag, right"
  chapter = 34
  shows   = !inertial_2
  means   = !inertial_2
  lit_by  = right_flight_picture
  place   = "screen 5"
  tells   = [attitude_right, second_inertial]
}

# Powered from one side each: with the left DC bus goes the left readout, whatever
# the screen does.
indication "radio_height_1_readout" {
  title   = "Left radio height"
  chapter = 34
  shows   = radio_height_1_ft
  means   = least_of(real.height_ft, 2500)
  within  = 30
  lit_by  = left_flight_picture && radio_alt_1
  place   = "screen 1"
  tells   = [radio_height]
}

indication "radio_height_2_readout" {
  title   = "Right radio height"
  chapter = 34
  shows   = radio_height_2_ft
  means   = least_of(real.height_ft, 2500)
  within  = 30
  lit_by  = right_flight_picture && radio_alt_2
  place   = "screen 5"
}
