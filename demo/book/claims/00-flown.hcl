# Claims of whole flights: what fails, what the crew do about it, where they go and what
# that costs. The chapters' claims have nobody's hands; these say whose.

# ----------------------------------------------------------------- the cabin
claim "cabin_seal_by_the_book" {
  says   = "When a cabin seal lets go in the cruise the crew have their masks on before the nose goes down, half a minute after the warning, and are below 10,500 ft five minutes later. The cabin passes 11,000 ft within a minute of the warning, so they drop the cabin masks by hand and do not wait for 13,500 ft. Hands off nobody is left to fly the descent."
  source = "Corvane 71 systems manual 21-30 (fictional)"
  given "by the book" {
    fail = [cabin_wall.leaks]
    at   = "cruise + 600 s"
    crew = "by_the_book"
    expect = [in_order(cabin_high, read(cabin_high_list), done(cabin_high_list, 1), flown("descend"), flown("land")), within(30, cabin_high, flown("descend")), by(60, masks_out), by(340, real.altitude_ft < 10500), kept(cabin_breath), done(cabin_high_list, "3.then.1"), arrives("QSTO")]
  }
  given "hands off" {
    fail   = [cabin_wall.leaks]
    at     = "cruise + 600 s"
    expect = [by(60, masks_out), never_arrives("not_flyable", pilots_awake)]
  }
}

claim "price_of_the_low_level" {
  says   = "With a cabin that cannot be held above 10,000 ft Vardholm takes seventeen minutes and 860 kg more than with the cabin whole, a good part of what was to be left: the spoilers of the descent burn some of it until somebody puts them in. Hands off nobody is awake to land there."
  source = "Corvane 71 systems manual 21-32 (fictional)"
  given "hands off" {
    fail   = [cabin_wall.leaks]
    at     = "cruise + 600 s"
    expect = [closed("QSVA"), closed("QSBR"), first(!pilots_awake) < 300]
  }
  given "by the book" {
    fail   = [cabin_wall.leaks]
    at     = "cruise + 600 s"
    crew   = "by_the_book"
    expect = [open("QSVA"), about(extra_minutes("QSVA"), 17, 1), about(extra_fuel("QSVA"), 862, 20), about(extra_fuel("QSBR"), 470, 25), done(cabin_high_list, "5.later.1"), at(400, spoiler_lever == "in")]
  }
}

claim "no_air_in_the_climb" {
  says   = "Both packs lost in the climb are the end of it: by the list the aircraft stays below 10,000 ft, turns back to Kestrin, and the cabin is never high. Hands off it climbs on into a warning, and nobody is awake for the descent."
  source = "Corvane 71 systems manual 21-33 (fictional)"
  given "by the book" {
    fail   = [pack_left, pack_right]
    at     = "climb + 30 s"
    crew   = "by_the_book"
    expect = [done(pack_lost_list, "1.then.4.later.1"), flown("land"), arrives("QSKE"), always(real.altitude_ft < 10500), never_given(cabin_high)]
  }
  given "hands off" {
    fail   = [pack_left, pack_right]
    at     = "climb + 30 s"
    expect = [given(cabin_high), never_arrives("not_flyable", pilots_awake)]
  }
}

# ------------------------------------------------------------------- engines
claim "engine_below_the_decision_speed" {
  says   = "An engine that fails below the decision speed is the end of the take-off: it stops on the runway. Above it the take-off goes on, whatever is asked, and the aircraft climbs away on the other."
  source = "Corvane 71 flight manual 3-02 (fictional)"
  given "below" {
    fail   = [engine_left]
    when   = real.airspeed_kt >= 110
    crew   = "by_the_book"
    plan   = ["reject @ when real.airspeed_kt >= 115"]
    expect = [by(3, flown("reject")), arrives("QSKE"), always(real.on_ground), by(30, real.ground_speed_kt < 30)]
  }
  given "above" {
    fail   = [engine_left]
    when   = real.airspeed_kt >= 127
    crew   = "by_the_book"
    plan   = ["reject @ when real.airspeed_kt >= 128", "return @ lift_off + 60 s"]
    expect = [!flown("reject"), by(10, !real.on_ground), by(90, real.height_ft > 1000), flown("return"), arrives("QSKE")]
  }
}

