# ATA 24, electrical power: the DC side, the battery, and what senses them.

# ------------------------------------------------------------------ DC buses

unit "tr_left" {
  title         = "Left DC source (transformer rectifier 1)"
  chapter       = 24
  needs         = ac_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
  reset_by      = dc_source_reset == "reset"
  reset_tries   = 1
}

unit "tr_right" {
  title         = "Right DC source (transformer rectifier 2)"
  chapter       = 24
  needs         = ac_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
  reset_by      = dc_source_reset == "reset"
  reset_tries   = 1
}

control "dc_source_reset" {
  title     = "DC source reset button"
  chapter   = 24
  positions = ["normal", "reset"]
  initial   = "normal"
  place     = "overhead panel"
}

unit "dc_tie" {
  title         = "DC tie contactor"
  chapter       = 24
  rate_per_hour = 1e-6
  checked_every_h = 600
  place         = "electronics bay, between the racks"
}

unit "dc_left" {
  title         = "Left DC bus"
  chapter       = 24
  needs         = (tr_left || (dc_tie && tr_right)) && bay_supply_switch != "right only"
  rate_per_hour = 5e-7
  place         = "electronics bay, left rack"
}

unit "dc_right" {
  title         = "Right DC bus"
  chapter       = 24
  needs         = (tr_right || (dc_tie && tr_left)) && bay_supply_switch != "left only"
  rate_per_hour = 5e-7
  place         = "electronics bay, right rack"
}

# The third source makes DC for the vital bus alone, from the vital AC bus.
unit "tr_vital" {
  title         = "Vital DC source (transformer rectifier 3)"
  chapter       = 24
  needs         = ac_vital
  rate_per_hour = 2e-5
  place         = "electronics bay, forward"
}

# Two diodes, one from each source, feed the vital bus past both main DC buses.
unit "vital_diode_left" {
  title         = "Left feed diode of the vital DC bus"
  chapter       = 24
  needs         = tr_left
  rate_per_hour = 2e-6
  checked_every_h = 600
  place         = "electronics bay, left rack"
}

unit "vital_diode_right" {
  title         = "Right feed diode of the vital DC bus"
  chapter       = 24
  needs         = tr_right
  rate_per_hour = 2e-6
  checked_every_h = 600
  place         = "electronics bay, right rack"
}

unit "dc_vital" {
  title         = "Vital DC bus"
  chapter       = 24
  needs         = vital_diode_left || vital_diode_right || tr_vital || (battery_main && !battery_flat)
  rate_per_hour = 3e-7
  place         = "electronics bay, left rack"
}

# The core of the flight deck (left flight picture, engines and alerts, one radio, one
# air data computer) is fed twice: from the vital DC bus, or through small rectifiers
# of its own from the backup AC bus. It outlives the vital DC bus as long as any
# generator turns. Everything else on the vital DC bus goes with it, and most of it is
# of the quiet sort.
signal "core_fed" {
  title   = "The core of the flight deck is fed"
  chapter = 24
  value   = dc_vital || ac_backup
}

# Straight on the battery, with no switch between: what must work with everything
# else off, such as the fire bottles.
unit "dc_direct" {
  title         = "Battery-direct bus"
  chapter       = 24
  needs         = (battery_main && !battery_flat) || battery_apu
  rate_per_hour = 3e-7
  place         = "electronics bay, forward"
}

# ----------------------------------------------------------------- batteries

unit "battery_main" {
  title         = "Main battery"
  chapter       = 24
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "electronics bay, forward"
  fault "weak" {
    title         = "worn: it holds a third of its charge"
    rate_per_hour = 2e-5
    checked_every_h = 600
  }
}

unit "battery_apu" {
  title         = "APU battery"
  chapter       = 24
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "tail"
}

# The charger asks for the left DC bus. When both sources are gone it is gone too, and
# the battery only empties.
unit "charger_main" {
  title         = "Main battery charger"
  chapter       = 24
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, forward"
}

# The contactor drops out when the battery is empty and is closed again on the ground
# only: otherwise an empty battery that takes a little charge would let the vital bus
# come and go.
signal "battery_flat" {
  title   = "The main battery has been drawn empty"
  chapter = 24
  set     = battery_left_min <= 0
  reset   = taxi_out
}

