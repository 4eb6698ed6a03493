# ATA 24, electrical power: the DC side, the battery, and what senses them.

chapter = 24

unit "tr_left" {
  title         = "Left DC source (transformer rectifier 1)"
  needs         = ac_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
  reset_by      = dc_source_reset == "reset"
  reset_tries   = 1
}

unit "tr_right" {
  title         = "Right DC source (transformer rectifier 2)"
  needs         = ac_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
  reset_by      = dc_source_reset == "reset"
  reset_tries   = 1
}

control "dc_source_reset" {
  title     = "DC source reset button"
  positions = ["normal", "reset"]
  initial   = "normal"
  place     = "overhead panel"
}

unit "dc_tie" {
  title         = "DC tie contactor"
  rate_per_hour = 1e-6
  checked_every_h = 600
  place         = "electronics bay, between the racks"
}

unit "dc_left" {
  mirror        = true
  title         = "Left DC bus"
  needs         = (tr_left || (dc_tie && tr_right)) && bay_supply_switch != "right only" && !left_rack_burnt
  rate_per_hour = 5e-7
  place         = "electronics bay, left rack"
}

# The third source makes DC for the vital bus alone, from the vital AC bus.
unit "tr_vital" {
  title         = "Vital DC source (transformer rectifier 3)"
  needs         = ac_vital
  rate_per_hour = 2e-5
  place         = "electronics bay, forward"
}

# Two diodes, one from each source, feed the vital bus past both main DC buses.
unit "vital_diode_left" {
  mirror        = true
  title         = "Left feed diode of the vital DC bus"
  needs         = tr_left
  rate_per_hour = 2e-6
  checked_every_h = 600
  place         = "electronics bay, left rack"
}

unit "dc_vital" {
  title         = "Vital DC bus"
  needs         = vital_diode_left || vital_diode_right || tr_vital || (battery_main && !battery_flat)
  rate_per_hour = 3e-7
  place         = "electronics bay, left rack"
}

# The core of the flight deck (left flight display, engines and alerts, one radio, one air data computer) is fed twice:
# from the vital DC bus, or through small rectifiers of its own from the backup AC bus. It outlives the vital DC bus as
# long as any generator turns. Everything else on the vital DC bus goes with it, and most of it is of the quiet sort.
signal "core_fed" {
  title   = "The core of the flight deck is fed"
  value   = dc_vital || ac_backup
}

# Straight on the battery, with no switch between: what must work with everything else off, such as the fire bottles.
unit "dc_direct" {
  title         = "Hot battery bus"
  needs         = (battery_main && !battery_flat) || battery_apu
  rate_per_hour = 3e-7
  place         = "electronics bay, forward"
}

unit "battery_main" {
  title         = "Main battery"
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
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "tail"
}

# The charger asks for the left DC bus. When both sources are gone it is gone too, and the battery only empties.
unit "charger_main" {
  title         = "Main battery charger"
  needs         = dc_left
  rate_per_hour = 2e-5
  checked_every_h = 50
  place         = "electronics bay, forward"
}

# The contactor drops out when the battery is empty and is closed again on the ground only: otherwise an empty battery
# that takes a little charge would let the vital bus come and go.
signal "battery_flat" {
  title   = "The main battery has been drawn empty"
  set     = battery_left_min <= 0
  reset   = taxi_out
}

# Takes the heavy part of the vital loads off, so that the battery lasts longer.
control "vital_load_switch" {
  title     = "Vital load switch"
  positions = ["all", "reduced"]
  initial   = "all"
  place     = "overhead panel"
}

signal "vital_on_battery" {
  title   = "The vital DC bus lives from the battery"
  value   = dc_vital && !vital_diode_left && !vital_diode_right && !tr_vital
}

signal "vital_on_third" {
  title   = "The vital DC bus lives from the third source alone"
  value   = dc_vital && !vital_diode_left && !vital_diode_right && tr_vital
}

# How fast the charge changes: one minute of charge each minute with all vital loads on, less with the load switch on
# "reduced", three times as fast from a worn battery. The charger puts back half a minute each minute.
signal "battery_flow_ratio" {
  title   = "Change of the battery's charge"
  value = (vital_on_battery
    ? (vital_load_switch == "reduced" ? -0.6 : -1) * (battery_main.weak ? 3 : 1)
  : (charger_main && battery_main ? 0.5 : 0)) / 60
}

signal "battery_left_min" {
  title   = "Charge left in the main battery, in minutes of full vital load"
  value   = total(battery_flow_ratio, 30, 0, 30)
  variant "island_kit" { value = total(battery_flow_ratio, 45, 0, 45) }
}

# What the aircraft believes about its power. Each side's buses are watched by a
# sensing box that reports through the data unit of the *other* side: a dead side
# could not report its own death. The price is paid when both sides die at once.
unit "bus_sense_left" {
  mirror        = true
  title         = "Sensing box of the left buses"
  rate_per_hour = 1e-5
  place         = "electronics bay, left rack"
  fault "says_powered" {
    title         = "says that everything is powered"
    rate_per_hour = 2e-6
    checked_every_h = 500
  }
}

signal "left_power_reports" {
  title   = "Reports about the left buses arrive"
  value   = bus_sense_left && data_unit_2
}

signal "right_power_reports" {
  title   = "Reports about the right buses arrive"
  value   = bus_sense_right && data_unit_1
}

# Counts what goes into the battery and what comes out.
unit "charge_counter" {
  title         = "Battery charge counter"
  needs         = dc_vital
  rate_per_hour = 2e-5
  checked_every_h = 500
  place         = "electronics bay, forward"
  fault "stands_still" {
    title         = "stands still: shows the charge of the moment for ever"
    rate_per_hour = 5e-6
    checked_every_h = 500
  }
}

# It counts minutes of a healthy battery. A worn one it cannot see.
signal "counted_left_min" {
  title   = "Battery minutes as counted"
  value   = frozen(battery_left_min, charge_counter.stands_still)
}

signal "battery_true_min" {
  title   = "Minutes until the battery is empty, with all vital loads on"
  value   = battery_main ? (battery_main.weak ? battery_left_min / 3 : battery_left_min) : 0
}

# The voltage hardly falls until the end is near: a poor guide to the time left.
signal "battery_volts_v" {
  title   = "Battery voltage"
  value = (!battery_main || battery_left_min <= 0 ? 0
    : vital_on_battery ? (battery_left_min > 6 ? 24 : 21)
  : 28)
}

signal "tr_left_amps_a" {
  mirror  = true
  title   = "Current from the left DC source"
  value   = tr_left ? (tr_right ? 95 : 180) : 0
}

signal "vital_fed_by" {
  title   = "What feeds the vital DC bus"
  value = (vital_diode_left && vital_diode_right ? "both sources"
    : vital_diode_left ? "left source"
    : vital_diode_right ? "right source"
    : tr_vital ? "third source"
    : dc_vital ? "battery"
  : "nothing")
}
