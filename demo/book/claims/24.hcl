# Claims of chapter 24. Each is a sentence that an instructor would say aloud, with the
# check that keeps it true. The manuals they cite are as invented as the aircraft.

# The headline: one source inoperative since dispatch, the other lost in the climb.
claim "second_dc_source_lost" {
  says   = "With the left DC source inoperative, losing the right one in the climb kills both main DC buses. The warning says so at once. Much else is told late or not at all: the terrain warning is dead long before anything says so. The vital buses live on from the third source."
  source = "Corvane 71 systems manual 24-31 (fictional)"
  given {
    inoperative = [tr_left]
    fail        = [tr_right]
    at          = "climb + 120 s"
  }
  expect = [
    lost(both_dc_sides), told(both_dc_sides), given(main_dc_lost), never_given(vital_battery),
    never_given(left_dc_off), never_given(right_dc_off), never_given(right_dc_source_off),
    told(left_reports), told(right_reports),
    told_late(terrain_warning), told(approach_guidance), first(guidance_off) > 1700,
    held_back(radio_heights_off), only_shown(thrust_for_flare), kept(warning_sounds),
    dark(dc_left_volts), dark(gen_right_lamp), dark(airspeed_2_readout),
    kept(vital_dc_power), kept(left_flight_display),
  ]
}
claim "battery_half_an_hour" {
  says   = "On full load the main battery carries the vital DC bus for thirty minutes. When it is empty the bus dies, which is told, and takes the quiet things with it: standby probe heat, the voice recorder, the VOR receivers. The left picture and one radio live on."
  source = "Corvane 71 systems manual 24-36 (fictional)"
  given {
    inoperative = [tr_left]
    fail        = [tr_right, tr_vital]
    at          = "climb + 120 s"
  }
  expect = [first(!dc_vital) > 1795, first(!dc_vital) < 1805, last(!dc_vital) == 1000000, told(vital_dc_power), not_told(voice_recording), not_told(pitot_heat_standby), only_shown(beacon_navigation), kept(radio_contact), kept(left_flight_display)]
}
claim "larger_battery_of_the_island_kit" {
  says   = "The island kit carries the vital DC bus for forty-five minutes, says when ten are left and when it is over; the first series carries it for thirty and goes by its voltage, which falls six minutes before the end."
  source = "Corvane 71 island kit supplement 24-36 (fictional)"
  given "island kit" {
    variant     = island_kit
    inoperative = [tr_left]
    fail        = [tr_right, tr_vital]
    at          = "climb + 120 s"
    expect      = [first(!dc_vital) > 2690, first(!dc_vital) < 2710, given(battery_low), first(battery_low) > 2090, first(battery_low) < 2110, told(vital_dc_power)]
  }
  given "first series" {
    inoperative = [tr_left]
    fail        = [tr_right, tr_vital]
    at          = "climb + 120 s"
    expect      = [first(!dc_vital) < 1810, lost(battery_reserve), told_late(battery_reserve), about(first(battery_low), 1440, 5)]
  }
}
claim "worn_battery" {
  says   = "A worn battery holds ten minutes, not thirty, and the counter does not know: the alert meant for the last ten minutes leaves little over three."
  source = "Corvane 71 systems manual 24-37 (fictional)"
  given {
    variant     = second_series
    inoperative = [tr_left]
    fail        = [tr_right, tr_vital, battery_main.weak]
    at          = "climb + 120 s"
  }
  expect = [first(!dc_vital) > 595, first(!dc_vital) < 605, first(battery_low) > 395, first(battery_low) < 410, told_wrong(battery_minutes)]
}
claim "charge_counter_stands_still" {
  says   = "With the charge counter stuck, the battery minutes read full while the battery runs down, and the ten-minute alert never comes."
  source = "Corvane 71 systems manual 24-37 (fictional)"
  given {
    variant     = second_series
    inoperative = [tr_left]
    fail        = [tr_right, tr_vital, charge_counter.stands_still]
    at          = "climb + 120 s"
  }
  expect = [told_wrong(battery_minutes), never_given(battery_low), told_wrong(battery_reserve), lost(vital_dc_power)]
}
claim "source_reset" {
  says   = "A DC source that only tripped comes back with one press of the reset button, and with it everything that was lost."
  source = "Corvane 71 systems manual 24-32 (fictional)"
  given {
    inoperative = [tr_left]
    fail        = [tr_right]
    at          = "climb + 120 s"
    resettable  = true
    act "DC source reset pressed" {
      set  = dc_source_reset
      to   = "reset"
      when = held(vital_on_third, 40)
    }
  }
  expect = [lost(both_dc_sides), seconds(!dc_left) > 39, seconds(!dc_left) < 41, kept(vital_dc_power), at(45, dc_left && dc_right)]
}
claim "generator_caution_waits" {
  says   = "A generator lost between 75 kt and 600 ft is announced after 600 ft: the caution waits until the crew have time for it."
  source = "Corvane 71 systems manual 24-21 (fictional)"
  given {
    fail = [gen_left]
    at   = "take_off_fast + 2 s"
  }
  expect = [held_back(left_gen_off), given(left_gen_off), told_late(two_ac_sources), in_phase(lift_off, !left_gen_off), in_phase(first_climb, left_gen_off)]
}
claim "tie_that_waited_too_long" {
  says   = "A tie contactor that will not close is harmless until its generator goes; then the left AC bus goes with it."
  source = "Corvane 71 systems manual 24-22 (fictional)"
  given "the tie alone" {
    fail   = [tie_left]
    at     = "climb + 60 s"
    expect = [kept(both_ac_sides), not_told(ac_cross_feed)]
  }
  given "the generator alone" {
    fail   = [gen_left]
    at     = "cruise + 300 s"
    expect = [kept(both_ac_sides)]
  }
  given "the generator, with the tie inoperative" {
    inoperative = [tie_left]
    fail        = [gen_left]
    at          = "cruise + 300 s"
    expect      = [lost(both_ac_sides), told(both_ac_sides), lost(vital_ac_power), lost(terrain_warning)]
  }
  given "the tie alone, second series" {
    variant = second_series
    fail    = [tie_left]
    at      = "climb + 60 s"
    expect  = [given(waiting_part_failed), told(ac_cross_feed)]
  }
}
claim "vital_ac_lamp_shows_the_command" {
  says   = "On the first series the vital feed lamp comes on when the selector is turned, whether the relay moves or not."
  source = "Corvane 71 systems manual 24-24 (fictional)"
  given {
    inoperative = [vital_relay]
    fail        = [ac_left]
    at          = "cruise + 300 s"
    act "Vital feed to the right" {
      set  = vital_side_switch
      to   = "right"
      when = held(vital_ac_off, 20)
    }
  }
  expect = [told(vital_ac_power), told_wrong(vital_side_lamp), at(120, !ac_vital), last(vital_ac_off) > 1000]
}
claim "vital_ac_moves_by_itself" {
  says   = "Later series move the vital AC bus by themselves when the left AC bus dies; on the first series it stays dead until the crew turn the selector."
  source = "Corvane 71 systems manual 24-24 (fictional)"
  given "first series" {
    fail   = [ac_left]
    at     = "cruise + 300 s"
    expect = [lost(vital_ac_power), told(vital_ac_power)]
  }
  given "second series" {
    variant = second_series
    fail    = [ac_left]
    at      = "cruise + 300 s"
    expect  = [kept(vital_ac_power), never_given(vital_ac_off), lost(both_ac_sides)]
  }
}
claim "uncoupled_for_good" {
  says   = "A drive that is uncoupled stays uncoupled: turning the switch back does not bring the generator back."
  source = "Corvane 71 systems manual 24-11 (fictional)"
  given {
    fail = [drive_left.runs_hot]
    at   = "cruise + 300 s"
    act "Left drive uncoupled" {
      set  = drive_left_switch
      to   = "uncouple"
      when = held(left_drive_hot, 30)
    }
    act "Left drive switch back" {
      set  = drive_left_switch
      to   = "joined"
      when = held(drive_left_switch == "uncouple", 60)
    }
  }
  expect = [given(left_drive_hot), first(!gen_left) > 45, first(!gen_left) < 55, last(!gen_left) == 1000000, told_wrong(drive_left_lamp)]
}
claim "wrong_oil_takes_both" {
  says   = "The wrong oil in both drives is one cause with two effects: four minutes later there is no generator but the one in the wind, which takes eight seconds to feed the vital buses."
  source = "Corvane 71 systems manual 24-11 (fictional)"
  given {
    fail = [wrong_oil]
    at   = "cruise + 300 s"
  }
  expect = [given(left_drive_hot), times(left_drive_hot) == 1, first(all_gens_off) == 240, lost(both_ac_sides), given(all_gens_off), given(main_dc_lost), in_phase(cruise, !vital_battery), given(ram_gen_on), lost(both_dc_sides), at(300, dc_vital)]
}
claim "sensing_box_says_powered" {
  says   = "A sensing box that says powered keeps the alert list clean and the picture at 115 volts over a dead bus."
  source = "Corvane 71 systems manual 24-28 (fictional)"
  given {
    fail = [ac_right, bus_sense_right.says_powered]
    at   = "cruise + 300 s"
  }
  expect = [lost(both_ac_sides), told_wrong(both_ac_sides), never_given(right_ac_off), told_wrong(ac_right_volts)]
}
claim "galley_leak_on_the_left_rack" {
  says   = "Water on the left rack silences the left reports, the voice and the left DC source together; the source is announced, the voice is not."
  source = "Corvane 71 systems manual 24-40 (fictional)"
  given {
    fail = [galley_leak]
    at   = "cruise + 60 s"
  }
  expect = [told(second_dc_source), kept(both_dc_sides), not_told(height_calls), told(left_reports)]
}
claim "reduced_load_reaches_the_stand" {
  says   = "With all three DC sources gone twelve minutes before the descent, the vital load switch put to reduced carries the vital DC bus to the stand. Left at all, the bus dies on the approach."
  source = "Corvane 71 systems manual 24-33 (fictional)"
  given "left at all" {
    fail   = [tr_left, tr_right, tr_vital]
    at     = "descent - 12 min"
    expect = [given(vital_battery), seconds(!vital_dc_power) > 60]
  }
  given "reduced within half a minute" {
    fail = [tr_left, tr_right, tr_vital]
    at   = "descent - 12 min"
    act "Vital load reduced" {
      set  = vital_load_switch
      to   = "reduced"
      when = held(vital_battery, 26)
    }
    expect = [kept(vital_dc_power)]
  }
}
claim "the_last_source" {
  says   = "With one generator inoperative, the loss of the other leaves the APU's: nothing goes dark, and the crew land at the nearest field; before the take-off they stay. With the other one working they fly on."
  source = "common practice"
  given "in the climb" {
    inoperative = [gen_left]
    fail        = [gen_right]
    at          = "climb + 60 s"
    crew        = "by_the_book"
    expect      = [told(engine_generator), kept(both_ac_sides), kept(both_dc_sides), flown("land"), arrives("QSKE")]
  }
  given "at the start" {
    inoperative = [gen_left]
    fail        = [gen_right]
    crew        = "by_the_book"
    expect      = [flown("reject"), always(real.on_ground)]
  }
  given "the first one alone" {
    fail   = [gen_right]
    at     = "climb + 60 s"
    crew   = "by_the_book"
    expect = [kept(engine_generator), !flown("land"), arrives("QSVA")]
  }
}
claim "the_cabin_hears_what_is_so" {
  says   = "The cabin is told that its supply is shed when one generator is left for all, and not when the APU's has taken the place of the one that went."
  source = "common practice"
  given "one left" {
    fail   = [gen_left]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [lost(cabin_supply), done(left_generator_off, "3.else.3")]
  }
  given "the APU runs" {
    fail = [gen_left]
    at   = "climb + 60 s"
    crew = "by_the_book"
    set_up "APU on" {
      set = apu_switch
      to  = "run"
    }
    expect = [kept(cabin_supply), done(left_generator_off, "3.else.1"), !done(left_generator_off, "3.else.3")]
  }
}
