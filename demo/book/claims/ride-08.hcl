# Ride 8, flaps that come apart: flap_asymmetry_1 to _7.

claim "flaps_come_apart_on_the_approach" {
  says   = "The flaps stop within 2 s and move no more (1); that is told within 5 s as a caution (2); roll control is enough and the slats move (3); the crew break off the approach, work out speed and distance, land (5); by the manual 1.2 to 1.9 times the distance (6); the second brake is checked, not hoped for (7: see flap_jacks)."
  source = "14 CFR 25.701, 25.671(c); AC 25.1322-1, from memory"
  given {
    fail = [flap_shaft.breaks]
    when = approach && flap_lever == "middle"
    crew = "by_the_book"
    expect = [
      at(2, !flaps_move), always(!flaps_split), by(5, flaps_stopped), told(flaps), kept(roll_control), always(slats_move),
      within(60, read(flaps_stopped_list), flown("go_around")), in_order(flown("go_around"), done(flaps_stopped_list, 6), done(flaps_stopped_list, 7), landing_roll), arrives("QSVA"),
      about(manual_landing_at("QSVA") / (landing_at("QSVA") - extra_landing("QSVA")), 1.4, 0.15),
    ]
  }
  given "the tip brakes dead as well" {
    inoperative = [flap_asymmetry_brakes]
    fail        = [flap_shaft.breaks]
    at          = "approach + 120 s"
    expect      = [kept(flap_symmetry), kept(roll_control), never_given(asymmetry_brakes_lost)]
  }
}
