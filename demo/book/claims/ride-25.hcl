# Check ride 25, ice protection of one wing, and 26, a burst duct: what an instructor expects (docs/rides.md).

claim "ride_wing_ice" {
  says   = "The valve of one wing stays shut: told within 10 s of switching it on, ice at 0.5 to 3 mm/min, no lamp that says both are heated, and out of the ice the quickest way within 5 min (wing_ice_1 to _3, _5 to _7)."
  source = "14 CFR 25.1419(c), appendix C; common practice"
  given "by the book" {
    fail = [wing_heat_valve_left]
    at   = "descent + 60 s"
    crew = "by_the_book"
    expect = [
      within(10, wing_ice_switch == "on" && real.icing, wing_heat_lost), told(wing_ice_protection), !lost(air_left),
      ever(ice_catch_ratio > 0.0085), always(ice_catch_ratio < 0.05), ever(left_wing_ice_mm > 0.2), always(right_wing_ice_mm < 0.5), !told_wrong(wing_ice_lamp), always(!(left_wing_warm && right_wing_warm)),
      done(wing_heat_list, 2), done(wing_heat_list, "5.later.1"), seconds(real.icing) < 300, flown("descend"), arrives("QSVA"),
    ]
  }
  given "hands off" {
    fail   = [wing_heat_valve_left]
    at     = "descent + 60 s"
    expect = [ever(left_wing_ice_mm > 3), lost(clean_wing), arrives("QSVA")]
  }
}

claim "ride_burst_duct" {
  says   = "A hot air duct bursts in the climb: its bleed shut by itself and told within 10 s, the other side and the cabin hold, bleed off and cross-bleed shut, on with one pack and through no ice that a list does not leave (bleed_duct_1 to _7)."
  source = "14 CFR 25.1309(b); common practice"
  given {
    fail = [duct_left.bursts]
    at   = "climb + 240 s"
    crew = "by_the_book"
    expect = [
      lost(air_left), by(10, leak_left), by(10, bleed_shut_left), !lost(air_right), kept(cabin_pressure), !lost(cabin_air), !lost(sound_wing),
      done(leak_left_list, 2), done(leak_left_list, 3), always(apu_bleed_switch == "off"), at(600, cross_bleed_selector == "shut"),
      !lost(clean_wing), flown("descend"), arrives("QSVA"),
    ]
  }
}