claim "back_with_an_engine_out_and_too_heavy" {
  says   = "Back to Kestrin after an engine has failed at lift-off takes ten minutes, and the landing is two tonnes above the greatest landing mass. Holding until the fuel is burnt takes more than an hour."
  source = "Corvane 71 flight manual 3-04 (fictional)"
  given "at once" {
    fail   = [engine_left]
    at     = "lift_off"
    crew   = "by_the_book"
    plan   = ["return @ lift_off + 60 s"]
    expect = [arrives("QSKE"), lands_overweight(), by(600, landing_roll), in_order(left_engine_failed, flown("return"), landing_roll)]
  }
  given "when it is light enough" {
    fail   = [engine_left]
    at     = "lift_off"
    crew   = "by_the_book"
    plan   = ["hold 36,500 kg @ climb + 60 s", "return @ when real.mass_kg < 36600"]
    expect = [arrives("QSKE"), !lands_overweight(), in_order(flown("hold"), flown("return"), landing_roll), first(landing_roll) > 3600]
  }
}

# -------------------------------------------------------------------- gauges
claim "altimeter_that_starts_the_apu" {
  says   = "Static ports that close in the climb leave the left altimeter where it was. When a generator goes in the cruise the crew read that they are low enough, start the APU up there, where it does not light, and end in the list for that. With the altimeter right they wait until they are low, and that list is never read."
  source = "Corvane 71 systems manual 34-11 (fictional)"
  given "the altimeter stands still" {
    fail = [static_left.blocked]
    at   = "climb + 60 s"
    also {
      fail = [gen_left]
      at   = "cruise + 60 s"
    }
    crew = "by_the_book"
    expect = [misled(left_generator_off, "3.else.2"), done(left_generator_off, "3.else.2.then.1"), in_order(misled(left_generator_off, "3.else.2"), apu_no_start, read(apu_no_start_drill)), ever(apu_switch == "run" && real.altitude_ft > 33000)]
  }
  given "it is right" {
    fail   = [gen_left]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [!misled(left_generator_off, "3.else.2"), !read(apu_no_start_drill), done(left_generator_off, "3.else.2.else.1.later.1"), always(apu_switch != "run" || real.altitude_ft < 25500)]
  }
}

# -------------------------------------------------------------------- thrust
claim "levers_that_close_for_no_flare" {
  says   = "Two radio heights that differ are told, and nothing closes the levers on either. With the right altimeter inoperative nothing compares: the left one reads a few feet, and the levers close when the approach is armed. Nobody's hands on them: Low speed, then the stall warning, then the stall, four miles out. By the book the levers are in a hand seconds after the first warning, and it goes around before the speed has fallen that far."
  source = "Corvane 71 systems manual 22-33 (fictional)"
  given "compared, hands off" {
    fail   = [radio_alt_1.reads_low]
    at     = "approach"
    expect = [arrives("QSVA"), told(radio_height), by(10, radio_heights_told_apart), always(!flare_believed)]
  }
  given "not compared, hands off" {
    inoperative = [radio_alt_2]
    fail        = [radio_alt_1.reads_low]
    at          = "approach"
    expect      = [never_arrives("stalls"), by(60, flare_believed), in_order(too_slow, stall)]
  }
  given "not compared, by the book" {
    inoperative = [radio_alt_2]
    fail        = [radio_alt_1.reads_low]
    at          = "approach"
    crew        = "by_the_book"
    expect      = [in_order(flare_believed, flown("go_around")), by(90, flown("go_around")), arrives()]
  }
}

# ---------------------------------------------------------------------- gear
claim "gear_that_cannot_be_raised" {
  says   = "Without the right hydraulic system from lift-off on the gear stays out, and the cruise takes twice its fuel: hands off the aircraft never arrives. No warning says so: the list looks at the light in the lever, and the aircraft is back at Kestrin eleven minutes later. On the runway the forces say hardly more than with all brakes; the manual says nearly twice, and the manual decides: Tolmarry's short runway is long enough, Pell Ridge is not."
  source = "Corvane 71 systems manual 32-20 (fictional)"
  given "hands off" {
    fail   = [reservoir_right]
    at     = "lift_off"
    expect = [at(600, !gear_stowed), never_arrives("out_of_fuel")]
  }
  given "by the book" {
    fail = [reservoir_right]
    at   = "lift_off"
    crew = "by_the_book"
    expect = [
      in_order(done(hyd_right_low_list, "2.else.2"), read(gear_not_followed_list), flown("land")), by(120, flown("land")), arrives("QSKE"), always(!gear_not_followed || gear_lever == "down"),
      about(extra_fuel("QSTO"), 981, 30), open("QSTO"), lands_on("QSTO", "32"),
      about(landing_at("QSTO"), 855, 20), about(manual_landing_at("QSTO"), 1571, 30), about(landing_at("QSPR"), 1775, 30), about(manual_landing_at("QSPR"), 3057, 50), closed("QSPR", "runway"),
    ]
  }
}

