# ATA 49, auxiliary power unit: a small engine in the tail that turns a generator
# and gives bleed air. It starts from its own battery.

control "apu_switch" {
  title     = "APU switch"
  chapter   = 49
  positions = ["off", "run"]
  initial   = "off"
  place     = "overhead panel"
}

unit "apu_control" {
  title        = "APU control unit"
  chapter      = 49
  needs        = dc_direct
  rate_per_hour = 2e-5
  place        = "tail"
}

unit "apu_starter" {
  title        = "APU starter motor"
  chapter      = 49
  needs        = battery_apu
  rate_per_hour = 5e-5
  place        = "tail"
}

unit "apu_inlet" {
  title        = "APU air inlet door"
  chapter      = 49
  needs        = battery_apu || dc_right
  rate_per_hour = 2e-5
  place        = "tail"
}

unit "apu" {
  title        = "Auxiliary power unit"
  chapter      = 49
  needs        = apu_control && apu_inlet
  rate_per_hour = 2e-4
  place        = "tail"
}

# Forty seconds of cranking, below 25,000 ft; after that it runs by itself.
signal "apu_lights_up" {
  title   = "The APU is cranked and lights up"
  chapter = 49
  value   = held(apu && apu_starter && apu_switch == "run" && real.altitude_ft < 25000, 40)
}

signal "apu_running" {
  title   = "The APU runs"
  chapter = 49
  set     = apu_lights_up
  reset   = !apu || apu_switch == "off"
}
