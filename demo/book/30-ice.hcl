# ATA 30, ice and rain protection.
#
# Hot air keeps the leading edges and the engine inlets clean; electricity warms the tubes, the vanes and the windows.
# What is warmed by air asks for bleed air, what is warmed by current asks for AC. An engine inlet valve opens when it
# has no current, so a dead bus costs the wing's protection but never the engine's.

chapter = 30

control "engine_ice_switch" {
  title     = "Engine ice protection switch"
  positions = ["off", "on"]
  initial   = "off"
  place     = "overhead panel"
}

control "wing_ice_switch" {
  title     = "Wing ice protection switch"
  positions = ["off", "on"]
  initial   = "off"
  place     = "overhead panel"
}

unit "wing_heat_valve_left" {
  mirror        = true
  title         = "Left wing heat valve"
  needs         = dc_left
  rate_per_hour = 3e-6
  place         = "left wing"
}

unit "engine_ice_valve_left" {
  mirror        = true
  title         = "Left engine inlet heat valve"
  rate_per_hour = 1e-5
  place         = "left engine"
}

unit "probe_heat_1" {
  title         = "Heater of the left pitot tube"
  needs         = ac_vital
  rate_per_hour = 2e-5
  place         = "nose, left"
}

unit "probe_heat_2" {
  title         = "Heater of the right pitot tube"
  needs         = ac_right
  rate_per_hour = 2e-5
  place         = "nose, right"
}

unit "probe_heat_3" {
  title         = "Heater of the standby pitot tube"
  needs         = dc_vital
  rate_per_hour = 2e-5
  place         = "nose, below"
}

unit "vane_heat_left" {
  mirror        = true
  title         = "Heater of the left stall vane"
  needs         = ac_left
  rate_per_hour = 2e-5
  checked_every_h = 10
  place         = "nose, left"
}

# What watches the heaters' current: one box for the left and the standby tube, one for the right side.
unit "heat_watch_left" {
  mirror        = true
  title         = "Left heater watch"
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "window_heat_left" {
  mirror        = true
  title         = "Left window heating"
  needs         = ac_left && dc_left
  rate_per_hour = 3e-5
  place         = "left front window"
}

unit "wiper_left" {
  title         = "Left wiper"
  needs         = dc_vital
  rate_per_hour = 2e-5
  place         = "left front window"
}

unit "wiper_right" {
  title         = "Right wiper"
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "right front window"
}

unit "ice_detector_1" {
  title         = "Ice detector 1"
  needs         = dc_left
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "nose, left"
}

unit "ice_detector_2" {
  title         = "Ice detector 2"
  needs         = dc_right
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "nose, right"
}

# An unheated tube or vane closes or sticks after three quarters of a minute in ice. It comes free when the ice ends.
signal "probe_1_iced" {
  title   = "The left pitot tube is closed by ice"
  value   = held(real.icing && !probe_heat_1, 45)
}

signal "probe_2_iced" {
  title   = "The right pitot tube is closed by ice"
  value   = held(real.icing && !probe_heat_2, 45)
}

signal "probe_3_iced" {
  title   = "The standby pitot tube is closed by ice"
  value   = held(real.icing && !probe_heat_3, 45)
}

signal "vane_left_iced" {
  mirror  = true
  title   = "The left stall vane is held by ice"
  value   = held(real.icing && !vane_heat_left, 45)
}

signal "left_wing_warm" {
  mirror  = true
  title   = "The left wing's leading edge is warm"
  value   = wing_ice_switch == "on" && wing_heat_valve_left && bleed_left
}

# What an unheated edge catches: water in the cloud (14 CFR 25 appendix C, continuous,
# drops of 20 um: 0.63 g/m3 at 0 C, 0.41 at -10, 0.21 at -20) times the airspeed times
# half of it caught, over 880 kg/m3. Warmed by its own speed above freezing it catches none.
signal "ice_catch_ratio" {
  title   = "Ice that an unheated leading edge catches, in mm a second"
  value = (!real.icing || real.total_temperature_c > 4 ? 0 : 0.000568
    * (real.air_temperature_c > -5 ? 0.5 : real.air_temperature_c > -15 ? 0.4 : 0.22)
  * (real.true_airspeed_kt > 270 ? 150 : real.true_airspeed_kt > 180 ? 115 : 75))
}

# With heat it comes off in a minute. Air a few degrees above freezing melts it (300 W/m2
# K: 0.005 mm/s at 5 C); in cold air it stays.
signal "left_wing_ice_mm" {
  mirror  = true
  title   = "Ice on the left wing's leading edge"
  value   = total(left_wing_warm ? -0.1 : ice_catch_ratio > 0 ? ice_catch_ratio : real.air_temperature_c > 0 ? -0.005 : -0.0005, 0, 0, 60)
}

# Rime of three millimetres on the edge: an assumption, between the frost that costs a
# quarter of the lift and the ridge that costs half.
signal "wing_iced" {
  title   = "A wing carries ice that matters"
  value   = most_of(left_wing_ice_mm, right_wing_ice_mm) > 3
}
