claim "cold_wing_half" {
  says   = "One wing heat valve shut in ice: a caution within seconds, the lamp for both wings stays dark, and after two minutes the cold wing carries three millimetres and stalls early. The warm one carries none."
  source = "Corvane 71 systems manual 30-12 (fictional)"
  given {
    fail = [wing_heat_valve_left]
    at   = "climb"
  }
  expect = [given(wing_heat_lost), in_phase(climb, !(left_wing_warm && right_wing_warm)), lost(clean_wing), told(clean_wing), first(wing_iced) - first(real.icing) > 100, first(wing_iced) - first(real.icing) < 135, always(right_wing_ice_mm < 0.5)]
}

claim "ice_carried_down" {
  says   = "Ice caught in the descent stays on an unheated wing until the landing, and the stall warning comes at the speed of an approach with a clean wing."
  source = "Corvane 71 systems manual 30-12 (fictional)"
  given {
    fail = [wing_heat_valve_right]
    at   = "descent"
  }
  expect = [lost(clean_wing), in_phase(final, wing_iced), ever(final && stalls), given(stall)]
}

claim "inlet_valve_opens_without_current" {
  says   = "No bus takes the engines' ice protection: without current the inlet valves stand open. The wing's valves shut."
  source = "Corvane 71 systems manual 30-21 (fictional)"
  given {
    fail = [dc_left, dc_right]
    at   = "climb"
  }
  expect = [!lost(engine_ice_left), !lost(engine_ice_right), lost(wing_ice_protection), lost(clean_wing)]
}

claim "icing_forgotten" {
  says   = "Ice met with the protection off is told after fifteen seconds; on the first series as on all."
  source = "Corvane 71 systems manual 30-81 (fictional)"
  given "detectors sound" {
    act "Wing protection off again" {
      set  = wing_ice_switch
      to   = "off"
      when = held(real.icing, 5)
    }
    expect = [given(ice_met), !false_alarm(ice_met), first(ice_met) - first(real.icing) > 19, first(ice_met) - first(real.icing) < 21, ever(wing_iced)]
  }
  given "both detectors dead" {
    fail = [ice_detector_1, ice_detector_2]
    at   = "climb"
    # On a flight without protection, with and without the detectors.
    set_up "Wing protection off again" {
      set  = wing_ice_switch
      to   = "off"
      when = held(real.icing, 5)
    }
    expect = [never_given(ice_met), given(ice_detectors_lost), told(ice_detection)]
  }
  given "both dead, with a crew" {
    fail   = [ice_detector_1, ice_detector_2]
    at     = "climb"
    crew   = "by_the_book"
    expect = [read(ice_unseen_list), done(ice_unseen_list, "2.later.1"), in_order(done(ice_unseen_list, "2.later.1"), done(ice_unseen_list, "2.later.2")), never_given(stall)]
    set_up "Wing protection off again" {
      set  = wing_ice_switch
      to   = "off"
      when = held(real.icing, 5)
    }
  }
}

# An unheated tube, and the box that should have said so.
claim "cold_tube_unwatched" {
  says   = "The right pitot heater fails while its watch is dead: no caution, and in the ice an airspeed that goes its own way."
  source = "Corvane 71 systems manual 30-31 (fictional)"
  given "watch dead" {
    inoperative = [heat_watch_right]
    fail        = [probe_heat_2]
    at          = "taxi_out + 60 s"
    expect      = [never_given(right_pitot_cold), not_told(pitot_heat_right), told_wrong(airspeed_2_readout), ever(size(airspeed_2_kt - real.airspeed_kt) > 10)]
  }
  given "watch alive" {
    fail   = [probe_heat_2]
    at     = "taxi_out + 60 s"
    expect = [told(pitot_heat_right), given(right_pitot_cold)]
  }
}

claim "left_ac_bus_cools_the_left_tube" {
  says   = "The left AC bus takes the vital AC bus with it on the first series, and with that the heat of the left tube, until the crew move the selector. The second series moves it by itself."
  source = "Corvane 71 systems manual 30-31 (fictional)"
  given "first series" {
    fail   = [ac_left]
    at     = "cruise"
    expect = [lost(pitot_heat_left), told(pitot_heat_left)]
  }
  given "first series, selector moved" {
    fail = [ac_left]
    at   = "cruise"
    act "Vital feed" {
      set  = vital_side_switch
      to   = "right"
      when = held(left_pitot_cold, 30)
    }
    expect = [seconds(!probe_heat_1) < 35]
  }
  given "second series" {
    variant = second_series
    fail    = [ac_left]
    at      = "cruise"
    expect  = [kept(pitot_heat_left)]
  }
}
