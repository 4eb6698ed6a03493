# ATA 29, hydraulics.
#
# Two systems, left and right, each with its own fluid and a pump on its own engine. They never share fluid. What they
# share is power: a transfer unit lets the right system drive the left one, and an electric standby pump backs up the
# right system. So after the loss of one engine both systems still have pressure, and after the loss of one fluid the
# other system is untouched.
#
#   engine_left  ── pump_left  ── left system  (half of each control surface,
#                                     ▲         inner spoilers, left reverser,
#                               transfer unit   alternate brakes)
#                                     │
#   engine_right ── pump_right ── right system (the other halves, outer spoilers,
#   ac_right ── pump_standby ────┘              right reverser, gear, steering,
#                                               normal brakes)

chapter = 29

unit "reservoir_left" {
  title         = "Left hydraulic reservoir and lines"
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
  rate_per_hour = 2e-6
  place         = "right wing root"
  fault "leaks" {
    title         = "leaks until the system is empty"
    stops         = false
    rate_per_hour = 3e-5
  }
}

unit "pump_left" {
  mirror        = true
  title         = "Left engine-driven hydraulic pump"
  needs         = engine_left
  rate_per_hour = 4e-5
  place         = "left engine gearbox"
}

unit "pump_standby" {
  title         = "Standby electric hydraulic pump"
  needs         = ac_right
  rate_per_hour = 3e-5
  checked_every_h = 10
  place         = "right wing root"
}

# A motor driven by the right system turns a pump in the left one. Mechanical: no
# bus can stop it, and nobody hears of its loss before it is needed.
unit "transfer_unit" {
  title         = "Hydraulic power transfer unit"
  rate_per_hour = 2e-5
  checked_every_h = 150
  place         = "centre fuselage"
}

# The valves that shut the fluid off from a burning engine. They are turned by
# motors on the hot battery bus and stand open all their lives.
unit "shutoff_left" {
  mirror        = true
  title         = "Left hydraulic fire shut-off valve"
  needs         = dc_direct
  rate_per_hour = 5e-6
  checked_every_h = 600
  place         = "left pylon"
}

control "standby_pump_switch" {
  title     = "Standby hydraulic pump switch"
  positions = ["auto", "on", "off"]
  initial   = "auto"
  place     = "overhead panel"
}

control "transfer_switch" {
  title     = "Hydraulic transfer switch"
  positions = ["auto", "off"]
  initial   = "auto"
  place     = "overhead panel"
}

# Fourteen litres each; a leak takes one litre in twenty seconds. Below one litre
# the pumps draw air and there is no pressure any more.
signal "fluid_left_l" {
  mirror  = true
  title   = "Fluid in the left hydraulic system"
  value   = total(reservoir_left.leaks ? -0.05 : (reservoir_left ? 0 : -2), 14, 0, 14)
}

signal "pump_left_delivers" {
  mirror  = true
  title   = "The left engine-driven pump gives pressure"
  value   = pump_left && fluid_left_l > 1 && !(shutoff_left && fire_handle_left == "pulled")
}

# The first series starts the standby pump by itself only when it will be needed
# soon, with flaps out, so as to spare the right generator. In between the crew
# must switch it on. The later series start it whenever the engine pump gives up.
signal "standby_called" {
  title   = "The standby pump is told to run"
  value = (standby_pump_switch == "on"
  || (standby_pump_switch == "auto" && !pump_right_delivers && flap_lever != "up"))
  variant "second_series" { value = standby_pump_switch == "on" || (standby_pump_switch == "auto" && !pump_right_delivers) }
  variant "island_kit" { value = standby_pump_switch == "on" || (standby_pump_switch == "auto" && !pump_right_delivers) }
}

signal "standby_runs" {
  title   = "The standby pump gives pressure"
  value   = pump_standby && standby_called && fluid_right_l > 1
}

signal "hyd_right" {
  title   = "Right hydraulic pressure"
  value   = pump_right_delivers || standby_runs
}

signal "transfer_runs" {
  title   = "The transfer unit gives pressure to the left system"
  value   = transfer_unit && transfer_switch == "auto" && hyd_right && fluid_left_l > 1 && !pump_left_delivers
}

signal "hyd_left" {
  title   = "Left hydraulic pressure"
  value   = pump_left_delivers || transfer_runs
}

# Each system has one pressure sender and one level sender. They live from the
# side's own DC bus and report through the side's own data unit.
unit "pressure_sender_left" {
  mirror        = true
  title         = "Left hydraulic pressure sender"
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left wing root"
  fault "reads_full" {
    title         = "goes on reading full pressure"
    stops         = false
    rate_per_hour = 2e-6
    checked_every_h = 500
  }
}

unit "level_sender_left" {
  mirror        = true
  title         = "Left hydraulic level sender"
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left wing root"
}

signal "pressure_left_psi" {
  mirror  = true
  title   = "Pressure in the left hydraulic system"
  value   = hyd_left ? 3000 : 0
}

signal "sensed_pressure_left_psi" {
  mirror  = true
  title   = "What the left pressure sender says"
  value   = pressure_sender_left.reads_full ? 3000 : pressure_left_psi
}

signal "left_pressure_seen_low" {
  mirror  = true
  title   = "The left system is believed to have no pressure"
  value   = held(pressure_sender_left && sensed_pressure_left_psi < 1500, 1)
}
