# Ride 20, the autopilot lets go: autopilot_off_1 to _7, in this order.
claim "ride_20" {
  says   = "A pitch servo that fails on the approach takes the autopilot and not the guidance; a warning tells both pilots. The controls are the same by hand, and in a hand within four seconds. It lands so: low minima are closed, standard ones open. It lets go in trim, and the loss is no more than minor."
  source = "14 CFR 25.1329(g), (j); AC 25.1329-1C, from memory"
  given {
    fail = [servo_pitch]
    at   = "approach + 20 s"
    crew = "by_the_book"
    expect = [lost(autopilot_flying), kept(approach_guidance), told(autopilot_flying), first(autopilot_off) < 1, kept(attention), kept(warning_sounds), kept(pitch_control), kept(shaped_control), by(5, done(autopilot_off_drill, 1)), arrives("QSVA"), lost(approach_low), kept(approach_standard), always(!out_of_trim)]
  }
}
