# Claims of chapters 73, 74, 77 and 79.

claim "oil_lost_engine_seizes" {
  says   = "Without oil the engine seizes after three minutes, unless it is switched off before."
  source = "Corvane 71 systems manual 79-21 (fictional)"
  given "left running" {
    fail   = [oil_pump_left]
    at     = "cruise + 300 s"
    expect = [first(seized_left) == 180, told(thrust_left)]
  }
  given "switched off after a minute" {
    fail = [oil_pump_left]
    at   = "cruise + 300 s"
    act "Left engine off" {
      set  = engine_left_switch
      to   = "off"
      when = held(left_oil_low, 57)
    }
    expect = [always(!seized_left), lost(thrust_left)]
  }
}
claim "sender_reads_normal_over_a_dry_engine" {
  says   = "A sender that reads normal hides the loss of oil until the engine stops."
  source = "Corvane 71 systems manual 79-31 (fictional)"
  given {
    inoperative = [oil_sender_left.reads_normal]
    fail        = [oil_pump_left]
    at          = "cruise + 300 s"
  }
  expect = [never_given(left_oil_low), told_wrong(oil_left_readout), told_late(oil_left)]
}
claim "one_channel_is_enough" {
  says   = "An engine runs on either control channel; with both gone it stops."
  source = "Corvane 71 systems manual 73-31 (fictional)"
  given "one channel" {
    fail   = [channel_left_a]
    at     = "cruise + 300 s"
    expect = [kept(thrust_left), told(spare_channel_left)]
  }
  given "dispatched with one, then the other" {
    inoperative = [channel_left_a]
    fail        = [channel_left_b]
    at          = "cruise + 300 s"
    expect      = [lost(thrust_left), told(thrust_left)]
  }
}
claim "engines_ask_nothing_of_the_buses" {
  says   = "No loss of the aircraft's electrical power stops an engine: each control lives from its own alternator."
  source = "Corvane 71 systems manual 73-31 (fictional)"
  given {
    inoperative = [tr_left]
    fail        = [tr_right, tr_vital]
    at          = "climb + 120 s"
  }
  expect = [ever(!dc_vital), always(channel_left_a && channel_left_b), always(channel_right_a && channel_right_b)]
}
claim "relight_that_cannot_come" {
  says   = "A dead igniter is not told on the first and second series; the island kit says it."
  source = "Corvane 71 systems manual 74-11 (fictional)"
  given "first series" {
    fail   = [igniter_left]
    at     = "cruise + 300 s"
    expect = [lost(relight), not_told(relight)]
  }
  given "island kit" {
    variant = island_kit
    fail    = [igniter_left]
    at      = "cruise + 300 s"
    expect  = [told(relight)]
  }
}
claim "fan_speed_sticks" {
  says   = "A sticking fan sensor shows climb thrust all through the descent, with no alert."
  source = "Corvane 71 systems manual 77-11 (fictional)"
  given {
    fail = [fan_sensor_left.sticks]
    at   = "climb + 300 s"
  }
  expect = [told_wrong(fan_left_readout), never_given(left_engine_failed), kept(thrust_left)]
}
claim "rotor_burst" {
  says   = "A rotor burst takes more than the engine: with the roll servo goes the autopilot, with the tie the AC bus, with the pipes fluid and fuel of its side, with the wires the gauges of the other engine. It is flown to a landing."
  source = "Corvane 71 systems manual 73-90 (fictional)"
  given {
    fail = [rotor_burst_left]
    at   = "climb + 120 s"
    crew = "by_the_book"
  }
  given "the right one" {
    fail   = [rotor_burst_right]
    at     = "climb + 120 s"
    expect = [lost(thrust_right), dark(fan_left_readout), at(300, thrust_any)]
  }
  expect = [lost(thrust_left), told(autopilot_flying), lost(both_ac_sides), kept(both_dc_sides), told(hydraulics_left), lost(slats), by(300, fire_handle_left == "pulled"), always(lost_left_kg < 250), arrives("QSKE")]
}
claim "engines_that_come_back" {
  says   = "Engines that lose their flame-keeping for two minutes at 34,000 ft come back by themselves: the crew leave both run switches alone up there, and fly on."
  source = "14 CFR 25.903(e); common practice"
  given {
    fail   = [engine_left, engine_right]
    at     = "cruise + 700 s"
    for_s  = 120
    crew   = "by_the_book"
    expect = [by(10, done(all_engines_out_list, 2)), !done(all_engines_out_list, 1), done(all_engines_out_list, 7), always(engine_left_switch == "run" && engine_right_switch == "run"), at(180, engine_left && engine_right)]
  }
}
claim "engine_that_runs_up" {
  says   = "An engine that runs up past its lever is cut by its guard and is one engine lost. With the guard dead a warning says so, and the run switch ends it."
  source = "14 CFR 25.901(c), 25.1309(b)(5)"
  given "guarded" {
    fail   = [engine_left.runs_up]
    at     = "approach + 60 s"
    expect = [told(thrust_left), kept(thrust_obeys_left)]
  }
  given "not guarded" {
    inoperative = [thrust_guard_left]
    fail        = [engine_left.runs_up]
    at          = "cruise + 60 s"
    crew        = "by_the_book"
    expect      = [given(left_runs_up), told(thrust_obeys_left), by(30, engine_left_switch == "off"), always(engine_right_switch == "run"), flown("land")]
  }
  given "the right one, not guarded" {
    inoperative = [thrust_guard_right]
    fail        = [engine_right.runs_up]
    at          = "cruise + 60 s"
    crew        = "by_the_book"
    expect      = [given(right_runs_up), by(30, engine_right_switch == "off")]
  }
}
claim "brace_when_no_engine_runs" {
  says   = "With no engine the cabin is told to brace before the ground comes: from memory just after the take-off, and below 500 ft at the end of a glide. One engine left is no landing to brace for."
  source = "common practice"
  given "after the take-off" {
    fail   = [engine_left, engine_right]
    at     = "lift_off + 10 s"
    crew   = "by_the_book"
    expect = [by(12, done(all_engines_out_list, 5)), never_arrives("cannot_stay_up")]
  }
  given "after a glide" {
    fail   = [engine_left, engine_right]
    at     = "climb + 60 s"
    crew   = "by_the_book"
    expect = [!done(all_engines_out_list, 5), in_order(done(all_engines_out_list, "13.later.3"), landing_roll)]
  }
  given "one engine" {
    fail   = [engine_left]
    at     = "lift_off + 10 s"
    crew   = "by_the_book"
    expect = [!done(all_engines_out_list, 5), !done(all_engines_out_list, "13.later.3"), arrives()]
  }
}
