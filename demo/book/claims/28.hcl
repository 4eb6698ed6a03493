claim "starved_above_the_ceiling_of_suction" {
  says   = "Both main pumps of a tank lost in the cruise: the emergency pump takes over, and nothing is felt. With that gone too the engine starves after half a minute, unless the crossfeed is opened. Below 20,000 ft it sucks its own fuel."
  source = "Corvane systems manual 28-22 (fictional); 14 CFR 25.955, 25.991"
  given "the emergency pump" {
    fail   = [boost_left_1, boost_left_2]
    at     = "cruise + 60 s"
    expect = [given(fuel_pumps_left), !lost(fuel_to_left), always(engine_left)]
  }
  given "nothing done" {
    inoperative = [emergency_pump_left]
    fail        = [boost_left_1, boost_left_2]
    at          = "cruise + 60 s"
    expect      = [first(!engine_left) > 29, first(!engine_left) < 31, given(fuel_pumps_left), told(fuel_to_left)]
  }
  given "crossfeed in time" {
    inoperative = [emergency_pump_left]
    fail        = [boost_left_1, boost_left_2]
    at          = "cruise + 60 s"
    act "Crossfeed" {
      set  = crossfeed_switch
      to   = "open"
      when = held(fuel_pumps_left, 15)
    }
    expect = [!lost(fuel_to_left), at(60, pressed_left), always(engine_left)]
  }
  given "low" {
    flight      = short_hop
    inoperative = [emergency_pump_left]
    fail        = [boost_left_1, boost_left_2]
    at          = "climb"
    expect      = [!lost(fuel_to_left), lost(fuel_pressure_left), given(fuel_pumps_left)]
  }
  given "low, and no suction" {
    flight      = short_hop
    inoperative = [emergency_pump_left, suction_valve_left.stays_shut]
    fail        = [boost_left_1, boost_left_2]
    at          = "climb"
    expect      = [lost(fuel_to_left)]
  }
}

# The list goes down to the ceiling before an engine starves.
claim "no_pump_at_all" {
  says   = "Both AC buses lost: the emergency pumps feed both engines from the vital bus, and the crew, who land, are below 20,000 ft within a quarter of an hour, where they are no longer needed."
  source = "Corvane systems manual 28-23 (fictional); 14 CFR 25.951, 25.955"
  given {
    fail   = [ac_left, ac_right]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [given(fuel_pumps_left), given(fuel_pumps_right), kept(thrust_any), flown("land"), first(real.altitude_ft < 20500) < 900, lost(fuel_pressure_left)]
  }
}
claim "relit_below_its_ceiling" {
  says   = "An engine that starved in the cruise is put off, and lit again by the list below 20,000 ft, where its fuel comes by suction. One that has broken is left off."
  source = "Corvane systems manual 74-12 (fictional); 14 CFR 25.903(e)"
  given "starved" {
    inoperative = [emergency_pump_left, crossfeed_valve]
    fail        = [boost_left_1, boost_left_2]
    at          = "cruise + 60 s"
    crew        = "by_the_book"
    expect      = [in_order(left_engine_failed, read(engine_failed), done(relight_list, "1.later.2")), last(!engine_left) < 3600, in_phase(final, engine_left)]
  }
  given "broken" {
    fail   = [engine_left]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [read(engine_failed), !read(relight_list), in_phase(final, engine_left_switch == "off")]
  }
}
claim "leak_is_shown_before_it_is_told" {
  says   = "A fuel line that leaks 0.8 kg a second is on the gauges from the start. The first series speaks of it after ten minutes, as an imbalance; the second series after five, as a loss."
  source = "Corvane service note 28-02 (fictional)"
  given "first series" {
    fail   = [feed_line_left.leaks]
    at     = "climb + 60 s"
    expect = [about(first(fuel_unbalanced), 625, 3), lost(fuel_balance), first(fuel_unbalanced) < first(!fuel_balance)]
  }
  given "second series" {
    variant = second_series
    fail    = [feed_line_left.leaks]
    at      = "climb + 60 s"
    expect  = [about(first(fuel_missing), 312, 3)]
  }
}

