# ATA 24, electrical power: the lamps, the two meters and the electrics picture.

chapter = 24

indication "gen_left_lamp" {
  mirror  = true
  title   = "Left generator button: off lamp"
  shows   = !gen_left
  means   = !gen_left
  lit_by  = lamp_power_left
  place   = "overhead panel, left half"
  tells   = [two_ac_sources]
}
indication "apu_gen_lamp" {
  title   = "APU generator button: on-line lamp"
  shows   = apu_gen
  means   = apu_gen
  lit_by  = lamp_power_right
  place   = "overhead panel, right half"
}
indication "drive_left_lamp" {
  mirror  = true
  title   = "Left drive switch: uncoupled lamp"
  shows   = drive_left_switch == "uncouple"
  means   = !drive_left_joined
  lit_by  = lamp_power_left
  place   = "overhead panel, left half"
}

# The lamp in the selector shows what was asked for, not what the relay did.
indication "vital_side_lamp" {
  title   = "Vital AC bus source switch: right lamp"
  shows   = vital_ac_from_right
  means   = vital_ac_from_right
  lit_by  = lamp_power_right
  place   = "overhead panel, right half"
  tells   = [vital_ac_power]
  variant "first_series" { shows = vital_side_switch == "right" }
}
indication "tr_left_lamp" {
  mirror  = true
  title   = "Left DC source lamp"
  shows   = !tr_left
  means   = !tr_left
  lit_by  = lamp_power_right
  place   = "overhead panel, right half"
  tells   = [second_dc_source]
}
indication "ram_gen_lamp" {
  title   = "Ram turbine switch: emergency generator on-line lamp"
  shows   = ram_gen
  means   = ram_gen
  lit_by  = core_fed
  place   = "overhead panel, centre"
  tells   = [emergency_source]
}
indication "tr_vital_lamp" {
  title   = "Vital DC source lamp"
  shows   = !tr_vital
  means   = !tr_vital
  lit_by  = lamp_power_left
  place   = "overhead panel, left half"
  tells   = [third_dc_source]
}

# This lamp and the voltmeter beside it hang on the vital bus itself.
indication "battery_lamp" {
  title   = "Battery in use lamp"
  shows   = vital_on_battery
  means   = vital_on_battery
  lit_by  = dc_vital
  place   = "overhead panel, centre"
  tells   = [both_dc_sides]
}
indication "battery_voltmeter" {
  title   = "Battery voltmeter"
  shows   = battery_volts_v
  means   = battery_volts_v
  within  = 1
  lit_by  = dc_vital
  place   = "overhead panel, centre"
  tells   = [vital_dc_power]
}
indication "load_switch_lamp" {
  title   = "Vital load switch: reduced lamp"
  shows   = vital_load_switch == "reduced"
  means   = vital_load_switch == "reduced"
  lit_by  = dc_vital
  place   = "overhead panel, centre"
}

# Later series count the charge and show minutes. The counter sits on the vital bus, the readout on the middle screen.
indication "battery_minutes" {
  title   = "Battery minutes"
  except  = [first_series]
  shows   = counted_left_min
  means   = battery_true_min
  within  = 2
  lit_by  = engine_picture && charge_counter
  place   = "middle screen, below the alert list"
  tells   = [battery_reserve]
}

# The electrics picture: called on an inner screen, fed through the data units.
indication "gen_left_load" {
  mirror  = true
  title   = "Left generator load"
  shows   = gen_left ? (gen_right || apu_gen ? 46 : 82) : 0
  means   = gen_left ? (gen_right || apu_gen ? 46 : 82) : 0
  within  = 5
  lit_by  = system_picture && left_power_reports
  place   = "electrics picture"
  tells   = [two_ac_sources]
}
indication "ac_left_volts" {
  mirror  = true
  title   = "Left AC voltage"
  shows   = ac_left || bus_sense_left.says_powered ? 115 : 0
  means   = ac_left ? 115 : 0
  within  = 5
  lit_by  = system_picture && left_power_reports
  place   = "electrics picture"
  tells   = [both_ac_sides]
}
indication "vital_ac_volts" {
  title   = "Vital AC voltage"
  shows   = ac_vital || bus_sense_left.says_powered ? 115 : 0
  means   = ac_vital ? 115 : 0
  within  = 5
  lit_by  = system_picture && left_power_reports
  place   = "electrics picture"
  tells   = [vital_ac_power]
}
indication "backup_ac_volts" {
  title   = "Backup AC voltage"
  shows   = ac_backup ? 115 : 0
  means   = ac_backup ? 115 : 0
  within  = 5
  lit_by  = system_picture && left_power_reports
  place   = "electrics picture"
  tells   = [backup_ac_power]
}
indication "dc_left_volts" {
  mirror  = true
  title   = "Left DC voltage"
  shows   = dc_left || bus_sense_left.says_powered ? 28 : 0
  means   = dc_left ? 28 : 0
  within  = 2
  lit_by  = system_picture && left_power_reports
  place   = "electrics picture"
  tells   = [both_dc_sides]
}
indication "tr_left_amps" {
  mirror  = true
  title   = "Left DC source current"
  shows   = tr_left_amps_a
  means   = tr_left_amps_a
  within  = 10
  lit_by  = system_picture && left_power_reports
  place   = "electrics picture"
  tells   = [second_dc_source]
}
indication "vital_feed_label" {
  title   = "Vital DC bus: fed by"
  shows   = vital_fed_by
  means   = vital_fed_by
  lit_by  = system_picture
  place   = "electrics picture"
}
