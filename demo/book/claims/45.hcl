claim "recorder_waits_for_the_cruise" {
  says   = "A flight recorder that stops in the climb is an advisory that waits until there is time for it."
  source = "Corvane 71 systems manual 45-21 (fictional)"
  given {
    fail = [flight_recorder]
    at   = "climb + 60 s"
  }
  expect = [told_late(flight_recording), held_back(flight_recorder_off), in_phase(climb, !flight_recorder_off)]
}

claim "voices_not_recorded" {
  says   = "A dead area microphone leaves the voices unrecorded; only the test needle would show it."
  source = "Corvane 71 systems manual 45-31 (fictional)"
  given {
    fail = [area_microphone]
    at   = "climb + 60 s"
  }
  expect = [only_shown(voice_recording), lost(voice_recording)]
}
