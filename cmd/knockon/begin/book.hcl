aircraft "little" {
  title        = "A little book, invented"
  wing_area_m2 = 70
}

phase "take_off_roll" {}

phase "climb" {
  begins = !real.on_ground
}

phase "descent" {
  begins = real.vertical_speed_ft_per_min < -200
}

phase "landing_roll" {
  begins = real.on_ground
}

unit "engine_2" {}

unit "pump_1" {
  title = "Electric pump, system 1"
}

unit "pump_2" {
  title = "Engine-driven pump, system 2"
  needs = engine_2
}

function "main_brakes" {
  title    = "Wheel brakes"
  works    = pump_1 || pump_2
  wanted   = landing_roll
  severity = "hazardous"
}

alert "pump_2_low" {
  level    = "caution"
  message  = "System 2 pressure low"
  when     = held(!pump_2, 3)
  quiet_in = [take_off_roll, landing_roll]
}

flight "short" {
  takeoff_mass_kg    = 36500
  fuel_kg            = 4900
  cruise_altitude_ft = 24000
  distance_nm        = 200
  rotate_kt          = 132
  climb_kt           = 250
  climb_mach         = 0.70
  descent_kt         = 250
  approach_kt        = 128
}

claim "both_pumps" {
  says   = "Losing the second pump takes the wheel brakes. The pressure is called out, the brakes are not."
  source = "Systems manual 29-10 (fictional)"
  given {
    inoperative = [pump_1]
    fail        = [pump_2]
    at          = "descent + 60 s"
  }
  expect = [lost(main_brakes), not_told(main_brakes), given(pump_2_low)]
}
