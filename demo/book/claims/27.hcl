# A pair far worse than either alone.
claim "left_box_right_fluid" {
  says   = "Flap computer 1 alone or the right fluid alone only halve the speed of the flaps. Together they stop them, since the lanes do not cross."
  source = "Corvane 71 systems manual 27-51 (fictional)"
  given "the box" {
    fail   = [flap_computer_1]
    at     = "climb + 120 s"
    expect = [!lost(flaps), given(flap_lane_lost)]
  }
  given "the fluid" {
    fail   = [reservoir_right.leaks]
    at     = "climb + 120 s"
    expect = [!lost(flaps), lost(hydraulics_right)]
  }
  given "both" {
    inoperative = [flap_computer_1]
    fail        = [reservoir_right.leaks]
    at          = "climb + 120 s"
    expect      = [lost(flaps), !lost(slats), told(flaps)]
  }
}
claim "flaps_told_when_moved" {
  says   = "On the first series a broken flap shaft is told when the lever is moved, at the start of the approach. The second series tells at once."
  source = "Corvane 71 service note 27-05 (fictional)"
  given "first series" {
    fail   = [flap_shaft]
    at     = "cruise + 60 s"
    expect = [told(flaps), given(flaps_stopped), first(flaps_stopped) > 3000]
  }
  given "second series" {
    variant = second_series
    fail    = [flap_shaft]
    at      = "cruise + 60 s"
    expect  = [told(flaps), first(flaps_stopped) < 1]
  }
}
claim "two_dead_flap_boxes" {
  says   = "Two dead flap computers stop flaps and slats, and that is told at once on all builds: a box that is silent is news. With both main DC sides gone the second lane drives on from the vital supply."
  source = "Corvane 71 systems manual 27-52 (fictional)"
  given "both computers" {
    fail   = [flap_computer_1, flap_computer_2]
    at     = "climb + 120 s"
    expect = [told(flaps), told(slats), by(1, flaps_stopped)]
  }
  given "both sides" {
    fail   = [dc_left, dc_right]
    at     = "climb + 120 s"
    expect = [at(600, flaps_move), at(600, !flap_computer_1)]
  }
}
claim "backup_module_is_the_last" {
  says   = "Without the reserve control unit the loss of both computers is the loss of the aircraft. On its own the module's loss is felt by nobody."
  source = "Corvane 71 safety summary 27-A (fictional)"
  given "the module" {
    fail   = [control_backup]
    at     = "cruise"
    expect = [!lost(pitch_control), !lost(shaped_control)]
  }
  given "all three" {
    inoperative = [control_backup]
    fail        = [control_computer_1, control_computer_2]
    at          = "cruise"
    expect      = [lost(pitch_control), lost(roll_control), lost(yaw_control)]
  }
}
claim "bent_vane" {
  says   = "One bent stall vane makes the first series cry \"Stall\" in level flight. The second series asks the other vane first."
  source = "Corvane 71 service note 27-08 (fictional)"
  given "first series" {
    fail   = [stall_vane_left.reads_high]
    at     = "cruise"
    expect = [false_alarm(stall), given(stall), times(stall) > 100]
  }
  given "second series" {
    variant = second_series
    fail    = [stall_vane_left.reads_high]
    at      = "cruise"
    expect  = [never_given(stall)]
  }
  given "hail, second series" {
    variant = second_series
    fail    = [hail]
    at      = "cruise"
    expect  = [false_alarm(stall)]
  }
}
claim "cut_out_takes_one_lane" {
  says   = "The lane switch ends a false stall warning by taking out its lane: the other one warns on, and with its vane gone as well nothing does."
  source = "Corvane 71 systems manual 27-36 (fictional)"
  given "the left lane" {
    fail = [stall_vane_left.reads_high]
    at   = "cruise"
    act "Cut out" {
      set  = stall_cut_switch
      to   = "left_off"
      when = held(stall, 30)
    }
    expect = [false_alarm(stall), last(stall) < 31, times(stall) < 8, kept(stall_warning)]
  }
  given "and the right vane gone" {
    fail        = [stall_vane_left.reads_high]
    inoperative = [stall_vane_right]
    at          = "cruise"
    act "Cut out" {
      set  = stall_cut_switch
      to   = "left_off"
      when = held(stall, 30)
    }
    expect = [last(stall) < 31, lost(stall_warning), not_told(stall_warning)]
  }
}
claim "cold_vanes" {
  says   = "Both vane heaters dead, and the climb through ice takes the stall warning away. On the first series nobody watches the heaters; the second series has told on the ground."
  source = "Corvane 71 systems manual 30-33 (fictional)"
  given "first series" {
    fail   = [vane_heat_left, vane_heat_right]
    at     = "taxi_out + 60 s"
    expect = [not_told(stall_warning), not_told(vane_heat), not_told(stall_guard)]
  }
  given "second series" {
    variant = second_series
    fail    = [vane_heat_left, vane_heat_right]
    at      = "taxi_out + 60 s"
    expect  = [told(stall_warning), told(vane_heat), given(vane_cold)]
  }
}
claim "rudder_frozen_at_cruise_travel" {
  says   = "A rudder limiter that stops in the cruise leaves six degrees of rudder for the landing. Told when it happens; felt an hour later."
  source = "Corvane 71 systems manual 27-24 (fictional)"
  given {
    fail = [rudder_limiter]
    at   = "cruise + 60 s"
  }
  expect = [told(rudder_travel), at(60, rudder_travel), first(!rudder_travel) > 3000, in_phase(final, rudder_travel_deg < 7), !lost(rudder_limit)]
}
claim "limiter_stops_in_the_climb" {
  says   = "A limiter that stops right after lift-off leaves full rudder at high speed."
  source = "Corvane 71 systems manual 27-24 (fictional)"
  given {
    fail = [rudder_limiter]
    at   = "lift_off + 5 s"
  }
  expect = [lost(rudder_limit), held_back(rudder_limiter_lost), given(rudder_limiter_lost), told(rudder_limit), in_phase(cruise, rudder_travel_deg > 25)]
}
claim "spoilers_armed_and_blind" {
  says   = "Armed spoilers stay in when both weight-on-wheels switches say \"in the air\". The line says armed, and on the first series nothing says otherwise before the touchdown or after it."
  source = "Corvane 71 systems manual 27-63 (fictional)"
  given {
    fail = [frozen_slush]
    at   = "climb + 60 s"
  }
  expect = [told_wrong(ground_spoilers), told_wrong(spoilers_armed_line), in_phase(landing_roll, !ground_spoilers_out)]
}
claim "shaft_and_tip_brakes" {
  says   = "A flap shaft that breaks with the flaps out is held by the tip brakes. With the tip brakes dead the jacks hold them. Only with both dead do the flaps come apart, and roll control is lost."
  source = "Corvane 71 safety summary 27-B (fictional)"
  given "tip brakes work" {
    fail   = [flap_shaft.breaks]
    at     = "final"
    expect = [!lost(roll_control), lost(flaps)]
  }
  given "tip brakes dead" {
    inoperative = [flap_asymmetry_brakes]
    fail        = [flap_shaft.breaks]
    at          = "final"
    expect      = [!lost(roll_control), lost(flaps)]
  }
  given "both dead" {
    inoperative = [flap_asymmetry_brakes, flap_jacks]
    fail        = [flap_shaft.breaks]
    at          = "final"
    expect      = [lost(roll_control)]
  }
  given "both dead, flaps in" {
    inoperative = [flap_asymmetry_brakes, flap_jacks]
    fail        = [flap_shaft.breaks]
    at          = "cruise + 60 s"
    expect      = [!lost(roll_control)]
  }
}
claim "second_computer_reports_by_its_own_bus" {
  says   = "Computer 2 reports by data unit 2, on the same bus. When the bus dies, the message that the computer is lost dies with it."
  source = "Corvane 71 systems manual 27-14 (fictional)"
  given "the bus" {
    fail   = [dc_right]
    at     = "cruise"
    expect = [never_given(control_computer_2_lost), lost(ground_spoilers_full), not_told(ground_spoilers_full), dark(control_computer_2_lamp)]
  }
  given "the computer" {
    fail   = [control_computer_2]
    at     = "cruise"
    expect = [given(control_computer_2_lost), told(ground_spoilers_full)]
  }
}
claim "stall_that_is_none_at_fifty_feet" {
  says   = "A vane that bends at 50 ft: full thrust and a known pitch, no nose down; it is not believed, and asked again when clean; then that lane alone is cut. On the final it sends nobody around. Higher up it is looked at before the nose goes down, and both bent vanes end the flight at the nearest field."
  source = "14 CFR 25.207, 25.1322(d); common practice"
  given "after lift-off" {
    fail   = [stall_vane_left.reads_high]
    when   = real.height_ft > 50
    crew   = "by_the_book"
    expect = [false_alarm(stall), by(10, done(stall_list, 1)), !done(stall_list, 2), in_order(done(stall_list, "4.then.1"), done(stall_list, "5.later.1.then.1")), by(120, stall_cut_switch == "left_off"), kept(stall_warning)]
  }
  given "on final" {
    fail   = [stall_vane_left.reads_high]
    at     = "final + 5 s"
    crew   = "by_the_book"
    expect = [false_alarm(stall), done(stall_list, 1), !done(stall_list, 2), !flown("go_around"), arrives("QSVA")]
  }
  given "in the climb" {
    fail   = [stall_vane_left.reads_high]
    at     = "climb + 60 s"
    crew   = "by_the_book"
    expect = [false_alarm(stall), by(10, done(stall_list, "2.then.1")), !done(stall_list, "2.else.1"), arrives("QSVA")]
  }
  given "both, in the climb" {
    fail   = [hail]
    at     = "climb + 60 s"
    crew   = "by_the_book"
    expect = [done(stall_list, "2.then.1"), flown("land"), always(stall_cut_switch == "normal")]
  }
}
claim "what_jams_leaves_half" {
  says   = "A stick that jams parts from the other, a surface that jams keeps its other half: told, the autopilot off, gentle turns, the nearest that suits, a faster landing. Only both halves are the end."
  source = "14 CFR 25.671(c)(3)"
  given "a stick" {
    fail   = [stick_left.jams]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [told(surfaces_whole), kept(pitch_control), kept(roll_control), by(15, done(surface_list, 1)), flown("land"), done(surface_list, "4.later.1"), arrives("QSTO")]
  }
  given "an elevator, an aileron" {
    fail   = [elevator_left_servo.jams, aileron_right_servo.jams]
    at     = "final"
    expect = [told(surfaces_whole), kept(pitch_control), kept(roll_control)]
  }
  given "the sensors of a stick" {
    fail   = [stick_sensors_left]
    at     = "cruise + 60 s"
    expect = [given(stick_sensors_lost), kept(pitch_control), kept(roll_control)]
  }
  given "both halves" {
    fail   = [elevator_left_servo.jams, elevator_right_servo.jams]
    at     = "cruise + 60 s"
    expect = [lost(pitch_control)]
  }
}
claim "what_moves_by_itself" {
  says   = "A servo that drives hard over is cut by a monitor, spoilers that rise are put down by it; with the monitor dead only a hand stops a servo, by cutting the pressure of its side within ten seconds: the aircraft flies on with the rest, and left alone it cannot be flown. Trim that runs is a warning and one switch, within ten seconds; left alone it takes both hands, and then more than the elevator has."
  source = "14 CFR 25.672, 25.1309(b)(1), (5)"
  given "cut" {
    fail   = [aileron_left_servo.drives, spoilers_inner.rise]
    at     = "cruise + 60 s"
    expect = [told(surfaces_whole), kept(surfaces_obey), lost(ground_spoilers_full)]
  }
  given "not cut" {
    inoperative = [surface_monitor]
    fail        = [rudder_upper_servo.drives, spoilers_inner.rise]
    at          = "cruise + 60 s"
    expect      = [by(2, surface_drives_left), never_arrives("not_flyable", surfaces_obey)]
  }
  given "cut by hand" {
    inoperative = [surface_monitor]
    fail        = [elevator_left_servo.drives]
    at          = "cruise + 60 s"
    crew        = "by_the_book"
    expect      = [done(surface_drives_list, 1), by(12, surfaces_left_switch == "cut"), kept(pitch_control), at(60, surfaces_obey), flown("land"), arrives()]
  }
  given "trim, by the book" {
    fail   = [trim_motor_1.runs]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [by(12, trim_cut_switch == "stopped"), kept(trim_held), kept(pitch_trim), told(autopilot_flying), kept(trim_in_reach), arrives("QSVA")]
  }
  given "trim, left alone" {
    fail   = [trim_motor_1.runs]
    at     = "cruise + 60 s"
    expect = [by(2, trim_runs_away), first(trim_far) < 15, about(first(!trim_in_reach), 24, 1), never_arrives("not_flyable", trim_in_reach)]
  }
}
claim "what_the_take_off_warning_listens_to" {
  says   = "The take-off warning hears of the levers through switches: with one thrust lever's dead it warns as ever, with that of the parking brake lever dead it keeps quiet about the brake, and nothing says that it would. Trim that has run away before the take-off is out of its band."
  source = "14 CFR 25.703"
  given "a thrust lever" {
    fail = [lever_switch_left]
    at   = "taxi_out + 5 s"
    act "Parking brake set" {
      set  = parking_brake_lever
      to   = "set"
      when = held(taxi_out, 20)
    }
    expect = [kept(take_off_guard), given(parking_brake_on)]
  }
  given "the brake lever" {
    fail = [brake_lever_switch]
    at   = "taxi_out + 5 s"
    act "Parking brake set" {
      set  = parking_brake_lever
      to   = "set"
      when = held(taxi_out, 20)
    }
    expect = [not_told(take_off_guard), never_given(parking_brake_on)]
  }
  given "trim that ran" {
    fail   = [trim_motor_1.runs]
    at     = "taxi_out + 60 s"
    expect = [within(1, take_off_roll, trim_not_set)]
  }
}
