# ATA 29, hydraulics.
#
# Two systems, left and right, each with its own fluid and a pump on its own
# engine. They never share fluid. What they share is power: a transfer unit lets
# the right system drive the left one, and an electric standby pump backs up the
# right system. So after the loss of one engine both systems still have pressure,
# and after the loss of one fluid the other system is untouched.
#
#   engine_left  ── pump_left  ── left system  (half of each control surface,
#                                     ▲         inner spoilers, left reverser,
#                               transfer unit   alternate brakes)
#                                     │
#   engine_right ── pump_right ── right system (the other halves, outer spoilers,
#   ac_right ── pump_standby ────┘              right reverser, gear, steering,
#                                               normal brakes)

# ------------------------------------------------------------ fluid and pumps

unit "reservoir_left" {
  title         = "Left hydraulic reservoir and lines"
  chapter       = 29
  rate_per_hour = 2e-6
  place         = "left wing root"
  fault "leaks" {
    title         = "leaks until the system is empty"
    stops         = false
    rate_per_hour = 2e-5
  }
}

unit "reservoir_right" {
  title         = "Right hydraulic reservoir and lines"
  chapter       = 29
  rate_per_hour = 2e-6
  place         = "right wing root"
  fault "leaks" {
    title         = "leaks until the system is empty"
    stops         = false
    rate_per_hour = 3e-5
  }
}

unit "pump_left" {
  title         = "Left engine-driven hydraulic pump"
  chapter       = 29
  needs         = engine_left
  rate_per_hour = 4e-5
  place         = "left engine gearbox"
}

unit "pump_right" {
  title         = "Right engine-driven hydraulic pump"
  chapter       = 29
  needs         = engine_right
  rate_per_hour = 4e-5
  place         = "right engine gearbox"
}

unit "pump_standby" {
  title         = "Standby electric hydraulic pump"
  chapter       = 29
  needs         = ac_right
  rate_per_hour = 3e-5
  place         = "right wing root"
}

# A motor driven by the right system turns a pump in the left one. Mechanical: no
# bus can stop it, and nobody hears of its loss before it is needed.
unit "transfer_unit" {
  title         = "Hydraulic power transfer unit"
  chapter       = 29
  rate_per_hour = 2e-5
  place         = "centre fuselage"
}

# The valves that shut the fluid off from a burning engine. They are turned by
# motors on the battery-direct bus and stand open all their lives.
unit "shutoff_left" {
  title         = "Left hydraulic fire shut-off valve"
  chapter       = 29
  needs         = dc_direct
  rate_per_hour = 5e-6
  place         = "left pylon"
}

unit "shutoff_right" {
  title         = "Right hydraulic fire shut-off valve"
  chapter       = 29
  needs         = dc_direct
  rate_per_hour = 5e-6
  place         = "right pylon"
}

control "standby_pump_switch" {
  title     = "Standby hydraulic pump switch"
  chapter   = 29
  positions = ["auto", "on", "off"]
  initial   = "auto"
  place     = "overhead panel"
}

control "transfer_switch" {
  title     = "Hydraulic transfer switch"
  chapter   = 29
  positions = ["auto", "off"]
  initial   = "auto"
  place     = "overhead panel"
}

# Fourteen litres each; a leak takes one litre in twenty seconds. Below one litre
# the pumps draw air and there is no pressure any more.
signal "fluid_left_l" {
  title   = "Fluid in the left hydraulic system"
  chapter = 29
  value   = total(reservoir_left.leaks ? -0.05 : (reservoir_left ? 0 : -2), 14, 0, 14)
}

signal "fluid_right_l" {
  title   = "Fluid in the right hydraulic system"
  chapter = 29
  value   = total(reservoir_right.leaks ? -0.05 : (reservoir_right ? 0 : -2), 14, 0, 14)
}

signal "pump_left_delivers" {
  title   = "The left engine-driven pump gives pressure"
  chapter = 29
  value   = pump_left && fluid_left_l > 1 && !(shutoff_left && fire_handle_left == "pulled")
}

signal "pump_right_delivers" {
  title   = "The right engine-driven pump gives pressure"
  chapter = 29
  value   = pump_right && fluid_right_l > 1 && !(shutoff_right && fire_handle_right == "pulled")
}

