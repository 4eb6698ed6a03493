# Procedures of chapter 26.

procedure "fire_left_list" {
  title    = "Left engine fire"
  chapter  = 26
  priority = 10
  decide {
    that        = airspeed_1_readout < flight.decision_kt
    says        = "Below the decision speed?"
    if          = take_off_roll || take_off_fast
    by          = "PF"
    from_memory = true
    then {
      note {
        says        = "Stop."
        leg         = "reject"
        by          = "PF"
        from_memory = true
        because     = "A fire is fought on the ground, with the doors open."
      }
    }
    else {
      note {
        says        = "Go on, and fly the aircraft first."
        by          = "PF"
        from_memory = true
      }
    }
  }
  do {
    says        = "Left thrust lever: idle; the levers by hand"
    set         = thrust_levers
    to          = "moved by hand"
    by          = "PF"
    from_memory = true
    wait_for    = airspeed_1_readout < 60 || radio_height_1_readout > 400
    because     = "Below 400 ft both pilots fly, and on the runway they stop first: an engine that burns still gives thrust, and hands that reach for switches do not hold the nose. The autothrottle would give each engine half of what the flight needs."
  }
  do {
    says        = "Left engine run switch: off, when both pilots agree which one"
    set         = engine_left_switch
    to          = "off"
    by          = "both"
    from_memory = true
    because     = "The second look costs two seconds. The wrong engine costs the flight."
  }
  do {
    says        = "Left engine fire handle: pulled"
    set         = fire_handle_left
    to          = "pulled"
    by          = "PM"
    from_memory = true
    because     = "Shuts off fuel, hydraulic fluid and air, and arms the bottles. Before that a bottle does not fire."
  }
  do {
    says        = "Left engine bottle switch: bottle 1"
    set         = bottle_switch_left
    to          = "bottle_1"
    by          = "PM"
    from_memory = true
    because     = "The light takes ten seconds to go out even when all is well."
  }
  decide {
    that   = fire_handle_left_light
    says   = "Still warning after 30 seconds?"
    by     = "both"
    wait_s = 30
    then {
      do {
        says    = "Left engine bottle switch: bottle 2"
        set     = bottle_switch_left
        to      = "bottle_2"
        by      = "PM"
        because = "It is the last one, also for the other engine."
      }
      note {
        says    = "Land at the nearest airfield, whatever the light says."
        leg     = "land"
        if      = !seen.on_ground
        because = "Both bottles are spent. What burns on is nearer to the wing with every minute."
      }
    }
    else {
      note {
        says = "Land at the nearest suitable airfield; the engine stays off."
        leg  = "land"
        if   = !seen.on_ground
      }
    }
  }
  note {
    says    = "Stand still, parking brake set; if it burns on, everybody out, on the side away from the fire."
    if      = seen.on_ground
    by      = "both"
    because = "A fuel fire is through the skin within a minute or two. Nobody waits for a second opinion." # from memory
  }
  tell {
    whom = "control"
    says = "Mayday, engine fire: where we are, what we do, and that we want the fire service."
  }
  tell {
    whom = "cabin"
    says = "An engine fire: stay seated and ready, until you hear from us."
  }
}

