# Procedures of chapters 73, 77 and 79: the engines.

chapter = 73

procedure "engine_failed" {
  title    = "Engine has failed"
  priority = 20
  note {
    says        = "Both engines: leave this list, begin No engine runs."
    if          = left_engine_failed && right_engine_failed || gas_left_readout < 200 && gas_right_readout < 200
    go_to       = all_engines_out_list
    leave       = true
    by          = "PF"
    from_memory = true
    because     = "A run switch that is put off here puts out the engine that might have come back."
  }
  note {
    says        = "Below the decision speed: stop."
    if          = take_off_roll || (take_off_fast && airspeed_1_readout < flight.decision_kt)
    leg         = "reject"
    by          = "PF"
    from_memory = true
    because     = "Below the decision speed the runway that is left is enough to stop on, and not to fly away from."
  }
  do {
    says        = "Above the decision speed, and in the air: fly on. Thrust levers by hand, full thrust as needed, rudder with it; on final land, or go around"
    set         = thrust_levers
    to          = "moved by hand"
    if          = !seen.on_ground || (take_off_fast && airspeed_1_readout > flight.decision_kt + 3)
    by          = "PF"
    from_memory = true
    because     = "The autothrottle gives each engine half of what the flight needs: with one engine that is half."
  }
  note {
    says        = "Rotate; gear up when the climb is seen; hold the take-off safety speed, wings level by rudder. No hand to a switch below 400 ft."
    if          = (take_off_fast && airspeed_1_readout > flight.decision_kt + 3) || lift_off
    by          = "both"
    from_memory = true
    because     = "The climb on one engine is counted at that speed and with the gear up; below 400 ft both pilots fly (14 CFR 25.111(c)(4))."
  }
  note {
    says        = "Down, or climbing away: now the list."
    if          = final || landing_roll
    wait_for    = !final
    by          = "PM"
    from_memory = true
  }
  tell {
    whom = "control"
    says = "Stopped on the runway, an engine has failed; whether we want the fire service."
    if   = seen.on_ground && !landing_roll && !taxi_in
  }
  tell {
    whom = "cabin"
    says = "We have stopped: stay seated, until you hear from us."
    if   = seen.on_ground && !landing_roll && !taxi_in
  }
  decide {
    that = called_by(right_engine_failed)
    says = "Both say the side aloud. Is it the right-hand engine?"
    if   = !(left_engine_failed && right_engine_failed || gas_left_readout < 200 && gas_right_readout < 200)
    by   = "both"
    wait_for = (airspeed_1_readout < 60 || radio_height_1_readout > 400 || !(take_off_fast || lift_off)) && !final && (!cabin_high || outflow_selector == "hold")
    because  = "Below 1,200 ft no list: they land, or go around, and read it after that. Who cannot breathe shuts off no engine: the cabin's list goes first."
    then {
      do {
        says    = "Right engine switch: off, confirmed by both"
        set     = engine_right_switch
        to      = "off"
        by      = "PM"
        sensed  = true
        because = "It shuts the fuel off. The wrong switch makes a glider."
      }
    }
    else {
      do {
        says    = "Left engine switch: off, confirmed by both"
        set     = engine_left_switch
        to      = "off"
        by      = "PM"
        sensed  = true
        because = "It shuts the fuel off. The wrong switch makes a glider."
      }
    }
  }
  decide {
    that = altitude_1_readout < aircraft.apu_light_up_ft
    says = "Below 25,000 ft?"
    by   = "PM"
    then {
      do {
        says    = "APU switch: run"
        set     = apu_switch
        to      = "run"
        by      = "PM"
        because = "The failed engine took its generator with it."
      }
    }
    else {
      later {
        when = altitude_1_readout < aircraft.apu_light_up_ft
        says = "Below 25,000 ft, not before"
        if   = apu_switch == "off"
        do {
          says    = "APU switch: run"
          set     = apu_switch
          to      = "run"
          by      = "PM"
          because = "It does not light in thin air: started too early it only brings a caution, and a hot starter."
        }
      }
    }
  }
  note {
    says    = "Land at the nearest suitable airfield."
    leg     = "land"
    if      = !seen.on_ground
    because = "With one engine left the next failure may be the last (as 14 CFR 121.565 has it: the nearest in point of time)."
  }
  tell {
    whom     = "control"
    says     = "One engine has failed; where we land."
    if       = !seen.on_ground
    wait_for = !cabin_high || outflow_selector == "hold"
  }
  tell {
    whom    = "cabin"
    says    = "One engine has failed; when we land."
    if      = !seen.on_ground && !cabin_high && crew_masks == "stowed" && hold_bottle_switch == "off" && !bay_smokes && !fire_left && !fire_right
    because = "In an emergency descent, or with smoke, they have their orders already, and this would take them back."
  }
  check {
    that     = at_least(2, !gen_left_lamp, !gen_right_lamp, apu_gen_lamp)
    says     = "Two AC sources on line, a minute after the APU switch"
    by       = "PM"
    if       = apu_switch == "run"
    wait_for = apu_gen_lamp || held(apu_switch == "run", 60)
    because  = "The APU takes forty seconds to light: the lamp says nothing before."
  }
  note {
    says    = "Damage or flame-out? What shakes, stands still, loses oil or is too hot is damaged: it stays off. Only a flame that went out is lit again."
    because = "Fuel and fire into a broken engine make two failures of one."
  }
  later {
    in   = approach
    says = "Landing on one engine"
    if   = !seen.on_ground && !(left_engine_failed && right_engine_failed)
    note {
      says    = "Middle flap and its speed until the landing is certain; gear down at the glide path."
      because = "With full flap and the gear out one engine hardly holds the path, and does not climb away from it."
    }
    note {
      says    = "Going around on one engine: full thrust and rudder together, flap to slight, gear up, climb at the go-around speed. Not below 400 ft with full flap."
      because = "The nose swings with the thrust. What hangs out takes the climb."
    }
    note {
      says    = "Heavier than the landing mass: land all the same. Touch down softly, longest runway, brakes as needed; write it up."
      because = "A landing within the strength of the gear is asked for at take-off mass too (14 CFR 25.473: 6 ft/s). Waiting on one engine is the worse risk."
    }
    note {
      says    = "Reverse: the running engine alone, with care, straight first."
      because = "It pulls to its own side, most on a wet runway and at high speed."
    }
  }
  note {
    says    = "The fan turns, and nothing shook or burned: it may be lit again."
    if      = !seen.on_ground && (engine_left_switch == "off" ? fire_handle_left == "in" && fan_left_readout > 5 : fire_handle_right == "in" && fan_right_readout > 5)
    go_to   = relight_list
    because = "One that stands is broken, and turning it does more harm."
  }
  do {
    says    = "The left fan stands: left engine fire handle: pulled"
    set     = fire_handle_left
    to      = "pulled"
    if      = engine_left_switch == "off" && fan_left_readout < 5 && engine_right_switch == "run"
    by      = "both"
    because = "What has broken an engine may have broken its pipes: fuel and fluid are shut off in the wing."
  }
  do {
    says = "The right fan stands: right engine fire handle: pulled"
    set  = fire_handle_right
    to   = "pulled"
    if   = engine_right_switch == "off" && fan_right_readout < 5 && engine_left_switch == "run"
    by   = "both"
  }
}