# The first series starts the standby pump by itself only when it will be needed
# soon, with flaps out, so as to spare the right generator. In between the crew
# must switch it on. The later series start it whenever the engine pump gives up.
signal "standby_called" {
  title   = "The standby pump is told to run"
  chapter = 29
  value = (standby_pump_switch == "on"
  || (standby_pump_switch == "auto" && !pump_right_delivers && flap_lever != "0"))
  variant "second_series" {
    value = standby_pump_switch == "on" || (standby_pump_switch == "auto" && !pump_right_delivers)
  }
  variant "island_kit" {
    value = standby_pump_switch == "on" || (standby_pump_switch == "auto" && !pump_right_delivers)
  }
}

signal "standby_runs" {
  title   = "The standby pump gives pressure"
  chapter = 29
  value   = pump_standby && standby_called && fluid_right_l > 1
}

signal "hyd_right" {
  title   = "Right hydraulic pressure"
  chapter = 29
  value   = pump_right_delivers || standby_runs
}

signal "transfer_runs" {
  title   = "The transfer unit gives pressure to the left system"
  chapter = 29
  value   = transfer_unit && transfer_switch == "auto" && hyd_right && fluid_left_l > 1 && !pump_left_delivers
}

signal "hyd_left" {
  title   = "Left hydraulic pressure"
  chapter = 29
  value   = pump_left_delivers || transfer_runs
}

# ------------------------------------------------------------------- sensing

# Each system has one pressure sender and one level sender. They live from the
# side's own DC bus and report through the side's own data unit.
unit "pressure_sender_left" {
  title         = "Left hydraulic pressure sender"
  chapter       = 29
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left wing root"
  fault "reads_full" {
    title         = "goes on reading full pressure"
    stops         = false
    rate_per_hour = 2e-6
  }
}

unit "pressure_sender_right" {
  title         = "Right hydraulic pressure sender"
  chapter       = 29
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "right wing root"
  fault "reads_full" {
    title         = "goes on reading full pressure"
    stops         = false
    rate_per_hour = 2e-6
  }
}

unit "level_sender_left" {
  title         = "Left hydraulic level sender"
  chapter       = 29
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left wing root"
}

unit "level_sender_right" {
  title         = "Right hydraulic level sender"
  chapter       = 29
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "right wing root"
}

signal "pressure_left_psi" {
  title   = "Pressure in the left hydraulic system"
  chapter = 29
  value   = hyd_left ? 3000 : 0
}

signal "pressure_right_psi" {
  title   = "Pressure in the right hydraulic system"
  chapter = 29
  value   = hyd_right ? 3000 : 0
}

signal "sensed_pressure_left_psi" {
  title   = "What the left pressure sender says"
  chapter = 29
  value   = pressure_sender_left.reads_full ? 3000 : pressure_left_psi
}

signal "sensed_pressure_right_psi" {
  title   = "What the right pressure sender says"
  chapter = 29
  value   = pressure_sender_right.reads_full ? 3000 : pressure_right_psi
}

signal "left_pressure_seen_low" {
  title   = "The left system is believed to have no pressure"
  chapter = 29
  value   = held(pressure_sender_left && sensed_pressure_left_psi < 1500, 1)
}

signal "right_pressure_seen_low" {
  title   = "The right system is believed to have no pressure"
  chapter = 29
  value   = held(pressure_sender_right && sensed_pressure_right_psi < 1500, 1)
}

# ----------------------------------------------------------------- functions

function "hydraulics_left" {
  title    = "Left hydraulic system"
  chapter  = 29
  works    = hyd_left
  severity = "major"
}

function "hydraulics_right" {
  title    = "Right hydraulic system"
  chapter  = 29
  works    = hyd_right
  severity = "major"
}

function "hydraulics_any" {
  title    = "Hydraulic pressure from any system"
  chapter  = 29
  works    = hyd_left || hyd_right
  severity = "catastrophic"
}

function "standby_pressure" {
  title    = "Standby pump ready for the right system"
  chapter  = 29
  works    = pump_standby && standby_pump_switch != "off" && fluid_right_l > 1
  wanted   = approach || final || landing_roll
  severity = "minor"
}

function "pressure_transfer" {
  title    = "Transfer unit ready for the left system"
  chapter  = 29
  works    = transfer_unit && transfer_switch == "auto" && fluid_left_l > 1
  severity = "minor"
}

# -------------------------------------------------------------------- alerts

