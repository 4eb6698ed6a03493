# Ride 21, screens: one_screen_1 to _6, then all_screens_1 to _8, in this order.
claim "ride_21" {
  says   = "The left flight screen dark costs its picture for three seconds; it is seen, an advisory says that it has moved, and the flight goes on. With all five dark the standby instruments, a radio and the engines are left: a warning comes by light and sound, the standby is flown by, one reversion is tried, control is told, and the aircraft lands at a nearer field. No black screen is hidden."
  source = "14 CFR 25.1333(b), 25.1322; AC 25-11B, from memory"
  given "one" {
    fail = [screen_1]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [seconds(!left_flight_picture) == 3, noticed(left_flight_display), given(screen_dark), kept(right_flight_display), kept(engine_display), at(10, left_flight_picture), arrives("QSVA"), kept(alert_messages)]
  }
  given "all" {
    fail = [screen_1, screen_2, screen_3, screen_4, screen_5]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [
      lost(any_flight_display), lost(alert_messages), noticed(engine_display), by(5, pictures_gone), kept(warning_sounds), kept(any_attitude), kept(any_heading), kept(airspeed_standby), kept(altitude_standby),
      kept(radio_contact), kept(thrust_left), in_order(done(all_screens_list, 1), done(all_screens_list, 2), done(all_screens_list, 3), flown("land")), arrives("QSTO"), !hidden(weather_picture), !hidden(guidance_left),
    ]
  }
}
