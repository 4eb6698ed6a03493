# ATA 29, told: pressure as the crew see it.

chapter = 29

function "hydraulics_left" {
  mirror   = true
  title    = "Left hydraulic system"
  works    = hyd_left
  severity = "minor"
}

function "hydraulics_any" {
  title    = "Hydraulic pressure from any system"
  works    = hyd_left || hyd_right
  severity = "hazardous"
}

function "standby_pressure" {
  title    = "Standby pump ready for the right system"
  works    = pump_standby && standby_pump_switch != "off" && fluid_right_l > 1
  wanted   = approach || final || landing_roll
  severity = "minor"
}

function "pressure_transfer" {
  title    = "Transfer unit ready for the left system"
  works    = transfer_unit && transfer_switch == "auto" && fluid_left_l > 1
  severity = "minor"
}

alert "hyd_both_low" {
  title     = "Both hydraulic systems low"
  level     = "warning"
  message   = "No hydraulic pressure"
  when      = left_pressure_seen_low && right_pressure_seen_low
  true_when = !hyd_left && !hyd_right
  given_by  = news_left && news_right
  tells     = [hydraulics_left, hydraulics_right, hydraulics_any, shaped_control, nose_steering, brakes_normal]
  procedure = hyd_both_low_list
}

alert "hyd_left_low" {
  title     = "Left hydraulic pressure low"
  level     = "caution"
  message   = "Left hydraulic pressure low"
  when      = left_pressure_seen_low && !right_pressure_seen_low
  true_when = !hyd_left
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [hydraulics_left, pressure_transfer, reverse_left, reverse_even, speed_brakes, ground_spoilers_full]
  procedure = hyd_left_low_list
}

alert "hyd_right_low" {
  title     = "Right hydraulic pressure low"
  level     = "caution"
  message   = "Right hydraulic pressure low"
  when      = right_pressure_seen_low && !left_pressure_seen_low
  true_when = !hyd_right
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells = [hydraulics_right, standby_pressure, reverse_right, reverse_even, speed_brakes, ground_spoilers_full, gear_extension, gear_retraction, nose_steering, brakes_normal, autobrake]
  procedure = hyd_right_low_list
}

# The pump has gone but something else holds the pressure: good to know, nothing to do at once.
alert "pump_left_low" {
  title    = "Left pump not delivering"
  level    = "advisory"
  message  = "Left engine hydraulic pump: no pressure"
  when     = held(!pump_left_delivers && hyd_left, 3)
  given_by = news_left
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
}

alert "pump_right_low" {
  title     = "Right pump not delivering"
  level     = "caution"
  message   = "Right engine hydraulic pump: no pressure"
  when      = held(!pump_right_delivers, 3)
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [hydraulics_right]
  procedure = pump_right_low_list
  only      = [second_series, island_kit]
}

alert "fluid_left_low" {
  title     = "Left hydraulic fluid low"
  level     = "caution"
  message   = "Left hydraulic fluid low"
  when      = level_sender_left && fluid_left_l < 5
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [hydraulics_left, pressure_transfer]
  procedure = fluid_left_low_list
}

alert "fluid_right_low" {
  title     = "Right hydraulic fluid low"
  level     = "caution"
  message   = "Right hydraulic fluid low"
  when      = level_sender_right && fluid_right_l < 5
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [hydraulics_right, standby_pressure]
  procedure = fluid_right_low_list
}
indication "pressure_left_shown" {
  mirror  = true
  title   = "Left hydraulic pressure readout"
  shows   = sensed_pressure_left_psi
  means   = pressure_left_psi
  within  = 200
  lit_by  = systems_left_drawn && pressure_sender_left
  tells   = [hydraulics_left]
  place   = "hydraulics picture"
}
indication "fluid_left_shown" {
  title   = "Left hydraulic fluid readout"
  shows   = fluid_left_l
  means   = fluid_left_l
  within  = 0.5
  lit_by  = systems_left_drawn && level_sender_left
  tells   = [pressure_transfer]
  place   = "hydraulics picture"
}
indication "fluid_right_shown" {
  title   = "Right hydraulic fluid readout"
  shows   = fluid_right_l
  means   = fluid_right_l
  within  = 0.5
  lit_by  = systems_right_drawn && level_sender_right
  place   = "hydraulics picture"
}

# Says that the pump was told to run. Whether it runs, the pressure must say.
indication "standby_pump_lamp" {
  title   = "Standby pump lamp"
  shows   = standby_called
  means   = standby_called && pump_standby
  lit_by  = lamp_power_right
  tells   = [hydraulics_right]
  place   = "overhead panel"
}
indication "transfer_shown" {
  title   = "Transfer unit symbol"
  shows   = transfer_runs
  means   = transfer_runs
  lit_by  = systems_left_drawn
  place   = "hydraulics picture"
}

# Left and right lines cross in one corner of the main gear bay, a hand apart.
event "line_chafe" {
  title         = "Hydraulic lines of both systems chafed through in the gear bay"
  rate_per_hour = 1e-8
  fails         = [reservoir_left.leaks, reservoir_right.leaks]
}
