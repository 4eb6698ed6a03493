# Ride 22, a radio altimeter that reads low: radio_low_1 to _8; _3, _4 and _6 where the
# other altimeter is inoperative, and nothing can compare.
claim "ride_22" {
  says   = "A radio altimeter that reads a few feet on the approach is compared with the other: told within ten seconds, and the thrust stays. With the other one inoperative the thrust closes and the speed falls by one to two knots a second; the low airspeed warning, then the stall warning come before the stall, the levers are moved from memory, and it goes around and does not stall."
  source = "14 CFR 25.207(c), 25.1309(b), 25.1333(b)"
  given "compared" {
    fail   = [radio_alt_1.reads_low]
    at     = "approach + 180 s"
    crew   = "by_the_book"
    expect = [by(10, radio_heights_told_apart), told(radio_height), always(!flare_believed), kept(altitude_left), kept(thrust_fits), arrives("QSVA")]
  }
  given "not compared, hands off" {
    inoperative = [radio_alt_2]
    fail        = [radio_alt_1.reads_low]
    at          = "approach + 180 s"
    expect      = [never_arrives("stalls"), in_order(too_slow, stall), at(20, real.airspeed_kt > 124), at(30, real.airspeed_kt < 118), at(30, real.airspeed_kt > 105)]
  }
  given "not compared, by the book" {
    inoperative = [radio_alt_2]
    fail        = [radio_alt_1.reads_low]
    at          = "approach + 180 s"
    crew        = "by_the_book"
    expect      = [in_order(too_slow, done(too_slow_drill, 1), flown("go_around")), arrives()]
  }
}
