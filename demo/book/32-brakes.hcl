# ATA 32, brakes, tyres and nose wheel steering. Normal brakes live from right pressure,
# alternate brakes from left pressure. Each way has an accumulator for six presses; the
# alternate way needs no electric power at all, and comes last.

chapter = 32

control "autobrake_selector" {
  title     = "Automatic brake selector"
  positions = ["off", "greatest", "gentle", "firm"]
  initial   = "greatest"
  place     = "centre panel"
}

control "parking_brake_lever" {
  title     = "Parking brake lever"
  positions = ["off", "set"]
  initial   = "off"
  place     = "centre pedestal"
}

# Only for pressing the pedals at a moment of one's own choice: the ordinary braking of a landing needs no act.
control "brake_pedals" {
  title     = "Brake pedals"
  positions = ["released", "pressed"]
  initial   = "released"
  place     = "pedals"
}

unit "brake_valve_normal" {
  title         = "Normal brake valve"
  rate_per_hour = 5e-6
  place         = "main gear bay"
  fault "presses" {
    title         = "presses the brakes by itself"
    rate_per_hour = 1e-7
  }
}

unit "brake_valve_alternate" {
  title         = "Alternate brake valve"
  rate_per_hour = 5e-6
  checked_every_h = 2
  place         = "main gear bay"
}

# Charged by the left system, good for six applications of the pedals and for the
# parking brake. Its gas can leak away over weeks; only the gauge tells.
unit "brake_accumulator" {
  title         = "Brake accumulator of the alternate brakes"
  rate_per_hour = 2e-5
  checked_every_h = 10
  place         = "main gear bay"
}

unit "brake_accumulator_normal" {
  title           = "Brake accumulator of the normal brakes"
  rate_per_hour   = 2e-5
  checked_every_h = 10
  place           = "main gear bay"
}

unit "brake_channel_a" {
  title         = "Brake control channel A"
  needs         = dc_left
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

unit "brake_channel_b" {
  title         = "Brake control channel B"
  needs         = dc_right
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, right rack"
}

unit "wheel_sender_left" {
  mirror        = true
  title         = "Left wheel speed sender"
  rate_per_hour = 5e-6
  place         = "left main wheels"
}

unit "autobrake_box" {
  title         = "Automatic brake unit"
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "brake_left" {
  mirror        = true
  title         = "Left wheel brakes"
  rate_per_hour = 2e-6
  checked_every_h = 10
  place         = "left main wheels"
  fault "drags" {
    title         = "drags: never quite lets go"
    rate_per_hour = 1e-5
  }
}

unit "brake_heat_box" {
  title         = "Brake temperature unit"
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
}

unit "tyre_left" {
  mirror        = true
  title         = "Left main tyres"
  rate_per_hour   = 5e-6
  checked_every_h = 10
  place         = "left main wheels"
}

unit "tyre_pressure_box" {
  title         = "Tyre pressure unit"
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
  only          = [second_series, island_kit]
}

unit "steering_box" {
  title         = "Nose wheel steering unit"
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "steering_motor" {
  title         = "Nose wheel steering motor"
  needs         = hyd_right
  rate_per_hour = 1e-5
  place         = "nose leg"
}

signal "brakes_normal_ok" {
  title   = "Normal brakes have pressure and control"
  value   = hyd_right && brake_valve_normal && (brake_channel_a || brake_channel_b)
}

# Every press of the pedals without pump pressure behind it costs one stroke of the
# accumulator. Pumping the pedals is the way to run out of brakes.
signal "press_on_accumulator" {
  title   = "The pedals are pressed with no pump behind them"
  value   = (brake_pedals == "pressed" || real.braking) && !brakes_normal_ok && !hyd_left
}

signal "strokes_used_count" {
  title   = "Brake applications taken from the accumulator"
  value   = count(press_on_accumulator && !brakes_stored_ok)
}

signal "strokes_left_count" {
  title   = "Brake applications left in the accumulator"
  value   = most_of(0, 6 - strokes_used_count)
}

signal "brakes_alternate_ok" {
  title   = "Alternate brakes have pressure"
  value   = brake_valve_alternate && (hyd_left || accumulator_holds)
}

# The sixth press still brakes for as long as it is held.
signal "accumulator_holds" {
  title   = "The accumulator still gives pressure"
  value   = brake_accumulator && (strokes_used_count < 6 || (strokes_used_count == 6 && press_on_accumulator))
}

signal "normal_way_stored" {
  title   = "Normal brakes have control and an accumulator"
  value   = brake_valve_normal && (brake_channel_a || brake_channel_b) && brake_accumulator_normal
}

signal "normal_strokes_used_count" {
  title   = "Brake applications taken from the accumulator of the normal brakes"
  value   = count(press_on_accumulator && normal_way_stored)
}

signal "normal_strokes_left_count" {
  title   = "Brake applications left in the accumulator of the normal brakes"
  value   = most_of(0, 6 - normal_strokes_used_count)
}

signal "brakes_stored_ok" {
  title   = "Normal brakes have control and pressure from their accumulator"
  value   = normal_way_stored && (normal_strokes_used_count < 6 || (normal_strokes_used_count == 6 && press_on_accumulator))
}

# From the accumulator of the alternate brakes there is pressure, but nothing that lets go of a locked wheel.
signal "antiskid_ok" {
  title   = "A locked wheel is let go"
  value = ((brake_channel_a || brake_channel_b) && wheel_sender_left && wheel_sender_right
  && (brakes_normal_ok || brakes_stored_ok || (brake_valve_alternate && hyd_left)))
}

# Heat of the hotter side: eight degrees for each second of braking at speed, three
# for each second that a dragging brake is towed along.
signal "brake_heat_c" {
  title   = "Temperature of the hottest wheel brake"
  value = total(((brake_left.drags || brake_right.drags) && real.on_ground && real.wheel_speed_kt > 5
    ? 3
    : real.braking && real.wheel_speed_kt > 40 ? 8 : -0.4),
  15, 15, 800)
}