# Takes the heavy part of the vital loads off, so that the battery lasts longer.
control "vital_load_switch" {
  title     = "Vital load switch"
  chapter   = 24
  positions = ["all", "reduced"]
  initial   = "all"
  place     = "overhead panel"
}

signal "vital_on_battery" {
  title   = "The vital DC bus lives from the battery"
  chapter = 24
  value   = dc_vital && !vital_diode_left && !vital_diode_right && !tr_vital
}

signal "vital_on_third" {
  title   = "The vital DC bus lives from the third source alone"
  chapter = 24
  value   = dc_vital && !vital_diode_left && !vital_diode_right && tr_vital
}

# How fast the charge changes: one minute of charge each minute with all vital
# loads on, less with the load switch on "reduced", three times as fast from a worn
# battery. The charger puts back half a minute each minute.
signal "battery_flow_ratio" {
  title   = "Change of the battery's charge"
  chapter = 24
  value = (vital_on_battery
    ? (vital_load_switch == "reduced" ? -0.6 : -1) * (battery_main.weak ? 3 : 1)
  : (charger_main && battery_main ? 0.5 : 0)) / 60
}

signal "battery_left_min" {
  title   = "Charge left in the main battery, in minutes of full vital load"
  chapter = 24
  value   = total(battery_flow_ratio, 30, 0, 30)
  variant "island_kit" {
    value = total(battery_flow_ratio, 45, 0, 45)
  }
}

# ------------------------------------------------------------------- sensing

# What the aircraft believes about its power. Each side's buses are watched by a
# sensing box that reports through the data unit of the *other* side: a dead side
# could not report its own death. The price is paid when both sides die at once.
unit "bus_sense_left" {
  title         = "Sensing box of the left buses"
  chapter       = 24
  rate_per_hour = 1e-5
  place         = "electronics bay, left rack"
  fault "says_powered" {
    title         = "says that everything is powered"
    rate_per_hour = 2e-6
  }
}

unit "bus_sense_right" {
  title         = "Sensing box of the right buses"
  chapter       = 24
  rate_per_hour = 1e-5
  place         = "electronics bay, right rack"
  fault "says_powered" {
    title         = "says that everything is powered"
    rate_per_hour = 2e-6
  }
}

signal "left_power_reports" {
  title   = "Reports about the left buses arrive"
  chapter = 24
  value   = bus_sense_left && data_unit_2
}

signal "right_power_reports" {
  title   = "Reports about the right buses arrive"
  chapter = 24
  value   = bus_sense_right && data_unit_1
}

# Counts what goes into the battery and what comes out.
unit "charge_counter" {
  title         = "Battery charge counter"
  chapter       = 24
  needs         = dc_vital
  rate_per_hour = 2e-5
  place         = "electronics bay, forward"
  fault "stands_still" {
    title         = "stands still: shows the charge of the moment for ever"
    rate_per_hour = 5e-6
  }
}

# It counts minutes of a healthy battery. A worn one it cannot see.
signal "counted_left_min" {
  title   = "Battery minutes as counted"
  chapter = 24
  value   = frozen(battery_left_min, charge_counter.stands_still)
}

signal "battery_true_min" {
  title   = "Minutes until the battery is empty, with all vital loads on"
  chapter = 24
  value   = battery_main ? (battery_main.weak ? battery_left_min / 3 : battery_left_min) : 0
}

# The voltage hardly falls until the end is near: a poor guide to the time left.
signal "battery_volts_v" {
  title   = "Battery voltage"
  chapter = 24
  value = (!battery_main || battery_left_min <= 0 ? 0
    : vital_on_battery ? (battery_left_min > 6 ? 24 : 21)
  : 28)
}

signal "tr_left_amps_a" {
  title   = "Current from the left DC source"
  chapter = 24
  value   = tr_left ? (tr_right ? 95 : 180) : 0
}

signal "tr_right_amps_a" {
  title   = "Current from the right DC source"
  chapter = 24
  value   = tr_right ? (tr_left ? 95 : 180) : 0
}

signal "vital_fed_by" {
  title   = "What feeds the vital DC bus"
  chapter = 24
  value = (vital_diode_left && vital_diode_right ? "both sources"
    : vital_diode_left ? "left source"
    : vital_diode_right ? "right source"
    : tr_vital ? "third source"
    : dc_vital ? "battery"
  : "nothing")
}
