# One cause, several failures. An event is what a fault tree built unit by unit forgets: the rack that two boxes share,
# the cloud that both tubes fly through. The other half of the events stands in the file of its chapter.

chapter = 34

# An engine throws a piece of its rotor through the wing root: through its own fluid and fuel,
# the shaft of the slats, and wires that lead to the gauges of the other engine (14 CFR 25.903(d)(1)).
event "rotor_burst_left" {
  mirror        = true
  title         = "Rotor burst, left engine"
  not_modelled  = "Only what is listed is hit, all at one moment. Other paths of the pieces, a hole in a tank, in the cabin or in the other engine, and the shaking are not worked out."
  chapter       = 73
  rate_per_hour = 1e-8
  fails         = [engine_left, drive_left, tie_left, reservoir_left.leaks, feed_line_left.leaks, slat_shaft, servo_roll, landing_light_left, flow_meter_left, oil_sender_left, fan_sensor_right, oil_sender_right]
}

# Water from the galley drips on the left rack.
event "galley_leak" {
  title         = "Galley water on the left rack"
  chapter       = 24
  rate_per_hour = 2e-7
  fails         = [data_unit_1, tr_left, voice]
}

event "lightning_strike" {
  title         = "Lightning strike on the nose"
  rate_per_hour = 1e-6
  fails         = [satnav_1, satnav_2, weather_radar, air_data_2, radio_alt_1]
}

event "bird_on_nose" {
  title         = "Bird strike on the nose"
  rate_per_hour = 5e-7
  fails         = [pitot_1, static_left.blocked, weather_radar]
}

# Somebody taped the ports for the wash, and nobody took the tape off.
event "taped_after_wash" {
  title         = "Static ports taped after a wash"
  rate_per_hour = 2e-8
  fails         = [static_left.blocked, static_right.blocked, static_standby.blocked]
}

# The covers of the tubes are still on. Nobody walked round.
event "covers_left_on" {
  title         = "Covers left on all pitot tubes"
  rate_per_hour = 2e-8
  fails         = [pitot_1.blocked, pitot_2.blocked, pitot_3.blocked]
}

event "wrong_oil" {
  title         = "Both drives filled with the wrong oil"
  chapter       = 24
  rate_per_hour = 1e-8
  fails         = [drive_left.runs_hot, drive_right.runs_hot]
}
