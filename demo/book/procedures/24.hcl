# Procedures of chapter 24. Each line says why it is there: a step that nobody can explain is the first to be left out.

chapter = 24

procedure "left_generator_off" {
  title    = "Left generator off line"
  priority = 36
  mirror   = true
  do {
    says    = "Left generator switch: off, then on, once"
    set     = gen_left_switch
    to      = "off"
    if      = engine_left_switch == "run" && !left_engine_failed && !fire_left
    by      = "PM"
    sensed  = true
    because = "Off clears the control unit's memory of the trip; a generator that only tripped comes back. Twice would feed a real fault twice."
  }
  do {
    says   = "Left generator switch: on"
    set    = gen_left_switch
    to     = "on"
    if     = engine_left_switch == "run" && !left_engine_failed && !fire_left
    by     = "PM"
    sensed = true
  }
  decide {
    that = !gen_left_lamp || gen_left_load > 0
    says = "Is the generator back on line?"
    if   = engine_left_switch == "run"
    by   = "both"
    then {
      note { says = "Watch its load for the rest of the flight and write it up." }
    }
    else {
      do {
        says    = "Left generator switch: off"
        set     = gen_left_switch
        to      = "off"
        by      = "PM"
        because = "A generator that is off cannot come back half-alive."
      }
      decide {
        that = altitude_1_readout < aircraft.apu_light_up_ft
        says = "Below 25,000 ft?"
        if   = apu_switch == "off"
        by   = "PM"
        then {
          do {
            says    = "APU switch: run"
            set     = apu_switch
            to      = "run"
            by      = "PM"
            because = "With one generator on line, that one carries both sides; with none, only the wind and the battery do."
          }
        }
        else {
          later {
            when = altitude_1_readout < aircraft.apu_light_up_ft
            says = "Below 25,000 ft, not before"
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
      tell {
        whom    = "cabin"
        says    = "The galley and cabin supply is shed by itself, until a second generator is on line."
        if      = engine_left_switch == "run" && !(left_engine_failed && right_engine_failed) && !at_least(2, !gen_left_lamp, !gen_right_lamp, apu_gen_lamp)
        because = "The cabin crew see dark ovens and call at the busiest moment."
      }
      note {
        says    = "Neither engine's generator is on line: no take-off."
        leg     = "reject"
        if      = taxi_out && gen_left_lamp && gen_right_lamp
        because = "The APU's is the last one, and it may have been out of order for days without a word."
      }
      note {
        says    = "Neither engine's generator is on line: land at the nearest suitable airfield on the last source."
        leg     = "land"
        if      = !seen.on_ground && gen_left_lamp && gen_right_lamp && !(left_engine_failed && right_engine_failed)
        because = "Behind the APU's generator there is the wind and the battery, and the APU was not made to be the only one."
      }
      tell {
        whom = "control"
        says = "Pan-pan, on the last generator; where we land."
        if   = !seen.on_ground && gen_left_lamp && gen_right_lamp && !(left_engine_failed && right_engine_failed)
      }
    }
  }
  later {
    when = altitude_1_readout < aircraft.apu_light_up_ft
    says = "Below 25,000 ft, not before"
    if   = engine_left_switch == "off" && apu_switch == "off" && fire_handle_apu == "in"
    do {
      says    = "APU switch: run"
      set     = apu_switch
      to      = "run"
      by      = "PM"
      because = "An engine that is put off takes its generator with it, and its own list may not ask for another."
    }
  }
  tell {
    whom = "cabin"
    says = "The engine's generator is gone with it: the galley and cabin supply is shed."
    if   = engine_left_switch == "off" && !apu_gen_lamp && !(left_engine_failed && right_engine_failed)
  }
  later {
    in   = approach
    says = "Before the approach"
    if   = !seen.on_ground
    check {
      that = at_least(2, !gen_left_lamp, !gen_right_lamp, apu_gen_lamp)
      says = "Two AC sources on line; if not, no approach to low minima"
      by   = "both"
    }
  }
}

procedure "all_generators_off" {
  title    = "No generator on line"
  priority = 30
  do {
    says        = "Vital load switch: reduced"
    if          = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    set         = vital_load_switch
    to          = "reduced"
    by          = "PM"
    from_memory = true
    because     = "Every minute on full load costs a minute of battery; reduced costs thirty-six seconds."
  }
  do {
    says    = "Left generator switch: off, then on, once"
    set     = gen_left_switch
    to      = "off"
    if      = (engine_left_switch == "run" && !left_engine_failed && !fire_left && fan_left_readout > 20) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by      = "PM"
    sensed  = true
    because = "Off clears a trip. It is read, not done from memory: a fire or an engine comes before it, and the generator of an engine that stands does not come back."
  }
  do {
    says = "Left generator switch: on"
    set  = gen_left_switch
    to   = "on"
    if   = (engine_left_switch == "run" && !left_engine_failed && !fire_left && fan_left_readout > 20) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by   = "PM"
  }
  do {
    says = "Right generator switch: off"
    set  = gen_right_switch
    to   = "off"
    if   = (engine_right_switch == "run" && !right_engine_failed && !fire_right && fan_right_readout > 20) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by   = "PM"
  }
  do {
    says = "Right generator switch: on"
    set  = gen_right_switch
    to   = "on"
    if   = (engine_right_switch == "run" && !right_engine_failed && !fire_right && fan_right_readout > 20) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by   = "PM"
  }
  note {
    says    = "Down to 20,000 ft: below it the engines suck their own fuel. Until then the emergency pumps feed them, from the vital bus."
    leg     = "descend"
    leg_ft  = 20000
    if      = all_gens_off && !(left_engine_failed && right_engine_failed) && !seen.on_ground && altitude_1_readout > aircraft.suction_ceiling_ft
    because = "The emergency pumps live as long as the vital bus, and no lamp of theirs is lit."
  }
  later {
    when = altitude_1_readout < aircraft.apu_light_up_ft
    says = "Below 25,000 ft, not before"
    if   = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    do {
      says    = "APU switch: run"
      set     = apu_switch
      to      = "run"
      by      = "PM"
      because = "It starts from its own battery and can feed both AC buses."
    }
  }
  decide {
    that     = !all_gens_off
    says     = "Is any generator on line? Ask a minute after the APU switch"
    if       = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    by       = "both"
    wait_for = apu_switch == "off" || held(apu_switch == "run", 60)
    because  = "The APU takes forty seconds to light: the lamp says nothing before."
    then {
      note {
        says = "Land at the nearest suitable airfield; one source is left."
        leg  = "land"
        if   = !seen.on_ground
      }
    }
    else {
      note {
        says    = "Emergency generator on line: land at the nearest suitable airfield, faster than 130 kt until the runway. Not on line: the battery's list and its clock."
        leg     = "land"
        if      = !seen.on_ground
        because = "The turbine has no clock, but it stops below 120 kt. The battery has half an hour, and its voltmeter hardly moves until it is over."
      }
    }
  }
  tell {
    whom = "control"
    says = "No generator; where we land, and that the radio may go silent."
    if   = !seen.on_ground
  }
}

procedure "apu_generator_off" {
  title    = "APU generator off line"
  priority = 36
  do {
    says    = "APU generator switch: off, then on, once"
    set     = apu_gen_switch
    to      = "off"
    by      = "PM"
    sensed  = true
    because = "Off clears a trip."
  }
  do {
    says = "APU generator switch: on"
    set  = apu_gen_switch
    to   = "on"
    by   = "PM"
  }
  check {
    that = apu_gen_lamp
    says = "APU generator on line; if not, the APU is good for air only"
    by   = "PM"
  }
}

procedure "left_drive_hot_list" {
  title    = "Left generator drive hot"
  mirror   = true
  priority = 33
  note {
    says    = "Left. Uncoupled is uncoupled: the drive cannot be joined again in flight. Read the side aloud before touching the switch."
    because = "The wrong switch takes the good generator for the rest of the flight, and the hot one follows in four minutes."
  }
  decide {
    that = !gen_right_lamp || apu_gen_lamp
    says = "Is another generator on line?"
    by   = "both"
    then {
      do {
        says    = "Left drive switch: uncouple"
        set     = drive_left_switch
        to      = "uncouple"
        by      = "PM"
        sensed  = true
        because = "A hot drive breaks up after four minutes."
      }
    }
    else {
      note {
        says    = "Leave it coupled until another is on line: it has four minutes."
        because = "Both drives can be hot from one can of oil. Uncoupling the second makes the flight deck dark at once instead of in four minutes."
      }
    }
  }
  later {
    when = altitude_1_readout < aircraft.apu_light_up_ft
    says = "Below 25,000 ft, not before"
    if   = apu_switch == "off"
    do {
      says    = "APU switch: run"
      set     = apu_switch
      to      = "run"
      by      = "PM"
      because = "A second AC source for the rest of the flight."
    }
  }
}

procedure "ac_bus_off" {
  title    = "AC bus dead"
  priority = 37
  check {
    that = !gen_left_lamp && !gen_right_lamp
    says = "Are both generators on line? A dead bus beside a live generator has a fault of its own: do not try again"
    by   = "both"
  }
  decide {
    that = called_by(right_ac_off)
    says = "Which side is dead? Right:"
    by   = "PM"
    then {
      note { says = "Right side dead: right landing light, flight recorder, right inertial unit after five minutes, weather radar." }
    }
    else {
      do {
        says    = "Vital AC bus source switch: right"
        set     = vital_side_switch
        to      = "right"
        by      = "PM"
        because = "The vital AC bus hangs on the left side. Later series move it by themselves."
      }
      note { says = "Left side dead: terrain warning and long-range radio are gone." }
    }
  }
}

procedure "vital_ac_off_drill" {
  title    = "Vital AC bus dead"
  priority = 38
  do {
    says    = "Vital AC bus source switch: right"
    set     = vital_side_switch
    to      = "right"
    by      = "PM"
    sensed  = false
    because = "It moves the bus to the living side. The lamp in the selector comes on whether the relay moves or not."
  }
  check {
    that = vital_ac_volts > 100
    says = "Vital AC voltage on the electrics picture: 115. Trust the number, not the lamp"
    by   = "both"
  }
  decide {
    that = vital_ac_volts > 100
    says = "Is the vital AC bus alive?"
    by   = "both"
    then {
      note { says = "Continue, and remember that nothing stands behind the right side now." }
    }
    else {
      note {
        says    = "The left probe heater stays cold: leave icing."
        because = "Left airspeed will freeze with its tube."
      }
    }
  }
}

procedure "dc_source_off" {
  title    = "DC source off line"
  priority = 39
  do {
    says    = "DC source reset button: press once"
    set     = dc_source_reset
    to      = "reset"
    by      = "PM"
    sensed  = true
    because = "A source that tripped on heat comes back. One that comes back and trips again has a fault."
  }
  do {
    says    = "DC source reset button: release"
    set     = dc_source_reset
    to      = "normal"
    by      = "PM"
    because = "A button that is held cannot be pressed."
  }
  decide {
    that = !tr_left_lamp && !tr_right_lamp
    says = "Are both sources on line?"
    by   = "both"
    then {
      note { says = "Continue." }
    }
    else {
      note {
        says    = "One source carries both sides. If it goes too, the vital buses have one source left and most else is dead: think now about where to land."
        because = "Nothing is lost yet, and that is what makes it easy to forget."
      }
    }
  }
}

procedure "dc_bus_off" {
  title    = "DC bus dead"
  priority = 40
  note { says = "Do not try to bring the bus back: a dead bus beside a live source has a fault of its own." }
  decide {
    that = called_by(right_dc_off)
    says = "Which side is dead? Right:"
    by   = "PM"
    then {
      note { says = "Right side dead: right flight display, both autopilots (their servos hang there), control computer 2, reports of the right systems." }
    }
    else {
      note { says = "Left side dead: both inner screens, all system pictures, autothrottle, warning sounds, radio 2, reports of the left systems." }
      check {
        that = thrust_levers == "moved by hand"
        says = "Thrust levers: by hand"
        by   = "PF"
      }
    }
  }
  later {
    in   = approach
    says = "Before the approach"
    check {
      that = !radio_heights_off
      says = "One radio altimeter at least; if not, see: No radio height"
      by   = "PM"
    }
  }
}

procedure "main_dc_lost_drill" {
  title    = "Main DC lost"
  priority = 34
  do {
    says        = "Aircraft: fly by hand, left pilot"
    set         = autopilot_button
    to          = "off"
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "The right flight display is dark and the autopilots' servos are dead. Pressing off stops the warning that would otherwise repeat."
  }
  do {
    says        = "Thrust levers: by hand"
    set         = thrust_levers
    to          = "moved by hand"
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "The autothrottle is gone and the thrust stays where it was."
  }
  do {
    says    = "Vital load switch: reduced"
    if      = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    set     = vital_load_switch
    to      = "reduced"
    by      = "PM"
    because = "Behind the last source stands the battery alone. Nothing charges it now: what is shed early is there late."
  }
  do {
    says    = "DC source reset button: press once"
    set     = dc_source_reset
    to      = "reset"
    if      = (!gen_left_lamp || !gen_right_lamp || apu_gen_lamp) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by      = "PM"
    sensed  = true
    because = "If a source comes back, the day is saved. With no generator there is nothing to come back."
  }
  do {
    says    = "DC source reset button: release"
    set     = dc_source_reset
    to      = "normal"
    if      = (dc_source_reset == "reset") && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by      = "PM"
    because = "A button that is held cannot be pressed."
  }
  decide {
    that    = !main_dc_lost
    says    = "Has the warning gone?"
    if      = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    by      = "both"
    because = "It goes by the two sources themselves."
    then {
      do {
        says    = "Vital load switch: all"
        set     = vital_load_switch
        to      = "all"
        by      = "PM"
        because = "The battery is charged again."
      }
      note { says = "Go on to an airfield that suits; one more loss is this again." }
    }
    else {
      note {
        says    = "Land at the nearest airfield whose runway is long enough without anti-skid, spoilers and flaps."
        leg     = "land"
        if      = !seen.on_ground
        because = "The vital DC bus lives from the third source as long as the vital AC bus does, then from the battery for half an hour."
      }
      note {
        says    = "Both data units are dead: an empty alert list means nothing. Go through the systems by hand."
        because = "What the systems want to say cannot reach the screen."
      }
      tell {
        whom = "control"
        says = "Main electrics lost: where we land, radar guidance, and that only one radio is left."
        if   = !seen.on_ground
      }
      tell {
        whom    = "cabin"
        says    = "An electrical failure, where we land and when; the cabin phone may be dead."
        if      = !seen.on_ground
        because = "They hear less from the flight deck than they are used to, and see dark panels."
        else {
          note { says = "Nothing answers: call one of them in, and tell it by mouth." }
        }
      }
      do {
        says    = "Transponder selector: 1. Navigate by VOR and headings"
        set     = transponder_selector
        to      = "1"
        by      = "PM"
        because = "Transponder 1 lives from the vital bus; receivers that follow a beam keep it, others cannot be tuned."
      }
    }
  }
  later {
    when = altitude_1_readout < 6000 && (descent || approach || final)
    says = "Before the approach"
    if   = (main_dc_lost) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    check {
      that = beam_left
      says = "Is ILS receiver 1 tuned? It cannot be tuned any more; if it is not, fly the VOR approach"
      by   = "PM"
    }
    do {
      says    = "Landing speed: 20 kt more, for ice on the wing that is not heated"
      set     = landing_speed
      to      = "20 kt more"
      if      = (descent || approach) && landing_speed != "20 kt more"
      because = "With a side dead nothing says that its wing is cold. Ice from the cloud stays on it."
    }
    note { says = "No radio height, no height calls, no terrain warning: PM calls heights from the altimeter." }
    note {
      says    = "Landing distance by the manual: without brake channels and spoilers, here 1.95 times."
      because = "The gear valve and both brake channels hang on the main DC buses; the alternate brakes need none."
    }
    do {
      says     = "Gear lever: down"
      wait_for = approach || final
      set      = gear_lever
      to       = "down"
      if       = !seen.on_ground && !(left_engine_failed && right_engine_failed)
      by       = "PM"
    }
    do {
      says    = "Alternate gear handle: pulled"
      set     = alternate_gear_handle
      to      = "pulled"
      if      = !seen.on_ground && !gear_pins && !(left_engine_failed && right_engine_failed)
      by      = "PM"
      because = "Early: the lever alone moves nothing. Without engines its drag waits until the field is made."
    }
    note { says = "On the ground, before a door is opened: outflow valve open, and the cabin needle at the height of the field." }
  }
}

procedure "vital_battery_drill" {
  title    = "Vital buses on battery"
  priority = 35
  do {
    says        = "Vital load switch: reduced"
    if          = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    set         = vital_load_switch
    to          = "reduced"
    by          = "PM"
    from_memory = true
    because     = "Thirty minutes become fifty. The sooner, the more."
  }
  do {
    says    = "Vital AC bus source switch: right"
    set     = vital_side_switch
    to      = "right"
    if      = (gen_right_load > 0 || apu_gen_lamp) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by      = "PM"
    because = "The third source lives from the vital AC bus. Where the right side is alive it brings both back."
  }
  decide {
    that = !vital_battery
    says = "Has the warning gone?"
    if   = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    by   = "both"
    then {
      note {
        says = "Land at the nearest suitable airfield, all the same."
        leg  = "land"
        if   = !seen.on_ground
      }
    }
    else {
      note {
        says    = "Start the clock: half an hour on full load, fifty minutes on reduced, a worn battery less. Land within it, at the nearest airfield."
        leg     = "land"
        if      = !seen.on_ground
        because = "When it is empty the vital DC bus dies. The left picture and one radio live on if the backup AC bus does; trim, crossfeed, standby heat and VOR receivers do not."
      }
      tell {
        whom = "control"
        says = "On battery, the time that is left, and that the radio may go silent."
        if   = !seen.on_ground
      }
    }
  }
}

procedure "ram_gen_off_list" {
  title    = "Emergency generator not on line"
  priority = 31
  do {
    says    = "Ram turbine switch: release"
    set     = ram_switch
    to      = "release"
    by      = "PM"
    sensed  = true
    because = "It should have come by itself. The switch pulls the same lock by a wire of its own."
  }
  decide {
    that = airspeed_1_readout > aircraft.least_ram_turbine_kt + 10
    says = "Faster than 130 kt?"
    by   = "PF"
    then {
      decide {
        that     = ram_gen_lamp
        says     = "Emergency generator on line? Ask after ten seconds"
        by       = "PM"
        wait_for = ram_gen_lamp || held(ram_switch == "release", 10)
        then {
          note { says = "No clock runs as long as we are faster than 120 kt." }
        }
        else {
          note {
            says    = "The vital buses live from the battery: go by that list."
            because = "What does not come on the second pull will not come."
          }
        }
      }
    }
    else {
      note {
        says    = "Fly faster than 130 kt: slower than 120 the turbine gives nothing."
        because = "It lives from the wind. On the landing roll the battery takes over for the last minute."
      }
    }
  }
}

procedure "backup_ac_off_list" {
  title    = "Backup AC bus dead"
  priority = 46
  note {
    says    = "No igniters and no electric servos: keep the engines where they are, out of heavy rain."
    because = "Nothing that flies now hangs on it. With hydraulic pressure lost as well nothing would move the surfaces."
  }
  check {
    that = backup_ac_volts > 100
    says = "Backup AC voltage: 115. If it reads so, the line was false"
    by   = "PM"
  }
}

procedure "direct_dc_off_list" {
  title    = "Hot battery bus dead"
  priority = 45
  note {
    says    = "No fire bottle can be fired and no fire valve turned: a fire is fought by landing."
    because = "Bottles and valves have no other feed, so that they work with everything else off."
  }
  note { says = "The APU does not start. Plain control has no reserve unit behind the two computers." }
}

procedure "battery_low_drill" {
  title    = "Main battery below ten minutes"
  priority = 42
  check {
    that = vital_load_switch == "reduced"
    says = "Vital load switch: reduced"
    by   = "PM"
  }
  note {
    says    = "Land now, or set up to fly on by the standby instrument and compass: they have a cell for half an hour."
    because = "With a generator on line the core of the flight deck lives on; with none it goes dark at once."
  }
}

procedure "vital_dc_off_drill" {
  title    = "Vital DC bus dead"
  priority = 36
  note {
    says    = "The left pilot flies by the left picture; compare it with the standby instrument, which has a cell for half an hour."
    because = "The core is fed by the backup AC bus alone now."
  }
  note {
    says    = "Do not try to bring the bus back. It has three sources and a battery: it is the bus itself."
    because = "A fault that is fed again burns."
  }
  note {
    says    = "Fire loops may be gone with it: look at the engines every five minutes. Gone with it: transponder 1, VOR receiver, standby heat, crossfeed, hand trim 1. Use control computer 2, the right pictures, radio 2, the right trim."
    because = "What watches over the aircraft went with the bus, and does not say so itself."
  }
  tell {
    whom = "control"
    says = "A bus is lost, what we cannot do any more, and that we go on."
    if   = !seen.on_ground
  }
}
