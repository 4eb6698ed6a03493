# Check ride 24, low_fuel.
claim "ride_gauge_that_stands_still" {
  says   = "A gauge that stands still brings a false imbalance. What is left and used makes too much, so nothing is moved; the floats know nothing of the gauges, nor live from their buses."
  source = "CS 25.1305(a)(2); check ride 24"
  given "the gauge" {
    fail   = [fuel_gauge_left.stays_put]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [false_alarm(fuel_unbalanced), told_wrong(fuel_left_shown), told_wrong(fuel_quantity), done(fuel_unbalanced_list, "2.else.1.then.1"), always(crossfeed_switch == "shut"), !lost(fuel_low_watch)]
  }
  given "the low alert with that gauge dead" {
    fail   = [fuel_gauge_left.stays_put, feed_line_left.leaks]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [given(fuel_low_left), done(fuel_low_list, "2.then.1"), !misled(fuel_low_list, 2), by(2400, engine_left_switch == "off"), always(engine_right_switch == "run")]
  }
  given "a bus" {
    fail   = [dc_right]
    at     = "cruise + 60 s"
    expect = [lost(fuel_quantity), !lost(fuel_low_watch)]
  }
}
