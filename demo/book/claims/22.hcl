claim "two_boxes_are_not_two_autopilots" {
  says   = "With the right DC bus goes the autopilot, although autopilot 1 is well: both push through servos that hang on the right side."
  source = "Corvane 71 systems manual 22-11 (fictional)"
  given {
    fail = [dc_right]
    at   = "cruise + 300 s"
  }
  expect = [lost(autopilot_flying), told(autopilot_flying), always(autopilot_1), given(autopilot_off)]
}

claim "autopilot_does_not_come_back_by_itself" {
  says   = "An autopilot that has disengaged stays off when the cause has passed, until somebody presses the button again."
  source = "Corvane 71 systems manual 22-11 (fictional)"
  given {
    fail  = [dc_right]
    at    = "cruise + 300 s"
    for_s = 20
    act "Button off" {
      set  = autopilot_button
      to   = "off"
      when = held(autopilot_off, 60)
    }
    act "Button on" {
      set  = autopilot_button
      to   = "on"
      when = cruise && held(autopilot_button == "off", 30)
    }
  }
  expect = [at(21, autopilot_able), at(59, !autopilot_on), at(91, autopilot_on), last(autopilot_off) == 60]
}

claim "locked_thrust_reminds" {
  says   = "When the autothrottle lets go in the climb the thrust stays where it was. The reminder comes at once and every thirty seconds until the levers move."
  source = "Corvane 71 systems manual 22-31 (fictional)"
  given "levers moved after 95 seconds" {
    fail = [autothrottle_box]
    at   = "climb + 60 s"
    act "Levers moved" {
      set  = thrust_levers
      to   = "moved by hand"
      when = held(thrust_unmoved, 95)
    }
    expect = [times(thrust_unmoved_alert) == 4, last(thrust_unmoved_alert) == 95, kept(thrust_fits), told(speed_hold)]
  }
  given "levers left alone" {
    fail   = [autothrottle_box]
    at     = "climb + 60 s"
    expect = [times(thrust_unmoved_alert) > 20, lost(thrust_fits), told(thrust_fits)]
  }
}

claim "captured_beam_survives" {
  says   = "Losing both flight management computers on final costs nothing: the guidance is on the beam and keeps it. Losing them before the capture costs the approach."
  source = "Corvane 71 systems manual 22-51 (fictional)"
  given "on the beam" {
    fail   = [route_computer_1, route_computer_2]
    at     = "final + 20 s"
    expect = [in_phase(final, approach_guidance && approach_standard), in_phase(landing_roll, beam_captured), lost(route_guidance)]
  }
  given "armed, but not yet on the beam" {
    fail   = [route_computer_1, route_computer_2]
    at     = "approach + 2 s"
    expect = [lost(approach_guidance), lost(approach_standard), kept(approach_basic)]
  }
}

claim "slipping_lever_motor" {
  says   = "A lever motor that turns without moving the levers leaves the thrust where it was, with the label reading normal: in level flight it becomes speed, and the overspeed warning is the first to tell. Hands off it ends beyond the limits; by the book the levers are moved by hand."
  source = "Corvane 71 systems manual 22-32 (fictional); 14 CFR 25.1303(c)(1), 25.335(b)"
  given "hands off" {
    fail   = [lever_motor.slips]
    at     = "climb + 60 s"
    expect = [never_arrives("cannot_slow"), ever(too_fast && real.mach < 0.83)]
  }
  given "by the book" {
    fail   = [lever_motor.slips]
    at     = "climb + 60 s"
    crew   = "by_the_book"
    expect = [told_wrong(speed_hold), lost(thrust_fits), told_wrong(thrust_label), told_wrong(autothrottle_lamp), always(real.altitude_ft < 34020 && real.mach < 0.87), done(too_fast_drill, "2.then.1"), arrives()]
  }
}

claim "trim_held_in_secret" {
  says   = "With the trim motor dead the autopilot flies on, ever further out of trim; the caution comes after twenty seconds."
  source = "Corvane 71 systems manual 22-14 (fictional)"
  given {
    fail = [trim_motor]
    at   = "cruise + 300 s"
  }
  expect = [lost(pitch_in_trim), told_late(pitch_in_trim), first(trim_stuck) == 20, first(out_of_trim) == 90, kept(autopilot_flying)]
}

claim "minima_label_does_not_know_the_voice" {
  says   = "With the voice unit dead the label on the first series still promises an approach to low minima. The second series says so at the top of descent, before the approach is called for."
  source = "Corvane 71 systems manual 22-55 (fictional)"
  given "first series" {
    fail   = [voice]
    at     = "cruise + 300 s"
    expect = [lost(approach_low), told_wrong(approach_low), told_wrong(minima_label), never_given(low_minima_lost)]
  }
  given "second series" {
    variant = second_series
    fail    = [voice]
    at      = "cruise + 300 s"
    expect  = [lost(approach_low), told(approach_low), held_back(low_minima_lost), first(low_minima_lost) > 3000]
  }
}

claim "dispatch_with_one_yaw_damper" {
  says   = "One yaw damper is enough. Dispatched with the left one inoperative, the loss of the right AC bus takes the other five minutes later, with its inertial unit."
  source = "Corvane 71 systems manual 22-21 (fictional)"
  given "the left damper alone" {
    fail   = [yaw_damper_1]
    at     = "cruise + 300 s"
    expect = [kept(yaw_damping), never_given(yaw_dampers_off)]
  }
  given "with the left damper inoperative" {
    inoperative = [yaw_damper_1]
    fail        = [ac_right]
    at          = "cruise + 300 s"
    expect      = [lost(yaw_damping), first(!yaw_damper_2) == 300, told(yaw_damping)]
  }
}
