claim "radio_that_keeps_sending" {
  says   = "A radio that transmits without a break blocks its frequency while its panel looks normal. The first series shows a transmitting lamp and says nothing: it is found when nobody answers; the second series says so after thirty-five seconds."
  source = "Corvane 71 systems manual 23-11 (fictional)"
  given "first series" {
    fail   = [radio_1.keeps_sending]
    at     = "descent + 60 s"
    expect = [lost(radio_contact), only_shown(radio_contact), noticed(radio_contact)]
  }
  given "second series" {
    variant = second_series
    fail    = [radio_1.keeps_sending]
    at      = "descent + 60 s"
    expect  = [told_late(radio_contact), first(keeps_sending) == 35]
  }
}

# The step is done, the contact is back, and the line stays: no sensor watches the selector.
claim "step_done_alert_stays" {
  says   = "Choosing radio 2 frees the frequency, but the alert stays: it watches the radio, not the selector."
  source = "Corvane 71 systems manual 23-12 (fictional)"
  given {
    variant = second_series
    fail    = [radio_1.keeps_sending]
    at      = "descent + 60 s"
    act "Radio 2 chosen" {
      set  = send_selector
      to   = "radio_2"
      when = held(keeps_sending, 25)
    }
  }
  expect = [at(61, radio_contact), at(61, keeps_sending), seconds(!radio_contact) == 60, last(keeps_sending) == 1000000]
}

claim "address_lamp_knows_the_amplifier_only" {
  says   = "With the cabin loudspeakers dead the handset lamp still promises that the passengers hear."
  source = "Corvane 71 systems manual 23-31 (fictional)"
  given {
    fail = [cabin_speakers]
    at   = "cruise + 300 s"
  }
  expect = [told_wrong(address_lamp), told_wrong(passenger_address), kept(evacuation_call)]
}

claim "nobody_misses_the_beacon" {
  says   = "A dead locator transmitter is not told by anything on any build."
  source = "Corvane 71 systems manual 23-61 (fictional)"
  given "first series" {
    fail   = [locator_beacon]
    expect = [lost(crash_location), not_told(crash_location)]
  }
  given "island kit" {
    variant = island_kit
    fail    = [locator_beacon]
    expect  = [lost(crash_location), not_told(crash_location)]
  }
}

claim "one_radio_on_battery" {
  says   = "On the battery one radio is left, through the left audio unit; nothing announces that the other two are dead. Announcements in the cabin last on it for more than ten minutes, with all engines stopped as well."
  source = "Corvane 71 systems manual 23-10 (fictional); 14 CFR 25.1423(a)"
  given "the second DC source" {
    inoperative = [tr_left]
    fail        = [tr_right]
    at          = "climb + 120 s"
    expect      = [not_told(second_radio), not_told(cabin_call), at(600, radio_contact), dark(radio_2_panel), dark(radio_3_panel), at(660, passenger_address)]
  }
  given "all engines, and nothing turns in the wind" {
    inoperative = [ram_turbine]
    fail        = [engine_left, engine_right]
    at          = "cruise + 60 s"
    expect      = [at(660, passenger_address), at(660, !cabin_call)]
  }
}
