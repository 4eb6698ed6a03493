# Check ride 27, before the take-off: a door (docs/rides.md).

claim "ride_door" {
  says   = "A door that is not latched is told by one lane of sensors alone, the flight does not leave, the cabin is told; hands off it flies in a cabin that its flap keeps free of pressure (door_1 to _5)."
  source = "14 CFR 25.783(c), (e); common practice"
  given "by the book" {
    fail   = [cargo_door.not_latched]
    at     = "taxi_out + 60 s"
    crew   = "by_the_book"
    expect = [by(10, door_open), told(doors_shut), done(door_list, "1.then.1"), always(real.on_ground)]
  }
  given "one sensor lies too" {
    inoperative = [door_sensors_1.see_latched]
    fail        = [cargo_door.not_latched]
    at          = "taxi_out + 60 s"
    crew        = "by_the_book"
    expect      = [by(10, door_open), !told_wrong(doors_shown), always(real.on_ground)]
  }
  given "gone all the same" {
    fail   = [cargo_door.not_latched]
    at     = "taxi_out + 60 s"
    expect = [in_phase(take_off_roll, door_open), in_phase(climb, pressure_kept_off), ever(cabin_altitude_ft > 9800), given(cabin_high)]
  }
}
