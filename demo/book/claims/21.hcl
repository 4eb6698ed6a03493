# The fan that runs ten minutes and stops without a word.
claim "bay_fan_ten_minutes" {
  says   = "When the left DC bus dies, the bay fan runs for ten minutes on the vital bus and stops. Its lamp stays lit, and nothing tells."
  source = "Corvane 71 systems manual 21-58 (fictional)"
  given "the left bus alone" {
    fail = [dc_left]
    at   = "cruise + 300 s"
    expect = [at(599, bay_fan), at(601, !bay_fan), told_wrong(bay_cooling), told_wrong(bay_fan_lamp), never_given(bay_cooling_lost)]
  }
  given "the second DC source" {
    inoperative = [tr_left]
    fail        = [tr_right]
    at          = "climb + 120 s"
    expect      = [first(!bay_fan) > 599, first(!bay_fan) < 601, told_wrong(bay_cooling), never_given(bay_cooling_lost)]
  }
}

claim "bay_fan_told_on_second_series" {
  says   = "From the second series on the flow sensor lives from the vital bus: five seconds after the fan has stopped the crew are told."
  source = "Corvane 71 service note 21-03 (fictional)"
  given "second series" {
    variant = second_series
    fail    = [dc_left]
    at      = "cruise + 300 s"
    expect  = [told(bay_cooling), given(bay_cooling_lost), first(bay_cooling_lost) > 604, first(bay_cooling_lost) < 606]
  }
  given "first series" {
    fail   = [dc_left]
    at     = "cruise + 300 s"
    expect = [never_given(bay_cooling_lost), !told(bay_cooling)]
  }
}

claim "bay_relay_hidden" {
  says   = "Without its relay the fan stops with the bus, not ten minutes later. That the relay was dead, nobody could know."
  source = "Corvane 71 systems manual 21-58 (fictional)"
  given {
    inoperative = [bay_fan_relay]
    fail        = [dc_left]
    at          = "cruise + 300 s"
  }
  expect = [at(1, !bay_fan), told_wrong(bay_cooling), first(bay_too_hot) < 1805]
}

claim "bay_hot_forty_minutes_later" {
  says   = "Forty minutes after the bus has died the electronics bay is too hot: ten minutes of fan and thirty of heat."
  source = "Corvane 71 systems manual 21-58 (fictional)"
  given {
    fail = [dc_left]
    at   = "cruise"
  }
  expect = [first(bay_too_hot) > 2395, first(bay_too_hot) < 2405, not_told(cool_bay)]
}

claim "packs_held_back" {
  says   = "A pack that goes on the take-off roll is not mentioned before the first climb."
  source = "Corvane 71 systems manual 31-52 (fictional)"
  given {
    fail = [pack_right]
    at   = "take_off_roll + 2 s"
  }
  expect = [held_back(pack_right_lost), given(pack_right_lost), first(pack_right_lost) >= first(first_climb)]
}

claim "cabin_stays_under_pressure" {
  says   = "With both boxes sure that the aircraft flies, the cabin keeps its pressure at the gate and the doors stay shut. On the first series only the cabin depressurised lamp shows it, by staying dark."
  source = "Corvane 71 systems manual 21-33 (fictional)"
  given "first series" {
    fail   = [frozen_slush]
    at     = "cruise"
    expect = [lost(cabin_emptied), only_shown(cabin_emptied), at(10, cabin_emptied), lost(escape)]
  }
  given "second series" {
    variant = second_series
    fail    = [frozen_slush]
    at      = "cruise"
    expect  = [lost(cabin_emptied), given(cabin_not_empty)]
  }
  given "emptied by hand" {
    fail = [frozen_slush]
    at   = "cruise"
    act "Outflow valve by hand" {
      set  = outflow_selector
      to   = "open"
      when = final
    }
    expect = [!lost(cabin_emptied), !lost(escape)]
  }
}

claim "one_cabin_controller_is_enough" {
  says   = "Either cabin pressure controller alone steers the cabin; the crew get an advisory. Without both the outflow valve stays where it is and a caution says so."
  source = "Corvane 71 systems manual 21-32 (fictional)"
  given "one" {
    fail   = [cabin_controller_1]
    at     = "climb + 60 s"
    expect = [kept(cabin_auto), given(cabin_controller_lost), never_given(cabin_auto_lost)]
  }
  given "both" {
    fail   = [cabin_controller_1, cabin_controller_2]
    at     = "climb + 60 s"
    expect = [told(cabin_auto), given(cabin_auto_lost), lost(cabin_emptied), told(cabin_emptied)]
  }
}

claim "outflow_valve_runs_open" {
  says   = "An outflow valve that runs open is shut again by a capsule of its own before the cabin is at 15,000 ft. With that dead the cabin goes where the outside is."
  source = "14 CFR 25.841(a)"
  given "limited" {
    fail   = [outflow_valve.runs_open]
    at     = "cruise + 600 s"
    expect = [told(cabin_pressure), ever(cabin_altitude_ft > 12500), always(cabin_altitude_ft < 15000)]
  }
  given "limiter dead" {
    inoperative = [outflow_limiter]
    fail        = [outflow_valve.runs_open]
    at          = "cruise + 600 s"
    expect      = [ever(cabin_altitude_ft > 25000), given(masks_are_out)]
  }
}
