# Procedures of chapter 34.

chapter = 34

procedure "airspeeds_differ_drill" {
  title    = "Which airspeed is true?"
  priority = 47
  note {
    says        = "Slow in the roll: stop."
    leg         = "reject"
    if          = take_off_roll || (take_off_fast && ground_speed_readout < 100)
    by          = "PF"
    from_memory = true
    because     = "With two speeds that differ nobody knows when to rotate, and there is runway left."
  }
  do {
    says        = "Autopilot button: off; attitude and thrust as known for the phase"
    set         = autopilot_button
    to          = "off"
    if          = autopilot_button != "off" || thrust_levers != "moved by hand"
    by          = "PF"
    from_memory = true
    because     = "Attitude and thrust give a safe speed whatever the readings say. The autopilot would follow a wrong one."
  }
  do {
    says        = "Thrust levers: by hand"
    set         = thrust_levers
    to          = "moved by hand"
    if          = thrust_levers != "moved by hand"
    by          = "PF"
    from_memory = true
    because     = "The autothrottle believes the left airspeed."
  }
  check {
    that = size(airspeed_1_readout - airspeed_3_readout) < 20 || size(airspeed_2_readout - airspeed_3_readout) < 20
    says = "Standby airspeed: agrees with one side, so that the other is alone"
    if   = !final && !seen.on_ground
    by   = "both"
  }
  note {
    says    = "A reading that grows while climbing and falls while descending comes from a closed tube; one that does the contrary, beside an altitude that stands, from closed ports."
    if      = !final && !seen.on_ground
    because = "Trapped pressure turns a speed indicator into an altimeter; behind closed ports the pressure is the old one."
  }
  decide {
    that = ((size(airspeed_1_readout - airspeed_3_readout) < 20 && size(altitude_1_readout - altitude_3_readout) < 300) || (size(airspeed_2_readout - airspeed_3_readout) < 20 && size(altitude_2_readout - altitude_3_readout) < 300)) && size(altitude_3_readout - satellite_height_readout) < 300 + satellite_height_readout / 15 && airspeed_3_readout < ground_speed_readout + 90
    compares = true
    says = "Does one side agree with the standby in speed and in height, and the standby with the satellite altitude and the ground speed?"
    if   = !final && !seen.on_ground
    by   = "both"
    then {
      tell {
        whom = "control"
        says = "One airspeed is wrong; we fly on with two."
        by   = "PM"
      }
      note { says = "The pilot with the good side flies, by hand: the autopilot stays off." }
    }
    else {
      tell {
        whom = "control"
        says = "Airspeed and height unreliable; ask for heights and ground speed, clear of others."
        by   = "PM"
      }
      note {
        says    = "Fly attitude and thrust by hand; heights from the radio height, the satellite altitude and control. Land."
        leg     = "land"
        if      = !seen.on_ground
        because = "Boxes that agree may all be wrong: tape over the ports closes both sides alike."
      }
    }
  }
}

procedure "no_airspeed_drill" {
  title    = "No airspeed in the roll"
  priority = 5
  note {
    says        = "Stop."
    leg         = "reject"
    if          = take_off_roll || take_off_fast
    by          = "PF"
    from_memory = true
    because     = "Slow, there is runway for it. In the air the tube goes on lying, with height instead of speed."
  }
  tell {
    whom = "control"
    says = "Stopping: no airspeed."
  }
}

procedure "too_slow_drill" {
  title    = "Low speed"
  priority = 10
  do {
    says        = "Attitude and thrust as known for the phase: thrust levers: by hand"
    set         = thrust_levers
    to          = "moved by hand"
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "Right whether the speed is low or only reads so."
  }
  decide {
    that = airspeed_3_readout < (flap_lever == "up" ? 190 : flap_lever == "full" ? flight.approach_kt - 5 : flap_lever == "middle" ? flight.approach_kt + 5 : flight.rotate_kt + 8) && size(airspeed_1_readout - airspeed_3_readout) < 20 && size(altitude_1_readout - altitude_3_readout) < 300 && size(altitude_3_readout - satellite_height_readout) < 300 + satellite_height_readout / 15 && airspeed_3_readout > ground_speed_readout / 2
    compares = true
    says = "Is the standby slow too, and do speeds and heights agree with it, the height with the satellite altitude, the speed with the ground speed?"
    by   = "both"
    from_memory = true
    because = "Before the list is found: the reading of a closed tube grows in the climb, and passes the true speed."
    then {
      note { says = "It is true: nose down, thrust up, 20 kt more." }
      note {
        says    = "Go around."
        leg     = "go_around"
        if      = approach || final
        because = "What slowed the aircraft down is not known yet."
      }
    }
    else {
      note {
        says    = "It reads wrong: leave this list, begin Which airspeed is true?"
        go_to   = airspeeds_differ_drill
        leave   = true
        because = "Who lowers the nose for ports that are closed flies into the ground."
      }
    }
  }
}