alert "hyd_both_low" {
  title     = "Both hydraulic systems low"
  chapter   = 29
  level     = "warning"
  message   = "No hydraulic pressure"
  when      = left_pressure_seen_low && right_pressure_seen_low
  true_when = !hyd_left && !hyd_right
  given_by  = news_left && news_right
  tells     = [hydraulics_left, hydraulics_right, hydraulics_any, pitch_control, roll_control, yaw_control, nose_steering, brakes_normal]
  procedure = hyd_both_low_list
}

alert "hyd_left_low" {
  title     = "Left hydraulic pressure low"
  chapter   = 29
  level     = "caution"
  message   = "Left hydraulic pressure low"
  when      = left_pressure_seen_low && !right_pressure_seen_low
  true_when = !hyd_left
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [hydraulics_left, pressure_transfer, reverse_left, speed_brakes]
  procedure = hyd_left_low_list
}

alert "hyd_right_low" {
  title     = "Right hydraulic pressure low"
  chapter   = 29
  level     = "caution"
  message   = "Right hydraulic pressure low"
  when      = right_pressure_seen_low && !left_pressure_seen_low
  true_when = !hyd_right
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells = [
    hydraulics_right, standby_pressure, reverse_right, speed_brakes, gear_extension, gear_retraction,
    nose_steering, brakes_normal, autobrake,
  ]
  procedure = hyd_right_low_list
}

# The pump has gone but something else holds the pressure: good to know, nothing
# to do at once.
alert "pump_left_low" {
  title    = "Left pump not delivering"
  chapter  = 29
  level    = "advisory"
  message  = "Left engine pump not delivering"
  when     = held(!pump_left_delivers && hyd_left, 3)
  given_by = news_left
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
}

alert "pump_right_low" {
  title     = "Right pump not delivering"
  chapter   = 29
  level     = "caution"
  message   = "Right engine pump not delivering"
  when      = held(!pump_right_delivers, 3)
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [hydraulics_right]
  procedure = pump_right_low_list
  only      = [second_series, island_kit]
}

alert "fluid_left_low" {
  title     = "Left hydraulic fluid low"
  chapter   = 29
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
  chapter   = 29
  level     = "caution"
  message   = "Right hydraulic fluid low"
  when      = level_sender_right && fluid_right_l < 5
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [hydraulics_right, standby_pressure]
  procedure = fluid_right_low_list
}

# --------------------------------------------------------------- indications

indication "pressure_left_shown" {
  title   = "Left hydraulic pressure readout"
  chapter = 29
  shows   = sensed_pressure_left_psi
  means   = pressure_left_psi
  within  = 200
  lit_by  = page_left && pressure_sender_left
  tells   = [hydraulics_left]
  place   = "hydraulics page"
}

indication "pressure_right_shown" {
  title   = "Right hydraulic pressure readout"
  chapter = 29
  shows   = sensed_pressure_right_psi
  means   = pressure_right_psi
  within  = 200
  lit_by  = page_right && pressure_sender_right
  tells   = [hydraulics_right]
  place   = "hydraulics page"
}

indication "fluid_left_shown" {
  title   = "Left hydraulic fluid readout"
  chapter = 29
  shows   = fluid_left_l
  means   = fluid_left_l
  within  = 0.5
  lit_by  = page_left && level_sender_left
  tells   = [pressure_transfer]
  place   = "hydraulics page"
}

indication "fluid_right_shown" {
  title   = "Right hydraulic fluid readout"
  chapter = 29
  shows   = fluid_right_l
  means   = fluid_right_l
  within  = 0.5
  lit_by  = page_right && level_sender_right
  place   = "hydraulics page"
}

# Says that the pump was told to run. Whether it runs, the pressure must say.
indication "standby_pump_lamp" {
  title   = "Standby pump lamp"
  chapter = 29
  shows   = standby_called
  means   = standby_called && pump_standby
  lit_by  = lamp_power_right
  tells   = [hydraulics_right]
  place   = "overhead panel"
}

indication "transfer_shown" {
  title   = "Transfer unit symbol"
  chapter = 29
  shows   = transfer_runs
  means   = transfer_runs
  lit_by  = page_left
  place   = "hydraulics page"
}

# -------------------------------------------------------------------- events

# Left and right lines cross in one corner of the main gear bay, a hand apart.
event "line_chafe" {
  title         = "Hydraulic lines of both systems chafed through in the gear bay"
  chapter       = 29
  rate_per_hour = 1e-8
  fails         = [reservoir_left.leaks, reservoir_right.leaks]
}
