# Ride 18, static ports under tape: static_taped_1 to _8, in this order.
claim "ride_18" {
  says   = "With the ports of both main systems taped both altimeters stand at the field and the speeds read too little in the climb: no comparison warns, and what warns is false. Attitude, radio height, ground speed and satellite altitude stay right. Attitude and thrust come from memory, control is asked, and the aircraft is back within minutes; that the altimeters stand is seen before the first climb is over."
  source = "14 CFR 25.1303, 25.1325; common practice"
  given {
    fail = [static_left.blocked, static_right.blocked]
    crew = "by_the_book"
    expect = [
      always(altitude_1_ft < 100), in_phase(first_climb, airspeed_1_kt < real.airspeed_kt - 20), never_given(airspeeds_differ), never_given(altitudes_differ), false_alarm(too_slow),
      kept(any_attitude), kept(radio_height), kept(altitude_standby), in_order(too_slow, done(too_slow_drill, 1), done(airspeeds_differ_drill, 2), done(airspeeds_differ_drill, "6.else.1"), flown("land")),
      arrives("QSKE"), noticed(airspeed_by_majority), !hidden(altitude_left),
    ]
  }
}
