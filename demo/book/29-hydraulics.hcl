# Hydraulics: skeleton of the shared ids; the whole chapter follows.
unit "pump_left" {
  title   = "Left engine-driven hydraulic pump"
  chapter = 29
  needs   = engine_left
}
unit "pump_right" {
  title   = "Right engine-driven hydraulic pump"
  chapter = 29
  needs   = engine_right
}
unit "pump_standby" {
  title   = "Standby electric hydraulic pump"
  chapter = 29
  needs   = ac_right
}
signal "hyd_left" {
  title   = "Left hydraulic pressure"
  chapter = 29
  value   = pump_left
}
signal "hyd_right" {
  title   = "Right hydraulic pressure"
  chapter = 29
  value   = pump_right || pump_standby
}
