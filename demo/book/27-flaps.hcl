# ATA 27, slats and flaps: four lever positions, two computers, two flap motors on
# hydraulic pressure, two slat motors on AC.

chapter = 27

# One lane is a computer and a motor. The lanes do not cross: computer 1 can only drive the motor on left pressure,
# computer 2 only the one on right pressure. It keeps the boxes simple, and it makes an unlucky pair out of a left box
# and a right pump. Computer 2 and its sender live from the vital supply.
unit "flap_computer_1" {
  title         = "Flap computer 1"
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "flap_computer_2" {
  title         = "Flap computer 2"
  needs         = dc_vital
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
}

unit "flap_motor_left" {
  mirror        = true
  title         = "Flap motor on left pressure"
  needs         = hyd_left
  rate_per_hour = 1e-5
  place         = "centre fuselage"
}

unit "flap_shaft" {
  title         = "Flap drive shaft"
  rate_per_hour = 1e-6
  place         = "both wings"
  fault "breaks" {
    title         = "breaks: one side is driven no longer"
    stops         = true
    rate_per_hour = 1e-7
  }
}

# Two brakes hold the flaps when the two sides come apart, each alone: those at the wing tips, which the computers set
# and test before each flight, and jacks that cannot be driven backwards, which nobody feels until that day.
unit "flap_asymmetry_brakes" {
  title           = "Flap asymmetry brakes"
  needs           = (flap_computer_1 || flap_computer_2) && (dc_left || dc_vital)
  rate_per_hour   = 1e-5
  checked_every_h = 1.3
  place           = "wing tips"
}

unit "flap_jacks" {
  title           = "Self-locking flap jacks"
  rate_per_hour   = 1e-6
  checked_every_h = 5000
  place           = "both wings"
}

unit "slat_motor_1" {
  title         = "Slat motor 1"
  needs         = ac_left
  rate_per_hour = 1e-5
  checked_every_h = 50
  place         = "centre fuselage"
}

unit "slat_motor_2" {
  title         = "Slat motor 2"
  needs         = ac_right
  rate_per_hour = 1e-5
  checked_every_h = 50
  place         = "centre fuselage"
}

unit "slat_shaft" {
  title         = "Slat drive shaft"
  rate_per_hour = 1e-6
  place         = "both wings"
}

unit "flap_sender_1" {
  title         = "Flap and slat position sender 1"
  needs         = dc_left
  rate_per_hour = 1e-5
  checked_every_h = 1.3
  place         = "left wing"
}

unit "flap_sender_2" {
  title         = "Flap and slat position sender 2"
  needs         = dc_vital
  rate_per_hour = 1e-5
  checked_every_h = 1.3
  place         = "right wing"
}

signal "flaps_move" {
  title   = "The flaps follow their lever"
  value   = flap_shaft && ((flap_computer_1 && flap_motor_left) || (flap_computer_2 && flap_motor_right))
}

signal "slats_move" {
  title   = "The slats follow their lever"
  value   = slat_shaft && ((flap_computer_1 && slat_motor_1) || (flap_computer_2 && slat_motor_2))
}

# Travel takes ten seconds in the aircraft; here the surfaces are at once where the
# lever is, as long as something drives them. Otherwise they stay where they were.
signal "flaps_at" {
  title   = "Flap position"
  value   = frozen(flap_lever, !flaps_move)
}

signal "slats_at" {
  title   = "Slat position"
  value   = frozen(flap_lever, !slats_move)
}

signal "flaps_split" {
  title   = "The flaps of the two wings have come apart"
  set     = flap_shaft.breaks && !flap_asymmetry_brakes && !flap_jacks && flaps_at != "up"
  reset   = false
}

# What the wheel says before the take-off; in flight the trim follows the aircraft.
control "pitch_trim_wheel" {
  title     = "Pitch trim wheel"
  positions = ["take-off band", "nose down", "nose up"]
  initial   = "take-off band"
  place     = "centre pedestal"
}
