# ATA 34, air data and sensing: what the crew see.

chapter = 34

indication "airspeed_1_readout" {
  title   = "Left airspeed"
  shows   = airspeed_1_kt
  means   = real.airspeed_kt
  within  = 10
  lit_by  = left_flight_picture && air_data_1
  place   = "left outer screen"
  tells   = [airspeed_left]
}
indication "airspeed_2_readout" {
  title   = "Right airspeed"
  shows   = airspeed_2_kt
  means   = real.airspeed_kt
  within  = 10
  lit_by  = right_flight_picture && air_data_2
  place   = "right outer screen"
  tells   = [airspeed_right]
}
indication "speed_limit_mark" {
  title   = "Speed limit mark beside the left airspeed"
  shows   = speed_limit_believed_kt
  means   = speed_limit_true_kt
  within  = 3
  lit_by  = left_flight_picture && air_data_1
  place   = "left outer screen"
  tells   = [speed_limit_warning]
}
indication "airspeed_3_readout" {
  title   = "Standby airspeed"
  shows   = airspeed_3_kt
  means   = real.airspeed_kt
  within  = 10
  lit_by  = standby_instrument && pitot_3
  place   = "standby instrument"
  tells   = [airspeed_standby]
}

# Neither of these two comes from a tube or a port.
indication "ground_speed_readout" {
  title   = "Ground speed"
  shows   = real.ground_speed_kt
  means   = real.ground_speed_kt
  within  = 5
  lit_by  = (left_flight_picture || right_flight_picture) && (inertial_1 || inertial_2)
  place   = "flight displays"
}
indication "satellite_height_readout" {
  title   = "Satellite altitude"
  shows   = real.altitude_ft
  means   = real.altitude_ft
  within  = 1500
  lit_by  = (left_flight_picture || right_flight_picture) && (satnav_1 || satnav_2)
  place   = "flight displays"
}
indication "altitude_1_readout" {
  title   = "Left altitude"
  shows   = altitude_1_ft
  means   = real.altitude_ft
  within  = 200
  lit_by  = left_flight_picture && air_data_1
  place   = "left outer screen"
  tells   = [altitude_left]
}
indication "altitude_2_readout" {
  title   = "Right altitude"
  shows   = altitude_2_ft
  means   = real.altitude_ft
  within  = 200
  lit_by  = right_flight_picture && air_data_2
  place   = "right outer screen"
  tells   = [altitude_right]
}
indication "altitude_3_readout" {
  title   = "Standby altitude"
  shows   = altitude_3_ft
  means   = real.altitude_ft
  within  = 200
  lit_by  = standby_instrument
  place   = "standby instrument"
  tells   = [altitude_standby]
}
indication "attitude_3_ball" {
  title   = "Standby attitude"
  shows   = standby_instrument
  means   = standby_instrument
  lit_by  = standby_instrument
  place   = "standby instrument"
  tells   = [any_attitude]
}
indication "compass_card" {
  title   = "Standby compass card: moves"
  shows   = standby_compass
  means   = standby_compass
  place   = "windscreen post"
  tells   = [any_heading]
}
indication "attitude_1_flag" {
  title   = "No-attitude flag, left"
  shows   = !inertial_1
  means   = !inertial_1
  lit_by  = left_flight_picture
  place   = "left outer screen"
  tells   = [attitude_left, second_inertial]
}
indication "attitude_2_flag" {
  title   = "No-attitude flag, right"
  shows   = !inertial_2
  means   = !inertial_2
  lit_by  = right_flight_picture
  place   = "right outer screen"
  tells   = [attitude_right, second_inertial]
}

# Powered from one side each: with the left DC bus goes the left readout, whatever the screen does.
indication "radio_height_1_readout" {
  title   = "Left radio height"
  shows   = radio_height_1_ft
  means   = least_of(real.height_ft, 2500)
  within  = 30
  lit_by  = left_flight_picture && radio_alt_1
  place   = "left outer screen"
  tells   = [radio_height]
}
indication "radio_height_2_readout" {
  title   = "Right radio height"
  shows   = radio_height_2_ft
  means   = least_of(real.height_ft, 2500)
  within  = 30
  lit_by  = right_flight_picture && radio_alt_2
  place   = "right outer screen"
}

# What each shows at the least.
indication "bank_left_shown" {
  title  = "Bank shown on the left, in level flight"
  shows  = inertial_1.tilts ? 12 : 0
  means  = 0
  within = 3
  lit_by = left_flight_picture && inertial_1
  tells  = [attitude_true_left, attitudes_true]
}
indication "bank_right_shown" {
  title  = "Bank shown on the right, in level flight"
  shows  = inertial_2.tilts ? 12 : 0
  means  = 0
  within = 3
  lit_by = right_flight_picture && inertial_2
  tells  = [attitude_true_right, attitudes_true]
}
indication "bank_standby_shown" {
  title  = "Bank shown on the standby, in level flight"
  shows  = standby_instrument.tilts ? 12 : 0
  means  = 0
  within = 3
  lit_by = standby_instrument
  tells  = [attitudes_true]
}
