# Check ride 15, avionics_smoke.
claim "ride_smoke_in_the_bay" {
  says   = "Smoke from the bay takes nothing at first. Masks and goggles come from memory, then the turn, control, and one side after the other is shed; neither the last attitude nor the last radio nor the pilots' oxygen goes with it, and the cabin stays low."
  source = "14 CFR 25.1333(b), 25.1439; CS 25.831(d); check ride 15"
  given "left rack" {
    fail = [bay.left_smokes]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [
      told(clear_deck_air), in_order(done(bay_smoke_list, 1), flown("land"), done(bay_smoke_list, 3), done(bay_smoke_list, 4), done(bay_smoke_list, 7)), by(60, flown("land")),
      at(180, !bay_smoke), !done(bay_smoke_list, "8.then.1"), !lost(any_attitude), !lost(radio_contact), !lost(crew_oxygen), always(cabin_altitude_ft < 10500),
    ]
  }
  given "right rack" {
    fail   = [bay.right_smokes]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [done(bay_smoke_list, "8.then.1"), at(400, !bay_smoke), !lost(any_attitude), !lost(radio_contact)]
  }
}
