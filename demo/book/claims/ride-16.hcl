# Check ride 16, fire_flight and fire_ground.
claim "ride_engine_fire" {
  says   = "An engine fire in the climb is told from one loop if the other is dead, and fought from memory in order: thrust, fuel, handle, bottle; it is out within a minute, and what the crew cut is not hidden; where it does not go out, they stop on the runway and get out there. On the ground they stand, both engines are cut, and within a minute it is decided whether to get out."
  source = "14 CFR 25.1195, 25.1203, 25.1309(b), 25.1362; check ride 16"
  given "in the climb" {
    inoperative = [fire_loop_left_a]
    fail        = [nacelle_left.burns]
    at          = "climb + 240 s"
    crew        = "by_the_book"
    expect = [
      told(no_fire_left), in_order(done(engine_fire_list, 2), done(engine_fire_list, 4), done(engine_fire_list, 6), done(engine_fire_list, 8)),
      by(30, bottle_1_fired), seconds(left_burns) < 60, kept(thrust_any), !lost(fire_watch_right), !lost(fire_fighting), flown("land"), arrives("QSKE"),
      !hidden(fuel_to_left), !hidden(air_left), !hidden(oil_left),
    ]
  }
  given "after the landing" {
    fail   = [nacelle_left.burns]
    at     = "landing_roll + 10 s"
    crew   = "by_the_book"
    expect = [given(fire_left), done(engine_fire_list, 3), in_order(engine_right_switch == "off", done(evacuation_list, 7)), by(60, done(evacuation_list, 7)), done(evacuation_list, 6), done(evacuation_list, "7.then.1"), !not_heard(evacuation_list, "7.then.1"), always(apu_switch == "off"), seconds(left_burns) < 60, !lost(evacuation_light), !lost(evacuation_call)]
  }
  given "after the landing, the loudspeakers out" {
    inoperative = [cabin_speakers]
    fail        = [nacelle_left.burns]
    at          = "landing_roll + 10 s"
    crew        = "by_the_book"
    expect      = [not_heard(evacuation_list, "7.then.1"), done(evacuation_list, "7.then.1.else.1")]
  }
  given "it does not go out" {
    fail   = [nacelle_left.burns, bottle_1, bottle_2]
    at     = "climb + 240 s"
    crew   = "by_the_book"
    expect = [flown("land"), arrives("QSLA"), !lost(sound_pylons), in_order(landing_roll, parking_brake_lever == "set"), in_order(landing_roll, parking_brake_lever == "set", engine_right_switch == "off"), done(evacuation_list, 7)]
  }
}
