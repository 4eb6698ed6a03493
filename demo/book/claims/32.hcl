# A warning about a danger that is not there, and what silencing it costs.
claim "gear_warning_at_the_top_of_descent" {
  says   = "A radio altimeter that reads a few feet makes the gear warning sound as soon as the levers come back for the descent. The button silences it, and with it the guard against a landing with the gear up, until the gear is seen down."
  source = "Corvane 71 systems manual 32-61 (fictional)"
  given "not silenced" {
    fail = [radio_alt_1.reads_low]
    at   = "cruise + 600 s"
    act "The levers by hand for the approach" {
      set  = autothrottle_switch
      to   = "off"
      when = approach
    }
    expect = [false_alarm(gear_not_down), given(gear_not_down), times(gear_not_down) > 20, ever(gear_not_down && real.altitude_ft > 30000)]
  }
  given "silenced" {
    fail = [radio_alt_1.reads_low]
    at   = "cruise + 600 s"
    act "Silence" {
      set  = gear_horn_button
      to   = "pressed"
      when = held(gear_not_down, 20)
    }
    act "The levers by hand for the approach" {
      set  = autothrottle_switch
      to   = "off"
      when = approach
    }
    expect = [false_alarm(gear_not_down), times(gear_not_down) < 4, only_shown(gear_guard), noticed(gear_guard), in_phase(final, gear_guard)]
  }
}
claim "dead_boxes_lock_the_lever" {
  says   = "Without both sensing boxes the gear lever moves nothing; the gear stays up until somebody pulls the alternate handle. That brings it down in fourteen seconds, and the warning goes on shouting: nothing can see that the gear is down."
  source = "Corvane 71 systems manual 32-33 (fictional)"
  given "lever only" {
    fail   = [gear_sense_a, gear_sense_b]
    at     = "cruise"
    expect = [lost(gear_extension), first(gear_down) - first(gear_freed) > 13.9, given(gear_not_followed)]
  }
  given "alternate handle" {
    fail = [gear_sense_a, gear_sense_b]
    at   = "cruise"
    act "Alternate handle" {
      set  = alternate_gear_handle
      to   = "pulled"
      when = approach
    }
    expect = [in_phase(final, gear_down), false_alarm(gear_not_down), told_wrong(nose_gear_lamp), told_wrong(nose_gear_mark), told_wrong(gear_lever_light), first(gear_down) - first(gear_freed) > 13.9]
  }
}
claim "no_gear_sensing_is_told" {
  says   = "The loss of both boxes is told. With both main DC sides gone box B and the gear valve live on from the vital supply: the gear follows its lever, and one row of marks shows it."
  source = "Corvane 71 service note 32-04 (fictional)"
  given "both boxes" {
    fail   = [gear_sense_a, gear_sense_b]
    at     = "climb + 120 s"
    expect = [told(ground_sensing_a), told(ground_sensing_b), told(gear_position), told(gear_extension), given(gear_sense_lost)]
  }
  given "both sides" {
    fail   = [dc_left, dc_right]
    at     = "climb + 120 s"
    expect = [at(600, gear_powered), at(600, gear_sense_b), at(600, !gear_sense_a)]
  }
}

