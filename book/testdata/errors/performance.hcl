# a manual's numbers that are as they should be
performance "manual" {
  source  = "invented"
  combine = "greatest"
  climb {
    columns = ["altitude_ft", "airspeed_kt", "fuel_kg_per_h", "climb_ft_per_min"]
    rows    = [[0, 250, 3000, 3000], [30000, 250, 2000, 500 + 500]]
  }
  cruise {
    columns = ["altitude_ft", "mass_kg", "mach", "fuel_kg_per_h"]
    rows = [
      [25000, 20000, 0.70, 1800],
      [25000, 30000, 0.70, 2200],
      [35000, 20000, 0.76, 1500],
    ]
  }
  descent {
    columns = ["altitude_ft", "airspeed_kt", "fuel_kg_per_h", "descent_ft_per_min"]
    rows    = [[0, 250, 600, 1500], [30000, 250, 500, 2500]]
  }
  holding {
    columns = ["altitude_ft", "mass_kg", "airspeed_kt", "fuel_kg_per_h"]
    rows    = [[1500, 20000, 200, 1200], [1500, 30000, 220, 1700]]
  }
  approach {
    columns = ["airspeed_kt", "fuel_kg_per_h"]
    rows    = [[130, 1600]]
  }
  landing "full" {
    columns = ["mass_kg", "code", "distance_m"] # the mass first, heavy before light
    rows    = [[30000, 6, 1200], [30000, 5, 1500], [20000, 6, 900], [20000, 5, 1100]]
  }
  factor "brakes" {
    when          = !pressure
    landing_ratio = 1.4
  }
}
---
# a manual's numbers without most tables
performance "manual" {   ### "no-number: The performance block has no table of climb, descent, holding, approach and landing"
  source = "invented"
  cruise {
    columns = ["altitude_ft", "true_airspeed_kt", "fuel_kg_per_h"]
    rows    = [[25000, 400, 1800]]
  }
}
---
# rows with half their numbers
performance "manual" {
  source = "invented"
  cruise {
    columns = ["altitude_ft", "mass_kg", "mach", "fuel_kg_per_h"]
    rows = [
      [25000, 20000, 0.70, 1800],
      [25000, 30000],   ### "incomplete: This row has 2 numbers for 4 columns. Give one number for each of altitude_ft, mass_kg, mach, fuel_kg_per_h"
      35000,            ### "wrong-value: A list of rows is needed here"
      [35000, 20000, lever, 1500],   ### "wrong-value: \"mach\" needs a plain number"
      [35000, 20000, 7.6, 1500],     ### "out-of-range: The number of \"mach\" is out of range. It must be from 0.1 to 0.95"
    ]
  }
  holding {   ### "missing-attribute: A holding needs \"rows\""
    columns = ["altitude_ft", "airspeed_kt", "fuel_kg_per_h"]
  }
  descent {
    columns = ["altitude_ft", "airspeed_kt", "fuel_kg_per_h", "descent_ft_per_min"]
    rows    = 7   ### "wrong-value: A list of rows is needed here"
  }
  approach {
    columns = ["airspeed_kt", "fuel_kg_per_h"]
    rows    = []   ### "incomplete: The table of approach has no row"
  }
}
---
# columns that a table cannot have, or lacks
performance "manual" {
  source = "invented"
  climb {
    columns = ["altitude_ft", "airspeed_kt", "fuel_kg_per_h"]   ### "incomplete: A table of climb needs the column \"climb_ft_per_min\""
    rows    = [[0, 250, 3000]]
  }
  cruise {
    columns = ["altitude_ft", "mas_kg", "airspeed_kt", "fuel_kg_per_h"]   ### "unknown-word: A table of cruise has no column \"mas_kg\". Did you mean \"mass_kg\"\\?"
    rows    = [[0, 1, 250, 3000]]
  }
  holding {
    columns = ["altitude_ft", "airspeed_kt", "mach", "fuel_kg_per_h"]   ### "incomplete: A table of holding needs one column for the speed, and has 2. Give one of airspeed_kt, true_airspeed_kt, mach"
    rows    = [[0, 250, 0.4, 3000]]
  }
  descent {
    columns = ["altitude_ft", "fuel_kg_per_h", "descent_ft_per_min"]   ### "incomplete: A table of descent needs one column for the speed, and has 0"
    rows    = [[0, 250, 1000]]
  }
  approach {
    columns = ["airspeed_kt", "airspeed_kt", "fuel_kg_per_h"]   ### "duplicate: \"airspeed_kt\" is in the list twice"
    rows    = [[130, 130, 1600]]
  }
}
---
# rows twice and out of order
performance "manual" {   ### "no-number"
  source = "invented"
  cruise {
    columns = ["altitude_ft", "mass_kg", "mach", "fuel_kg_per_h"]
    rows = [
      [25000, 20000, 0.70, 1800],
      [25000, 30000, 0.70, 2200],
      [35000, 30000, 0.76, 1700],
      [35000, 20000, 0.76, 1500],   ### "row-order: This row of cruise is out of order"
    ]
  }
}
---
# a row twice
performance "manual" {
  source = "invented"
  landing "full" {
    columns = ["code", "mass_kg", "distance_m"]
    rows = [
      [6, 20000, 900],
      [6, 30000, 1200],
      [6, 20000, 950],   ### "duplicate: This row is there twice. Another row has the same code and mass_kg"
    ]
  }
}
---
# a mass that no aircraft can have, alone
aircraft "a" {
  title               = "A"
  empty_mass_kg       = 18000
  max_takeoff_mass_kg = 30000
}
performance "manual" {
  source = "invented"
  approach {
    columns = ["mass_kg", "airspeed_kt", "fuel_kg_per_h"]
    rows = [
      [10000, 105, 1300],   ### "out-of-range: No aircraft of this book has a mass of 10000 kg. The empty mass is 18000 kg"
      [16000, 110, 1400],
      [24000, 120, 1500],
      [32000, 130, 1600],
      [320000, 140, 1700],   ### "out-of-range: No aircraft of this book has a mass of 320000 kg. The greatest take-off mass is 30000 kg, and this table has a nearer row"
    ]
  }
  landing "full" {
    columns = ["code", "mass_kg", "distance_m"]
    rows = [
      [5.5, 24000, 900],   ### "wrong-value: \"code\" needs a whole number"
      [7, 24000, 900],     ### "out-of-range: The number of \"code\" is out of range. It must be from 0 to 6"
    ]
  }
}
---
# factors
performance "manual" {
  source  = "invented"
  combine = "product_of"   ### "unknown-word: \"combine\" cannot be \"product_of\". Did you mean \"product\"\\?"
  factor "nothing" {       ### "incomplete: Factor \"nothing\" changes nothing"
    when = !pressure
  }
  factor "brakes" {
    when          = !pressure
    landing_ratio = 0.7   ### "out-of-range: The number of \"landing_ratio\" is out of range. It must be from 1 to 10"
    covers        = ["brakes_ratioo"]   ### "unknown-word: There is no effect \"brakes_ratioo\". Did you mean \"brakes_ratio\"\\?"
  }
  factor "brakes" {   ### "duplicate: There are two factors \"brakes\""
    when   = !pressure
    adds_m = 100
  }
  factor "Gear" {   ### "bad-id: \"Gear\" is no id"
    when   = !pressure
    adds_m = 100
  }
}
---
# a factor that never can be
performance "manual" {   ### "no-number"
  source = "invented"
  factor "brakes" {
    when          = aircraft.wing_area_m2 > 200   ### "constant: This when never changes"
    landing_ratio = 1.4
  }
}
---
# two tables of a kind, two performance blocks
performance "manual" {
  source = "invented"
  approach {
    columns = ["airspeed_kt", "fuel_kg_per_h"]
    rows    = [[130, 1600]]
  }
  approach {   ### "duplicate: There are two tables of approach"
    columns = ["airspeed_kt", "fuel_kg_per_h"]
    rows    = [[130, 1600]]
  }
}
performance "other" {   ### "duplicate: There are two performance blocks"
  source = "invented"
}
---
# a glide that comes back
performance "manual" {
  source = "invented"
  glide {
    columns = ["height_ft", "airspeed_kt", "distance_nm"]
    rows = [
      [5000, 210, 14],
      [10000, 210, 27],
      [20000, 210, 25],   ### "contradiction: From 20000 ft the glide does not go farther than from below"
    ]
  }
}
---
# a landing without a setting, and one in which the flaps never stand
performance "manual" {
  source = "invented"
  landing {   ### "label: The landing has no name"
    columns = ["code", "distance_m"]
    rows    = [[6, 900]]
  }
  landing "onn" {   ### "never-equal: Slats and flaps never stand in \"onn\". Did you mean \"on\"\\?"
    columns = ["code", "distance_m"]
    rows    = [[6, 900]]
  }
}
effect "flap_setting" {
  value = lever
}
---
# what effects need of a manual
performance "manual" {   ### "no-number: The performance block has no table of climb, cruise"
  source = "invented"
  factor "brakes" {
    when          = !pressure
    covers        = ["brakes_ratio"]
    landing_ratio = 1.4
  }
}
effect "brakes_ratio" {
  value = pressure ? 1 : 0
}
effect "gear_out" {   ### "no-number: What the effect \"gear_out\" does to a flight is not worked out. No factor of the performance block covers it. Give one with covers = \\[\"gear_out\"\\]"
  value = !pump
}
effect "engine_left_ratio" {   ### "no-number: What the effect \"engine_left_ratio\" does to a flight is not worked out. The performance block has no table of engine_out and glide"
  value = pump ? 1 : 0
}
---
# what effects need of drag polars, alone
aircraft "a" {
  title = "A"
  setting "in" {
    zero_lift_drag_ratio = 0.02
    induced_drag_ratio   = 0.04
    most_lift_ratio      = 1.4
  }
  speed_brake_drag_ratio = 0.02
}
phase "ground" {}
control "lever" {
  positions = ["up", "down"]
  initial   = "up"
}
effect "gear_out" {   ### "no-number: What the effect \"gear_out\" does to a flight is not worked out. The aircraft block does not give gear_drag_ratio"
  value = lever == "down"
}
effect "speed_brakes_ratio" {
  value = lever == "down" ? 1 : 0
}
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
