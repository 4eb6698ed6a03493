# Ride 28, the guards: stall_warning_1 to _4 and _6, then terrain_1 to _6, in this order.
claim "ride_28" {
  says   = "Both stall vanes gone are told, as a caution: the list wants more speed on the approach and no ice, and the flight goes on. One vane is told before the second goes. A dead terrain computer is told, and published heights are kept."
  source = "14 CFR 25.672(a), 25.1309(b)(4), 25.1322(b)"
  given "both vanes" {
    fail   = [stall_vane_left, stall_vane_right]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [told(stall_warning), told(stall_guard), given(stall_warning_off), kept(airspeed_by_majority), kept(any_attitude), done(stall_warning_off_list, 1), done(stall_warning_off_list, "2.later.1"), arrives("QSVA")]
  }
  given "one vane" {
    fail   = [stall_vane_left]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [by(5, stall_lane_off), kept(stall_warning), read(stall_lane_list)]
  }
  given "the terrain computer" {
    fail   = [terrain_computer]
    at     = "descent + 60 s"
    crew   = "by_the_book"
    expect = [told(terrain_warning), given(terrain_off), kept(radio_height), kept(altitude_left), done(terrain_off_drill, 1), arrives("QSVA")]
  }
  given "a warning is flown at once" {
    fail   = [radio_alt_1.reads_low, radio_alt_2.reads_low]
    at     = "descent + 120 s"
    crew   = "by_the_book"
    expect = [by(10, done(too_low_drill, 1)), in_order(done(too_low_drill, 1), done(too_low_drill, "3.then.1"))]
  }
}
