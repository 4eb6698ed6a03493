# Two flights for every lesson. Both are flown by the same crew in the same way: the
# ordinary handling below is that of every flight, and hangs on what physically happens.
#
# The northern link has time for a battery to run out. The short hop passes every
# phase within ten minutes and is the one for a quick look.

flight "northern_link" {
  title = "The northern link: Kestrin to Vardholm, 540 nm"
  from  = "Kestrin"
  to    = "Vardholm"
  note  = "A long leg over the sea, ice from 6,000 to 14,000 ft, a wet runway at the end."

  takeoff_mass_kg    = 39300
  fuel_kg            = 5300
  cruise_altitude_ft = 34000
  distance_nm        = 540
  from_elevation_ft  = 60
  to_elevation_ft    = 140
  rotate_kt          = 132
  decision_kt        = 126
  climb_kt           = 280
  climb_mach         = 0.74
  descent_kt         = 280
  approach_kt        = 128
  climb_ft_per_min   = 2800
  descent_ft_per_min = 2200
  headwind_kt        = 35
  from_headwind_kt   = 9
  to_headwind_kt     = 17
  isa_deviation_c    = -6
  icing_from_ft      = 6000
  icing_to_ft        = 14000
  taxi_out_min       = 6
  taxi_in_min        = 4
  runway_wet         = 1
}

flight "short_hop" {
  title = "The short hop: Kestrin to Little Ansa, 25 nm"
  from  = "Kestrin"
  to    = "Little Ansa"
  note  = "Across the sound in ten minutes, in and out of cold cloud, on to a short dry runway."

  takeoff_mass_kg    = 33400
  fuel_kg            = 3200
  cruise_altitude_ft = 4000
  distance_nm        = 25
  from_elevation_ft  = 60
  to_elevation_ft    = 30
  rotate_kt          = 122
  decision_kt        = 116
  climb_kt           = 210
  climb_mach         = 0.60
  descent_kt         = 210
  approach_kt        = 120
  climb_ft_per_min   = 2600
  descent_ft_per_min = 1600
  headwind_kt        = 10
  from_headwind_kt   = 9
  to_headwind_kt     = 5
  isa_deviation_c    = -12
  icing_from_ft      = 2500
  icing_to_ft        = 3600
  taxi_out_min       = 0.5
  taxi_in_min        = 0.5
}

# --------------------------------------------------- take-off and clean-up
act "Autothrottle on" {
  set  = autothrottle_switch
  to   = "on"
  when = real.on_ground && real.thrust_pct > 60
}
act "Gear up" {
  set  = gear_lever
  to   = "up"
  when = (lift_off && real.height_ft > 80) || first_climb
}
act "Autopilot on" {
  set  = autopilot_button
  to   = "on"
  when = real.height_ft > 900
}
act "Flaps up" {
  set  = flap_lever
  to   = "up"
  when = (first_climb || climb) && real.airspeed_kt > 180
}
act "Slight flap after a go-around" {
  set  = flap_lever
  to   = "slight"
  when = first_climb
}
act "Spoilers in after a go-around" {
  set  = spoiler_lever
  to   = "in"
  when = first_climb
}
act "Automatic brake off" {
  set  = autobrake_selector
  to   = "off"
  when = climb
}

# --------------------------------------------------------------------- ice
act "Engine ice protection on" {
  set  = engine_ice_switch
  to   = "on"
  when = real.icing && !real.on_ground
}
act "Wing ice protection on" {
  set  = wing_ice_switch
  to   = "on"
  when = real.icing && !real.on_ground
}
act "Engine ice protection off" {
  set  = engine_ice_switch
  to   = "off"
  when = held(!real.icing, 20)
}
act "Wing ice protection off" {
  set  = wing_ice_switch
  to   = "off"
  when = held(!real.icing, 20)
}

# ---------------------------------------------------- approach and landing
act "Levers closed for the descent" {
  set  = thrust_levers
  to   = "moved by hand"
  when = (cruise || descent) && !thrust_fits && real.to_go_nm < real.altitude_ft / 350
}
act "Levers moved by hand when the climb is over" {
  set  = thrust_levers
  to   = "moved by hand"
  when = (cruise || descent) && held(thrust_unmoved, 60)
}
act "Approach armed" {
  set  = approach_button
  to   = "armed"
  when = approach
}
act "Automatic brake set" {
  set  = autobrake_selector
  to   = "gentle"
  when = (descent || approach) && real.to_go_nm < 12
}
act "Slight flap" {
  set  = flap_lever
  to   = "slight"
  when = (approach || descent && real.to_go_nm < 10) && real.airspeed_kt <= 220
}
act "Middle flap" {
  set  = flap_lever
  to   = "middle"
  when = approach && real.to_go_nm < 7.5 && real.airspeed_kt <= 190
}
act "Gear down" {
  set  = gear_lever
  to   = "down"
  when = approach && real.to_go_nm < 6.5
}
act "Gear let down by its own weight when the lever does not bring it" {
  set  = alternate_gear_handle
  to   = "pulled"
  when = (approach || final) && held(gear_lever == "down" && gear_stowed, 60)
}
act "Spoilers armed" {
  set  = spoiler_lever
  to   = "armed"
  when = (approach || final) && real.to_go_nm < 5.5
}
act "Full flap" {
  set  = flap_lever
  to   = "full"
  when = (approach || final) && real.to_go_nm < 5 && real.airspeed_kt <= 165
}
act "Autopilot off" {
  set  = autopilot_button
  to   = "off"
  when = final && real.height_ft < 350
}
act "Autothrottle off" {
  set  = autothrottle_switch
  to   = "off"
  when = final && real.height_ft < 45
}

# --------------------------------------------------- landing roll and taxi
act "Left reverse" {
  mirror = true
  set  = reverse_left_lever
  to   = "full"
  when = landing_roll && real.ground_speed_kt > 60
}
act "Left reverse stowed" {
  mirror = true
  set  = reverse_left_lever
  to   = "stowed"
  when = (landing_roll || taxi_in) && real.ground_speed_kt < 60
}
act "Spoilers in" {
  set  = spoiler_lever
  to   = "in"
  when = taxi_in
}
act "Flaps in after landing" {
  set  = flap_lever
  to   = "up"
  when = taxi_in
}
act "Automatic brake off after landing" {
  set  = autobrake_selector
  to   = "off"
  when = taxi_in
}
act "Approach off" {
  set  = approach_button
  to   = "off"
  when = taxi_in
}
act "Parking brake set" {
  set  = parking_brake_lever
  to   = "set"
  when = taxi_in && real.ground_speed_kt < 1
}
