# Check rides 1 and 3 to 7: electrical power and hydraulics; what an instructor expects (docs/rides.md).

claim "ride_01_all_engines" {
  says   = "With both engines gone in the cruise the emergency source comes by itself, the electric servos move the surfaces, control, cabin and oxygen have their lines, and Tolmarry is reached and stopped at, flyable to the end (all_engines_1, _2, _4 to _12, _15 to _17, _19, _20)."
  source = "14 CFR 25.671(d), 25.735(h), 25.1333(b); CS 25.1351(d)"
  given "in the cruise" {
    fail = [engine_left, engine_right]
    at   = "cruise + 700 s"
    crew = "by_the_book"
    expect = [
      by(30, !gen_left && !gen_right && !hyd_left && !hyd_right), kept(left_flight_display), by(15, ram_gen), in_phase(final, ram_gen || apu_gen),
      by(5, left_engine_failed && right_engine_failed), by(5, all_gens_off), given(cabin_high), kept(pitch_control), kept(roll_control), kept(yaw_control),
      kept(any_attitude), kept(airspeed_left), kept(altitude_left), kept(any_heading), kept(radio_contact), in_phase(landing_roll, battery_left_min > 15),
      in_phase(landing_roll, gear_down), in_phase(landing_roll, brakes), by(180, done(all_generators_off, 9)), by(10, done(all_engines_out_list, 2)), !done(all_engines_out_list, 1),
      done(cabin_high_list, 1), read(all_engines_out_list), arrives("QSTO"), by(1700, landing_roll), first(landing_roll) > 960,
      by(40, done(all_engines_out_list, 6)), in_order(done(cabin_high_list, 1), cabin_altitude_ft > 14000), in_order(done(all_engines_out_list, 11), done(all_engines_out_list, "12.later.2"), done(all_engines_out_list, "13.later.3")), !done(all_engines_out_list, "12.later.1.else.1"),
    ]
  }
  given "on final" {
    fail   = [engine_left, engine_right]
    at     = "final"
    crew   = "by_the_book"
    expect = [by(10, done(all_engines_out_list, 1))]
  }
}

claim "ride_03_one_generator" {
  says   = "One generator costs the galley and a second source: told at once, no bus dead, one reset, the APU where it starts, and on to Vardholm (one_generator_1 to _6)."
  source = "14 CFR 25.1310, 25.1351(b)"
  given {
    fail = [gen_left]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [
      told(two_ac_sources), told(cabin_supply), kept(vital_ac_power), by(5, left_gen_off), never_given(left_ac_off), kept(both_ac_sides), kept(both_dc_sides), kept(left_flight_display), kept(right_flight_display),
      kept(route_guidance), ticks(left_generator_off, 1), done(left_generator_off, "3.else.2.else.1.later.1"), arrives("QSVA"),
    ]
  }
}

claim "ride_04_both_generators" {
  says   = "Both generators: what only follows waits for its cause, so that six alerts come in the first minute; what it would have named the cause names. They go down to where the engines suck their fuel, and land at Tolmarry. What fails by itself beside it is still told (both_generators_1 to _4, _7 to _11)."
  source = "AC 25.1322-1, from memory; 14 CFR 25.671(c), 25.955; CS 25.1351(d)"
  given "by the book" {
    fail = [gen_left, gen_right]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [
      by(5, all_gens_off), by(5, main_dc_lost), by(5, thrust_unmoved_alert), by(15, ram_gen_on), held_back(right_pictures_off), held_back(air_data_2_off), held_back(route_computers_off),
      held_back(data_unit_1_off), held_back(data_unit_2_off), held_back(fuel_pumps_left), held_back(fuel_pumps_right), held_back(trim_lost), held_back(stall_lane_off), held_back(transponder_off),
      held_back(fire_loop_fault), held_back(alert_computer_2_off), held_back(warning_lane_off), held_back(screen_dark), held_back(traffic_off), held_back(second_autopilot_off),
      told(route_guidance), told(transponder_reply), told(pitch_trim), told(fuel_pressure_left), !hidden(fire_watch_left), kept(pitch_control), kept(roll_control), kept(yaw_control), kept(thrust_any),
      by(120, done(all_generators_off, 6)), flown("descend"), arrives("QSTO"),
    ]
  }
  given "and the left pictures by themselves" {
    fail   = [gen_left, gen_right, picture_unit_left]
    at     = "cruise + 60 s"
    expect = [given(left_pictures_off)]
  }
}

