# Ride 17, a blocked pitot tube on one side: pitot_blocked_1 to _9, in this order.
claim "ride_17" {
  says   = "A left pitot tube that closes in the climb shows nothing at first. Then the speed grows by 60 to 90 kt in a thousand feet, is told within a minute, and leaves the other two alone. From memory the autopilot is off and attitude and thrust set; then the third speed shows which is wrong, control is told, and the pilot with the good side flies on. The false Too fast is known by its list, and nothing slows the aircraft to a stall."
  source = "14 CFR 25.1333(a), 25.1329(g); common practice"
  given {
    fail = [pitot_1.blocked]
    when = real.height_ft > 3000
    crew = "by_the_book"
    expect = [
      at(2, airspeed_1_valid), by(24, airspeed_1_kt > 310), by(60, airspeeds_differ), kept(airspeed_right), kept(airspeed_standby),
      in_order(done(airspeeds_differ_drill, 2), done(airspeeds_differ_drill, 3), done(airspeeds_differ_drill, 4)),
      done(airspeeds_differ_drill, "6.then.1"), done(airspeeds_differ_drill, "6.then.2"), arrives("QSVA"),
      false_alarm(too_fast), done(too_fast_drill, "1.then.2"), never_given(stall),
    ]
  }
}