procedure "relight_list" {
  title    = "Lighting one engine again"
  chapter  = 74
  priority = 40
  later {
    when = altitude_1_readout < aircraft.relight_starter_ft
    says = "Below 20,000 ft, where the starter helps"
    if   = engine_left_switch == "off" || engine_right_switch == "off"
    do {
      says    = "Ignition switch: continuous"
      set     = ignition_switch
      to      = "continuous"
      by      = "PM"
      because = "Above 25,000 ft it does not light at all; between, only above 200 kt."
    }
    do {
      says = "Left engine switch: run"
      set  = engine_left_switch
      to   = "run"
      if   = engine_left_switch == "off" && fire_handle_left == "in"
      by   = "PM"
    }
    do {
      says = "Right engine switch: run"
      set  = engine_right_switch
      to   = "run"
      if   = engine_right_switch == "off" && fire_handle_right == "in"
      by   = "PM"
    }
    decide {
      that   = fan_left_readout > 20 && fan_right_readout > 20
      says   = "Do both engines run, half a minute later?"
      by     = "both"
      wait_s = 40
      then {
        note { says = "Land as decided all the same: what put it out may do so again." }
      }
      else {
        do {
          says = "Left engine switch: off; no second try"
          set  = engine_left_switch
          to   = "off"
          if   = fan_left_readout < 20
          by   = "PM"
        }
        do {
          says = "Right engine switch: off; no second try"
          set  = engine_right_switch
          to   = "off"
          if   = fan_right_readout < 20
          by   = "PM"
        }
      }
    }
  }
}

