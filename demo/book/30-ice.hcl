# Ice and rain protection: skeleton of the shared ids; the whole chapter follows.
control "engine_ice_switch" {
  title     = "Engine ice protection switch"
  chapter   = 30
  positions = ["off", "on"]
  initial   = "off"
}
control "wing_ice_switch" {
  title     = "Wing ice protection switch"
  chapter   = 30
  positions = ["off", "on"]
  initial   = "off"
}
unit "probe_heat_1" {
  title   = "Probe heater 1"
  chapter = 30
  needs   = ac_vital
}
unit "probe_heat_2" {
  title   = "Probe heater 2"
  chapter = 30
  needs   = ac_right
}
