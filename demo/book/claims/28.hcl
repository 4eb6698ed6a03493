# Claims of chapter 28.

claim "starved_above_25000" {
  says   = "Both left fuel pumps lost in the cruise stop the left engine after half a minute. The crossfeed, opened in time, keeps it alive. Below 25,000 ft nothing happens at all."
  source = "Corvane 88 systems manual 28-22 (fictional)"
  given "nothing done" {
    fail   = [boost_left_1, boost_left_2]
    at     = "cruise + 60 s"
    expect = [first(!engine_left) > 29, first(!engine_left) < 31, given(fuel_pumps_left), told(fuel_to_left)]
  }
  given "crossfeed in time" {
    fail = [boost_left_1, boost_left_2]
    at   = "cruise + 60 s"
    act "Crossfeed" {
      set  = crossfeed_switch
      to   = "open"
      when = held(fuel_pumps_left, 15)
    }
    expect = [!lost(fuel_to_left), seconds(!pressed_left) < 18, always(engine_left)]
  }
  given "low" {
    flight = short_hop
    fail   = [boost_left_1, boost_left_2]
    at     = "climb"
    expect = [!lost(fuel_to_left), lost(fuel_pressure_left), given(fuel_pumps_left)]
  }
}

claim "leak_is_shown_before_it_is_told" {
  says   = "A fuel line that leaks a kilogram a second is on the gauges from the start. The first series speaks of it after eight minutes, as an imbalance; the second series after four, as a loss."
  source = "Corvane 88 service note 28-02 (fictional)"
  given "first series" {
    fail   = [feed_line_left.leaks]
    at     = "climb + 60 s"
    expect = [first(fuel_unbalanced) > 495, first(fuel_unbalanced) < 505, lost(fuel_balance), first(fuel_unbalanced) < first(!fuel_balance)]
  }
  given "second series" {
    variant = second_series
    fail    = [feed_line_left.leaks]
    at      = "climb + 60 s"
    expect  = [first(fuel_missing) > 245, first(fuel_missing) < 255]
  }
}

# The trap of the chapter.
claim "balancing_feeds_the_leak" {
  says   = "Opening the crossfeed to balance the tanks gives the leak the other tank: both engines stop within 35 minutes. Left shut, the right engine runs for fifty, until its own tank is empty too. The left fire handle stops the leak at once, and the flight arrives."
  source = "Corvane 88 systems manual 28-25 (fictional)"
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
    expect = [lost(fuel_to_left), lost(fuel_to_right), lost(thrust_any), first(!thrust_any) < 2100]
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
  says   = "A gauge that goes on showing its last value hides a leak of its own tank. The first true word comes from the float, with 400 kg left."
  source = "Corvane 88 systems manual 28-41 (fictional)"
  given "leak on the stuck side" {
    inoperative = [fuel_gauge_left.stays_put]
    fail        = [feed_line_left.leaks]
    at          = "climb + 60 s"
    expect      = [first(fuel_low_left) < first(tank_left_kg < 395), first(fuel_low_left) > first(tank_left_kg < 405), lost(fuel_reserve), first(fuel_low_left) < first(!fuel_reserve)]
  }
  given "no leak" {
    fail   = [fuel_gauge_left.stays_put]
    at     = "climb + 60 s"
    expect = [false_alarm(fuel_unbalanced), told_wrong(fuel_left_shown), told_wrong(fuel_quantity)]
  }
}

claim "floats_know_nothing_of_gauges" {
  says   = "With both gauges dead the low fuel warning still works; the gauges' loss itself is only dashes on the first series."
  source = "Corvane 88 systems manual 28-42 (fictional)"
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
  source = "Corvane 88 systems manual 28-26 (fictional)"
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
  expect = [told_wrong(crossfeed_lamp), given(crossfeed_disagrees), first(crossfeed_disagrees) - first(crossfeed_switch == "open") < 5, at(310, !crossfeed_open)]
}

claim "one_ac_bus_starves_nobody" {
  says   = "Each tank has one pump on each AC bus: either bus may go, and no engine notices."
  source = "Corvane 88 systems manual 28-21 (fictional)"
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
  given "both" {
    fail   = [ac_left, ac_right]
    at     = "cruise + 60 s"
    expect = [lost(fuel_to_left), lost(fuel_to_right), first(!engine_left) > 29]
  }
}

claim "handle_stops_the_leak" {
  says   = "A leaking feed line goes on leaking until the fire handle of its engine shuts the valve behind it: left in, 900 kg are lost; pulled a minute after the first caution, less than 600."
  source = "Corvane 88 systems manual 28-23 (fictional)"
  given "handle left in" {
    fail   = [feed_line_left.leaks]
    at     = "cruise + 30 min"
    expect = [ever(lost_left_kg > 900), ever(tank_left_kg < 1)]
  }
  given "handle pulled a minute after the first caution" {
    fail = [feed_line_left.leaks]
    at   = "cruise + 30 min"
    act "Left handle pulled" {
      set  = fire_handle_left
      to   = "pulled"
      when = held(fuel_unbalanced, 60)
    }
    expect = [always(lost_left_kg < 600)]
  }
}
