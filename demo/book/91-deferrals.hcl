# What the Corvane may go with: made up for teaching, with conditions as lists of this
# kind have them (common practice; CS-MMEL gives the method). Two of a pair are never
# broken together. What package dispatch finds wrong with them stands in docs/dispatch.md.

chapter = 21

deferral "dc_source_out" {
  title             = "One DC source inoperative"
  chapter           = 24
  source            = "Corvane list of deferrals, 24-31-1, revision 3, 2026-09-01 (made up; common practice)"
  items             = [tr_left, tr_right]
  category          = "B"
  words_crew        = "Read both DC buses before every start. Not into forecast icing: a dark DC bus takes the heat of its wing along. With the other source lost as well, land at the nearest suitable airfield."
  words_maintenance = "Make sure that the other source, the third one, the emergency generator, the DC tie and the charger work; collar the breaker of the one that does not."
  only_if           = !all(failed(tr_left), failed(tr_right)) && !failed(tr_vital) && !failed(ram_gen) && !failed(dc_tie) && !failed(charger_main) && !failed(battery_main)
}

deferral "pack_left_out" {
  mirror            = true
  title             = "Left pack inoperative"
  source            = "Corvane list of deferrals, 21-51, revision 3, 2026-09-01 (made up; common practice)"
  items             = [pack_left, pack_controller_left]
  category          = "C"
  words_crew        = "Left pack off. One pack would hold the cabin higher, but then nothing is spare for a leak."
  words_maintenance = "Make sure that the left pack valve is shut."
  only_if           = !failed(pack_right) && !failed(pack_controller_right) && !failed(bleed_valve_right)
  most_altitude_ft  = 25000
  not_with          = [bleed_right_out]
  set_up "Left pack off" {
    set = pack_left_switch
    to  = "off"
  }
}

deferral "bleed_left_out" {
  mirror            = true
  title             = "Left bleed inoperative"
  chapter           = 36
  source            = "Corvane list of deferrals, 36-11, revision 3, 2026-09-01 (made up; common practice)"
  items             = [bleed_valve_left, bleed_controller_left]
  category          = "C"
  words_crew        = "Left bleed off, cross-bleed shut: no heat for that wing, stay out of icing. The pack of that side has no air."
  words_maintenance = "Lock the left bleed valve shut; make sure that the cross-bleed valve shuts."
  only_if           = !failed(bleed_valve_right) && !failed(bleed_controller_right) && !failed(cross_bleed_valve)
  most_altitude_ft  = 25000
  no_icing          = true
  set_up "Left bleed off" {
    set = bleed_left_switch
    to  = "off"
  }
  set_up "Cross-bleed shut: nothing feeds the duct of that side" {
    set = cross_bleed_selector
    to  = "shut"
  }
}

deferral "autopilot_out" {
  title      = "One autopilot inoperative"
  chapter    = 22
  source     = "Corvane list of deferrals, 22-11-1, revision 3, 2026-09-01 (made up; common practice)"
  items      = [autopilot_1, autopilot_2]
  category   = "C"
  words_crew = "No approach that asks for both."
  only_if    = !all(failed(autopilot_1), failed(autopilot_2))
}

deferral "boost_pump_out" {
  title             = "One fuel pump inoperative"
  chapter           = 28
  source            = "Corvane list of deferrals, 28-21-1, revision 3, 2026-09-01 (made up; common practice)"
  items             = [boost_left_1, boost_left_2, boost_right_1, boost_right_2]
  category          = "C"
  words_crew        = "With the other pump of the tank lost as well, the engine draws its fuel by itself below 20,000 ft only."
  words_maintenance = "Make sure that the other three pumps and the crossfeed valve work."
  only_if           = !at_least(2, failed(boost_left_1), failed(boost_left_2), failed(boost_right_1), failed(boost_right_2)) && !failed(crossfeed_valve)
  most_altitude_ft  = 30000
}

deferral "radio_altimeter_out" {
  title      = "One radio altimeter inoperative"
  chapter    = 34
  source     = "Corvane list of deferrals, 34-42-1, revision 3, 2026-09-01 (made up; common practice)"
  items      = [radio_alt_1, radio_alt_2]
  category   = "B"
  words_crew = "No automatic landing. Thrust by hand: nothing compares the height by which it would close for the flare."
  only_if    = !all(failed(radio_alt_1), failed(radio_alt_2))
  set_up "Autothrottle off" {
    set = autothrottle_switch
    to  = "off"
  }
}

deferral "brake_channel_out" {
  title             = "One brake channel inoperative"
  chapter           = 32
  source            = "Corvane list of deferrals, 32-42-1, revision 3, 2026-09-01 (made up; common practice)"
  items             = [brake_channel_a, brake_channel_b]
  category          = "C"
  words_crew        = "No automatic brake. Take the landing distance without anti-skid."
  words_maintenance = "Make sure that the other channel passes its test."
  only_if           = !all(failed(brake_channel_a), failed(brake_channel_b))
  set_up "Automatic brake off" {
    set = autobrake_selector
    to  = "off"
  }
}

deferral "wing_heat_out" {
  title             = "One valve of the wing heat inoperative"
  chapter           = 30
  source            = "Corvane list of deferrals, 30-11-1, revision 3, 2026-09-01 (made up; common practice)"
  items             = [wing_heat_valve_left, wing_heat_valve_right]
  category          = "C"
  words_crew        = "Stay out of icing, known or forecast."
  words_maintenance = "Lock the valve shut."
  no_icing          = true
  set_up "Wing heat off" {
    set = wing_ice_switch
    to  = "off"
  }
}

deferral "apu_out" {
  title      = "APU inoperative"
  chapter    = 49
  source     = "Corvane list of deferrals, 49-11-1, revision 3, 2026-09-01 (made up; common practice)"
  items      = [apu, apu_control, apu_starter]
  category   = "C"
  words_crew = "Ground power and air where the engines are started."
  only_if    = !failed(gen_left) && !failed(gen_right)
  set_up "APU off" {
    set = apu_switch
    to  = "off"
  }
}

deferral "landing_light_out" {
  title      = "One landing light inoperative"
  chapter    = 33
  source     = "Corvane list of deferrals, 33-42-1, revision 3, 2026-09-01 (made up; common practice)"
  items      = [landing_light_left, landing_light_right]
  category   = "C"
  words_crew = "By night the other light is enough."
  only_if    = !all(failed(landing_light_left), failed(landing_light_right))
}
