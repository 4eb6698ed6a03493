# ATA 24, electrical power.
#
# Two sides, left and right. Each engine turns a generator, each generator feeds its own AC bus, and each AC bus feeds a
# transformer rectifier that makes DC for its own side. Ties let one side feed the other.
#
# Below the two sides lie the vital buses: what is needed to fly, to talk and to land. They live from either side. When
# both are gone a generator in the wind feeds them, for as long as the aircraft flies fast enough; the main battery
# carries them until it turns, below its least speed, and where it does not come, for a set time.
#
#   gen_left ── ac_left ── tr_left ── dc_left ──┐
#      │tie_left   │                   │dc_tie   ├── dc_vital ── battery_main
#      │tie_right  │                   │         │       └ inverter ─┐
#   gen_right ─ ac_right ─ tr_right ─ dc_right ──┤                   ac_backup
#   either ac side, by vital_relay ─┬─ ac_vital ─┴─ tr_vital         │
#   ram_gen, by ram_contactor ──────┘      └─────────────────────────┘

chapter = 24

unit "drive_left" {
  mirror        = true
  title         = "Left constant-speed drive"
  needs         = engine_left && drive_left_joined && !drive_left_broken
  rate_per_hour = 2e-5
  place         = "left engine gearbox"
  fault "runs_hot" {
    title         = "loses its oil and runs hot"
    rate_per_hour = 1e-5
  }
}

# A drive can be uncoupled in flight. The coupling is a shear: it cannot be made
# again before a mechanic has been there, whatever position the switch goes back to.
control "drive_left_switch" {
  mirror    = true
  title     = "Left drive switch"
  positions = ["joined", "uncouple"]
  initial   = "joined"
  place     = "overhead panel"
}

signal "drive_left_joined" {
  mirror  = true
  title   = "The left drive is coupled to its engine"
  initial = true
  set     = false
  reset   = drive_left_switch == "uncouple"
}

# A hot drive that stays coupled breaks up after four minutes.
signal "drive_left_broken" {
  mirror  = true
  title   = "The left drive has broken up"
  set     = held(drive_left.runs_hot && drive_left_joined, 240)
  reset   = false
}

# The control unit of a generator lives from the generator's own exciter, so it asks nothing of the aircraft's buses.
unit "gen_control_left" {
  mirror        = true
  title         = "Left generator control unit"
  rate_per_hour = 1e-5
  place         = "electronics bay, left rack"
}

control "gen_left_switch" {
  mirror    = true
  title     = "Left generator switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "apu_gen_switch" {
  title     = "APU generator switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

unit "gen_left" {
  mirror        = true
  title         = "Left generator"
  needs         = drive_left && gen_control_left && gen_left_switch == "on"
  rate_per_hour = 3e-5
  place         = "left engine gearbox"
  reset_by      = gen_left_switch == "off"
}

unit "apu_gen" {
  title         = "APU generator"
  needs         = apu && apu_gen_switch == "on"
  rate_per_hour = 5e-5
  checked_every_h = 10
  place         = "tail"
}

# The ties close by themselves when a generator drops out. A tie that has failed
# stays open, and nobody knows until it is needed.
unit "tie_left" {
  mirror        = true
  title         = "Left AC tie contactor"
  rate_per_hour = 1e-6
  checked_every_h = 600
  place         = "electronics bay, left rack"
}

unit "ac_left" {
  mirror        = true
  title         = "Left AC bus"
  needs         = gen_left || (tie_left && (apu_gen || (tie_right && gen_right)))
  rate_per_hour = 5e-7
  place         = "electronics bay, left rack"
}

# The vital AC bus hangs on the left side. On the first series the crew move it to
# the right side by hand; later series do it by themselves.
control "vital_side_switch" {
  title     = "Vital AC bus source switch"
  positions = ["left", "right"]
  initial   = "left"
  place     = "overhead panel"
}

unit "vital_relay" {
  title         = "Vital AC transfer relay"
  rate_per_hour = 2e-6
  checked_every_h = 600
  place         = "electronics bay, left rack"
}

signal "vital_ac_from_right" {
  title   = "The vital AC bus is moved to the right side"
  value   = vital_relay && (vital_side_switch == "right" || !ac_left)
  variant "first_series" { value = vital_relay && vital_side_switch == "right" }
}

# The emergency source. A turbine drops out of the belly when both main AC buses are
# dead in the air, or by its guarded switch. It takes eight seconds to be of use, and
# stays out: only a mechanic puts it back. Below 120 kt it does not turn fast enough.
control "ram_switch" {
  title     = "Ram turbine switch, guarded"
  positions = ["guarded", "release"]
  initial   = "guarded"
  place     = "overhead panel"
}

unit "ram_release" {
  title           = "Automatic release of the ram turbine"
  needs           = dc_vital || dc_direct
  rate_per_hour   = 1e-5
  checked_every_h = 1.3 # tests itself when power comes on
  place           = "electronics bay, forward"
}

# The switch pulls the same lock by a wire of its own from the hot battery bus.
signal "ram_out" {
  title   = "The ram turbine is out in the wind"
  set     = ((ram_release && held(!ac_left && !ac_right && !real.on_ground, 2))
    || (dc_direct && ram_switch == "release" && !real.on_ground))
  reset   = false
}

unit "ram_turbine" {
  title           = "Ram turbine"
  also_called     = "RAT"
  needs           = held(ram_out, 6) && real.airspeed_kt > aircraft.least_ram_turbine_kt
  rate_per_hour   = 5e-6
  checked_every_h = 50
  place           = "belly"
}

unit "ram_gen" {
  title           = "Emergency generator of the ram turbine"
  needs           = ram_turbine
  rate_per_hour   = 3.6e-5
  checked_every_h = 10
  place           = "belly"
}

# A feeder of its own, past the relay and the rack of the normal feed.
unit "ram_contactor" {
  title           = "Emergency generator contactor"
  rate_per_hour   = 1e-6
  checked_every_h = 50
  place           = "belly"
}

unit "ac_vital" {
  title         = "Vital AC bus"
  needs         = (vital_ac_from_right ? ac_right : ac_left) || (ram_gen && ram_contactor)
  rate_per_hour = 5e-7
  place         = "electronics bay, left rack"
}

# The inverter makes a little AC from the vital DC bus when the vital AC bus is
# dead. It waits all its life for that moment, untested in between.
unit "inverter" {
  title         = "Static inverter"
  needs         = dc_vital
  rate_per_hour = 3e-5
  checked_every_h = 150
  place         = "electronics bay, left rack"
}

unit "ac_backup" {
  title         = "Backup AC bus"
  needs         = ac_vital || inverter
  rate_per_hour = 5e-7
  place         = "electronics bay, left rack"
}

unit "galley_feed" {
  title         = "Galley and cabin feed contactor"
  needs         = ac_left && ac_right && at_least(2, gen_left, gen_right, apu_gen)
  rate_per_hour = 2e-6
  place         = "electronics bay, right rack"
}
