# Check ride 23, fuel_leak and fuel_imbalance.
claim "ride_leak_or_valve" {
  says   = "A leak and a valve that stands open look alike on the gauges. What is left and used tells them apart before the crossfeed is touched: the leak is cut off with its engine, and the crossfeed stays shut; fuel that only moved is moved back, and the valve put back."
  source = "CS 25.1305(a)(2); 14 CFR 25.953; check ride 23"
  given "a leak" {
    fail = [feed_line_left.leaks]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [first(fuel_unbalanced) > 240, first(fuel_unbalanced) < 2400, in_order(done(fuel_unbalanced_list, 2), done(fuel_leak_list, 1), done(fuel_leak_list, 3)), always(crossfeed_switch == "shut"), kept(thrust_any), !hidden(fuel_to_left), arrives("QSTO"), always(tank_right_kg > 500)]
  }
  given "a valve" {
    fail = [filling_valve.stays_open]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [first(fuel_unbalanced) > 600, first(fuel_unbalanced) < 3600, !read(fuel_leak_list), in_order(done(fuel_unbalanced_list, "2.else.1.else.1"), done(fuel_unbalanced_list, "2.else.1.else.4.later.3")), !lost(roll_control), always(tank_right_kg > 200), arrives("QSVA")]
  }
}
