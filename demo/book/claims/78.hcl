# Claims of chapter 78.

claim "second_lock_holds" {
  says   = "A reverser that creeps is held by its second lock, and the crew are told that the first has let go. With the second lock broken since who knows when, it opens in flight."
  source = "Corvane 88 safety summary 78-A (fictional)"
  given "second lock sound" {
    fail   = [reverser_left.creeps]
    at     = "cruise"
    expect = [!lost(reverse_shut), given(reverser_left_creeps)]
  }
  given "second lock broken" {
    inoperative = [reverse_lock_left.stays_open]
    fail        = [reverser_left.creeps]
    at          = "cruise"
    expect      = [lost(reverse_shut), told(reverse_shut), ever(reverse_left_open && !real.on_ground)]
  }
  given "broken lock alone" {
    fail   = [reverse_lock_left.stays_open]
    at     = "taxi_out"
    expect = [!lost(reverse_shut), never_given(reverser_left_creeps)]
  }
}

claim "reverser_dies_with_its_bus" {
  says   = "The left DC bus takes the left reverser, and with it the way of the message: on no build is the crew told that they will reverse on one side."
  source = "Corvane 88 systems manual 78-31 (fictional)"
  given "first series" {
    fail   = [dc_left]
    at     = "cruise"
    expect = [lost(reverse_left), not_told(reverse_even)]
  }
  given "second series" {
    variant = second_series
    fail    = [dc_left]
    at      = "cruise"
    expect  = [never_given(reverse_left_lost), not_told(reverse_even)]
  }
  given "the lock alone, second series" {
    variant = second_series
    fail    = [reverse_lock_left]
    at      = "cruise"
    expect  = [given(reverse_left_lost), told(reverse_left), told(reverse_even)]
  }
}

claim "levers_in_flight_open_nothing" {
  says   = "The reverse levers pulled in flight open nothing: its box would have to believe in the ground. Two weight switches that say \"on the ground\" make it so, one does not."
  source = "Corvane 88 systems manual 78-32 (fictional)"
  given "switches sound" {
    # A claim counts from a failure. The water pump only starts the clock.
    fail = [water_pump]
    at   = "descent"
    act "Lever pulled" {
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
