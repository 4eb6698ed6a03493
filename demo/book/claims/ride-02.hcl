# Check ride 2, engine_before_v1 and engine_after_v1.
claim "ride_engine_at_the_decision_speed" {
  says   = "An engine that fails 10 kt below the decision speed is told at once and stops the take-off within two seconds; control is told, then the cabin. Above it the take-off goes on, no switch is moved below 400 ft, everything is fed by the other side, and the aircraft is back too heavy and stops. On final they land first; the list is read on the ground."
  source = "14 CFR 25.107(a), 25.109(a), 25.111(c), 25.1310(b); check ride 2"
  given "10 kt below" {
    fail = [engine_left]
    when = real.airspeed_kt > 116
    crew = "by_the_book"
    expect = [told(thrust_left), kept(thrust_any), by(2, flown("reject")), always(real.on_ground), arrives("QSKE"), in_order(flown("reject"), done(engine_failed, 6), done(engine_failed, 7)), !lost(antiskid), !lost(ground_spoilers), !lost(reverse_right)]
  }
  given "above" {
    fail = [engine_left]
    when = real.airspeed_kt > 129
    crew = "by_the_book"
    expect = [
      told(thrust_left), held_back(left_gen_off), !lost(both_ac_sides), !lost(hydraulics_left), !flown("reject"), by(90, real.height_ft > 1000),
      first(engine_left_switch == "off") > first(real.height_ft > 400), done(engine_failed, "9.then.1"), done(engine_failed, 11), done(engine_failed, 12),
      flown("land"), arrives("QSKE"), lands_overweight(), always(engine_right_switch == "run"),
    ]
  }
  given "on final" {
    fail   = [engine_left]
    at     = "final"
    crew   = "by_the_book"
    expect = [done(engine_failed, 3), in_order(landing_roll, engine_left_switch == "off"), !done(engine_failed, 12), arrives("QSVA")]
  }
}
