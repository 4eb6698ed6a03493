# ATA 34, air data, inertial sensing and the radio altimeters: what the aircraft
# believes about its speed, height and attitude.
#
# Three pitot tubes and three sets of static ports: left, right, and for the standby instrument. Side 1 lives from the
# vital buses, side 2 from the right side.

chapter = 34

unit "pitot_1" {
  title         = "Left pitot tube"
  rate_per_hour = 5e-6
  place         = "nose, left"
  fault "blocked" {
    title         = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
  }
}

unit "pitot_2" {
  title         = "Right pitot tube"
  rate_per_hour = 5e-6
  place         = "nose, right"
  fault "blocked" {
    title         = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
  }
}

unit "pitot_3" {
  title         = "Standby pitot tube"
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "nose, below"
  fault "blocked" {
    title         = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
    checked_every_h = 10
  }
}

unit "air_data_1" {
  title         = "Air data computer 1"
  needs         = core_fed && pitot_1 && !left_rack_burnt
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
  fault "reads_low" {
    title         = "gives an altitude that is 400 ft too low"
    rate_per_hour = 1e-6
  }
}

unit "air_data_2" {
  title         = "Air data computer 2"
  needs         = dc_right && pitot_2 && !right_rack_burnt
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
  fault "reads_low" {
    title         = "gives an altitude that is 400 ft too low"
    rate_per_hour = 1e-6
  }
}

# Ice closes an unheated tube (chapter 30); dirt or an insect closes any.
signal "pitot_1_closed" {
  title   = "The left pitot tube is closed"
  value   = pitot_1.blocked || probe_1_iced
}

signal "pitot_2_closed" {
  title   = "The right pitot tube is closed"
  value   = pitot_2.blocked || probe_2_iced
}

signal "pitot_3_closed" {
  title   = "The standby pitot tube is closed"
  value   = pitot_3.blocked || probe_3_iced
}

# Each line has a pressure: that of the tube is the static pressure and what the speed adds to it, and what is closed
# keeps the pressure that it had. A box feels the difference. So a closed tube reads like an altimeter, whatever the
# real speed; behind closed ports the altitude stands and the speed falls with every foot climbed; and with both closed
# everything stands. A line that comes off feels the cabin.
signal "tube_1_hpa" {
  title   = "Pressure in the left pitot tube"
  value   = frozen(static_pressure(real.altitude_ft) + impact_pressure(real.airspeed_kt), pitot_1_closed)
}

signal "tube_2_hpa" {
  title   = "Pressure in the right pitot tube"
  value   = frozen(static_pressure(real.altitude_ft) + impact_pressure(real.airspeed_kt), pitot_2_closed)
}

signal "tube_3_hpa" {
  title   = "Pressure in the standby pitot tube"
  value   = frozen(static_pressure(real.altitude_ft) + impact_pressure(real.airspeed_kt), pitot_3_closed)
}

signal "ports_1_hpa" {
  title   = "Pressure in the static line of side 1"
  value   = static_left ? frozen(static_pressure(real.altitude_ft), static_left.blocked) : cabin_hpa
}

signal "ports_2_hpa" {
  title   = "Pressure in the static line of side 2"
  value   = static_right ? frozen(static_pressure(real.altitude_ft), static_right.blocked) : cabin_hpa
}

signal "ports_3_hpa" {
  title   = "Pressure in the static line of the standby instrument"
  value   = static_standby ? frozen(static_pressure(real.altitude_ft), static_standby.blocked) : cabin_hpa
}

signal "airspeed_1_kt" {
  title   = "Airspeed, side 1"
  value   = airspeed_of(tube_1_hpa - ports_1_hpa)
}

signal "airspeed_2_kt" {
  title   = "Airspeed, side 2"
  value   = airspeed_of(tube_2_hpa - ports_2_hpa)
}

signal "airspeed_3_kt" {
  title   = "Airspeed, standby"
  value   = airspeed_of(tube_3_hpa - ports_3_hpa)
}

