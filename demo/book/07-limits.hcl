# Operating limits of the whole aircraft. Those of one system stand in its chapter.

limit "altitude_most" {
  title    = "Maximum operating altitude"
  quantity = real.altitude_ft
  most     = aircraft.max_altitude_ft
}

limit "airspeed_most" {
  title    = "Maximum operating airspeed"
  quantity = real.airspeed_kt
  most     = aircraft.max_operating_kt
}

limit "mach_most" {
  title    = "Maximum operating Mach number"
  quantity = real.mach
  most     = aircraft.max_mach
}

# High and fast without yaw damping, every gust becomes a roll.
limit "altitude_without_yaw_damping" {
  title    = "Greatest altitude without yaw damping"
  chapter  = 22
  quantity = real.altitude_ft
  most     = 26000
  applies  = !yaw_damper_1 && !yaw_damper_2
}

limit "landing_mass_most" {
  title    = "Maximum landing mass"
  quantity = real.mass_kg
  most     = aircraft.max_landing_mass_kg
  applies  = landing_roll
}

limit "apu_light_up" {
  title    = "Greatest altitude for an APU start"
  chapter  = 49
  quantity = real.altitude_ft
  most     = aircraft.apu_light_up_ft
  applies  = apu_switch == "run" && !apu
}