procedure "fire_right_list" {
  title    = "Right engine fire"
  chapter  = 26
  priority = 10
  decide {
    that        = airspeed_1_readout < flight.decision_kt
    says        = "Below the decision speed?"
    if          = take_off_roll || take_off_fast
    by          = "PF"
    from_memory = true
    then {
      note {
        says        = "Stop."
        leg         = "reject"
        by          = "PF"
        from_memory = true
        because     = "A fire is fought on the ground, with the doors open."
      }
    }
    else {
      note {
        says        = "Go on, and fly the aircraft first."
        by          = "PF"
        from_memory = true
      }
    }
  }
  do {
    says        = "Right thrust lever: idle; the levers by hand"
    set         = thrust_levers
    to          = "moved by hand"
    by          = "PF"
    from_memory = true
    wait_for    = airspeed_1_readout < 60 || radio_height_1_readout > 400
    because     = "Below 400 ft both pilots fly, and on the runway they stop first: an engine that burns still gives thrust, and hands that reach for switches do not hold the nose. The autothrottle would give each engine half of what the flight needs."
  }
  do {
    says        = "Right engine run switch: off, when both pilots agree which one"
    set         = engine_right_switch
    to          = "off"
    by          = "both"
    from_memory = true
    because     = "The second look costs two seconds. The wrong engine costs the flight."
  }
  do {
    says        = "Right engine fire handle: pulled"
    set         = fire_handle_right
    to          = "pulled"
    by          = "PM"
    from_memory = true
    because     = "Shuts off fuel, hydraulic fluid and air, and arms the bottles. Before that a bottle does not fire."
  }
  do {
    says        = "Right engine bottle switch: bottle 1"
    set         = bottle_switch_right
    to          = "bottle_1"
    by          = "PM"
    from_memory = true
    because     = "The light takes ten seconds to go out even when all is well."
  }
  decide {
    that   = fire_handle_right_light
    says   = "Still warning after 30 seconds?"
    by     = "both"
    wait_s = 30
    then {
      do {
        says    = "Right engine bottle switch: bottle 2"
        set     = bottle_switch_right
        to      = "bottle_2"
        by      = "PM"
        because = "It is the last one, also for the other engine."
      }
      note {
        says    = "Land at the nearest airfield, whatever the light says."
        leg     = "land"
        if      = !seen.on_ground
        because = "Both bottles are spent. What burns on is nearer to the wing with every minute."
      }
    }
    else {
      note {
        says = "Land at the nearest suitable airfield; the engine stays off."
        leg  = "land"
        if   = !seen.on_ground
      }
    }
  }
  note {
    says    = "Stand still, parking brake set; if it burns on, everybody out, on the side away from the fire."
    if      = seen.on_ground
    by      = "both"
    because = "A fuel fire is through the skin within a minute or two. Nobody waits for a second opinion." # from memory
  }
  tell {
    whom = "control"
    says = "Mayday, engine fire: where we are, what we do, and that we want the fire service."
  }
  tell {
    whom = "cabin"
    says = "An engine fire: stay seated and ready, until you hear from us."
  }
}

procedure "fire_apu_list" {
  title    = "APU fire"
  chapter  = 26
  priority = 12
  do {
    says        = "APU fire handle: pulled"
    set         = fire_handle_apu
    to          = "pulled"
    by          = "PM"
    from_memory = true
    because     = "Takes the fuel away; the bay's own bottle goes with the handle."
  }
  do {
    says = "APU switch: off"
    set  = apu_switch
    to   = "off"
    by   = "PM"
  }
}

procedure "smoke_list" {
  title    = "Smoke in the cargo hold"
  chapter  = 26
  priority = 15
  do {
    says        = "Cargo hold bottle switch: fire"
    set         = hold_bottle_switch
    to          = "fire"
    by          = "PM"
    from_memory = true
    because     = "If it is damp, nothing is lost but a bottle. If it is smoke, every minute counts."
  }
  note {
    says    = "The warning stays for at least a minute, whatever the bottle does. Do not wait for it: turn towards the nearest runway."
    leg     = "land"
    if      = !seen.on_ground
    because = "The sensors see smoke, not fire; they cannot tell whether it is out."
  }
  do {
    says    = "Electronics bay fan: leave on"
    set     = bay_fan_switch
    to      = "on"
    by      = "PM"
    because = "It draws air away from the flight deck."
  }
  note {
    says    = "Stand still, parking brake set; everybody out before anybody opens the hold."
    if      = seen.on_ground
    by      = "both"
    because = "Air through an open hold door makes a fire of what smoulders." # common practice
  }
  tell {
    whom = "control"
    says = "Mayday, smoke in the hold: where we are, what we do, and that we want the fire service."
  }
  tell {
    whom = "cabin"
    says = "Smoke in the hold: feel the floor for heat, and make ready for landing."
    if   = !seen.on_ground
  }
  tell {
    whom = "cabin"
    says = "Smoke in the hold: feel the floor for heat, and stand by to leave the aircraft."
    if   = seen.on_ground
  }
}

procedure "fire_watch_list" {
  title   = "No fire detection"
  chapter = 26
  note {
    says    = "From now on the gas temperature, and a look out of the cabin window, are the only fire detection on that engine."
    because = "Both loops are gone. The light cannot come on any more."
  }
  check {
    that = !bottle_1_lamp && !bottle_2_lamp
    says = "Bottle lamps: not lit"
    by   = "PM"
  }
}