# A configuration that cannot be undone.
claim "freed_gear_stays_down" {
  says   = "Once freed by the alternate handle the gear stays down and its doors stay open until landing, handle pushed in or not, lever up or not."
  source = "Corvane 71 systems manual 32-34 (fictional)"
  given {
    fail = [weight_switch_left.stays_ground]
    at   = "descent"
    act "Alternate handle" {
      set  = alternate_gear_handle
      to   = "pulled"
      when = held(descent, 60)
    }
    act "Handle back in" {
      set  = alternate_gear_handle
      to   = "in"
      when = held(descent, 120)
    }
    act "Lever down" {
      set  = gear_lever
      to   = "down"
      when = held(descent, 150)
    }
    act "Lever up" {
      set  = gear_lever
      to   = "up"
      when = held(descent, 180)
    }
  }
  expect = [last(!gear_down) < 75, at(300, gear_down), at(300, gear_lever == "up"), lost(gear_retraction), last(gear_stowed) < 61]
}
claim "alternate_cable_frees_a_stuck_leg" {
  says   = "A leg whose hydraulic uplock is stuck comes down by the cable. The lever alone leaves it up, and the lamps show which one."
  source = "Corvane 71 systems manual 32-35 (fictional)"
  given "lever only" {
    fail   = [left_leg.stays_up]
    at     = "cruise"
    expect = [lost(gear_extension), in_phase(landing_roll, !left_leg_down), in_phase(landing_roll, right_leg_down), given(gear_not_followed)]
  }
  given "cable" {
    fail = [left_leg.stays_up]
    at   = "cruise"
    act "Alternate handle" {
      set  = alternate_gear_handle
      to   = "pulled"
      when = gear_not_followed
    }
    expect = [in_phase(landing_roll, gear_down), !lost(gear_extension_any)]
  }
}
claim "one_box_is_enough_for_the_gear" {
  says   = "With box A dead the gear still follows its lever, timed by box B. The main row of lamps stays dark over a gear that is down; the second row tells the truth."
  source = "Corvane 71 systems manual 32-32 (fictional)"
  given {
    fail = [gear_sense_a]
    at   = "cruise"
  }
  expect = [!lost(gear_extension), in_phase(final, gear_down), told_wrong(nose_gear_lamp), told_wrong(left_gear_lamp), !told_wrong(nose_gear_mark), given(gear_sense_a_lost), never_given(gear_not_down)]
}

# A loss that nothing announces.
claim "one_switch_is_outvoted" {
  says   = "A weight-on-wheels switch that sticks costs a part of a second at touchdown, until the wheel turns. Two that say \"in the air\", and the reversers wait for the nose wheel. The second series sees the disagreement and must hold it back until the taxi."
  source = "Corvane 71 systems manual 32-12 (fictional)"
  given "one, first series" {
    fail   = [weight_switch_left.stays_air]
    at     = "cruise"
    expect = [seconds(landing_roll && !believed_on_ground) < 0.4, ever(reverse_left_open && landing_roll), never_given(gear_not_followed)]
  }
  given "one, second series" {
    variant = second_series
    fail    = [weight_switch_left.stays_air]
    at      = "cruise"
    expect  = [held_back(ground_sensing_differs), given(ground_sensing_differs)]
  }
  given "two" {
    fail   = [weight_switch_left.stays_air, weight_switch_right.stays_air]
    at     = "cruise"
    expect = [about(seconds(landing_roll && !believed_on_ground), 3, 0.2), lost(ground_spoilers)]
  }
}

