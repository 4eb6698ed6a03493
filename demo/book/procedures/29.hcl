# Procedures of chapter 29.

chapter = 29

procedure "hyd_left_low_list" {
  title    = "Left hydraulic pressure low"
  priority = 44
  check {
    that = fluid_left_shown > 5
    says = "Left fluid: above 5 litres?"
    by   = "PM"
  }
  decide {
    that = fluid_left_shown > 5
    says = "Is there fluid left?"
    by   = "both"
    then {
      do {
        says    = "Transfer switch: auto"
        set     = transfer_switch
        to      = "auto"
        by      = "PM"
        because = "With fluid and no pressure it is the pump that went. The right system can drive the left one."
      }
    }
    else {
      do {
        says    = "Transfer switch: off"
        set     = transfer_switch
        to      = "off"
        by      = "PM"
        because = "A transfer unit that pumps air runs hot and loads the right system for nothing."
      }
      note {
        says    = "The anti-skid is gone as well: think of a burst tyre. Land at the nearest suitable airfield, on a long runway."
        leg     = "land"
        if      = !seen.on_ground && antiskid_lost
        because = "Rubber has cut what lay next to it, and nobody sees from here what else: the gear, the flaps, the doors."
      }
      tell {
        whom = "control"
        says = "Perhaps a burst tyre, and rubber on the runway that we left; fire services where we land."
        if   = !seen.on_ground && antiskid_lost
      }
    }
  }
  note {
    says    = "Half of each surface is left: fly gently, no steep turns."
    because = "Every axis keeps one servo. It moves the surface, but slower at high speed."
  }
  later {
    in   = approach
    says = "For landing"
    if   = !seen.on_ground && (hyd_left_low || pressure_left_shown < 2000)
    note {
      says    = "No left reverser: use the right one with care, or none on a slippery runway."
      because = "One-sided reverse turns the nose, and it turns it most where the tyres hold least."
    }
    note {
      says    = "Only the outer spoilers rise: add 15 percent to the landing distance."
      because = "One pair of two puts less weight on the wheels."
    }
  }
}

procedure "hyd_right_low_list" {
  title    = "Right hydraulic pressure low"
  priority = 44
  decide {
    that    = fluid_right_shown > 5
    says    = "Right fluid: above 5 litres?"
    by      = "both"
    because = "The fluid list may have switched the standby pump off a minute ago. This one must not switch it on again."
    then {
      do {
        says    = "Standby pump switch: on"
        set     = standby_pump_switch
        to      = "on"
        by      = "PM"
        sensed  = true
        because = "On the first series it does not start by itself with the flaps in. Waiting for it costs the gear its normal way down."
      }
    }
    else {
      do {
        says    = "Standby pump switch: off"
        set     = standby_pump_switch
        to      = "off"
        by      = "PM"
        because = "The pump is cooled by the fluid that it moves. Dry, it is a heater next to a fuel tank."
      }
    }
  }
  decide {
    that = pressure_right_shown > 2000
    says = "Has the pressure come back?"
    by   = "both"
    then {
      note { says = "Leave the standby pump on for the rest of the flight." }
    }
    else {
      note {
        says    = "Gear by the alternate handle only; plan for the gear to stay down."
        if      = !seen.on_ground
        because = "Once freed the gear cannot be raised. Choose the alternate before, not after."
      }
      note {
        says    = "Lever up and its light on: the gear is not up. Go to the list Gear does not follow its lever."
        if      = !seen.on_ground && gear_lever == "up" && gear_lever_light
        go_to   = gear_not_followed_list
        because = "Pressure that goes at lift-off leaves the legs half way, and no warning says so: the light in the lever alone does. It costs twice the fuel from the first mile on."
      }
    }
  }
  later {
    in   = approach
    says = "For landing, without right pressure"
    if   = !seen.on_ground && (hyd_right_low || pressure_right_shown < 2000)
    do {
      says = "Gear lever: down"
      set  = gear_lever
      to   = "down"
      by   = "PM"
    }
    do {
      says    = "Alternate gear handle: pulled"
      set     = alternate_gear_handle
      to      = "pulled"
      if      = !gear_pins
      by      = "PM"
      because = "The lever alone moves nothing without right pressure; better here than after its warning."
    }
    check {
      that = pressure_left_shown > 2000 || accumulator_gauge > 0
      says = "Alternate brakes: pressure"
      by   = "PM"
    }
    note {
      says    = "No steering: brake evenly, leave the runway only if it is wide and dry."
      because = "Steering lives on right pressure alone."
    }
  }
}

