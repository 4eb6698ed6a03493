# an effect that there is not
effect "gear_outt" {   ### "unknown-word: There is no effect \"gear_outt\". Did you mean \"gear_out\"\\?"
  value = pump
}
---
# an effect that is like no other
effect "noise" {   ### "unknown-word: There is no effect \"noise\". The effects are: engine_left_ratio, "
  value = pump
}
---
# an effect without a value
effect "gear_out" {   ### "missing-attribute: An effect needs \"value\""
}
---
# an effect twice
effect "gear_out" {
  value = pump
}
effect "gear_out" {   ### "duplicate: The effect \"gear_out\" is there twice"
  value = !pump
}
---
# an effect of another type
effect "gear_out" {
  value = 1   ### "wrong-type"
}
effect "brakes_ratio" {
  value = pump   ### "wrong-type"
}
---
# an effect in another unit
effect "most_airspeed_kt" {
  value = aircraft.wing_area_m2   ### "wrong-unit"
}
---
# an effect that follows the flight
signal "share" {
  value = real.height_ft > 100 ? real.thrust_pct / 100 : 0
}
effect "engine_left_ratio" {
  value = pump ? share : 0   ### "continuous: The effect \"engine_left_ratio\" takes a value that changes continuously. It follows share"
}
---
# an effect cannot be read
signal "out" {
  value = gear_out   ### "unknown-id: Nothing is called \"gear_out\""
}
effect "gear_out" {
  value = pump
}
---
# a flap setting where the aircraft has none
effect "flap_setting" {
  value = lever   ### "no-setting: The aircraft block has no setting"
}
---
# a flap setting that the aircraft does not have, alone
aircraft "a" {
  title = "A"
  setting "in" {
    zero_lift_drag_ratio = 0.02
    induced_drag_ratio   = 0.04
    most_lift_ratio      = 1.5
  }
  setting "in" {   ### "duplicate: There are two settings \"in\""
    zero_lift_drag_ratio = 0.03
    induced_drag_ratio   = 0.04
    most_lift_ratio      = 1.9
  }
}
control "lever" {
  positions = ["in", "out"]
  initial   = "in"
}
effect "flap_setting" {
  value = lever   ### "unknown-word: The aircraft block has no setting \"out\". Its settings are: \"in\""
}
phase "ground" {}
flight "short" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 30000
  distance_nm        = 300
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.76
  descent_kt         = 290
  approach_kt        = 135
}
---
# polars that no aircraft has, alone
aircraft "a" {
  title = "A"
  setting "glider" {   ### "polar: Setting \"glider\" has a lift-to-drag ratio of 90"
    zero_lift_drag_ratio = 0.002
    induced_drag_ratio   = 0.015432
    most_lift_ratio      = 1.5
  }
  setting "none" {   ### "missing-attribute: A setting needs \"induced_drag_ratio\""
    zero_lift_drag_ratio = 0   ### "out-of-range"
    most_lift_ratio      = 60   ### "out-of-range"
  }
}
phase "ground" {}
flight "short" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 30000
  distance_nm        = 300
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.76
  descent_kt         = 290
  approach_kt        = 135
}
---
# a setting is no attribute, alone
aircraft "a" {
  title   = "A"
  setting = 3   ### "unknown-attribute: \"setting\" is a block"
}
phase "ground" {}
flight "short" {
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 30000
  distance_nm        = 300
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.76
  descent_kt         = 290
  approach_kt        = 135
}
