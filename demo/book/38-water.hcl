# ATA 38, water and waste. Small, and here for one reason: the drain masts are the only heaters that nobody watches on
# any build, and a frozen mast makes the ice that later breaks off into the tail.

chapter = 38

unit "water_pump" {
  title         = "Water pump"
  needs         = galley_feed
  rate_per_hour = 5e-5
  place         = "belly"
}

unit "waste_blower" {
  title         = "Waste blower"
  needs         = ac_right
  rate_per_hour = 5e-5
  place         = "rear fuselage"
}

unit "drain_heat" {
  title         = "Drain mast heater"
  needs         = ac_left
  rate_per_hour = 3e-5
  checked_every_h = 500
  place         = "belly"
}

function "water" {
  title    = "Water for galley and lavatories"
  works    = water_pump
  wanted   = climb || cruise || descent
  severity = "minor"
  noticed_when   = held(!water && !first_climb, 300)
  noticed_by     = "tried"
  noticed_source = "common practice"
}

# Above 16,000 ft the outside air does what the blower does below.
function "lavatories" {
  title    = "Lavatories that flush"
  works    = waste_blower || real.altitude_ft > 16000
  wanted   = climb || cruise || descent
  severity = "minor"
}

function "drain_mast" {
  title    = "Drain masts free of ice"
  works    = drain_heat
  wanted   = cruise || descent
  severity = "minor"
}
indication "lavatory_lamp" {
  title   = "Lavatory lamp"
  shows   = waste_blower || real.altitude_ft > 16000
  means   = lavatories
  lit_by  = galley_feed
  place   = "cabin, rear galley"
}
indication "water_lamp" {
  title   = "Water system lamp"
  shows   = water_pump
  means   = water
  lit_by  = galley_feed
  place   = "cabin, front galley"
}