signal "altitude_1_ft" {
  title   = "Altitude, side 1"
  value   = altitude_of(ports_1_hpa) - (air_data_1.reads_low ? 400 : 0)
}

signal "altitude_2_ft" {
  title   = "Altitude, side 2"
  value   = altitude_of(ports_2_hpa) - (air_data_2.reads_low ? 400 : 0)
}

signal "altitude_3_ft" {
  title   = "Altitude, standby"
  value   = altitude_of(ports_3_hpa)
}

unit "static_left" {
  title         = "Static ports of side 1"
  rate_per_hour = 1e-6
  place         = "forward fuselage"
  fault "blocked" {
    title         = "blocked: the pressure in the line is trapped"
    rate_per_hour = 5e-7
  }
}

unit "static_right" {
  title         = "Static ports of side 2"
  rate_per_hour = 1e-6
  place         = "forward fuselage"
  fault "blocked" {
    title         = "blocked: the pressure in the line is trapped"
    rate_per_hour = 5e-7
  }
}

unit "static_standby" {
  title         = "Static ports of the standby instrument"
  rate_per_hour = 1e-6
  checked_every_h = 10
  place         = "forward fuselage, below"
  fault "blocked" {
    title         = "blocked: the pressure in the line is trapped"
    rate_per_hour = 5e-7
    checked_every_h = 10
  }
}

# Side 1 has two feeds. Side 2 lives from the right AC bus and, when that goes, for five minutes from the hot battery
# bus: long enough to change over, and then it stops without a word of its own.
unit "inertial_1" {
  title         = "Inertial unit 1"
  needs         = (ac_vital || dc_vital) && !left_rack_burnt
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
  fault "tilts" {
    title         = "shows a bank that is none: twelve degrees, and one more every second"
    rate_per_hour = 1e-6
  }
}

signal "inertial_2_reserve" {
  title   = "Inertial unit 2 runs on its five-minute reserve"
  value   = dc_direct && !ac_right && !held(!ac_right, 300)
}

unit "inertial_2" {
  title         = "Inertial unit 2"
  needs         = (ac_right || inertial_2_reserve) && !right_rack_burnt
  rate_per_hour = 4e-5
  place         = "electronics bay, right rack"
  fault "tilts" {
    title         = "shows a bank that is none: twelve degrees, and one more every second"
    rate_per_hour = 1e-6
  }
}

signal "airspeed_for_boxes_kt" {
  title   = "Airspeed as used by the warning computers"
  value   = air_data_1 ? airspeed_1_kt : airspeed_2_kt
}

# How fast is too fast depends on the gear and, from 28,320 ft up, on Mach 0.80. With both gear sensing boxes dead nobody
# says where it is, and the computers assume the worse: that it hangs out.
signal "gear_reported_up" {
  title   = "A sensing box reports that the gear is up"
  value   = (gear_sense_a || gear_sense_b) && gear_stowed
}

signal "speed_limit_believed_kt" {
  title   = "Speed limit as computed"
  value   = gear_reported_up ? between(air_data_1 ? altitude_1_ft : altitude_2_ft, 28320, 315, 30000, 304, 32000, 291, 34000, 278, 37000, 260) : aircraft.max_gear_kt
}

signal "speed_limit_true_kt" {
  title   = "Speed limit in truth"
  value   = gear_stowed ? between(real.altitude_ft, 28320, 315, 30000, 304, 32000, 291, 34000, 278, 37000, 260) : aircraft.max_gear_kt
}

# Two radio altimeters, one from each DC side. They are good to 2,500 ft. Each can
# fail to a fixed belief, and the boxes that read it do not always notice.
unit "radio_alt_1" {
  title         = "Radio altimeter 1"
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
  value = (radio_alt_1.reads_low ? 5
    : radio_alt_1.reads_high ? 2500
  : least_of(real.height_ft, 2500))
}

signal "radio_height_2_ft" {
  title   = "Radio height 2"
  value = (radio_alt_2.reads_low ? 5
    : radio_alt_2.reads_high ? 2500
  : least_of(real.height_ft, 2500))
}

