# ATA 77, engine indication. The engine picture on the middle screen; speeds and thrust come straight from the engine
# controls, oil and vibration through the data units: left engine through unit 1, right engine through unit 2.

chapter = 77

unit "fan_sensor_left" {
  mirror        = true
  title         = "Left fan speed sensor"
  rate_per_hour = 1e-5
  place         = "left engine"
  fault "sticks" {
    title         = "sticks: gives the value of the moment for ever"
    rate_per_hour = 1e-6
    checked_every_h = 10
  }
}

unit "gas_sensor_left" {
  mirror        = true
  title         = "Left exhaust gas temperature sensor"
  rate_per_hour = 2e-5
  place         = "left engine"
}

unit "flow_meter_left" {
  mirror        = true
  title         = "Left fuel flow meter"
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "left engine"
}

unit "oil_sender_left" {
  mirror        = true
  title         = "Left oil pressure sender"
  chapter       = 79
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "left engine"
  fault "reads_low" {
    title         = "reads low: a chafed wire"
    rate_per_hour = 1e-5
  }
  fault "reads_normal" {
    title         = "reads normal whatever the pressure"
    rate_per_hour = 3e-6
    checked_every_h = 600
  }
}

unit "shake_sensor_left" {
  mirror        = true
  title         = "Left vibration sensor"
  needs         = dc_left
  rate_per_hour = 5e-5
  place         = "left engine"
}

signal "fan_left_pct" {
  mirror  = true
  title   = "Fan speed, left engine"
  value   = engine_left ? 22 + 0.78 * thrust_left_pct : failed(engine_left) || seized_left ? 0 : 10
}

signal "gas_left_c" {
  mirror  = true
  title   = "Exhaust gas temperature, left engine"
  value   = engine_left ? (engine_left.surges ? 920 : 640) : 90
}

signal "flow_left_kg_per_h" {
  mirror  = true
  title   = "Fuel flow, left engine"
  value   = engine_left ? 200 + thrust_left_pct * 15 : 0
}

signal "oil_left_psi" {
  mirror  = true
  title   = "Oil pressure, left engine"
  chapter = 79
  value   = oil_left ? 52 : 0
}

signal "oil_read_left_psi" {
  mirror  = true
  title   = "Oil pressure as read, left engine"
  chapter = 79
  value   = oil_sender_left.reads_low ? 8 : oil_sender_left.reads_normal ? 52 : oil_left_psi
}

# The sender has one wire. The procedure sends the crew to the fan and the gas
# temperature before they stop an engine on its word.
alert "left_oil_low" {
  mirror    = true
  title     = "Left oil pressure low"
  chapter   = 79
  level     = "warning"
  message   = "Left engine oil pressure low"
  when      = held(oil_sender_left && oil_read_left_psi < 20 && engine_left, 3)
  true_when = oil_left_psi < 20 && engine_left
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off]
  tells     = [oil_left]
  procedure = oil_pressure_low
}

alert "left_engine_shakes" {
  mirror   = true
  title    = "Left engine shakes"
  level    = "advisory"
  message  = "Left engine vibration high"
  when     = engine_left.shakes && engine_left && shake_sensor_left
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, landing_roll]
}
indication "fan_left_readout" {
  mirror  = true
  title   = "Left fan speed"
  shows   = frozen(fan_left_pct, fan_sensor_left.sticks)
  means   = fan_left_pct
  within  = 4
  lit_by  = engine_picture && fan_sensor_left && (channel_left_a || channel_left_b)
  place   = "middle screen, engine picture"
  tells   = [thrust_left]
}
indication "gas_left_readout" {
  mirror  = true
  title   = "Left exhaust gas temperature"
  shows   = gas_left_c
  means   = gas_left_c
  within  = 20
  lit_by  = engine_picture && gas_sensor_left && (channel_left_a || channel_left_b)
  place   = "middle screen, engine picture"
  tells   = [thrust_left]
}
indication "flow_left_readout" {
  mirror  = true
  title   = "Left fuel flow"
  shows   = flow_left_kg_per_h
  means   = flow_left_kg_per_h
  within  = 50
  lit_by  = engine_picture && flow_meter_left && left_reports
  place   = "middle screen, engine picture"
}
indication "oil_left_readout" {
  mirror  = true
  title   = "Left oil pressure"
  chapter = 79
  shows   = oil_read_left_psi
  means   = oil_left_psi
  within  = 5
  lit_by  = engine_picture && oil_sender_left && left_reports
  place   = "middle screen, engine picture"
  tells   = [oil_left]
}
indication "shake_left_readout" {
  mirror  = true
  title   = "Left vibration"
  shows   = engine_left.shakes && engine_left ? 5 : 1
  means   = engine_left.shakes && engine_left ? 5 : 1
  within  = 1
  lit_by  = engine_picture && shake_sensor_left && left_reports
  place   = "middle screen, engine picture"
}
indication "left_run_lamp" {
  mirror  = true
  title   = "Left engine switch: off lamp"
  chapter = 73
  shows   = engine_left_switch == "off"
  means   = engine_left_switch == "off"
  lit_by  = dc_vital
  place   = "centre pedestal"
}

# The sender has one wire. The procedure sends the crew to the fan and the gas
# temperature before they stop an engine on its word.
indication "ignition_lamp" {
  title   = "Ignition switch: continuous lamp"
  chapter = 74
  shows   = ignition_switch == "continuous"
  means   = ignition_switch == "continuous" && relight
  lit_by  = lamp_power_left
  place   = "overhead panel, left half"
}
