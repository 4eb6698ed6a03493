# ATA 73, engine fuel and control.
#
# Each engine has a two-channel control that lives from an alternator on its own
# gearbox, so no failure of the aircraft's buses stops an engine. What the
# aircraft can take from an engine is its fuel.

control "engine_left_switch" {
  title     = "Left engine run switch"
  chapter   = 73
  positions = ["run", "off"]
  initial   = "run"
  place     = "centre pedestal"
}

control "engine_right_switch" {
  title     = "Right engine run switch"
  chapter   = 73
  positions = ["run", "off"]
  initial   = "run"
  place     = "centre pedestal"
}

unit "alternator_left" {
  title        = "Left engine control alternator"
  chapter      = 73
  rate_per_hour = 1e-5
  place        = "left engine gearbox"
}

unit "alternator_right" {
  title        = "Right engine control alternator"
  chapter      = 73
  rate_per_hour = 1e-5
  place        = "right engine gearbox"
}

# Only channel A has an aircraft bus to fall back on.
unit "channel_left_a" {
  title        = "Left engine control, channel A"
  chapter      = 73
  needs        = alternator_left || dc_vital
  rate_per_hour = 2e-5
  place        = "left engine"
}

unit "channel_left_b" {
  title        = "Left engine control, channel B"
  chapter      = 73
  needs        = alternator_left || dc_left
  rate_per_hour = 2e-5
  place        = "left engine"
}

unit "channel_right_a" {
  title        = "Right engine control, channel A"
  chapter      = 73
  needs        = alternator_right || dc_vital
  rate_per_hour = 2e-5
  place        = "right engine"
}

unit "channel_right_b" {
  title        = "Right engine control, channel B"
  chapter      = 73
  needs        = alternator_right || dc_right
  rate_per_hour = 2e-5
  place        = "right engine"
}

unit "engine_left" {
  title        = "Left engine"
  chapter      = 73
  needs        = fuel_feed_left && (channel_left_a || channel_left_b) && engine_left_switch == "run"
  rate_per_hour = 1e-5
  place        = "left wing"
}

unit "engine_right" {
  title        = "Right engine"
  chapter      = 73
  needs        = fuel_feed_right && (channel_right_a || channel_right_b) && engine_right_switch == "run"
  rate_per_hour = 1e-5
  place        = "right wing"
}
