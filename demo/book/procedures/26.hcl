# Procedures of chapter 26.

chapter = 26

# One list for both sides: each pilot says the side before it is cut.
procedure "engine_fire_list" {
  title    = "Engine fire"
  priority = 10
  note {
    says        = "Below the decision speed: stop."
    if          = take_off_roll || (take_off_fast && airspeed_1_readout < flight.decision_kt)
    leg         = "reject"
    by          = "PF"
    from_memory = true
    because     = "A fire is fought on the ground, with the doors open. Above the decision speed: go on, and fly the aircraft first."
  }
  do {
    says        = "Thrust lever of that engine: idle; the levers by hand"
    set         = thrust_levers
    to          = "moved by hand"
    by          = "PF"
    from_memory = true
    wait_for    = airspeed_1_readout < 60 || radio_height_1_readout > 400
    because     = "Below 400 ft both pilots fly, and on the runway they stop first: an engine that burns still gives thrust, and hands that reach for switches do not hold the nose. The autothrottle would give each engine half of what the flight needs."
  }
  do {
    says        = "Stand still: parking brake set"
    set         = parking_brake_lever
    to          = "set"
    if          = seen.on_ground
    by          = "PF"
    from_memory = true
  }
  do {
    says        = "Left engine switch: off, when both pilots agree which one"
    set         = engine_left_switch
    to          = "off"
    if          = called_by(fire_left) && (seen.on_ground || !right_engine_failed && engine_right_switch == "run")
    by          = "both"
    from_memory = true
    because     = "The second look costs two seconds. The wrong engine costs the flight, and so does the last one: if the other has failed, what burns and gives thrust stays on until they have landed."
  }
  do {
    says        = "Right engine switch: off, when both pilots agree which one"
    set         = engine_right_switch
    to          = "off"
    if          = called_by(fire_right) && (seen.on_ground || !left_engine_failed && engine_left_switch == "run")
    by          = "both"
    from_memory = true
    because     = "The second look costs two seconds. The wrong engine costs the flight, and so does the last one: if the other has failed, what burns and gives thrust stays on until they have landed."
  }
  do {
    says        = "Left engine fire handle: pulled"
    set         = fire_handle_left
    to          = "pulled"
    if          = called_by(fire_left) && (seen.on_ground || !right_engine_failed && engine_right_switch == "run")
    by          = "PM"
    from_memory = true
    because     = "Shuts off fuel, hydraulic fluid and air, and arms the bottles. Before that a bottle does not fire."
  }
  do {
    says        = "Right engine fire handle: pulled"
    set         = fire_handle_right
    to          = "pulled"
    if          = called_by(fire_right) && (seen.on_ground || !left_engine_failed && engine_left_switch == "run")
    by          = "PM"
    from_memory = true
    because     = "Shuts off fuel, hydraulic fluid and air, and arms the bottles. Before that a bottle does not fire."
  }
  do {
    says        = "Left engine bottle switch: bottle 1"
    set         = bottle_switch_left
    to          = "bottle_1"
    if          = called_by(fire_left) && (seen.on_ground || !right_engine_failed && engine_right_switch == "run")
    by          = "PM"
    from_memory = true
    because     = "The light takes ten seconds to go out even when all is well."
  }
  do {
    says        = "Right engine bottle switch: bottle 1"
    set         = bottle_switch_right
    to          = "bottle_1"
    if          = called_by(fire_right) && (seen.on_ground || !left_engine_failed && engine_left_switch == "run")
    by          = "PM"
    from_memory = true
    because     = "The light takes ten seconds to go out even when all is well."
  }
  note {
    says        = "On the ground: the list Evacuation."
    if          = seen.on_ground
    go_to       = evacuation_list
    leave       = true
    from_memory = true
    because     = "A fuel fire is through the skin within a minute or two. Nobody waits for a second opinion." # from memory
  }
  decide {
    that   = called_by(fire_right) ? fire_handle_right_light : fire_handle_left_light
    says   = "Still warning after 30 seconds?"
    by     = "both"
    wait_s = 30
    then {
      do {
        says    = "Left engine bottle switch: bottle 2"
        set     = bottle_switch_left
        to      = "bottle_2"
        if      = called_by(fire_left) && (seen.on_ground || !right_engine_failed && engine_right_switch == "run")
        by      = "PM"
        because = "It is the last one, also for the other engine."
      }
      do {
        says    = "Right engine bottle switch: bottle 2"
        set     = bottle_switch_right
        to      = "bottle_2"
        if      = called_by(fire_right) && (seen.on_ground || !left_engine_failed && engine_left_switch == "run")
        by      = "PM"
        because = "It is the last one, also for the other engine."
      }
      note {
        says    = "Land at the nearest airfield, whatever the light says."
        leg     = "land"
        if      = !seen.on_ground
        because = "Both bottles are spent. What burns on is nearer to the wing with every minute: as soon as possible counts, not where it suits."
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
  tell {
    whom = "control"
    says = "Mayday, engine fire: where we are, what we do, and that we want the fire service."
    if   = !seen.on_ground
  }
  tell {
    whom = "cabin"
    says = "An engine fire: prepare for landing, and to get out on the runway; how many minutes are left."
    if   = !seen.on_ground
    else {
      note { says = "Nothing answers: tell it at the door." }
    }
  }
  later {
    when = seen.on_ground && (called_by(fire_right) ? fire_handle_right_light : fire_handle_left_light)
    says = "If the warning stands after the landing"
    note {
      says        = "Stop on the runway: the list Evacuation."
      by          = "PF"
      go_to       = evacuation_list
      leave       = true
      from_memory = true
      because     = "It burns next to the fuel. Who taxies first gives it the minutes that people need to get out."
    }
  }
}

# Fire or smoke on the ground. Both engines are cut before a door is opened.
procedure "evacuation_list" {
  title    = "Evacuation"
  priority = 4
  last     = true
  do {
    says        = "Stand still: parking brake set"
    set         = parking_brake_lever
    to          = "set"
    if          = parking_brake_lever != "set"
    wait_for    = airspeed_1_readout < 50
    by          = "PF"
    from_memory = true
    because     = "A slide on a rolling aircraft is of no use."
  }
  do {
    says        = "Outflow valve selector: open"
    set         = outflow_selector
    to          = "open"
    if          = outflow_selector != "open"
    by          = "PM"
    from_memory = true
    because     = "A door does not open against pressure."
  }
  do {
    says        = "Both engine switches: off. Left"
    set         = engine_left_switch
    to          = "off"
    if          = engine_left_switch == "run"
    wait_for    = parking_brake_lever == "set"
    by          = "PM"
    from_memory = true
    because     = "An engine that runs blows people over."
  }
  do {
    says        = "Right"
    set         = engine_right_switch
    to          = "off"
    if          = engine_right_switch == "run"
    wait_for    = parking_brake_lever == "set"
    by          = "PM"
    from_memory = true
  }
  do {
    says        = "Both engine fire handles: pulled. Left"
    set         = fire_handle_left
    to          = "pulled"
    if          = fire_handle_left == "in"
    by          = "PF"
    from_memory = true
    because     = "Fuel and fluid are shut off on both sides, whichever side people leave by."
  }
  do {
    says        = "Right"
    set         = fire_handle_right
    to          = "pulled"
    if          = fire_handle_right == "in"
    by          = "PF"
    from_memory = true
  }
  decide {
    that = (!(fire_handle_left_light || fire_handle_right_light || fire_handle_apu_light || smoke_lamp || bay_smoke_lamp)
      && !fire_watch_lost && (hold_bottle_switch == "off" || smoke_sensors_shown))
    says        = "Is it out, and the detection alive?"
    by          = "both"
    from_memory = true
    because     = "A lamp behind a dead detector says nothing: what is not known to be out burns."
    then {
      tell {
        whom = "cabin"
        says = "Stay seated; the fire service looks at us first. Nobody opens the hold."
        else {
          note { says = "Nothing answers: tell it through the open flight deck door." }
        }
      }
      tell {
        whom = "control"
        says = "Mayday, a fire that seems out; we stand on the runway, and want the fire service."
      }
    }
    else {
      do {
        says        = "Evacuation signal: on"
        by          = "PM"
        from_memory = true
        because     = "It lives from the batteries directly, when announcements have gone with the generators."
      }
      tell {
        whom = "cabin"
        says = "Evacuate, on the side away from the fire."
        else {
          note { says = "Nothing answers: open the flight deck door, and order it by voice and megaphone." }
        }
      }
      tell {
        whom = "control"
        says = "Mayday, fire, we get out on the runway: the fire service."
      }
      do {
        says = "Left engine bottle switch: bottle 2"
        set  = bottle_switch_left
        to   = "bottle_2"
        if   = fire_handle_left_light
        by   = "PM"
      }
      do {
        says = "Right engine bottle switch: bottle 2"
        set  = bottle_switch_right
        to   = "bottle_2"
        if   = fire_handle_right_light
        by   = "PM"
      }
      do {
        says = "Emergency lights switch: on"
        set  = emergency_lights_switch
        to   = "on"
        by   = "PM"
      }
      do {
        says    = "Power off: APU switch off, vital load switch reduced, and out"
        set     = apu_switch
        to      = "off"
        by      = "PM"
        because = "Last, because the calls and the lights have gone out before it. No system's list is begun any more."
      }
    }
  }
}

procedure "fire_apu_list" {
  title    = "APU fire"
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
  decide {
    that   = fire_handle_apu_light
    says   = "Still warning after 30 seconds?"
    by     = "both"
    wait_s = 30
    then {
      note {
        says = "Land at the nearest suitable airfield."
        leg  = "land"
        if   = !seen.on_ground
      }
      note {
        says  = "On the ground: the list Evacuation."
        if    = seen.on_ground
        go_to = evacuation_list
      }
    }
    else {
      note { says = "It is out. The APU stays off, and its bottle is spent." }
    }
  }
  tell {
    whom = "control"
    says = "An APU fire, and whether it is out."
  }
}

procedure "smoke_list" {
  title    = "Smoke in the cargo hold"
  priority = 15
  do {
    says        = "Cargo hold bottle switch: discharge"
    set         = hold_bottle_switch
    to          = "discharge"
    by          = "PM"
    from_memory = true
    because     = "The first bottle beats it down, the second one keeps it down for an hour and more."
  }
  note {
    says    = "The warning stays for at least a minute, whatever the bottle does. Do not wait for it: turn towards the nearest runway."
    leg     = "land"
    if      = !seen.on_ground
    because = "The sensors see smoke, not fire; they cannot tell whether it is out."
  }
  tell {
    whom = "control"
    says = "Mayday, smoke in the hold: where we are, what we do, and that we want the fire service."
    if   = !seen.on_ground
  }
  tell {
    whom = "cabin"
    says = "Smoke in the hold: feel the floor for heat, and make ready for landing."
    if   = !seen.on_ground
    else {
      note { says = "Nothing answers: tell it at the door." }
    }
  }
  note {
    says    = "On the ground: stand still, and the list Evacuation."
    if      = seen.on_ground
    go_to   = evacuation_list
    because = "Air through an open hold door makes a fire of what smoulders." # common practice
  }
  check {
    that = !hold_slow_lamp
    says = "Second hold bottle: not empty"
    by   = "PM"
    if   = !seen.on_ground
  }
}

procedure "smoke_sensors_list" {
  title   = "Cargo hold smoke sensors differ"
  note {
    says    = "One sensor sees smoke and the other does not. No bottle yet: damp makes one lie, smoke makes both speak."
    because = "A bottle that is spent on damp is not there for smoke."
  }
  decide {
    that   = smoke_lamp
    says   = "A minute later: does the other one see it too?"
    by     = "both"
    wait_s = 60
    then {
      note {
        says  = "It is smoke: the list Smoke in the cargo hold."
        go_to = smoke_list
      }
    }
    else {
      tell {
        whom = "cabin"
        says = "Feel the floor above the hold for heat, every ten minutes, and report."
        if   = !seen.on_ground
      }
    }
  }
}

# Smoke that is smelt or told. Nobody knows yet what burns: first breathe, then turn,
# then take the supply from one side after the other.
procedure "bay_smoke_list" {
  title    = "Smoke in the electronics bay"
  priority = 8
  do {
    says        = "Masks on, 100 %; goggles on; both say that they hear each other"
    by          = "both"
    from_memory = true
    because     = "Who cannot see or breathe cannot read a list."
  }
  note {
    says        = "Turn to the nearest airfield now; go on with the list on the way."
    leg         = "land"
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "What is in the bay cannot be reached. Half an hour is a long time." # common practice
  }
  tell {
    whom = "control"
    says = "Mayday, smoke: where we are, where we land, and that we want the fire service."
  }
  tell {
    whom = "cabin"
    says = "Smoke on the flight deck: prepare for landing, and how many minutes are left."
    if   = !seen.on_ground
    else {
      note { says = "Nothing answers: tell it at the door, in a mask." }
    }
  }
  note {
    says  = "On the ground: stand still, and the list Evacuation."
    if    = seen.on_ground
    go_to = evacuation_list
    leave = true
  }
  do {
    says    = "Electronics bay fan switch: off"
    set     = bay_fan_switch
    to      = "off"
    by      = "PM"
    because = "It blows what smokes to where people are." # common practice
  }
  do {
    says    = "Electronics bay supply switch: right only"
    set     = bay_supply_switch
    to      = "right only"
    by      = "PM"
    because = "The left DC bus goes dark. The vital bus, the left picture, the standby instruments and one radio stay, whichever side is off."
  }
  decide {
    that   = bay_smoke_lamp
    says   = "A minute later: more smoke?"
    by     = "both"
    wait_s = 90
    then {
      do {
        says    = "Electronics bay supply switch: left only"
        set     = bay_supply_switch
        to      = "left only"
        by      = "PM"
        because = "It was not the left side; the right one is what is left to take."
      }
    }
    else {
      note {
        says    = "Leave it so to the landing: it was on that side."
        because = "What has cooled burns again when it is fed."
      }
    }
  }
  later {
    when = altitude_1_readout < 10500
    says = "Below 10,000 ft, if smoke is still seen"
    do {
      says    = "Outflow valve selector: open"
      set     = outflow_selector
      to      = "open"
      if      = bay_smoke_lamp
      by      = "PM"
      because = "It draws the smoke out; higher up it would draw out what people breathe."
    }
  }
}

procedure "fire_watch_list" {
  title   = "No fire detection"
  note {
    says    = "From now on the exhaust gas temperature, and a look out of the cabin window, are the only fire detection on that engine."
    because = "Both loops are gone. The light cannot come on any more."
  }
  check {
    that = !bottle_1_lamp && !bottle_2_lamp
    says = "Bottle lamps: not lit"
    by   = "PM"
  }
}
