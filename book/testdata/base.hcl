aircraft "base" {
  title        = "Base"
  wing_area_m2 = 100
}
phase "ground" {}
phase "climb" {
  begins = !real.on_ground
}
unit "pump" {
  fault "leaks" {}
}
control "lever" {
  positions = ["off", "on"]
  initial   = "off"
}
signal "pressure" {
  value = pump && lever == "on" && !pump.leaks
}
signal "height_ft" {
  value = real.height_ft
}
function "brakes" {
  works = pressure
}
alert "low" {
  level   = "advisory"
  message = "Pressure low"
  when    = !pressure
  tells   = [brakes]
}
indication "lamp" {
  shows = pressure
  means = pump
}
event "burst" {
  fails = [pump]
}
procedure "list" {
  note {
    says = "Nothing to do."
  }
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
