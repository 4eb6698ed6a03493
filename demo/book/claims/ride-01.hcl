# Ride 1: all engines out. The ids before the expectations are those of docs/rides.md.

claim "ride_01_all_engines" {
  says   = "With both engines gone in the cruise the emergency source comes by itself, the electric servos move the surfaces, and Tolmarry, 42 NM away, is reached with height in hand, flyable to the stop."
  source = "docs/rides.md, ride 1"
  given {
    fail = [engine_left, engine_right]
    at   = "cruise + 700 s"
    crew = "by_the_book"
    expect = [
      by(15, ram_gen_on), kept(pitch_control), kept(roll_control), kept(yaw_control), arrives("QSTO"),
    ]
  }
}