claim "gear_valve_at_lift_off" {
  says   = "A gear valve that fails at lift-off leaves the gear out with all its pressure there. The list asks for the fuel, finds that it does not reach, and the aircraft is back at Kestrin within a quarter of an hour; hands off it never arrives."
  source = "Corvane 71 systems manual 32-21 (fictional)"
  given "by the book" {
    fail   = [gear_valve]
    at     = "lift_off"
    crew   = "by_the_book"
    expect = [in_order(gear_not_followed, read(gear_not_followed_list), flown("land")), by(60, flown("land")), arrives("QSKE"), by(900, landing_roll)]
  }
  given "hands off" {
    fail   = [gear_valve]
    at     = "lift_off"
    expect = [never_arrives("out_of_fuel")]
  }
  given "a short way" {
    flight = short_hop
    fail   = [gear_valve]
    at     = "lift_off"
    crew   = "by_the_book"
    expect = [done(gear_not_followed_list, "1.else.2.then.1"), !flown("land"), arrives("QSLA")]
  }
}

claim "reverser_that_takes_an_engine" {
  says   = "A reverser that creeps open in the climb, its other two locks broken unseen, costs its engine, and the list sends the aircraft down at once: back at Kestrin within a quarter of an hour."
  source = "Corvane 71 systems manual 78-05 (fictional)"
  given {
    fail   = [reverse_hook_left.stays_open, reverse_lock_left.stays_open, reverser_left.creeps]
    at     = "climb"
    crew   = "by_the_book"
    expect = [in_order(done(reverser_list, "2.then.1.else.1"), flown("land"), landing_roll), by(60, flown("land")), arrives("QSKE"), by(900, landing_roll)]
  }
}

# --------------------------------------------------------------- electricity
claim "battery_that_the_list_makes_last" {
  says   = "On the island kit the battery lasts for forty-five minutes after all three DC sources are gone. The first line of the list, from memory, makes that more than an hour, which is enough for Kestrin, fifty minutes away."
  source = "Corvane 71 island kit supplement 24-36 (fictional)"
  given "hands off" {
    variant = island_kit
    fail    = [tr_left, tr_right, tr_vital]
    at      = "cruise + 2000 s"
    expect  = [minutes_to("QSKE") > 45, about(first(!dc_vital), 2700, 30)]
  }
  given "by the book" {
    variant = island_kit
    fail    = [tr_left, tr_right, tr_vital]
    at      = "cruise + 2000 s"
    crew    = "by_the_book"
    plan    = ["divert QSKE @ cruise + 2001 s"]
    expect  = [by(30, done(vital_battery_drill, 1)), !ever(!dc_vital) || first(!dc_vital) > 3600, minutes_to("QSKE") > 45]
  }
}

# -------------------------------------------------------------------- rescue
claim "burst_duct_that_no_list_shuts" {
  says   = "When the left duct bursts into the wing and nothing hears it, two moves save the wing until ten minutes are over: the left bleed off, so that nothing more comes, and the cross-bleed shut, so that the other side does not feed the hole. Neither does it alone, and no list that is called says so."
  source = "Corvane 71 systems manual 36-12 (fictional)"
  given {
    fail = [duct_burst]
    at   = "cruise + 60 s"
    expect = [
      lost(sound_wing), about(first(!sound_wing), 600, 3), rescued(sound_wing, "bleed_left_switch=off", "cross_bleed_selector=shut"),
      about(rescue_until(sound_wing, "bleed_left_switch=off", "cross_bleed_selector=shut"), 599, 2), !listed(sound_wing, "bleed_left_switch=off", "cross_bleed_selector=shut"),
      !rescued(sound_wing, "bleed_left_switch=off"), no_rescue(1, sound_wing),
    ]
  }
}

claim "told_over_a_dead_bus" {
  says   = "Smoke is told to the cabin before a bus is switched off against it. With the left DC bus dead and the loudspeakers out from the start nobody in the cabin hears the flight deck, and it is told at the door. What the landing takes without right pressure is not left once the standby pump has brought it back."
  source = "common practice"
  given "smoke on the left" {
    fail   = [bay.left_smokes]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [!not_heard(bay_smoke_list, "4"), in_order(done(bay_smoke_list, "4"), bay_supply_switch == "right only")]
  }
  given "the bus dead before it" {
    fail   = [dc_left, cabin_speakers, hold.smoulders]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [not_heard(smoke_list, "4"), done(smoke_list, "4.else.1")]
  }
  given "the right pump" {
    fail   = [pump_right]
    at     = "climb + 60 s"
    crew   = "by_the_book"
    expect = [done(hyd_right_low_list, "2.then.1"), !done(hyd_right_low_list, "3"), !done(hyd_right_low_list, "3.later.1")]
  }
}