procedure "hyd_both_low_list" {
  title    = "No hydraulic pressure"
  priority = 25
  do {
    says        = "Standby pump switch: on"
    set         = standby_pump_switch
    to          = "on"
    if          = (fluid_right_shown > 5) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by          = "PM"
    from_memory = true
    sensed      = true
    because     = "It is the one source of pressure that needs no engine. In a dry system it is a heater next to a fuel tank."
  }
  note {
    says        = "Fly gently: the electric servos move elevator, ailerons and rudder, slowly."
    if          = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    by          = "PF"
    from_memory = true
    because     = "They answer late at high speed and are enough to fly and to flare. No flaps, no spoilers, no steering."
  }
  do {
    says    = "Transfer switch: auto"
    set     = transfer_switch
    to      = "auto"
    if      = (fluid_left_shown > 5) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    by      = "PM"
    because = "With the right system alive again it brings the left one back too."
  }
  decide {
    that = pressure_right_shown > 2000
    says = "Is the right pressure back?"
    if   = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    by   = "both"
    then {
      note {
        says = "Land at the nearest suitable airfield."
        leg  = "land"
        if   = !seen.on_ground
      }
    }
    else {
      note {
        says    = "Land at the nearest airfield whose runway takes 3.3 times the distance, or by the longest: no flaps, 12 kt more for each step. It counts for all that is lost with the pressure. Now the list Flaps or slats do not move, not on the approach."
        leg     = "land"
        go_to   = flaps_stopped_list
        if      = !seen.on_ground
        because = "Brakes from the accumulators, no spoilers, no reverse: 1.95. No flaps: 1.7. One multiplies the other."
      }
      tell {
        whom = "control"
        says = "No hydraulics: a long runway, fire service, we may stop on it without steering."
        if   = !seen.on_ground
      }
      tell {
        whom = "cabin"
        says = "Prepare the cabin for a fast landing; minutes left."
        if   = !seen.on_ground
        else {
          note { says = "Nothing answers: tell it at the door." }
        }
      }
    }
  }
  later {
    when = altitude_1_readout < 6000 && (descent || approach || final)
    says = "Below 6,000 ft, before the approach, without pressure"
    if   = (pressure_right_shown < 2000) && (!seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run")
    note {
      says    = "After touchdown press the brakes once, evenly, and hold. Six applications with anti-skid, then six more without."
      because = "Each press takes a stroke out of an accumulator. Nothing fills it again. Said here, since on final nobody listens."
    }
    do {
      says = "Gear lever: down"
      set  = gear_lever
      to   = "down"
      if   = !(left_engine_failed && right_engine_failed)
      by   = "PM"
    }
    do {
      says    = "Alternate gear handle: pulled"
      set     = alternate_gear_handle
      to      = "pulled"
      if      = !(left_engine_failed && right_engine_failed)
      by      = "PM"
      because = "It opens the locks by a cable; the gear falls by its own weight. Without engines its drag waits until the field is made."
    }
  }
}

procedure "pump_right_low_list" {
  title    = "Right engine hydraulic pump: no pressure"
  priority = 45
  check {
    that = pressure_right_shown > 2000
    says = "Right pressure: held by the standby pump"
    by   = "PM"
  }
  do {
    says    = "Standby pump switch: on"
    set     = standby_pump_switch
    to      = "on"
    by      = "PM"
    because = "On, it no longer waits for anything. It was running already: the lamp does not change, and no line goes out."
  }
}

procedure "fluid_left_low_list" {
  title    = "Left hydraulic fluid low"
  priority = 43
  do {
    says    = "Transfer switch: off"
    set     = transfer_switch
    to      = "off"
    by      = "PM"
    because = "So that the transfer unit does not run dry when the pump gives up. No sensor ticks this line: the message stays, since the fluid stays low."
  }
  note {
    says    = "Expect the left pressure to go within two minutes. Do not leave this line for later."
    because = "A leak of a litre in twenty seconds empties the system in under five minutes."
  }
}

procedure "fluid_right_low_list" {
  title    = "Right hydraulic fluid low"
  priority = 43
  do {
    says    = "Standby pump switch: off"
    set     = standby_pump_switch
    to      = "off"
    by      = "PM"
    because = "It would pump the last litres out of the same hole."
  }
  decide {
    that = distance_readout < 30
    says = "Landing soon?"
    if   = !seen.on_ground
    by   = "both"
    then {
      do {
        says    = "Gear lever: down now, while there is pressure"
        set     = gear_lever
        to      = "down"
        by      = "PF"
        sensed  = true
        because = "The normal way takes nine seconds and one litre. The alternate way costs the doors."
      }
    }
    else {
      note { says = "Plan for the alternate gear handle and for braking on left pressure." }
    }
  }
}
