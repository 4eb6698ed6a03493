# ATA 34, air data, inertial sensing and the radio altimeters: what the aircraft
# believes about its speed, height and attitude.
#
# Three pitot tubes: left, right, and one for the standby instrument. Side 1 lives
# from the vital buses, side 2 from the right side.

unit "pitot_1" {
  title        = "Left pitot tube"
  chapter      = 34
  rate_per_hour = 5e-6
  place        = "nose, left"
  fault "blocked" {
    title        = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
  }
}

unit "pitot_2" {
  title        = "Right pitot tube"
  chapter      = 34
  rate_per_hour = 5e-6
  place        = "nose, right"
  fault "blocked" {
    title        = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
  }
}

unit "pitot_3" {
  title        = "Standby pitot tube"
  chapter      = 34
  rate_per_hour = 5e-6
  place        = "nose, below"
  fault "blocked" {
    title        = "blocked: the pressure in it is trapped"
    rate_per_hour = 1e-6
  }
}

unit "air_data_1" {
  title        = "Air data computer 1"
  chapter      = 34
  needs        = dc_vital && pitot_1
  rate_per_hour = 3e-5
  place        = "electronics bay, left rack"
}

unit "air_data_2" {
  title        = "Air data computer 2"
  chapter      = 34
  needs        = dc_right && pitot_2
  rate_per_hour = 3e-5
  place        = "electronics bay, right rack"
}

# An unheated tube in icing closes within a minute. It opens again a little after
# the ice has gone; the model lets it open when the icing or the cold tube ends.
signal "pitot_1_closed" {
  title   = "The left pitot tube is closed"
  chapter = 34
  value   = pitot_1.blocked || held(real.icing && !probe_heat_1, 45)
}

signal "pitot_2_closed" {
  title   = "The right pitot tube is closed"
  chapter = 34
  value   = pitot_2.blocked || held(real.icing && !probe_heat_2, 45)
}

signal "pitot_3_closed" {
  title   = "The standby pitot tube is closed"
  chapter = 34
  value   = pitot_3.blocked || held(real.icing && !probe_heat_3, 45)
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
  title        = "Static ports of side 1"
  chapter      = 34
  rate_per_hour = 1e-6
  place        = "forward fuselage"
  fault "blocked" {
    title        = "blocked: the pressure in the line is trapped"
    rate_per_hour = 5e-7
  }
}

unit "static_right" {
  title        = "Static ports of side 2"
  chapter      = 34
  rate_per_hour = 1e-6
  place        = "forward fuselage"
  fault "blocked" {
    title        = "blocked: the pressure in the line is trapped"
    rate_per_hour = 5e-7
  }
}

# Side 1 has two feeds. Side 2 lives from the right AC bus and, when that goes, for
# five minutes from the battery-direct bus: long enough to change over, and then it
# stops without a word of its own.
unit "inertial_1" {
  title        = "Inertial unit 1"
  chapter      = 34
  needs        = ac_vital || dc_vital
  rate_per_hour = 4e-5
  place        = "electronics bay, left rack"
}

signal "inertial_2_reserve" {
  title   = "Inertial unit 2 runs on its five-minute reserve"
  chapter = 34
  value   = dc_direct && !ac_right && !held(!ac_right, 300)
}

unit "inertial_2" {
  title        = "Inertial unit 2"
  chapter      = 34
  needs        = ac_right || inertial_2_reserve
  rate_per_hour = 4e-5
  place        = "electronics bay, right rack"
}

# Two radio altimeters, one from each DC side. They are good to 2,500 ft. Each can
# fail to a fixed belief, and the boxes that read it do not always notice.
unit "radio_alt_1" {
  title        = "Radio altimeter 1"
  chapter      = 34
  needs        = dc_left
  rate_per_hour = 3e-5
  place        = "under the rear fuselage"
  fault "reads_low" {
    title        = "reads a few feet at any height"
    rate_per_hour = 3e-6
  }
  fault "reads_high" {
    title        = "reads its highest value at any height"
    rate_per_hour = 3e-6
  }
}

unit "radio_alt_2" {
  title        = "Radio altimeter 2"
  chapter      = 34
  needs        = dc_right
  rate_per_hour = 3e-5
  place        = "under the rear fuselage"
  fault "reads_low" {
    title        = "reads a few feet at any height"
    rate_per_hour = 3e-6
  }
  fault "reads_high" {
    title        = "reads its highest value at any height"
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