# Inside the boxes: each side trusts its own radio altimeter while that has power,
# and takes the other when it has none. A dead altimeter is noticed; a lying one is
# found by comparing the two, and where only one is left there is nothing to compare.
signal "height_for_boxes_ft" {
  title   = "Radio height as used by the warning and thrust computers"
  value   = radio_alt_1 ? radio_height_1_ft : radio_height_2_ft
}

signal "height_for_boxes_good" {
  title   = "The radio height that the boxes use is right"
  value   = radio_alt_1 ? !(radio_alt_1.reads_low || radio_alt_1.reads_high) : (radio_alt_2 && !(radio_alt_2.reads_low || radio_alt_2.reads_high))
}

signal "both_radio_heights_right" {
  title   = "Both radio heights are there and right"
  value = (radio_alt_1 && !radio_alt_1.reads_low && !radio_alt_1.reads_high
  && radio_alt_2 && !radio_alt_2.reads_low && !radio_alt_2.reads_high)
}

signal "radio_heights_differ" {
  title   = "The two radio heights differ"
  value   = radio_alt_1 && radio_alt_2 && size(radio_height_1_ft - radio_height_2_ft) > 100
}

# Once they have differed both are doubted until the wheels are on the ground: near the
# ground a low lie and the truth come close again.
signal "radio_heights_doubted" {
  title   = "The radio heights have differed on this flight"
  set     = radio_heights_differ
  reset   = sensed_on_ground_a || sensed_on_ground_b
}

# No box acts on two heights that have differed. A single one it believes.
signal "radio_height_trusted" {
  title   = "The boxes trust the radio height"
  value   = (radio_alt_1 || radio_alt_2) && !radio_heights_doubted
}

# The standby instrument keeps speed, height and attitude for both pilots, with a
# cell of its own that carries it for half an hour when the vital bus is gone.
unit "standby_cell" {
  title         = "Cell of the standby instrument"
  rate_per_hour = 2e-5
  checked_every_h = 10
  place         = "centre panel"
}

unit "standby_instrument" {
  title         = "Standby instrument"
  needs         = dc_vital || (standby_cell && !held(!dc_vital, 1800))
  rate_per_hour = 2e-5
  place         = "centre panel"
  fault "tilts" {
    title         = "shows a bank that is none: twelve degrees, and one more every second"
    rate_per_hour = 1e-6
    checked_every_h = 10
  }
}

unit "standby_compass" {
  title         = "Standby compass"
  rate_per_hour = 1e-6
  checked_every_h = 600
  place         = "windscreen post"
}

# An altimeter that stands while the aircraft climbs or sinks is seen to.
signal "altitude_1_stands" {
  title   = "The left altitude stands in a climb or a descent"
  value   = static_left.blocked && held(!real.on_ground && size(real.vertical_speed_ft_per_min) > 500, 20)
}

signal "altitude_2_stands" {
  title   = "The right altitude stands in a climb or a descent"
  value   = static_right.blocked && held(!real.on_ground && size(real.vertical_speed_ft_per_min) > 500, 20)
}

# Slower than an aircraft is ever flown: an approach is at 1.23 times the stall (14 CFR
# 25.125(b)), a climb at 1.13 times (25.107(b)).
signal "too_slow_kt" {
  title   = "Speed below which the computers warn"
  value   = (flaps_at == "middle" || flaps_at == "full" ? 1.17 : 1.1) * stall_speed_clean_kt
}

signal "airspeed_1_valid" {
  title   = "Airspeed 1 is shown and right"
  value   = air_data_1 && size(airspeed_1_kt - real.airspeed_kt) < 10
}

signal "airspeed_2_valid" {
  title   = "Airspeed 2 is shown and right"
  value   = air_data_2 && size(airspeed_2_kt - real.airspeed_kt) < 10
}

signal "airspeed_3_valid" {
  title   = "Standby airspeed is shown and right"
  value   = standby_instrument && pitot_3 && size(airspeed_3_kt - real.airspeed_kt) < 10
}