# 14 CFR 25.729(e): no false "down and locked" from one failure.
claim "a_row_that_lies_is_found_in_the_climb" {
  says   = "Lock sensors that see \"locked\" of a gear that is up are found while it is up: the row is lit where it should be dark. It silences no warning: with a leg that stays up both the lever's and the landing's warning come."
  source = "14 CFR 25.729(e)"
  given "the row" {
    fail   = [lock_sensors_a.see_locked]
    at     = "take_off_roll"
    expect = [given(gear_rows_differ), told_wrong(nose_gear_lamp), never_given(gear_not_down), in_phase(cruise, !gear_seen_down)]
  }
  given "the other row and a leg" {
    fail   = [lock_sensors_b.see_locked, left_leg.stays_up]
    at     = "take_off_roll"
    expect = [given(gear_rows_differ), given(gear_not_followed), given(gear_not_down), !false_alarm(gear_not_down)]
  }
}
claim "frozen_switches" {
  says   = "Slush frozen on all three weight-on-wheels switches takes spoilers, reversers and automatic brakes at touchdown, all at once and all unannounced: the wheel that turns is one vote of four. Only the reversers' open marks stay away, for a crew that looks. The brakes themselves are untouched."
  source = "Corvane 71 safety summary 32-A (fictional)"
  given {
    fail = [frozen_slush]
    at   = "cruise"
  }
  expect = [lost(ground_spoilers), only_shown(reverse_left), only_shown(reverse_right), lost(autobrake), told_wrong(autobrake_lamp), !lost(brakes_normal), !lost(antiskid)]
}
claim "accumulator_six_presses" {
  says   = "On the accumulator every press costs one of six strokes. Four tries of the pedals on the approach leave one for the runway and one for the gate, and then nothing holds the aircraft: the parking brake lamp is lit over no brake."
  source = "Corvane 71 systems manual 32-43 (fictional)"
  given "four tries" {
    fail = [reservoir_left.leaks, brake_channel_a, brake_channel_b]
    at   = "cruise"
    act "First" {
      set  = brake_pedals
      to   = "pressed"
      when = held(approach, 10)
    }
    act "First off" {
      set  = brake_pedals
      to   = "released"
      when = held(approach, 12)
    }
    act "Second" {
      set  = brake_pedals
      to   = "pressed"
      when = held(approach, 14)
    }
    act "Second off" {
      set  = brake_pedals
      to   = "released"
      when = held(approach, 16)
    }
    act "Third" {
      set  = brake_pedals
      to   = "pressed"
      when = held(approach, 18)
    }
    act "Third off" {
      set  = brake_pedals
      to   = "released"
      when = held(approach, 20)
    }
    act "Fourth" {
      set  = brake_pedals
      to   = "pressed"
      when = held(approach, 22)
    }
    act "Fourth off" {
      set  = brake_pedals
      to   = "released"
      when = held(approach, 24)
    }
    expect = [in_phase(final, strokes_left_count == 2), in_phase(landing_roll, brakes), first(!brakes) > first(taxi_in) + 30, lost(antiskid), lost(brakes_normal), told_wrong(parking_brake), told_wrong(parking_brake_lamp)]
  }
  given "no tries" {
    fail   = [reservoir_left.leaks, brake_channel_a, brake_channel_b]
    at     = "cruise"
    expect = [!lost(brakes), !lost(parking_brake), lost(brakes_normal), lost(antiskid)]
  }
}
claim "empty_accumulator" {
  says   = "An accumulator that has lost its gas is shown by a gauge that nobody reads; the parking brake lamp denies it. It matters on the day when both systems are gone: with that of the normal brakes empty as well there are no brakes at all."
  source = "Corvane 71 dispatch guide 32-06 (fictional)"
  given "accumulator alone" {
    fail   = [brake_accumulator]
    at     = "taxi_out"
    expect = [!lost(brakes), told_wrong(parking_brake), told_wrong(parking_brake_lamp)]
  }
  given "both systems as well" {
    inoperative = [brake_accumulator, brake_accumulator_normal]
    fail        = [line_chafe]
    at          = "cruise"
    expect      = [lost(brakes)]
  }
}
claim "brake_channels" {
  says   = "Either brake channel alone brakes with anti-skid. With both gone the normal brakes are gone too, and the left system brakes without anti-skid."
  source = "Corvane 71 systems manual 32-44 (fictional)"
  given "one" {
    fail   = [brake_channel_a]
    at     = "cruise"
    expect = [!lost(brakes_normal), !lost(antiskid), !lost(autobrake)]
  }
  given "both" {
    fail   = [brake_channel_a, brake_channel_b]
    at     = "cruise"
    expect = [told(brakes_normal), lost(antiskid), told(antiskid), !lost(brakes), told(autobrake)]
  }
}
claim "dragging_brake" {
  says   = "A brake that drags in the taxi is hot before take-off if the taxi is long. With the temperature unit dead nobody knows."
  source = "Corvane 71 systems manual 32-47 (fictional)"
  given "watched" {
    fail   = [brake_left.drags]
    at     = "taxi_out + 30 s"
    expect = [given(brakes_hot), told(cool_brakes), first(brakes_hot) < first(take_off_roll)]
  }
  given "not watched" {
    inoperative = [brake_heat_box]
    fail        = [brake_left.drags]
    at          = "taxi_out + 30 s"
    expect      = [never_given(brakes_hot), not_told(cool_brakes)]
  }
}
claim "tyre_burst_on_the_roll" {
  says   = "A tyre that bursts at 100 kt takes the left fluid with it. The second series knows of the tyre and keeps it to itself until the first climb; the first series never knows. By the book both, fluid and anti-skid gone in one flight, send the crew to the nearest long runway; a leak alone does not."
  source = "Corvane 71 safety summary 32-B (fictional)"
  given "first series" {
    fail   = [tyre_burst]
    at     = "take_off_fast + 3 s"
    expect = [not_told(tyres), noticed(tyres), lost(hydraulics_left), told(hydraulics_left), lost(antiskid), told_late(antiskid), told(reverse_even)]
  }
  given "second series" {
    variant = second_series
    fail    = [tyre_burst]
    at      = "take_off_fast + 3 s"
    expect  = [told_late(tyres), held_back(tyre_low)]
  }
  given "by the book" {
    fail   = [tyre_burst]
    at     = "take_off_fast + 3 s"
    crew   = "by_the_book"
    expect = [flown("land"), arrives("QSKE"), within(60, hyd_left_low, done(hyd_left_low_list, "2.else.2"))]
  }
  given "a leak alone" {
    fail   = [reservoir_left.leaks]
    at     = "take_off_fast + 3 s"
    crew   = "by_the_book"
    expect = [!flown("land"), arrives("QSVA")]
  }
}
claim "missed_setting_of_both_sensor_sets" {
  says   = "Both sets of lock sensors misset alike: gear down, and two rows of dark lamps. The warning is false, and so is every lamp."
  source = "Corvane 71 safety summary 32-C (fictional)"
  given {
    fail = [sensors_misset]
    at   = "cruise"
  }
  expect = [in_phase(final, gear_down), false_alarm(gear_not_down), false_alarm(gear_not_followed), told_wrong(left_gear_lamp), told_wrong(left_gear_mark)]
}
claim "steering_goes_with_right_pressure" {
  says   = "Steering lives from right pressure and the left bus: either takes it. The caution waits for the approach."
  source = "Corvane 71 systems manual 32-51 (fictional)"
  given "right pressure" {
    fail   = [reservoir_right.leaks]
    at     = "cruise"
    expect = [lost(nose_steering), given(steering_lost), first(steering_lost) > 3000]
  }
  given "the box" {
    fail   = [steering_box]
    at     = "climb"
    expect = [told(nose_steering), held_back(steering_lost), first(steering_lost) > 3000]
  }
}
claim "ground_switch_in_the_air" {
  says   = "One weight-on-wheels switch that says \"on the ground\" after lift-off holds the gear down for as long as its wheel still turns, some seconds. Two hold it down for good; the warning comes fifteen seconds after the lever."
  source = "Corvane 71 systems manual 32-13 (fictional)"
  given "one" {
    flight = short_hop
    fail   = [weight_switch_left.stays_ground]
    at     = "take_off_fast"
    expect = [in_phase(climb, !gear_down), never_given(gear_not_followed)]
  }
  given "two" {
    flight = short_hop
    fail   = [weight_switch_left.stays_ground, weight_switch_nose.stays_ground]
    at     = "take_off_fast"
    expect = [in_phase(climb, gear_down), lost(gear_retraction), given(gear_not_followed), told_late(gear_retraction), first(gear_not_followed) - first(gear_lever == "up") > 14.9, first(gear_not_followed) - first(gear_lever == "up") < 15.1]
  }
}
claim "brakes_too_hot_for_a_clean_wing" {
  says   = "Back at once with neither flaps nor slats nor reverse the landing is so fast, and the aircraft so heavy, that the brakes take up more than they can. At the end of the flight the same landing is within what they can take."
  source = "Corvane 71 flight manual 3-06 (fictional)"
  given "back at once" {
    fail   = [flap_shaft, slat_shaft, reverser_left, reverser_right]
    at     = "climb + 60 s"
    plan   = ["return @ climb + 90 s"]
    expect = [brakes_overheat(), lands_overweight()]
  }
  given "at the end of the flight" {
    fail   = [flap_shaft, slat_shaft, reverser_left, reverser_right]
    at     = "climb + 60 s"
    expect = [!brakes_overheat(), !lands_overweight()]
  }
  given "a take-off rejected near the decision speed" {
    fail   = [engine_left, reverser_right]
    at     = "take_off_fast + 10 s"
    plan   = ["reject @ take_off_fast + 11 s"]
    expect = [!brakes_overheat()]
  }
}
claim "brakes_that_press_by_themselves" {
  says   = "Brakes that press by themselves are a caution in the air; on the slow part of the roll they stop the take-off."
  source = "14 CFR 25.735(b); common practice"
  given "in the air" {
    fail   = [brake_valve_normal.presses]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [told(free_wheels), done(brakes_pressed_list, 2), arrives("QSVA")]
  }
  given "on the roll" {
    fail   = [brake_valve_normal.presses]
    at     = "take_off_roll + 1 s"
    crew   = "by_the_book"
    expect = [flown("reject"), arrives("QSKE")]
  }
}
