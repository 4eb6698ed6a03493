claim "silence_is_not_health" {
  says   = "With data unit 1 dead, the left engine runs dry of oil without a word: the pressure warning has no way to the screen. The first word is the engine's end, three minutes later."
  source = "Corvane 71 systems manual 31-41 (fictional)"
  given {
    inoperative = [data_unit_1]
    fail        = [oil_pump_left]
    at          = "cruise + 300 s"
  }
  expect = [never_given(left_oil_low), told_late(oil_left), first(left_engine_failed) == 180, lost(thrust_left)]
}

claim "oil_warning_with_a_healthy_unit" {
  says   = "With data unit 1 alive the same failure is announced within three seconds."
  source = "Corvane 71 systems manual 31-41 (fictional)"
  given {
    fail = [oil_pump_left]
    at   = "cruise + 300 s"
  }
  expect = [given(left_oil_low), told(oil_left), first(left_oil_low) == 3]
}

claim "silent_data_unit_is_told" {
  says   = "The loss of a data unit is told within seconds, and the mark at the foot of the list goes: from then on an empty list says nothing of one side."
  source = "Corvane 71 systems manual 31-42 (fictional)"
  given {
    fail = [data_unit_1]
    at   = "cruise + 300 s"
  }
  expect = [told(left_reports), first(data_unit_1_off) == 2, kept(right_reports)]
}

claim "either_alerting_computer" {
  says   = "Either alerting computer gives all alerts; the loss of one is an advisory and costs nothing."
  source = "Corvane 71 systems manual 31-45 (fictional)"
  given "computer 1" {
    fail   = [alert_computer_1]
    at     = "cruise + 300 s"
    expect = [kept(alert_messages), kept(take_off_guard), given(alert_computer_1_off)]
  }
  given "computer 2" {
    fail   = [alert_computer_2]
    at     = "cruise + 300 s"
    expect = [kept(alert_messages), given(alert_computer_2_off)]
  }
  given "no computer and no warning unit, before the take-off" {
    inoperative = [warning_lane_1, warning_lane_2, alert_computer_2]
    fail        = [alert_computer_1]
    at          = "taxi_out + 60 s"
    expect      = [lost(take_off_guard)]
  }
  given "computer 1, then the second DC source" {
    inoperative = [alert_computer_1, tr_left]
    fail        = [tr_right]
    at          = "cruise + 300 s"
    expect      = [lost(alert_messages), told(alert_messages), given(alerting_off), never_given(vital_battery)]
  }
}

claim "a_picture_finds_a_screen" {
  says   = "A dark screen costs its picture for three seconds: an inner screen takes it. With the left DC bus goes one inner screen and nothing that is needed; each picture has two supplies."
  source = "Corvane 71 systems manual 31-61 (fictional)"
  given "the left outer screen" {
    fail   = [screen_1]
    at     = "cruise + 300 s"
    expect = [seconds(!left_flight_picture) == 3, given(screen_dark), kept(engine_display), kept(system_pictures)]
  }
  given "the middle screen" {
    fail   = [screen_3]
    at     = "cruise + 300 s"
    expect = [seconds(!engine_picture) == 3, at(10, !right_inner_picture), kept(any_flight_display), kept(system_pictures)]
  }
  given "the middle screen and the one that would take its picture" {
    fail   = [screen_3, screen_4]
    at     = "cruise + 300 s"
    expect = [seconds(!engine_picture) == 3, lost(system_pictures), kept(any_flight_display)]
  }
  given "the left DC bus" {
    fail   = [dc_left]
    at     = "cruise + 300 s"
    expect = [kept(left_flight_display), kept(engine_display), kept(system_pictures), given(screen_dark)]
  }
}

claim "spare_picture" {
  says   = "The spare picture unit takes the place of the left one within three seconds, and stays with it when the right one goes too."
  source = "Corvane 71 systems manual 31-63 (fictional)"
  given "the left unit" {
    fail   = [picture_unit_left]
    at     = "cruise + 300 s"
    expect = [told(left_flight_display), seconds(!left_flight_picture) == 3, kept(right_flight_display), kept(engine_display)]
  }
  given "both" {
    fail   = [picture_unit_left, picture_unit_right]
    at     = "cruise + 300 s"
    expect = [seconds(!left_flight_picture) == 3, told(right_flight_display), lost(right_flight_display)]
  }
}

claim "lights_and_sounds_without_a_screen" {
  says   = "With all five screens dark an alert still comes by light and sound, and the warning unit itself says that no flight display is left. Fire, stall and what else is wired to it outlive both alerting computers."
  source = "Corvane 71 systems manual 31-52 (fictional)"
  given "all screens" {
    fail = [screen_1, screen_2, screen_3, screen_4, screen_5]
    at   = "cruise + 300 s"
    also {
      fail = [gen_left]
      at   = "cruise + 400 s"
    }
    expect = [first(pictures_gone) == 4, lost(alert_messages), kept(warning_sounds), ever(left_gen_off)]
  }
  given "no alerting computer" {
    fail   = [alert_computer_1, alert_computer_2, stall_vane_left.reads_high]
    at     = "cruise + 300 s"
    expect = [lost(alert_messages), given(stall), kept(warning_sounds)]
  }
  given "one lane" {
    fail   = [warning_lane_1]
    at     = "cruise + 300 s"
    expect = [told(attention), kept(warning_sounds)]
  }
}

claim "no_word_from_the_voice" {
  says   = "A dead voice unit is not told on the first series: the crew wait for a height call that does not come. The sounds of warnings are made elsewhere."
  source = "Corvane 71 systems manual 31-51 (fictional)"
  given "first series" {
    fail   = [voice]
    at     = "cruise + 300 s"
    expect = [not_told(height_calls), kept(warning_sounds)]
  }
  given "second series" {
    variant = second_series
    fail    = [voice]
    at      = "cruise + 300 s"
    expect  = [told(height_calls)]
  }
}

claim "half_the_panel_dark" {
  says   = "The left lamp supply takes half the overhead panel; nothing says that a dark lamp is a dead lamp."
  source = "Corvane 71 systems manual 31-81 (fictional)"
  given {
    fail = [lamp_power_left]
    at   = "cruise + 300 s"
  }
  expect = [not_told(lamps_left), dark(gen_left_lamp), dark(yaw_lamp)]
}