claim "ride_04_battery" {
  says   = "All generators, the emergency one too, and a battery worn to a third: told, shed within a minute, and empty after 8 to 20 minutes, not the thirty of the list; the standby attitude has its own cell (battery_1, _2, _4 to _6)."
  source = "CS 25.1303(b)(4), 25.1351(d)"
  given "hands off" {
    inoperative = [battery_main.weak]
    fail        = [gen_left, gen_right, apu_gen, ram_gen]
    at          = "cruise + 60 s"
    expect      = [by(5, main_dc_lost), by(10, vital_battery), by(10, ram_gen_off), about(first(!dc_vital), 600, 5), given(battery_low)]
  }
  given "by the book" {
    inoperative = [battery_main.weak]
    fail        = [gen_left, gen_right, apu_gen, ram_gen]
    at          = "cruise + 60 s"
    crew        = "by_the_book"
    expect      = [by(60, done(all_generators_off, 1)), first(!dc_vital) > 900, first(!dc_vital) < 1200, flown("land"), !flown("go_around"), in_order(battery_low, !dc_vital)]
  }
}

claim "ride_05_second_dc_source" {
  says   = "The second DC source in the climb with the first deferred: both main buses dead and told, the vital bus fed on, no catastrophe hidden, loads shed, control and cabin told, back to Kestrin and stopped there (second_dc_1, _3 to _9, _11, _12; first_dc_1, _2, _4)."
  source = "14 CFR 25.1310, 25.1322(c); CS 25.1351(d)"
  given "the second" {
    inoperative = [tr_left]
    fail        = [tr_right]
    at          = "climb + 120 s"
    crew        = "by_the_book"
    expect = [
      lost(both_dc_sides), by(5, main_dc_lost), told(both_dc_sides), kept(vital_dc_power), first(!bay_cooling) > 300, kept(pitch_control), kept(roll_control), kept(yaw_control),
      kept(left_flight_display), kept(radio_contact), kept(thrust_any), !hidden(terrain_warning), !hidden(antiskid), denied(bay_cooling),
      by(180, done(main_dc_lost_drill, 3)), by(180, done(main_dc_lost_drill, "6.else.3")), by(180, done(main_dc_lost_drill, "6.else.4")), arrives("QSKE"), always(battery_left_min > 25),
    ]
  }
  given "the first" {
    fail   = [tr_left]
    at     = "climb + 120 s"
    expect = [by(5, left_dc_source_off), kept(both_dc_sides), kept(left_flight_display), kept(right_flight_display), arrives("QSVA")]
  }
}

claim "ride_06_essential_bus" {
  says   = "The vital DC bus itself: told within 5 s by a way that it does not feed, the left pictures and every axis stay, the bottles have a feed of their own, its list is read, and on to Vardholm (essential_bus_2 to _8)."
  source = "14 CFR 25.1310(a)(2), 25.1309(b)(1)"
  given {
    fail = [dc_vital]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [by(5, vital_dc_off), told(vital_dc_power), kept(left_flight_display), kept(airspeed_left), kept(altitude_left), kept(any_heading), kept(pitch_control), kept(roll_control), kept(yaw_control), kept(fire_fighting), read(vital_dc_off_drill), arrives("QSVA")]
  }
}

claim "ride_07_hydraulics" {
  says   = "One leak: the fluid told before the pressure goes, the transfer shut, and on. Two: told as a warning, every axis kept by the electric servos, the gear falls, brakes from store, control and cabin told, down at the nearest runway that is long enough (one_hydraulic_1 to _8, two_hydraulic_1 to _8)."
  source = "14 CFR 25.671(c), 25.729(c), 25.735(b), (h)"
  given "one" {
    fail = [reservoir_left.leaks]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [in_order(fluid_left_low, !hyd_left), first(!hyd_left) > 60, first(!hyd_left) < 600, told(hydraulics_left), kept(pitch_control), kept(roll_control), kept(yaw_control), kept(brakes), within(60, fluid_left_low, done(fluid_left_low_list, 1)), kept(hydraulics_right), kept(gear_extension), arrives("QSVA")]
  }
  given "two" {
    fail = [reservoir_left.leaks, reservoir_right.leaks]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [lost(nose_steering), lost(reverse_left), by(600, hyd_both_low), kept(pitch_control), kept(roll_control), kept(yaw_control), in_phase(landing_roll, gear_down), kept(brakes), done(hyd_both_low_list, "4.else.2"), done(hyd_both_low_list, "4.else.3"), arrives("QSKE")]
  }
}
