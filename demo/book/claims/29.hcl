claim "transfer_saves_the_left_system" {
  says   = "With the left engine gone the right system drives the left one through the transfer unit. Dispatched with that unit out, the same failure takes the left system and is told."
  source = "Corvane 71 systems manual 29-12 (fictional)"
  given "transfer unit works" {
    fail   = [engine_left]
    at     = "first_climb"
    expect = [kept(hydraulics_left), never_given(hyd_left_low)]
  }
  given "transfer unit out" {
    inoperative = [transfer_unit]
    fail        = [engine_left]
    at          = "cruise"
    expect      = [told(hydraulics_left), given(hyd_left_low), kept(pitch_control), told(reverse_left)]
  }
}

claim "standby_pump_waits_for_flaps" {
  says   = "On the first series the standby pump does not start by itself with the flaps in: the right system is lost in the cruise and comes back with slight flap. The later series never lose it."
  source = "Corvane 71 service note 29-01 (fictional)"
  given "first series" {
    fail   = [pump_right]
    at     = "cruise"
    expect = [told(hydraulics_right), in_phase(cruise, !hyd_right), in_phase(final, hyd_right)]
  }
  given "second series" {
    variant = second_series
    fail    = [pump_right]
    at      = "cruise"
    expect  = [kept(hydraulics_right), given(pump_right_low), never_given(hyd_right_low)]
  }
  given "first series, switched on" {
    fail = [pump_right]
    at   = "cruise"
    act "Standby pump" {
      set  = standby_pump_switch
      to   = "on"
      when = held(hyd_right_low, 20)
    }
    expect = [seconds(!hyd_right) > 20, seconds(!hyd_right) < 22]
  }
}

claim "standby_lamp_says_told" {
  says   = "The standby pump lamp says that the pump was told to run. Over a dead pump it is lit as well."
  source = "Corvane 71 systems manual 29-16 (fictional)"
  given {
    fail = [pump_right, pump_standby]
    at   = "cruise"
    act "Standby pump" {
      set  = standby_pump_switch
      to   = "on"
      when = held(hyd_right_low, 20)
    }
  }
  expect = [told_wrong(standby_pump_lamp), told(hydraulics_right), last(!hyd_right) > 3000]
}

claim "sender_that_reads_full" {
  says   = "A pressure sender that goes on reading full pressure hides the loss of its system: no message, and a readout that lies."
  source = "Corvane 71 systems manual 29-31 (fictional)"
  given {
    inoperative = [pressure_sender_right.reads_full]
    fail        = [pump_right]
    at          = "cruise"
  }
  expect = [told_wrong(hydraulics_right), told_wrong(pressure_right_shown), never_given(hyd_right_low)]
}

claim "lines_chafe_together" {
  says   = "Two lines that chafe on each other take both systems within five minutes of the leak. The electric servos fly on, plain and slow; without them every axis of control is gone, and the fluid messages are the only time there is."
  source = "Corvane 71 safety summary 29-A (fictional)"
  given "the servos work" {
    fail   = [line_chafe]
    at     = "cruise"
    expect = [kept(pitch_control), kept(roll_control), kept(yaw_control), told(shaped_control), lost(hydraulics_any), given(hyd_both_low)]
  }
  given "no power for them" {
    inoperative = [elevator_electric_servo, aileron_electric_servo, rudder_electric_servo]
    fail        = [line_chafe]
    at          = "cruise"
    expect      = [lost(pitch_control), lost(roll_control), lost(yaw_control), first(hyd_both_low) - first(fluid_right_low) > 70]
  }
}

claim "hydraulic_cautions_wait" {
  says   = "A pump that goes at 100 kt on the roll is not told before the first climb."
  source = "Corvane 71 systems manual 31-52 (fictional)"
  given {
    flight      = short_hop
    inoperative = [pump_standby]
    fail        = [pump_right]
    at          = "take_off_fast + 1 s"
  }
  expect = [held_back(hyd_right_low), given(hyd_right_low), told_late(hydraulics_right), first(hyd_right_low) >= first(first_climb)]
}