procedure "all_engines_out_list" {
  title    = "No engine runs"
  priority = 5
  # What is low first: a glide only falls, so one of the two lines applies, never both.
  note {
    says        = "Straight ahead: nose down to the approach speed, and no turn beyond 30 degrees; the runway if it is reached, else what is flattest."
    if          = !seen.on_ground && (lift_off || first_climb || final || altitude_1_readout < flight.from_elevation_ft + 5000)
    by          = "PF"
    from_memory = true
    because     = "Below 5,000 ft above the field a turn costs more height than there is. Who meets the ground wings level and slow has a chance." # common practice
  }
  note {
    says        = "Nose down to the speed of the best glide, 200 kt at least, and turn to the nearest field."
    leg         = "land"
    if          = !seen.on_ground && !(lift_off || first_climb || final || altitude_1_readout < flight.from_elevation_ft + 5000)
    by          = "PF"
    from_memory = true
    because     = "Height is all the fuel that is left. Each turn away from a field is paid with it; at 200 kt and more the wind turns the engines fast enough to be lit."
  }
  do {
    says        = "Ignition switch: continuous"
    set         = ignition_switch
    to          = "continuous"
    by          = "PM"
    from_memory = true
    because     = "An engine that went out for want of fuel lights by itself when the fuel comes back."
  }
  do {
    says        = "Vital load switch: reduced"
    set         = vital_load_switch
    to          = "reduced"
    if          = vital_load_switch != "reduced"
    by          = "PM"
    from_memory = true
    because     = "No engine, no generator: the battery has to last for the whole glide."
  }
  do {
    says        = "To the cabin, by announcement and aloud: brace, brace."
    if          = lift_off || first_climb
    by          = "PM"
    from_memory = true
    because     = "From below 2,000 ft it is a minute to the ground, and the list does not come so far."
  }
  tell {
    whom = "control"
    says = "Mayday, no engine; where we glide to."
    if   = !seen.on_ground
  }
  note {
    says    = "Run switches: leave them at run."
    if      = altitude_1_readout >= aircraft.relight_ceiling_ft
    by      = "PM"
    because = "Above 25,000 ft nothing lights that has gone out, and off puts out a flame that may still be there."
  }
  later {
    when = altitude_1_readout < aircraft.apu_light_up_ft
    says = "Below 25,000 ft, not before"
    do {
      says    = "APU switch: run"
      set     = apu_switch
      to      = "run"
      by      = "PM"
      because = "It has a battery of its own to start from, and feeds both AC buses, the igniters among them."
    }
    do {
      says    = "Standby pump switch: on"
      set     = standby_pump_switch
      to      = "on"
      by      = "PM"
      because = "Engines that stand press no fluid. It is the one source of pressure that needs none of them, as soon as there is AC power."
    }
  }
  later {
    when = altitude_1_readout < aircraft.relight_ceiling_ft
    says = "Below 25,000 ft with 200 kt: what stands, by the wind"
    do {
      says    = "Left engine switch: off"
      set     = engine_left_switch
      to      = "off"
      if      = !seen.on_ground && fan_left_readout < 20 && fire_handle_left == "in" && engine_left_switch == "run"
      by      = "PM"
      because = "Off clears what has shut the fuel, run opens it again; it takes twenty seconds to light. One that has burned is left alone."
    }
    do {
      says    = "Left engine switch: run"
      set     = engine_left_switch
      to      = "run"
      if      = !seen.on_ground && fan_left_readout < 20 && fire_handle_left == "in"
      by      = "PM"
    }
    do {
      says    = "Right engine switch: off"
      set     = engine_right_switch
      to      = "off"
      if      = !seen.on_ground && fan_right_readout < 20 && fire_handle_right == "in" && engine_right_switch == "run"
      by      = "PM"
    }
    do {
      says    = "Right engine switch: run"
      set     = engine_right_switch
      to      = "run"
      if      = !seen.on_ground && fan_right_readout < 20 && fire_handle_right == "in"
      by      = "PM"
    }
  }
  later {
    when = altitude_1_readout < aircraft.apu_air_ft
    says = "Below 17,000 ft: what stands, with the APU's air"
    do {
      says    = "APU bleed switch: on"
      set     = apu_bleed_switch
      to      = "on"
      if      = !seen.on_ground && apu_switch == "run" && fan_left_readout < 20 && fan_right_readout < 20
      by      = "PM"
      because = "Its air turns the starters, at any speed."
    }
    do {
      says    = "Left engine switch: off"
      set     = engine_left_switch
      to      = "off"
      if      = !seen.on_ground && fan_left_readout < 20 && fire_handle_left == "in" && engine_left_switch == "run"
      by      = "PM"
      because = "A second try, with the starter. There is no third: from here on the field counts."
    }
    do {
      says    = "Left engine switch: run"
      set     = engine_left_switch
      to      = "run"
      if      = !seen.on_ground && fan_left_readout < 20 && fire_handle_left == "in"
      by      = "PM"
    }
    do {
      says    = "Right engine switch: off"
      set     = engine_right_switch
      to      = "off"
      if      = !seen.on_ground && fan_right_readout < 20 && fire_handle_right == "in" && engine_right_switch == "run"
      by      = "PM"
    }
    do {
      says    = "Right engine switch: run"
      set     = engine_right_switch
      to      = "run"
      if      = !seen.on_ground && fan_right_readout < 20 && fire_handle_right == "in"
      by      = "PM"
    }
    check {
      that   = fan_left_readout > 20 || fan_right_readout > 20
      says   = "An engine runs up; it stays up on one, and lands all the same"
      if     = !seen.on_ground
      by     = "both"
      wait_s = 30
    }
  }
  tell {
    whom = "cabin"
    says = "Prepare for an emergency landing, and how many minutes are left."
    if   = !seen.on_ground
    else {
      note { says = "Nothing answers: tell it at the door." }
    }
  }
  later {
    when = altitude_1_readout < 6000
    says = "Below 6,000 ft: the landing is made ready now, not on the roll"
    decide {
      that    = altitude_1_readout > 350 * distance_readout
      says    = "Is the field in reach: 350 ft of height for each mile?"
      if      = !seen.on_ground && fan_left_readout < 20 && fan_right_readout < 20
      by      = "PF"
      because = "Asked while there is height: what lies ahead is chosen above 2,000 ft, or it is not chosen." # common practice
      then {
        note {
          says = "To the field: no turn away from it; gear when it is made."
          by   = "PF"
        }
      }
      else {
        note {
          says = "No field is reached: gear up, into the wind along the swell or the fields, slow, wings level; outflow valve shut on water."
          by   = "PF"
        }
      }
      unknown {
        note {
          says = "By eye: a field that climbs in the window is not reached. Then gear up, into the wind, slow, wings level; outflow valve shut on water."
          by   = "PF"
        }
      }
    }
    tell {
      whom = "cabin"
      says = "The landing comes, without engines. Brace when we call."
      if   = !seen.on_ground && fan_left_readout < 20 && fan_right_readout < 20
      else {
        note { says = "Nothing answers: tell it at the door." }
      }
    }
  }
  later {
    when = approach || final
    says = "When the field is made"
    do {
      says    = "Gear lever: down"
      set     = gear_lever
      to      = "down"
      if      = !seen.on_ground && fan_left_readout < 20 && fan_right_readout < 20
      by      = "PM"
      because = "Late enough that its drag does not cost the field, early enough for the handle."
    }
    do {
      says    = "No pressure: alternate gear handle: pulled; slats and flaps as far as they go"
      set     = alternate_gear_handle
      to      = "pulled"
      if      = !seen.on_ground && fan_left_readout < 20 && fan_right_readout < 20 && !(nose_gear_lamp && left_gear_lamp && right_gear_lamp)
      by      = "PM"
      wait_s  = 20
      because = "The gear falls by its own weight; what hangs out does not go up again."
    }
    do {
      says        = "To the cabin, by announcement and aloud: brace, brace."
      if          = !seen.on_ground && fan_left_readout < 20 && fan_right_readout < 20
      wait_for    = radio_height_1_readout < 500
      by          = "PM"
      from_memory = true
    }
  }
}

