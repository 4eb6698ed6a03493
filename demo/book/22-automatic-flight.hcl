# ATA 22, automatic flight: two autopilots, one autothrottle.
#
# An autopilot is a chain: it must know its attitude, its speed and where to go, and
# it must be able to move the surfaces. Break any link and it lets go.

unit "autopilot_1" {
  title        = "Autopilot 1"
  chapter      = 22
  needs        = dc_vital && inertial_1 && air_data_1
  rate_per_hour = 4e-5
  place        = "electronics bay, left rack"
}

unit "autopilot_2" {
  title        = "Autopilot 2"
  chapter      = 22
  needs        = dc_right && inertial_2 && air_data_2
  rate_per_hour = 4e-5
  place        = "electronics bay, right rack"
}

control "autopilot_button" {
  title     = "Autopilot button"
  chapter   = 22
  positions = ["off", "on"]
  initial   = "off"
  place     = "glare shield"
}

control "autothrottle_switch" {
  title     = "Autothrottle switch"
  chapter   = 22
  positions = ["off", "on"]
  initial   = "off"
  place     = "glare shield"
}
