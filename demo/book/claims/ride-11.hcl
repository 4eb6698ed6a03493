# Check rides 11 to 13, the cabin: what an instructor expects (docs/rides.md).

claim "ride_both_packs" {
  says   = "Both packs lost: told within 10 s, the cabin climbs by its leak alone and passes 10,000 ft after 1 to 8 min, told as a warning. By the list the crew are on their way down before it, nothing passes 15,000 ft, the bay is looked after, and they land nearer (both_packs_1 to _9)."
  source = "14 CFR 25.841, 25.1322(b); common practice"
  given "hands off" {
    fail   = [pack_left, pack_right]
    at     = "cruise + 60 s"
    expect = [by(10, pack_left_lost), by(10, pack_right_lost), first(cabin_altitude_ft > 10000) > 60, first(cabin_altitude_ft > 10000) < 480, within(10, cabin_altitude_ft > 10000, cabin_high), first(masks_out) > 480, lost(cabin_air)]
  }
  given "by the book" {
    fail   = [pack_left, pack_right]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [by(120, flown("descend")), always(cabin_altitude_ft < 15000), never_given(masks_are_out), done(pack_lost_list, "1.then.5"), done(pack_lost_list, "1.then.6"), arrives("QSTO")]
  }
}

claim "ride_one_pack" {
  says   = "One pack: told within 10 s, one reset, no higher than 31,000 ft, on to Vardholm with 3 to 15 % more of the 3,051 kg, and the cabin stays where it should. A pack that only tripped comes back, and nobody goes lower (one_pack_1 to _6)."
  source = "14 CFR 25.841(a); common practice"
  given "for good" {
    fail = [pack_left]
    at   = "climb + 300 s"
    crew = "by_the_book"
    expect = [
      by(10, pack_left_lost), in_order(done(pack_lost_list, "1.else.1"), done(pack_lost_list, "1.else.3"), done(pack_lost_list, "1.else.5")), always(real.altitude_ft < 31700),
      always(cabin_altitude_ft < 8000), never_given(cabin_high), times(pack_left_lost) < 2, arrives("QSVA"), in_phase(landing_roll, real.fuel_kg < 2157 && real.fuel_kg > 1792),
    ]
  }
  given "tripped" {
    fail       = [pack_left]
    at         = "climb + 300 s"
    resettable = true
    crew       = "by_the_book"
    expect     = [given(pack_left_lost), at(180, pack_left), !flown("descend")]
  }
}

claim "ride_rapid_loss" {
  says   = "A hole in the hull: the cabin passes 14,000 ft within 2 min and 10,000 ft with a warning, masks before all else, the descent 10 to 60 s after the warning, passengers' masks before 15,000 ft, 10,000 ft within 6 min, oxygen for 10 min and for 2 h, then the nearest that suits (rapid_loss_1 to _9)."
  source = "14 CFR 25.841, 25.1447(c), 121.329, 121.333; AC 25-20; common practice"
  given "by the book" {
    fail = [cabin_wall.leaks]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [
      first(cabin_altitude_ft > 14000) > 10, first(cabin_altitude_ft > 14000) < 120, told(cabin_pressure), within(2, cabin_altitude_ft > 10000, cabin_high),
      in_order(cabin_high, crew_masks == "on", flown("descend"), flown("land")), first(flown("descend")) - first(cabin_high) > 10, within(60, cabin_high, flown("descend")),
      in_order(masks_out, cabin_altitude_ft > 15000), done(cabin_high_list, "3.then.1"), first(real.altitude_ft < 10500) > 150, by(360, real.altitude_ft < 10500),
      done(cabin_high_list, "5.later.2"), always(cabin_altitude_ft < 25000), kept(pilots_awake), kept(cabin_breath), kept(crew_oxygen), arrives("QSTO"),
    ]
  }
  given "hands off, masks on" {
    fail = [cabin_wall.leaks]
    at   = "cruise + 60 s"
    act "Masks on" {
      set  = crew_masks
      to   = "on"
      when = cabin_high
    }
    expect = [first(!cabin_breath) - first(masks_out) > 600, kept(pilots_awake), first(crew_oxygen_l < 2300) > 1080]
  }
}

claim "ride_slow_leak" {
  says   = "A leak just above what both packs feed: nothing is felt, the controller that has shut its valve says so, the cabin passes 10,000 ft at 200 to 1,000 ft/min with a warning, the masks fall in time. By the lists the valve is held shut, the crew go to a lower level, with masks when the warning sounds (slow_leak_1 to _7)."
  source = "14 CFR 25.841(b)(6), 25.1447(c); common practice"
  given "hands off" {
    fail   = [cabin_wall.seeps]
    at     = "cruise + 60 s"
    expect = [in_order(cabin_climbs, cabin_high), first(cabin_altitude_ft > 10000) > 120, first(cabin_altitude_ft > 10000) < 600, within(30, cabin_altitude_ft > 9790, cabin_high), always(cabin_altitude_ft < 15000 || masks_out)]
  }
  given "hands off, the controllers blind" {
    inoperative = [cabin_controller_1]
    fail        = [cabin_wall.seeps]
    also {
      fail = [cabin_controller_2]
      at   = "cruise + 70 s"
    }
    at     = "cruise + 60 s"
    expect = [ever(cabin_high), told(cabin_pressure)]
  }
  given "by the book" {
    fail   = [cabin_wall.seeps]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [in_order(cabin_climbs, done(cabin_climbs_list, 1), flown("descend"), cabin_high, crew_masks == "on"), always(cabin_altitude_ft < 12000), never_given(masks_are_out), arrives("QSTO")]
  }
}