procedure "engine_surge" {
  title    = "Engine surges"
  priority = 30
  do {
    says        = "Thrust levers: by hand, back until the surging stops"
    set         = thrust_levers
    to          = "moved by hand"
    by          = "PF"
    from_memory = true
    because     = "Less fuel gives the compressor room to recover."
  }
  do {
    says    = "Ignition switch: continuous"
    set     = ignition_switch
    to      = "continuous"
    by      = "PM"
    because = "So that a flame that is blown out is lit again."
  }
  check {
    that = gas_left_readout < 800 && gas_right_readout < 800
    says = "Exhaust gas temperature normal, thrust follows the lever"
    by   = "both"
  }
}

procedure "oil_pressure_low" {
  title   = "Engine oil pressure low"
  chapter = 79
  decide {
    that     = called_by(right_oil_low) ? oil_heat_right_readout < 100 : oil_heat_left_readout < 100
    says     = "Is it true? A falling oil pressure brings a rising oil temperature within a minute; a chafed wire does not. Is it steady?"
    by       = "both"
    wait_for = called_by(right_oil_low) ? oil_heat_right_readout >= 100 || held(right_oil_low, 50) : oil_heat_left_readout >= 100 || held(left_oil_low, 50)
    then {
      note {
        says    = "Believe the engine, not the sender: keep it running and watch it."
        because = "An engine stopped for a broken wire is a real failure made by hand."
      }
    }
    else {
      decide {
        that = called_by(right_oil_low)
        says = "Both say the side aloud. Is it the right-hand engine?"
        by   = "both"
        then {
          do {
            says    = "Right engine switch: off, confirmed by both, within three minutes"
            set     = engine_right_switch
            to      = "off"
            by      = "PM"
            sensed  = true
            because = "A running engine without oil seizes after three minutes and is then of no use even windmilling."
          }
        }
        else {
          do {
            says    = "Left engine switch: off, confirmed by both, within three minutes"
            set     = engine_left_switch
            to      = "off"
            by      = "PM"
            sensed  = true
            because = "A running engine without oil seizes after three minutes and is then of no use even windmilling."
          }
        }
      }
      do {
        says    = "Thrust levers: by hand; down to the level that one engine holds"
        set     = thrust_levers
        to      = "moved by hand"
        by      = "PF"
        because = "The autothrottle gives each engine half of what the flight needs."
      }
      note {
        says = "Land at the nearest suitable airfield."
        leg  = "land"
        if   = !seen.on_ground
      }
      tell {
        whom = "control"
        says = "One engine is shut down; where we land, and the level that we can hold."
      }
      tell {
        whom = "cabin"
        says = "One engine is shut down; when we land."
        if   = !cabin_high && crew_masks == "stowed" && hold_bottle_switch == "off" && !fire_left && !fire_right
      }
    }
  }
}

procedure "left_runs_up_list" {
  title    = "Left engine runs up"
  mirror   = true
  priority = 8
  note {
    says        = "Left lever back. Below the decision speed: stop."
    if          = take_off_roll || (take_off_fast && airspeed_1_readout < flight.decision_kt)
    leg         = "reject"
    by          = "PF"
    from_memory = true
  }
  do {
    says        = "Left engine switch: off, when both pilots agree which one"
    set         = engine_left_switch
    to          = "off"
    if          = seen.on_ground || radio_height_1_readout > 400 || altitude_1_readout > 5000
    by          = "both"
    from_memory = true
    because     = "The lever moves nothing; only its fuel stops it. On the ground it pulls off the runway."
  }
  note {
    says    = "One engine: land at the nearest suitable airfield."
    leg     = "land"
    if      = !seen.on_ground
    because = "The other one is well, and alone."
  }
}