# The trap of the chapter.
claim "balancing_feeds_the_leak" {
  says   = "Opening the crossfeed to balance the tanks gives the leak the other tank: within an hour all fuel is gone, and with it both engines. Left shut, the right engine runs on its own tank. The left fire handle stops the leak at once, and the flight arrives."
  source = "Corvane systems manual 28-25 (fictional)"
  given "crossfeed shut" {
    fail   = [feed_line_left.leaks]
    at     = "climb + 60 s"
    expect = [lost(fuel_to_left), at(3000, fuel_to_right), at(3000, thrust_any), given(fuel_low_left)]
  }
  given "crossfeed opened" {
    fail = [feed_line_left.leaks]
    at   = "climb + 60 s"
    act "Balance the tanks" {
      set  = crossfeed_switch
      to   = "open"
      when = held(fuel_unbalanced, 60)
    }
    expect = [never_arrives("out_of_fuel"), ever(tank_right_kg < 5), by(3700, real.fuel_kg < 50)]
  }
  given "shut off in front of the leak" {
    fail = [feed_line_left.leaks]
    at   = "climb + 60 s"
    act "Fire handle" {
      set  = fire_handle_left
      to   = "pulled"
      when = held(fuel_unbalanced, 60)
    }
    expect = [always(lost_left_kg < 600), !lost(fuel_to_right), lost(thrust_left), kept(thrust_any), ever(taxi_in)]
  }
}
claim "gauge_that_stays_put" {
  says   = "A gauge that goes on showing its last value hides a leak of its own tank. The first true word comes from the float, with half an hour of cruise left."
  source = "Corvane 71 systems manual 28-41 (fictional)"
  given "leak on the stuck side" {
    inoperative = [fuel_gauge_left.stays_put]
    fail        = [feed_line_left.leaks]
    at          = "climb + 60 s"
    expect      = [first(fuel_low_left) < first(tank_left_kg < low_fuel_kg - 5), first(fuel_low_left) > first(tank_left_kg < low_fuel_kg + 5), lost(fuel_reserve), first(fuel_low_left) < first(!fuel_reserve)]
  }
}
claim "floats_know_nothing_of_gauges" {
  says   = "With both gauges dead the low fuel warning still works; the gauges' loss itself is only dashes on the first series."
  source = "Corvane 71 systems manual 28-42 (fictional)"
  given "first series" {
    fail   = [fuel_gauge_left, fuel_gauge_right]
    at     = "cruise"
    expect = [dark(fuel_left_shown), dark(fuel_total_shown), not_told(fuel_quantity), !lost(fuel_low_watch)]
  }
  given "second series" {
    variant = second_series
    fail    = [fuel_gauge_left, fuel_gauge_right]
    at      = "cruise"
    expect  = [told(fuel_quantity), given(fuel_gauge_lost)]
  }
}
claim "crossfeed_lamp_follows_the_switch" {
  says   = "With the crossfeed valve dead its lamp lights all the same when the switch is moved. Four seconds later a caution puts it right."
  source = "Corvane 71 systems manual 28-26 (fictional)"
  given {
    fail = [crossfeed_valve]
    at   = "cruise"
    # They would open it on any flight, to balance: where the valve is sound the lamp is right.
    set_up "Crossfeed" {
      set  = crossfeed_switch
      to   = "open"
      when = cruise && held(cruise, 300)
    }
  }
  expect = [told_wrong(crossfeed_lamp), given(crossfeed_not_followed), first(crossfeed_not_followed) - first(crossfeed_switch == "open") < 5, at(310, !crossfeed_open)]
}
claim "one_ac_bus_starves_nobody" {
  says   = "Each tank has one pump on each AC bus: either bus may go, and no engine notices."
  source = "Corvane 71 systems manual 28-21 (fictional)"
  given "left" {
    fail   = [ac_left]
    at     = "cruise + 60 s"
    expect = [!lost(fuel_to_left), !lost(fuel_pressure_left), !lost(fuel_pressure_right)]
  }
  given "right" {
    fail   = [ac_right]
    at     = "cruise + 60 s"
    expect = [!lost(fuel_to_right), !lost(fuel_pressure_left), !lost(fuel_pressure_right)]
  }
}