procedure "too_fast_drill" {
  title    = "Overspeed"
  priority = 15
  decide {
    that = size(airspeed_1_readout - airspeed_2_readout) > 20 || size(airspeed_1_readout - airspeed_3_readout) > 20 || size(airspeed_2_readout - airspeed_3_readout) > 20 || airspeed_1_readout > ground_speed_readout + 90
    compares = true
    says = "Does one airspeed differ from the others, or all of them with the ground speed?"
    by   = "both"
    then {
      note {
        says    = "No side agrees with the standby, or none with the ground speed: attitude and thrust; land at the nearest suitable airfield."
        leg     = "land"
        if      = (size(airspeed_1_readout - airspeed_3_readout) > 20 && size(airspeed_2_readout - airspeed_3_readout) > 20) || airspeed_3_readout > ground_speed_readout + 90
        because = "Two tubes are closed, or three: the list has perhaps been done while they passed the true speed."
      }
      note {
        says    = "It reads wrong: leave this list, begin Which airspeed is true?"
        go_to   = airspeeds_differ_drill
        leave   = true
        because = "Who slows down for a tube that is closed slows down into the stall."
      }
    }
    else {
      note { says = "The speed is true, or the limit is not: look where the gear lever is." }
    }
  }
  decide {
    that = airspeed_1_readout > between(altitude_1_readout, 28320, 315, 30000, 304, 32000, 291, 34000, 278, 37000, 260)
    says = "Is the speed above the greatest operating speed, 315 kt or Mach 0.80?"
    by   = "PM"
    then {
      do {
        says    = "Thrust levers: by hand, back below the limit"
        set     = thrust_levers
        to      = "moved by hand"
        by      = "PF"
        because = "The warning is true."
      }
    }
    else {
      do {
        says    = "The computers believe that the gear hangs out. Overspeed warning cancel button: pressed; below 240 kt by and by"
        set     = overspeed_button
        to      = "pressed"
        by      = "PM"
        because = "A warning that sounds for half an hour wears the crew out. It speaks again above 320 kt."
      }
    }
  }
}

procedure "attitudes_differ_list" {
  title    = "Attitudes differ"
  priority = 6
  do {
    says        = "Autopilot button: off; wings level by the standby horizon"
    set         = autopilot_button
    to          = "off"
    by          = "PF"
    from_memory = true
    because     = "It would roll to what the false one calls level."
  }
  decide {
    that = size(bank_left_shown - bank_standby_shown) < 4
    says = "Does the left horizon agree with the standby?"
    by   = "both"
    then {
      note { says = "The left pilot flies; the right horizon is false unless all three agree." }
    }
    else {
      note { says = "The right pilot flies, if that horizon agrees with the standby; else by the standby alone." }
    }
  }
  note { says = "No approach to low minima, and no autopilot: nothing is left to compare with." }
}

procedure "altitudes_differ_drill" {
  title    = "Altitudes differ"
  priority = 47
  do {
    says    = "Autopilot button: off; keep the level by the standby altitude"
    set     = autopilot_button
    to      = "off"
    by      = "PF"
    because = "It would hold the height that reads wrong."
  }
  check {
    that = size(altitude_1_readout - altitude_3_readout) < 300 && size(altitude_2_readout - altitude_3_readout) < 300
    says = "Compare both altitudes with the standby, and the standby with the satellite altitude"
    by   = "both"
  }
  decide {
    that = size(altitude_1_readout - altitude_3_readout) < 300
    says = "Is the left altitude true?"
    by   = "both"
    then {
      do {
        says    = "Transponder selector: 1"
        set     = transponder_selector
        to      = "1"
        by      = "PM"
        because = "Others see the altitude that the transponder sends."
      }
    }
    else {
      do {
        says    = "Transponder selector: 2"
        set     = transponder_selector
        to      = "2"
        by      = "PM"
        because = "Others see the altitude that the transponder sends."
      }
    }
  }
  tell {
    whom = "control"
    says = "Altitudes differ; ask which height is seen, and not for levels where two aircraft pass close."
    by   = "PM"
  }
}

