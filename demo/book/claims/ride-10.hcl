# Check rides 10, brakes, and 19, both flight control computers (docs/rides.md).

claim "ride_10_brakes" {
  says   = "Without anti-skid: told in the air, brakes by foot stay, the distance is worked out by the manual, and nothing shows the automatic brake as armed. Without the normal brakes the alternate ones take over (antiskid_2 to _6, brakes_normal_1 to _4)."
  source = "14 CFR 25.735(b)"
  given "anti-skid" {
    fail = [brake_channel_a, brake_channel_b]
    at   = "descent + 60 s"
    crew = "by_the_book"
    expect = [by(5, antiskid_lost), told(antiskid), kept(brakes), kept(ground_spoilers), !told_wrong(autobrake_lamp), done(antiskid_lost_list, 2), about(landing_at("QSVA"), 1300, 250), arrives("QSVA")]
  }
  given "normal brakes" {
    fail   = [brake_valve_normal]
    at     = "approach"
    expect = [lost(brakes_normal), told(brakes_normal), lost(autobrake), kept(brakes), kept(antiskid), by(5, brakes_normal_lost), arrives("QSVA")]
  }
}

claim "ride_19_both_computers" {
  says   = "Both computers: plain control by a path that shares nothing with them, told at once, the stall warning stays, by hand to the nearest field that suits. Each has a switch of its own, none stops both, and one that tripped comes back by it (both_computers_1 to _8)."
  source = "14 CFR 25.671(c), 25.672(a), 25.207(c)"
  given "one switch" {
    fail = [clock]
    at   = "cruise + 60 s"
    act "the first computer is switched off" {
      set  = control_computer_1_switch
      to   = "off"
      when = cruise
    }
    expect = [given(control_computer_1_lost), kept(shaped_control), kept(autopilot_flying), kept(ground_spoilers)]
  }
  given "both trip" {
    fail       = [control_computer_1, control_computer_2]
    at         = "cruise + 60 s"
    resettable = true
    crew       = "by_the_book"
    expect     = [by(120, done(control_computer_list, 4)), by(120, control_computer_1 && control_computer_2), seconds(!control_shaped) < 120, !flown("land"), arrives("QSVA")]
  }
  given "both, for good" {
    fail = [control_computer_1, control_computer_2]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [
      lost(shaped_control), lost(autopilot_flying), by(5, controls_plain), kept(pitch_control), kept(roll_control), kept(yaw_control), kept(stall_warning), told(shaped_control), told(stall_guard), told(speed_brakes), lost(pitch_trim),
      done(controls_plain_list, 1), done(controls_plain_list, 4), flown("land"), arrives("QSTO"),
    ]
  }
}
