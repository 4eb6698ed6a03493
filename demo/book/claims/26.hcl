claim "one_false_loop_is_silent" {
  says   = "One fire loop that sees heat where there is none warns of nothing, because the other loop must agree."
  source = "Corvane 71 systems manual 26-11 (fictional)"
  given {
    fail = [fire_loop_left_a.sees_fire]
    at   = "cruise"
  }
  expect = [never_given(fire_left), !lost(fire_watch_left)]
}

# Dispatched with, and harmless until the second one.
claim "false_loop_after_dispatch" {
  says   = "Dispatched with loop B out, a false loop A is believed: an engine fire warning without a fire."
  source = "Corvane 71 dispatch guide 26-01 (fictional)"
  given {
    inoperative = [fire_loop_left_b]
    fail        = [fire_loop_left_a.sees_fire]
    at          = "cruise"
  }
  expect = [given(fire_left), false_alarm(fire_left), told_wrong(fire_handle_left_light), !lost(no_fire_left)]
}
claim "fire_put_out_in_order" {
  says   = "Handle, then bottle: the fire is out ten seconds after the bottle. The bottle before the handle does nothing at all."
  source = "Corvane 71 systems manual 26-21 (fictional)"
  given "handle and bottle" {
    fail = [nacelle_left.burns]
    at   = "cruise"
    act "Handle" {
      set  = fire_handle_left
      to   = "pulled"
      when = held(fire_left, 10)
    }
    act "Bottle" {
      set  = bottle_switch_left
      to   = "bottle_1"
      when = held(fire_left, 15)
    }
    expect = [seconds(left_burns) > 24, seconds(left_burns) < 26, told(no_fire_left), lost(thrust_left), kept(thrust_any), kept(hydraulics_left)]
  }
  given "bottle only" {
    fail = [nacelle_left.burns]
    at   = "cruise"
    act "Bottle" {
      set  = bottle_switch_left
      to   = "bottle_1"
      when = held(fire_left, 15)
    }
    expect = [at(900, !bottle_1_fired), about(first(!sound_pylons), 900, 1), about(first(wing_root_lost), 1200, 1)]
  }
  given "the fuel valve does not shut" {
    inoperative = [feed_valve_left.stays_open]
    fail        = [nacelle_left.burns]
    at          = "cruise"
    act "Handle" {
      set  = fire_handle_left
      to   = "pulled"
      when = held(fire_left, 10)
    }
    act "Bottle" {
      set  = bottle_switch_left
      to   = "bottle_1"
      when = held(fire_left, 15)
    }
    expect = [at(1000, left_burns), given(bottle_low), lost(sound_pylons)]
  }
}
claim "fire_that_nobody_fights" {
  says   = "A firewall holds for a quarter of an hour. A fire that is left to itself is then in the pylon, and a box that smokes takes its rack along after ten minutes; the lists end both long before."
  source = "14 CFR 25.1191 and AC 20-135: fireproof is 15 minutes; the rack is an assumption"
  given "engine, hands off" {
    fail   = [nacelle_left.burns]
    at     = "climb + 60 s"
    expect = [lost(sound_pylons), first(wing_root_lost) > 1100]
  }
  given "engine, by the book" {
    fail   = [nacelle_left.burns]
    at     = "climb + 60 s"
    crew   = "by_the_book"
    expect = [!lost(sound_pylons), done(engine_fire_list, 4), seconds(left_burns) < 120]
  }
  given "bay, hands off" {
    fail   = [bay.left_smokes]
    at     = "climb + 60 s"
    expect = [about(first(left_rack_burnt), 600, 1), !ever(right_rack_burnt), at(602, !dc_left), at(602, !control_computer_1), ever(inertial_2)]
  }
  given "bay, by the book" {
    fail   = [bay.left_smokes]
    at     = "climb + 60 s"
    crew   = "by_the_book"
    expect = [!ever(left_rack_burnt), seconds(bay_smoke) < 300]
  }
}
claim "fire_warning_is_never_held_back" {
  says   = "An engine fire is told also on the fast part of the take-off roll. Smoke in the hold waits until after lift-off."
  source = "Corvane 71 systems manual 31-51 (fictional)"
  given "engine" {
    fail   = [nacelle_right.burns]
    at     = "take_off_fast + 2 s"
    expect = [lost(no_fire_right), at(0.1, fire_right), first(fire_right) < 0.1]
  }
  given "hold" {
    fail   = [hold.smoulders]
    at     = "take_off_fast + 2 s"
    expect = [held_back(smoke_in_hold), given(smoke_in_hold), first(smoke_in_hold) >= first(first_climb)]
  }
}
claim "hold_watched_from_two_buses" {
  says   = "Each smoke sensor of the hold lives from another DC bus. Either bus leaves one, which is then believed alone, and says that the other is out."
  source = "Corvane systems manual 26-15 (fictional)"
  given "the bus" {
    fail   = [dc_left]
    at     = "cruise"
    expect = [!lost(smoke_watch), given(smoke_watch_lost)]
  }
  given "the bus, then smoke" {
    inoperative = [dc_left]
    fail        = [hold.smoulders]
    at          = "cruise"
    expect      = [told(no_smoke), first(smoke_in_hold) < 1]
  }
}
claim "smoke_warning_outlives_the_bottle" {
  says   = "The smoke warning stays for a minute after the bottle was fired: the sensors see smoke, not fire. No line of the list goes out by itself."
  source = "Corvane 71 systems manual 26-23 (fictional)"
  given {
    fail = [hold.smoulders]
    at   = "cruise"
    act "Bottle" {
      set  = hold_bottle_switch
      to   = "discharge"
      when = held(smoke_in_hold, 20)
    }
  }
  expect = [at(21, hold_bottle_fired), at(75, smoke_in_hold), first(!hold_smoke) > 79, at(85, !smoke_in_hold), told(no_smoke), lost(hold_fire_fighting)]
}
claim "damp_is_not_smoke" {
  says   = "One of two smoke sensors that takes damp for smoke is a caution: no bottle is spent and the flight goes on. With the other out it is believed."
  source = "Corvane systems manual 26-15 (fictional)"
  given "one lies" {
    fail   = [smoke_sensor_1.sees_smoke]
    at     = "descent"
    crew   = "by_the_book"
    expect = [given(smoke_sensors_differ), never_given(smoke_in_hold), read(smoke_sensors_list), !read(smoke_list), never_given(bottle_low), !flown("land"), arrives("QSVA")]
  }
  given "the other is out" {
    inoperative = [smoke_sensor_1]
    fail        = [smoke_sensor_2.sees_smoke]
    at          = "descent"
    expect      = [false_alarm(smoke_in_hold), told_wrong(smoke_lamp), !lost(no_smoke)]
  }
}