procedure "air_data_off" {
  title    = "Air data off"
  priority = 46
  decide {
    that = !called_by(air_data_1_off)
    says = "Does air data 1 work?"
    by   = "PM"
    then {
      note { says = "The left pilot flies. Autopilot 2 is gone." }
    }
    else {
      note { says = "The right pilot flies. Autopilot 1 is gone." }
      do {
        says    = "Transponder selector: 2"
        set     = transponder_selector
        to      = "2"
        by      = "PM"
        because = "Transponder 1 has no altitude to send."
      }
    }
  }
  check {
    that = size(airspeed_1_readout - airspeed_2_readout) < 20 || size(airspeed_2_readout - airspeed_3_readout) < 20 || size(airspeed_1_readout - airspeed_3_readout) < 20
    says = "Compare what is left with the standby instrument"
    by   = "both"
  }
}

procedure "inertial_off" {
  title    = "Inertial unit off"
  priority = 46
  decide {
    that = !attitude_1_flag
    says = "Does inertial unit 1 work?"
    by   = "PM"
    then {
      note { says = "The left pilot flies; no attitude on the right." }
    }
    else {
      note { says = "The right pilot flies; no attitude on the left." }
    }
  }
  note { says = "No approach to low minima: nothing is left to compare with." }
}

procedure "radio_height_off" {
  title   = "No radio height"
  note {
    says    = "PM calls 1,000, 600, 200 and 50 ft from the altimeter and the chart."
    because = "There are no height calls and no terrain warning close to the ground."
  }
  do {
    says    = "Autothrottle switch: off before 50 ft"
    set     = autothrottle_switch
    to      = "off"
    by      = "PF"
    because = "It cannot know the flare without radio height."
  }
  check {
    says = "Minima: those for an approach without radio height"
    by   = "both"
  }
}

procedure "radio_heights_told_apart_drill" {
  title   = "Radio heights differ"
  do {
    says        = "Autothrottle switch: off, thrust levers by hand"
    set         = autothrottle_switch
    to          = "off"
    by          = "PF"
    from_memory = true
    because     = "An autothrottle that believes the lower height may close the levers for a flare that is not there."
  }
  note {
    says    = "PM calls heights from the altimeter and the chart. No approach to low minima."
    because = "No box uses two heights that differ: there are no height calls and no terrain warning near the ground."
  }
}

procedure "route_computers_off_drill" {
  title   = "Both flight management computers off"
  note {
    says    = "Navigate by VOR and headings; ask for radar guidance."
    because = "Receivers that follow a beam keep it; others cannot be tuned."
  }
  check {
    that = beam_captured_label == "on the beam"
    says = "ILS label: on the beam? If not, localiser and glide path stay away"
    by   = "PM"
  }
}

procedure "terrain_off_drill" {
  title   = "No terrain warning"
  note {
    says    = "Keep the published heights; no short cuts below them, day or night."
    because = "Nothing will shout."
  }
}

procedure "too_low_drill" {
  title    = "Too low"
  priority = 2
  do {
    says        = "Full thrust, nose up, wings level, hold until silent"
    set         = thrust_levers
    to          = "moved by hand"
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "In doubt it is true: there is no time to look for reasons first."
  }
  note {
    says    = "Go around."
    leg     = "go_around"
    if      = !seen.on_ground && (approach || final)
    because = "The approach is begun again from a height that is known."
  }
  decide {
    that = seen.outside_visible && altitude_3_readout > 5000 && size(altitude_3_readout - satellite_height_readout) < 300 + satellite_height_readout / 15
    says = "Is the ground in sight and far below, in daylight?"
    if   = !seen.on_ground
    by   = "both"
    then {
      do {
        says    = "Terrain warning switch: silent"
        set     = terrain_switch
        to      = "silent"
        by      = "PM"
        because = "A warning that is known to be false takes the ears from those that are not. From here on no terrain warning at all."
      }
    }
    else {
      note { says = "Climb to the safe height of the sector." }
    }
  }
  note {
    says    = "On the ground it is false: leave the switch, and have the radio altimeters looked at."
    if      = seen.on_ground
    because = "Full thrust on the ground answers nothing."
  }
}

procedure "transponder_off_drill" {
  title   = "Selected transponder off"
  do {
    says    = "Transponder selector: the other one"
    set     = transponder_selector
    to      = "1"
    by      = "PM"
    sensed  = true
    because = "Transponder 1 lives from the vital bus."
  }
  check {
    that = transponder_lamp
    says = "Reply lamp on"
    by   = "PM"
  }
}
