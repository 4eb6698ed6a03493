claim "apu_starter_dead_unnoticed" {
  says   = "A dead APU starter is found out when the APU is needed; later series say it beforehand."
  source = "Corvane 71 systems manual 49-41 (fictional)"
  given "first series" {
    fail   = [apu_starter]
    at     = "climb + 60 s"
    expect = [lost(apu_start), not_told(apu_start)]
  }
  given "second series" {
    variant = second_series
    fail    = [apu_starter]
    at      = "climb + 60 s"
    expect  = [told_late(apu_start), given(apu_fault_waiting)]
  }
}

claim "apu_gives_the_second_source" {
  says   = "After the loss of a generator in the descent the APU gives the second AC source back within a minute of the switch."
  source = "Corvane 71 systems manual 49-11 (fictional)"
  given {
    fail = [gen_right]
    at   = "descent + 300 s"
    act "APU on" {
      set  = apu_switch
      to   = "run"
      when = held(right_gen_off, 15)
    }
  }
  expect = [told(two_ac_sources), seconds(!two_ac_sources) == 55, at(60, apu_gen)]
}

claim "apu_does_not_light_high_up" {
  says   = "Above 25,000 ft the APU does not light; seventy seconds after the switch the caution says so."
  source = "Corvane 71 systems manual 49-11 (fictional)"
  given {
    fail = [gen_right]
    at   = "cruise + 300 s"
    act "APU on" {
      set  = apu_switch
      to   = "run"
      when = held(right_gen_off, 15)
    }
  }
  expect = [first(apu_no_start) == 85, in_phase(cruise, !apu)]
}
