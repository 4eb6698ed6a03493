# Ride 27, a wrong setting for the take-off: wrong_flaps_1 to _6. A claim counts from a
# failure: the water pump only starts the clock.

claim "not_set_for_take_off" {
  says   = "The warning sounds as thrust is set, below 60 kt, until the take-off is stopped (1); it is rejected within two seconds, at low speed (2), and stops on the runway (3); it needs no one screen and no one box (4); nothing holds it back (5); spoilers, trim, parking brake and doors warn in the same way (6)."
  source = "14 CFR 25.703"
  given "flaps" {
    fail = [water_pump]
    at   = "taxi_out + 5 s"
    crew = "by_the_book"
    act "Flaps in" {
      set  = flap_lever
      to   = "up"
      when = held(taxi_out, 20)
    }
    expect = [within(1, take_off_roll, flaps_not_set), within(2, flaps_not_set, flown("reject")), always(real.airspeed_kt < 60), always(real.on_ground), arrives("QSKE"), !held_back(flaps_not_set), seconds(flaps_not_set && real.thrust_pct > 60) < 3]
  }
  given "nobody stops, one screen and one alerting computer dead" {
    inoperative = [alert_computer_1, screen_3]
    fail        = [water_pump]
    at          = "taxi_out + 5 s"
    act "Flaps in" {
      set  = flap_lever
      to   = "up"
      when = held(taxi_out, 20)
    }
    expect = [within(1, take_off_roll, flaps_not_set), last(flaps_not_set) > first(take_off_fast), !held_back(flaps_not_set)]
  }
  given "spoilers" {
    fail = [water_pump]
    at   = "taxi_out + 5 s"
    crew = "by_the_book"
    act "Spoilers left out" {
      set  = spoiler_lever
      to   = "half"
      when = held(taxi_out, 20)
    }
    expect = [within(1, take_off_roll, spoilers_not_in), within(2, spoilers_not_in, flown("reject"))]
  }
  given "trim" {
    fail = [water_pump]
    at   = "taxi_out + 5 s"
    crew = "by_the_book"
    act "Trim left from the landing" {
      set  = pitch_trim_wheel
      to   = "nose up"
      when = held(taxi_out, 20)
    }
    expect = [within(1, take_off_roll, trim_not_set), within(2, trim_not_set, flown("reject"))]
  }
  given "parking brake" {
    fail = [water_pump]
    at   = "taxi_out + 5 s"
    crew = "by_the_book"
    act "Parking brake set" {
      set  = parking_brake_lever
      to   = "set"
      when = held(taxi_out, 20)
    }
    expect = [within(1, take_off_roll, parking_brake_on), within(2, parking_brake_on, flown("reject"))]
  }
  given "a door" {
    fail   = [cargo_door.not_latched]
    at     = "take_off_roll - 1 s"
    crew   = "by_the_book"
    expect = [within(1, take_off_roll, door_at_take_off), within(2, door_at_take_off, flown("reject"))]
  }
}
