# Claims of chapter 31.

claim "silence_is_not_health" {
  says   = "With data unit 1 dead, the left engine runs dry of oil without a word: the pressure warning has no way to the screen. The first word is the engine's end, three minutes later."
  source = "Corvane 76 systems manual 31-41 (fictional)"
  given {
    inoperative = [data_unit_1]
    fail        = [oil_pump_left]
    at          = "cruise + 300 s"
  }
  expect = [never_given(left_oil_low), told_late(oil_left), first(left_engine_failed) == 180, lost(thrust_left)]
}

claim "oil_warning_with_a_healthy_unit" {
  says   = "With data unit 1 alive the same failure is announced within three seconds."
  source = "Corvane 76 systems manual 31-41 (fictional)"
  given {
    fail = [oil_pump_left]
    at   = "cruise + 300 s"
  }
  expect = [given(left_oil_low), told(oil_left), first(left_oil_low) == 3]
}

claim "data_unit_silent_until_the_stand" {
  says   = "The first series keeps the loss of a data unit to itself until the aircraft has landed; the second series says it at once."
  source = "Corvane 76 systems manual 31-42 (fictional)"
  given "first series" {
    fail   = [data_unit_1]
    at     = "cruise + 300 s"
    expect = [told_late(left_reports), held_back(data_unit_1_off), in_phase(approach, !data_unit_1_off), in_phase(taxi_in, data_unit_1_off)]
  }
  given "second series" {
    variant = second_series
    fail    = [data_unit_1]
    at      = "cruise + 300 s"
    expect  = [told(left_reports), first(data_unit_1_off) == 2]
  }
}

claim "either_alerting_computer" {
  says   = "Either alerting computer gives all alerts; the loss of one is an advisory and costs nothing."
  source = "Corvane 76 systems manual 31-45 (fictional)"
  given "computer 1" {
    fail   = [alert_computer_1]
    at     = "cruise + 300 s"
    expect = [kept(alert_messages), given(alert_computer_1_off)]
  }
  given "computer 2" {
    fail   = [alert_computer_2]
    at     = "cruise + 300 s"
    expect = [kept(alert_messages), given(alert_computer_2_off)]
  }
  given "computer 1, then the second DC source" {
    inoperative = [alert_computer_1, tr_left]
    fail        = [tr_right]
    at          = "cruise + 300 s"
    expect      = [lost(alert_messages), not_told(alert_messages), never_given(vital_battery)]
  }
}

claim "both_inner_screens_on_one_bus" {
  says   = "With the left DC bus go both inner screens, and with them every system page."
  source = "Corvane 76 systems manual 31-61 (fictional)"
  given {
    fail = [dc_left]
    at   = "cruise + 300 s"
  }
  expect = [lost(system_pages), told(system_pages), dark(dc_right_volts), dark(route_line), kept(any_flight_display), kept(engine_display)]
}

claim "spare_picture" {
  says   = "The spare picture unit gives the left pilot a picture again as soon as the selector is turned."
  source = "Corvane 76 systems manual 31-63 (fictional)"
  given {
    fail = [picture_unit_left]
    at   = "cruise + 300 s"
    act "Spare to the left" {
      set  = picture_selector
      to   = "spare_left"
      when = held(left_pictures_off, 15)
    }
  }
  expect = [told(left_flight_display), seconds(!left_flight_picture) == 15, last(left_pictures_off) == 15, kept(engine_display)]
}

claim "no_sound_no_word" {
  says   = "A dead voice unit is not told on the first series: the crew wait for a height call that does not come."
  source = "Corvane 76 systems manual 31-51 (fictional)"
  given "first series" {
    fail   = [voice]
    at     = "cruise + 300 s"
    expect = [not_told(warning_sounds), not_told(height_calls)]
  }
  given "second series" {
    variant = second_series
    fail    = [voice]
    at      = "cruise + 300 s"
    expect  = [told(warning_sounds), told(height_calls)]
  }
}

claim "half_the_panel_dark" {
  says   = "The left lamp supply takes half the overhead panel; nothing says that a dark lamp is a dead lamp."
  source = "Corvane 76 systems manual 31-81 (fictional)"
  given {
    fail = [lamp_power_left]
    at   = "cruise + 300 s"
  }
  expect = [not_told(lamps_left), dark(gen_left_lamp), dark(yaw_lamp)]
}
