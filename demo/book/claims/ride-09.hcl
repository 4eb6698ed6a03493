# Ride 9, one leg stays up: gear_leg_1 to _7. That no one sensor shows it locked when
# it is not (7) is a_row_that_lies_is_found_in_the_climb.

claim "one_leg_stays_up" {
  says   = "One leg is not shown locked for 20 s and more (1); the warning comes on the approach, in time to go around, and no reflex silences it (2); the crew go around, tell control and the cabin, try again, pull the handle (4), and land on three legs with fuel for a quarter of an hour more above the final reserve of 659 kg (6)."
  source = "14 CFR 25.729(c), (e)"
  given "by the book" {
    fail = [left_leg.stays_up]
    at   = "descent"
    crew = "by_the_book"
    expect = [
      seconds((approach || final || first_climb) && gear_lever == "down" && !left_seen_down_a) > 20, within(20, approach && gear_lever == "down", gear_not_followed), given(gear_not_followed), first(gear_not_followed) < first(final),
      in_order(gear_not_followed, read(gear_not_followed_list), flown("go_around"), done(gear_not_followed_list, "1.then.3"), done(gear_not_followed_list, "1.then.4"), done(gear_not_followed_list, "1.then.6"), done(gear_not_followed_list, "1.then.8"), landing_roll),
      kept(gear_extension_any), in_phase(landing_roll, gear_down), in_phase(landing_roll, real.fuel_kg > 1120), arrives("QSVA"),
    ]
  }
  given "the button pressed by reflex, flaps for landing" {
    fail = [left_leg.stays_up]
    at   = "descent"
    act "Silence" {
      set  = gear_horn_button
      to   = "pressed"
      when = gear_not_followed
    }
    expect = [in_phase(final, gear_not_down || flap_lever != "full")]
  }
  given "without pressure, power and boxes the handle frees it" {
    fail = [reservoir_right, dc_left, dc_right, dc_vital, gear_sense_a, gear_sense_b]
    at     = "descent"
    act "Handle" {
      set  = alternate_gear_handle
      to   = "pulled"
      when = held(descent, 60)
    }
    expect = [at(90, gear_down)]
  }
  given "the handle's cable is broken too: they land prepared" {
    inoperative = [alternate_release]
    fail        = [left_leg.stays_up]
    at          = "descent"
    crew        = "by_the_book"
    expect      = [in_order(flown("go_around"), done(gear_not_followed_list, "1.then.9.else.1"), done(gear_not_followed_list, "1.then.9.else.2"), done(gear_not_followed_list, "1.then.9.else.4"), done(gear_not_followed_list, "1.then.9.else.5"), landing_roll)]
  }
}
