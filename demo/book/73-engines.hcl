# ATA 73, engine fuel and control, with the oil (79) and ignition (74) that go with it.
#
# Each engine has a two-channel control that lives from an alternator on its own
# gearbox, so no failure of the aircraft's buses stops an engine. What the aircraft
# can take from an engine is its fuel; what the engine can take from itself is its oil.
#
# A flame that has gone out is lit again by itself within twenty seconds, when fuel is
# back and the igniters live, in one of two zones (14 CFR 25.903(e)): where the wind
# turns the engine fast enough, or, lower, with air from elsewhere for its starter.

chapter = 73

control "engine_left_switch" {
  mirror    = true
  title     = "Left engine switch"
  positions = ["run", "off"]
  initial   = "run"
  place     = "centre pedestal"
}

control "ignition_switch" {
  title     = "Ignition switch"
  chapter   = 74
  positions = ["automatic", "continuous"]
  initial   = "automatic"
  place     = "overhead panel"
}

unit "alternator_left" {
  mirror        = true
  title         = "Left engine control alternator"
  rate_per_hour = 1e-5
  checked_every_h = 500
  place         = "left engine gearbox"
}

# Channel A can fall back on the vital bus, channel B on the left one. The channel takes a
# second to see that the bus is steady.
unit "channel_left_a" {
  mirror        = true
  title         = "Left engine control, channel A"
  needs         = alternator_left || held(dc_vital, 1)
  rate_per_hour = 2e-5
  place         = "left engine"
}

unit "channel_left_b" {
  mirror        = true
  title         = "Left engine control, channel B"
  needs         = alternator_left || held(dc_left, 1)
  rate_per_hour = 2e-5
  place         = "left engine"
}

unit "oil_pump_left" {
  mirror        = true
  title         = "Left engine oil pump"
  chapter       = 79
  rate_per_hour = 2e-6
  place         = "left engine gearbox"
}

# Cuts the fuel of an engine that gives more than its lever asks for.
unit "thrust_guard_left" {
  mirror          = true
  title           = "Left engine overthrust guard"
  rate_per_hour   = 1e-5
  checked_every_h = 500
  place           = "left engine"
}

# Without oil a running engine seizes after three minutes. Switched off in time it only stops.
signal "seized_left" {
  mirror  = true
  title   = "The left engine has seized"
  chapter = 79
  set     = held(failed(oil_pump_left) && engine_left_switch == "run", 180)
  reset   = false
}

signal "flame_left_kept" {
  mirror  = true
  title   = "The left engine has what a flame needs"
  value   = fuel_feed_left && (channel_left_a || channel_left_b) && !seized_left && !(engine_left.runs_up && thrust_guard_left) && engine_left_switch == "run"
}

signal "flame_left" {
  mirror  = true
  title   = "The left engine is alight"
  set     = held(flame_left_kept && igniter_left && !failed(engine_left) && (left_windmills || left_starter_zone), 20)
  reset   = !flame_left_kept
  initial = true
}

signal "left_windmills" {
  mirror  = true
  title   = "The left engine is turned fast enough by the wind to be lit"
  value   = real.airspeed_kt >= aircraft.relight_windmill_kt && real.altitude_ft < aircraft.relight_ceiling_ft
}

signal "left_starter_zone" {
  mirror  = true
  title   = "The left engine is turned by its air starter, low enough to be lit"
  value   = bleed_left && real.altitude_ft < aircraft.relight_starter_ft
}

unit "engine_left" {
  mirror        = true
  title         = "Left engine"
  needs         = flame_left_kept && flame_left
  rate_per_hour = 4e-6
  place         = "left wing"
  fault "shakes" {
    title         = "shakes: a damaged fan blade"
    rate_per_hour = 5e-6
  }
  fault "surges" {
    title         = "surges: gives half its thrust"
    rate_per_hour = 2e-6
  }
  fault "runs_up" {
    title         = "runs up to full thrust, wherever its lever is"
    rate_per_hour = 2e-7
  }
}

unit "igniter_left" {
  mirror        = true
  title         = "Left engine igniters"
  chapter       = 74
  needs         = ac_backup
  rate_per_hour = 2e-5
  checked_every_h = 50
  place         = "left engine"
}

