# Procedures of chapter 34.

procedure "airspeeds_differ_drill" {
  title    = "Airspeeds differ"
  chapter  = 34
  priority = 47
  do {
    says        = "Autopilot button: off; attitude and thrust as known for the phase"
    set         = autopilot_button
    to          = "off"
    by          = "PF"
    from_memory = true
    because     = "Attitude and thrust give a safe speed whatever the readings say. The autopilot would follow a wrong one."
  }
  do {
    says        = "Thrust levers: by hand"
    set         = thrust_levers
    to          = "moved by hand"
    by          = "PF"
    from_memory = true
    because     = "The autothrottle believes the left airspeed."
  }
  check {
    that = size(airspeed_1_readout - airspeed_3_readout) < 20 || size(airspeed_2_readout - airspeed_3_readout) < 20
    says = "Standby airspeed: agrees with one side, so that the other is alone"
    by   = "both"
  }
  note {
    says    = "A reading that grows while climbing and falls while descending comes from a closed tube."
    because = "Trapped pressure turns a speed indicator into an altimeter."
  }
  note {
    says    = "A reading that falls while climbing and grows while descending, beside an altitude that stands, comes from closed ports."
    because = "The tube is open and the pressure behind it is the old one."
  }
  decide {
    that = size(airspeed_1_readout - airspeed_2_readout) < 20 || size(airspeed_2_readout - airspeed_3_readout) < 20 || size(airspeed_1_readout - airspeed_3_readout) < 20
    says = "Do two of the three agree?"
    by   = "both"
    then {
      note {
        says = "The pilot with the good side flies, by hand: the autopilot stays off."
      }
    }
    else {
      note {
        says = "Fly attitude and thrust by hand to the landing; ask for the ground speed."
      }
    }
  }
}

procedure "too_fast_drill" {
  title   = "Too fast"
  chapter = 34
  decide {
    that = size(airspeed_1_readout - airspeed_2_readout) > 20 || size(airspeed_1_readout - airspeed_3_readout) > 20 || size(airspeed_2_readout - airspeed_3_readout) > 20
    says = "Does one airspeed disagree with the others?"
    by   = "both"
    then {
      note {
        says    = "It reads wrong: leave this list, begin Airspeeds differ."
        go_to   = airspeeds_differ_drill
        leave   = true
        because = "Who slows down for a tube that is closed slows down into the stall."
      }
    }
    else {
      note {
        says = "The speed is true, or the limit is not: look where the gear lever is."
      }
    }
  }
  decide {
    that = gear_sense_a || gear_sense_b
    says = "Does either gear sensing box work?"
    by   = "PM"
    then {
      do {
        says    = "Thrust levers: by hand, back below the limit"
        set     = thrust_levers
        to      = "moved by hand"
        by      = "PF"
        because = "The warning is most likely true."
      }
    }
    else {
      note {
        says    = "The computers believe that the gear hangs out. Fly below 240 kt and the warning ends; above it, it is false and cannot be silenced."
        because = "A warning that sounds for half an hour wears the crew out. Slower is quieter."
      }
    }
  }
}

procedure "altitudes_differ_drill" {
  title    = "Altitudes differ"
  chapter  = 34
  priority = 47
  check {
    that = size(altitude_1_readout - altitude_3_readout) < 300 && size(altitude_2_readout - altitude_3_readout) < 300
    says = "Compare both altitudes with the standby instrument"
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
}

procedure "air_data_off" {
  title    = "Air data off"
  chapter  = 34
  priority = 46
  decide {
    that = air_data_1
    says = "Does air data 1 work?"
    by   = "PM"
    then {
      note {
        says = "The left pilot flies. Autopilot 2 is gone."
      }
    }
    else {
      note {
        says = "The right pilot flies. Autopilot 1 is gone."
      }
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
  chapter  = 34
  priority = 46
  decide {
    that = !attitude_1_flag
    says = "Does inertial unit 1 work?"
    by   = "PM"
    then {
      note {
        says = "The left pilot flies; no attitude on the right."
      }
    }
    else {
      note {
        says = "The right pilot flies; no attitude on the left."
      }
    }
  }
  note {
    says = "No approach to low minima: nothing is left to compare with."
  }
}

procedure "radio_height_off" {
  title   = "No radio height"
  chapter = 34
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
    that = approach_standard
    says = "Minima: those for an approach without radio height"
    by   = "both"
  }
}

procedure "radio_heights_told_apart_drill" {
  title   = "Radio heights differ"
  chapter = 34
  do {
    says        = "Autothrottle switch: off, thrust levers by hand"
    set         = autothrottle_switch
    to          = "off"
    by          = "PF"
    from_memory = true
    because     = "An autothrottle that believes the lower height may close the levers for a flare that is not there."
  }
  do {
    says = "Terrain warning switch: silent, once the height is sure from altimeter and chart"
    set  = terrain_switch
    to   = "silent"
    by   = "PM"
  }
}

procedure "route_computers_off_drill" {
  title   = "Both route computers off"
  chapter = 34
  note {
    says    = "Navigate by beacons and headings; ask for radar guidance."
    because = "Receivers that follow a beam keep it; others cannot be tuned."
  }
  check {
    that = beam_captured_label == "on the beam"
    says = "ILS label: on the beam? If not, neither localiser nor glide path will come"
    by   = "PM"
  }
}

procedure "terrain_off_drill" {
  title   = "No terrain warning"
  chapter = 34
  note {
    says    = "Keep the published heights; no short cuts below them, day or night."
    because = "Nothing will shout."
  }
}

procedure "too_low_drill" {
  title   = "Too low"
  chapter = 34
  decide {
    that        = real.height_ft > 1000
    says        = "Is the ground in sight and far below, in daylight?"
    if          = !seen.on_ground
    by          = "both"
    from_memory = true
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
      do {
        says        = "Full thrust, nose up, hold until silent"
        set         = thrust_levers
        to          = "moved by hand"
        by          = "PF"
        from_memory = true
        because     = "In doubt it is true."
      }
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
  chapter = 34
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
