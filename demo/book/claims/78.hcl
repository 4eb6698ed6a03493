claim "two_more_locks_hold" {
  says   = "A reverser that creeps is held by the other two locks, and the crew are told that the first has let go. One of the others broken unseen is not enough to open it; both are, and then the engine goes to idle by itself."
  source = "Corvane safety summary 78-A (fictional); 14 CFR 25.933(a)(1), (a)(3)"
  given "two locks sound" {
    fail   = [reverser_left.creeps]
    at     = "cruise"
    expect = [!lost(reverse_shut), given(reverser_left_unlocked), kept(thrust_left)]
  }
  given "the second hook broken" {
    inoperative = [reverse_hook_left.stays_open]
    fail        = [reverser_left.creeps]
    at          = "cruise"
    expect      = [!lost(reverse_shut), never_given(left_engine_failed)]
  }
  given "the bolt broken" {
    inoperative = [reverse_lock_left.stays_open]
    fail        = [reverser_left.creeps]
    at          = "cruise"
    expect      = [!lost(reverse_shut)]
  }
  given "both broken" {
    inoperative = [reverse_lock_left.stays_open, reverse_hook_left.stays_open]
    fail        = [reverser_left.creeps]
    at          = "descent"
    expect      = [lost(reverse_shut), told(reverse_shut), ever(reverse_left_open && !real.on_ground), at(10, thrust_left_pct < 6)]
  }
  given "broken locks alone" {
    fail   = [reverse_lock_left.stays_open, reverse_hook_left.stays_open]
    at     = "taxi_out"
    expect = [!lost(reverse_shut), never_given(reverser_left_unlocked)]
  }
}

claim "bolts_on_a_supply_of_their_own" {
  says   = "The bolts live from the vital bus, and each listens to the box of the other side. So a dead sensing box, or the left DC bus under it, takes both reversers: the aircraft reverses on both sides or on none."
  source = "Corvane systems manual 78-31 (fictional)"
  given "the left DC bus" {
    fail   = [dc_left]
    at     = "cruise"
    expect = [lost(reverse_left), lost(reverse_right), !lost(reverse_even)]
  }
  given "a box" {
    fail   = [gear_sense_a]
    at     = "approach"
    expect = [in_phase(landing_roll, !reverse_left && !reverse_right), !lost(reverse_even)]
  }
  given "the bolt alone, second series" {
    variant = second_series
    fail    = [reverse_lock_left]
    at      = "cruise"
    expect  = [given(reverse_left_lost), told(reverse_left), told(reverse_even)]
  }
}

claim "levers_in_flight_open_nothing" {
  says   = "The reverse levers pulled in flight open nothing: both boxes would have to believe in the ground. Two weight-on-wheels switches that say \"on the ground\" make it so, one does not."
  source = "Corvane 71 systems manual 78-32 (fictional)"
  given "one of three switches says ground" {
    fail = [weight_switch_left.stays_ground]
    at   = "descent"
    # The same hand on the same lever: what differs is the switch.
    set_up "Lever pulled" {
      set  = reverse_left_lever
      to   = "idle"
      when = held(descent, 60)
    }
    expect = [!lost(reverse_shut), at(90, !reverse_left_open), at(90, reverse_left_lever == "idle")]
  }
  given "two of three switches say ground" {
    fail = [weight_switch_left.stays_ground, weight_switch_nose.stays_ground]
    at   = "descent"
    # The same hand on the same lever: what differs is the switch.
    set_up "Lever pulled" {
      set  = reverse_left_lever
      to   = "idle"
      when = held(descent, 60)
    }
    expect = [at(90, reverse_left_open), lost(reverse_shut)]
  }
}
