# A small invented jet as an instructor has it: what its manual says and nothing of
# its lift and drag. Nothing here may be used in flight.
aircraft "heron" {
  title               = "Heron"
  empty_mass_kg       = 14000
  max_takeoff_mass_kg = 24000
  max_crosswind_kt    = 30
}
phase "ground" {}
phase "climb" {
  begins = !real.on_ground
}
phase "cruise" {
  begins = real.altitude_ft > 24900
}
phase "landing_roll" {
  begins = real.on_ground
}
unit "engine_left" {}
unit "engine_right" {}
unit "generator" {}
unit "gear_pump" {}
unit "brake_pump" {}
unit "pack" {}
signal "battery_min" {
  value = total(generator ? 0 : -1, 1800, 0, 1800) / 60
}
control "gear" {
  positions = ["up", "down"]
  initial   = "down"
}
signal "gear_down" {
  set     = gear == "down" || !gear_pump
  reset   = gear == "up" && gear_pump
  initial = true
}
function "electrics" {
  title    = "Electrical power"
  works    = generator || battery_min > 0
  severity = "catastrophic"
}
function "brakes" {
  title    = "Wheel brakes"
  works    = brake_pump
  wanted   = landing_roll
  severity = "hazardous"
}
effect "engine_left_ratio" {
  value = engine_left ? 1 : 0
}
effect "engine_right_ratio" {
  value = engine_right ? 1 : 0
}
effect "gear_out" {
  value = gear_down
}
effect "brakes_ratio" {
  value = brake_pump ? 1 : 0.5
}
effect "most_altitude_ft" {
  value = pack ? 31000 : 10000
}
performance "manual" {
  source  = "Manual of an invented type, tables 1 to 9"
  combine = "product"
  climb {
    columns = ["altitude_ft", "mass_kg", "airspeed_kt", "fuel_kg_per_h", "climb_ft_per_min"]
    rows = [
      [0, 14000, 230, 1900, 4000], [0, 24000, 230, 2100, 2600],
      [31000, 14000, 210, 1000, 1400], [31000, 24000, 210, 1100, 600],
    ]
  }
  cruise {
    columns = ["altitude_ft", "mass_kg", "true_airspeed_kt", "fuel_kg_per_h"]
    rows = [
      [5000, 14000, 280, 1000], [5000, 24000, 290, 1250],
      [31000, 14000, 400, 800], [31000, 24000, 410, 1050],
    ]
  }
  descent {
    columns = ["altitude_ft", "airspeed_kt", "fuel_kg_per_h", "descent_ft_per_min"]
    rows    = [[0, 230, 450, 1500], [31000, 230, 300, 2500]]
  }
  holding {
    columns = ["altitude_ft", "mass_kg", "airspeed_kt", "fuel_kg_per_h"]
    rows    = [[1500, 14000, 180, 700], [1500, 24000, 200, 900]]
  }
  approach {
    columns = ["mass_kg", "airspeed_kt", "fuel_kg_per_h"]
    rows    = [[14000, 105, 900], [24000, 130, 1200]]
  }
  engine_out {
    columns = ["mass_kg", "true_airspeed_kt", "fuel_kg_per_h", "ceiling_ft"]
    rows    = [[14000, 300, 850, 22000], [24000, 300, 1000, 14000]]
  }
  glide {
    columns = ["height_ft", "airspeed_kt", "distance_nm"]
    rows    = [[10000, 190, 25], [31000, 190, 80]]
  }
  landing "full" {
    columns = ["code", "mass_kg", "distance_m"]
    rows = [
      [6, 14000, 800], [6, 24000, 1200], [5, 14000, 1000], [5, 24000, 1500],
      [3, 14000, 1300], [3, 24000, 2000],
    ]
  }
  factor "gear_stays_down" {
    when       = !gear_pump
    covers     = ["gear_out"]
    fuel_ratio = 1.8
  }
  factor "brakes_on_the_accumulator" {
    when          = !brake_pump
    covers        = ["brakes_ratio"]
    landing_ratio = 1.6
    adds_m        = 50
  }
}
flight "line" {
  from               = "Ash"
  to                 = "Elm"
  takeoff_mass_kg    = 20000
  fuel_kg            = 3200
  cruise_altitude_ft = 25000
  distance_nm        = 300
  rotate_kt          = 115
  climb_kt           = 230
  climb_mach         = 0.6
  descent_kt         = 230
  approach_kt        = 115
  act "gear up" {
    set  = gear
    to   = "up"
    when = real.height_ft > 100 && real.vertical_speed_ft_per_min > 0
  }
  act "gear down" {
    set  = gear
    to   = "down"
    when = real.height_ft < 3000 && real.vertical_speed_ft_per_min < 0
  }
}