# What each engine truly does. The flight needs a certain thrust; each engine gives its half as long as it runs.
signal "thrust_left_pct" {
  mirror  = true
  title   = "Thrust of the left engine"
  value   = engine_left ? (reverse_left_idles ? 5 : engine_left.surges ? thrust_asked_pct / 2 : thrust_asked_pct) : 0
}

# Oil that does not flow gets hot where it is: a degree a second.
signal "oil_heat_left_c" {
  mirror  = true
  title   = "Oil temperature of the left engine"
  chapter = 79
  value   = 85 + total(failed(oil_pump_left) && engine_left ? 1 : 0)
}
indication "oil_heat_left_readout" {
  mirror  = true
  title   = "Left oil temperature"
  chapter = 79
  shows   = oil_heat_left_c
  means   = oil_heat_left_c
  within  = 10
  lit_by  = engine_picture && (channel_left_a || channel_left_b)
  place   = "middle screen, engine picture"
}

function "thrust_left" {
  mirror   = true
  title    = "Thrust of the left engine"
  works    = engine_left && !engine_left.surges
  severity = "major"
  noticed_at_once = true
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "thrust_obeys_left" {
  mirror   = true
  title    = "Left engine that obeys its lever"
  works    = !(engine_left.runs_up && engine_left)
  severity = "hazardous"
  noticed_at_once = true
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "thrust_any" {
  title    = "Thrust of one engine at least"
  works    = engine_left || engine_right
  wanted   = !landing_roll && !taxi_in
  severity = "catastrophic"
  noticed_at_once = true
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "spare_channel_left" {
  mirror   = true
  title    = "A spare control channel, left engine"
  works    = channel_left_a && channel_left_b
  severity = "minor"
}

function "oil_left" {
  mirror   = true
  title    = "Oil pressure of the left engine"
  chapter  = 79
  works    = engine_left && !failed(oil_pump_left)
  wanted   = engine_left_switch == "run" # one that is put off wants none
  severity = "minor"
}

# A stand-by that nothing announces: it is found out at the relight that does not come.
function "relight" {
  title    = "Ignition for a relight of either engine"
  chapter  = 74
  works    = igniter_left && igniter_right
  wanted   = lift_off || first_climb || climb || cruise || descent || approach || final
  severity = "minor"
}

# ------------------------------------------------------------------- alerts
#
# The engine controls talk to the alerting computers over lines of their own: no data
# unit stands between. The oil senders do not.

alert "left_engine_failed" {
  mirror    = true
  title     = "Left engine failed"
  level     = "warning"
  message   = "Left engine has failed"
  when      = held(engine_left_switch == "run", 40) && !engine_left # while it is lit it has its time
  tells     = [thrust_left, thrust_any, oil_left, reverse_left, reverse_even]
  procedure = engine_failed
}

alert "left_runs_up" {
  mirror    = true
  title     = "Left engine runs up"
  level     = "warning"
  message   = "Left engine thrust above lever"
  when      = held(engine_left.runs_up && engine_left, 1)
  tells     = [thrust_obeys_left]
  procedure = left_runs_up_list
}

alert "left_engine_surge" {
  mirror    = true
  title     = "Left engine surges"
  level     = "caution"
  message   = "Left engine surges"
  when      = held(engine_left.surges && engine_left, 2)
  quiet_in  = [take_off_fast, lift_off]
  tells     = [thrust_left]
  procedure = engine_surge
}

alert "left_channel_off" {
  mirror   = true
  title    = "Left engine control on one channel"
  level    = "advisory"
  message  = "Left engine control on one channel"
  when     = held(!channel_left_a || !channel_left_b, 5)
  quiet_in = [take_off_roll, take_off_fast, lift_off, first_climb, final, landing_roll]
  tells    = [spare_channel_left]
}

alert "igniters_off" {
  title    = "Igniters off"
  chapter  = 74
  only     = [island_kit]
  level    = "advisory"
  message  = "No ignition for a relight"
  when     = held(!igniter_left || !igniter_right, 10)
  given_by = alerting && data_unit_2
  quiet_in = [take_off_roll, take_off_fast, lift_off, landing_roll]
  tells    = [relight]
}
