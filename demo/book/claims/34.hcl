claim "blocked_in_the_cruise" {
  says   = "In level cruise a closed tube gives itself away by nothing at all: the reading stands where it was and is right. It begins to lie in the descent."
  source = "Corvane 71 systems manual 34-12 (fictional)"
  given {
    fail = [pitot_1.blocked]
    at   = "cruise + 300 s"
  }
  expect = [in_phase(cruise, airspeed_1_valid), ever(descent && !airspeed_1_valid), in_phase(cruise, !airspeeds_differ), given(airspeeds_differ)]
}
claim "too_fast_for_a_gear_that_is_up" {
  says   = "With both gear sensing boxes dead the computers take the gear for down, and shout Overspeed at climb speed with the gear up."
  source = "Corvane 71 systems manual 34-16 (fictional)"
  given "both boxes" {
    fail   = [gear_sense_a, gear_sense_b]
    at     = "cruise + 300 s"
    expect = [false_alarm(too_fast), first(too_fast) == 2, times(too_fast) > 20, told_wrong(speed_limit_mark), lost(speed_limit_warning)]
  }
  given "both boxes, by the book" {
    fail   = [gear_sense_a, gear_sense_b]
    at     = "cruise + 300 s"
    crew   = "by_the_book"
    expect = [by(90, overspeed_button == "pressed"), times(too_fast) < 20]
  }
  given "one box" {
    fail   = [gear_sense_a]
    at     = "cruise + 300 s"
    expect = [never_given(too_fast), kept(speed_limit_warning)]
  }
}
claim "three_that_agree_in_error" {
  says   = "With all static ports taped the airspeeds are right along the runway. Then they fall together, and the altitudes stand: no disagreement, and no majority worth having."
  source = "Corvane 71 systems manual 34-13 (fictional)"
  given {
    fail = [taped_after_wash]
  }
  expect = [
    not_told(airspeed_by_majority), not_told(altitudes_true), never_given(airspeeds_differ), never_given(altitudes_differ), told_wrong(airspeed_1_readout), told_wrong(airspeed_2_readout), told_wrong(airspeed_3_readout),
    told_wrong(altitude_1_readout), told_wrong(altitude_2_readout), told_wrong(altitude_3_readout), in_phase(take_off_roll, airspeed_1_valid), in_phase(cruise, airspeed_1_kt == 0), always(size(altitude_1_ft) < 1000),
  ]
}
claim "covers_on_the_tubes" {
  says   = "With covers on all three tubes the airspeeds stand still along the runway; once in the air they grow with height alone. They agree, and no box announces it: only who looks for a speed in the roll sees it; the altitudes are right."
  source = "Corvane 71 systems manual 34-13 (fictional)"
  given {
    fail = [covers_left_on]
  }
  expect = [in_phase(take_off_roll, airspeed_1_kt < 40), never_given(airspeeds_differ), not_told(airspeed_by_majority), ever(airspeed_1_kt > 500), kept(altitude_left)]
}
claim "no_airspeed_in_the_roll" {
  says   = "Two closed tubes, or three, are seen before 75 kt and stop the take-off. One is told by the difference, and stops it too, below 100 kt. Closed later they lie in the air: the low speed that they make is not believed, the nose stays up, and attitude and thrust are flown to the nearest field."
  source = "common practice; Corvane 71 systems manual 34-13 (fictional)"
  given "two, early" {
    fail   = [pitot_1.blocked, pitot_2.blocked]
    at     = "take_off_roll + 5 s"
    crew   = "by_the_book"
    expect = [given(no_airspeed), flown("reject"), always(real.on_ground), always(real.airspeed_kt < 85), arrives("QSKE"), never_given(too_slow)]
  }
  given "all three covered" {
    fail   = [covers_left_on]
    crew   = "by_the_book"
    expect = [flown("reject"), always(real.on_ground), arrives("QSKE")]
  }
  given "one" {
    fail   = [pitot_1.blocked]
    at     = "take_off_roll + 5 s"
    crew   = "by_the_book"
    expect = [never_given(no_airspeed), given(airspeeds_differ), flown("reject"), always(real.on_ground)]
  }
  given "two, later" {
    fail   = [pitot_1.blocked, pitot_2.blocked]
    at     = "take_off_fast + 2 s"
    crew   = "by_the_book"
    expect = [never_given(no_airspeed), false_alarm(too_slow), done(too_slow_drill, "2.else.1"), !done(too_slow_drill, "2.then.1"), read(airspeeds_differ_drill), by(60, autopilot_button == "off"), arrives("QSKE")]
  }
}
claim "closed_ports_in_the_descent" {
  says   = "Ports that close in the cruise leave the altitude of the level on the left side, and the speed beside it grows with every foot lost, until it agrees with nothing."
  source = "Corvane 71 systems manual 34-11 (fictional)"
  given {
    fail = [static_left.blocked]
    at   = "cruise + 300 s"
  }
  expect = [in_phase(cruise, airspeed_1_valid), in_phase(final, airspeed_1_kt > 2 * real.airspeed_kt), in_phase(final, altitude_1_ft > 20000), given(airspeeds_differ), given(altitudes_differ), told(altitude_left)]
}
claim "five_minutes_of_reserve" {
  says   = "When the right AC bus dies, inertial unit 2 runs on for five minutes from the hot battery bus and then stops; only then is it announced."
  source = "Corvane 71 systems manual 34-21 (fictional)"
  given {
    fail = [ac_right]
    at   = "cruise + 300 s"
  }
  expect = [first(!inertial_2) == 300, in_phase(cruise, inertial_1), told(attitude_right), told(second_inertial)]
}
claim "radio_height_waits_for_the_approach" {
  says   = "Both radio altimeters lost in the cruise are announced in the approach, because nobody needs them before. The crew who brief early do not know."
  source = "Corvane 71 systems manual 34-31 (fictional)"
  given {
    fail = [radio_alt_1, radio_alt_2]
    at   = "cruise + 300 s"
  }
  expect = [told(radio_height), held_back(radio_heights_off), in_phase(descent, !radio_heights_off), given(radio_heights_off), told_late(terrain_warning)]
}
claim "one_radio_altimeter_is_enough" {
  says   = "Dispatched with the left radio altimeter inoperative nothing is missed; with the right one gone as well the terrain warning is gone."
  source = "Corvane 71 systems manual 34-31 (fictional)"
  given "the right one alone" {
    fail   = [radio_alt_2]
    at     = "descent + 60 s"
    expect = [kept(radio_height), kept(terrain_warning)]
  }
  given "with the left one inoperative" {
    inoperative = [radio_alt_1]
    fail        = [radio_alt_2]
    at          = "descent + 60 s"
    expect      = [lost(radio_height), lost(terrain_warning), lost(traffic_warning)]
  }
}
claim "too_low_at_thirty_thousand_feet" {
  says   = "With one radio altimeter inoperative, the other stuck at five feet makes the terrain computer shout Too low in the cruise until its switch is put to silent. Two are compared, and it stays quiet."
  source = "Corvane 71 systems manual 34-42 (fictional)"
  given "one, silenced after a minute" {
    inoperative = [radio_alt_2]
    fail        = [radio_alt_1.reads_low]
    at          = "cruise + 300 s"
    act "Terrain warning silenced" {
      set  = terrain_switch
      to   = "silent"
      when = held(too_low, 60)
    }
    act "The levers by hand for the approach" {
      set  = autothrottle_switch
      to   = "off"
      when = approach
    }
    expect = [false_alarm(too_low), first(too_low) == 1, last(too_low) == 61, times(too_low) == 20, lost(terrain_warning)]
  }
  given "two" {
    fail   = [radio_alt_1.reads_low]
    at     = "cruise + 300 s"
    expect = [never_given(too_low), lost(terrain_warning)]
  }
}
claim "lightning_on_the_nose" {
  says   = "The lightning strike takes both satellite receivers and the right air data: the position lives on from the inertial units, the route guidance with it."
  source = "Corvane 71 systems manual 34-50 (fictional)"
  given {
    fail = [lightning_strike]
    at   = "descent + 60 s"
  }
  expect = [kept(route_guidance), lost(satellite_position), told_late(satellite_position), told(airspeed_right), only_shown(weather_picture)]
}
claim "other_transponder" {
  says   = "Transponder 2 is the one in use and hangs on the right side; transponder 1 is chosen by hand."
  source = "Corvane 71 systems manual 34-53 (fictional)"
  given {
    fail = [transponder_2]
    at   = "cruise + 300 s"
    act "Transponder 1 chosen" {
      set  = transponder_selector
      to   = "1"
      when = held(transponder_off, 30)
    }
  }
  expect = [told(transponder_reply), seconds(!transponder_answers) == 35, last(transponder_off) == 35]
}
claim "standby_instrument_outlives_the_battery" {
  says   = "When the vital bus dies the standby instrument lives half an hour longer from its own cell, and then there is no attitude to fly by."
  source = "Corvane 71 systems manual 34-25 (fictional)"
  given {
    inoperative = [tr_left]
    fail        = [tr_right, tr_vital]
    at          = "climb + 60 s"
  }
  expect = [first(!standby_instrument) > 3595, first(!standby_instrument) < 3605, first(!any_attitude) > 3595, at(3000, any_attitude)]
}
claim "a_horizon_that_tilts" {
  says   = "One horizon that tilts differs from the other, and the standby says which it is. Two that tilt alike are found by nobody who does not look at the third, and neither is one with nothing beside it: the autopilot keeps level by it, and a minute later it has rolled over. An altitude 400 ft too low is compared in the same way, and a static line that comes off feels the cabin."
  source = "AC 25-11B; 14 CFR 25.1333"
  given "one" {
    fail   = [inertial_1.tilts]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [told(attitude_true_left), told_wrong(bank_left_shown), told(autopilot_flying), kept(attitudes_true), done(attitudes_differ_list, "2.else.1"), arrives("QSVA")]
  }
  given "two alike" {
    fail   = [inertial_1.tilts, inertial_2.tilts]
    at     = "cruise + 60 s"
    expect = [never_arrives("not_flyable", level_kept)]
  }
  given "two alike, on the runway" {
    fail   = [inertial_1.tilts, inertial_2.tilts]
    at     = "landing_roll"
    expect = [never_given(attitudes_differ), denied(attitudes_true), kept(any_attitude), kept(level_kept)]
  }
  given "nothing beside it" {
    inoperative = [inertial_2]
    fail        = [inertial_1.tilts]
    at          = "cruise + 60 s"
    expect      = [at(59, level_kept), about(first(!level_kept), 60, 1), never_arrives("not_flyable", level_kept)]
  }
  given "altitude" {
    fail   = [air_data_1.reads_low]
    at     = "cruise + 60 s"
    expect = [told(altitude_left), told_wrong(altitude_1_readout), kept(altitudes_true)]
  }
  given "a line" {
    fail   = [static_right]
    at     = "cruise + 60 s"
    expect = [told(altitude_right), told(airspeed_right), at(60, altitude_2_ft < 9000), kept(airspeed_by_majority)]
  }
}
