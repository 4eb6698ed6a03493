# Procedures of chapter 21.

chapter = 21

procedure "cabin_high_list" {
  title    = "Cabin too high"
  priority = 5
  do {
    says        = "Oxygen masks: on, 100 per cent"
    set         = crew_masks
    to          = "on"
    by          = "both"
    from_memory = true
    because     = "At 34,000 ft a pilot without oxygen has well under a minute of clear thought. A mask first, everything else after."
  }
  do {
    says        = "Talk to each other; thrust closed, spoiler lever: full"
    wait_s      = 5 # a mask is on within that, 14 CFR 25.1447(c)(2)
    set         = spoiler_lever
    to          = "full"
    leg         = "descend"
    leg_ft      = 10000
    if          = !(left_engine_failed && right_engine_failed)
    by          = "PF"
    from_memory = true
    because     = "Without engines the height is kept for the field, and the masks have to do. Else: thrust back, spoilers out: 10,000 ft or the lowest safe height, whichever is higher."
  }
  decide {
    that    = cabin_altitude_needle > 13500 || cabin_altitude_needle > 11000 && !held(cabin_high, 60)
    says    = "Is the cabin above 13,500 ft, or past 11,000 ft within a minute of the warning?"
    by      = "PM"
    because = "The rate decides, not the height alone: a cabin that climbs more than 1,200 ft in a minute is above 13,500 ft before the aircraft is down."
    then {
      do {
        says        = "Cabin mask switch: drop"
        set         = mask_switch
        to          = "drop"
        by          = "PM"
        sensed      = true
        from_memory = true
        because     = "The automatic release hangs on the left bus. After an electrical failure it is not there."
      }
    }
    else {
      note { says = "Leave the masks in, and look again each thousand feet: thirteen minutes of oxygen can be used only once." }
      later {
        when = cabin_altitude_needle > 13500
        says = "Cabin above 13,500 ft"
        do {
          says    = "Cabin mask switch: drop"
          set     = mask_switch
          to      = "drop"
          if      = !masks_lamp
          by      = "PM"
          because = "The automatic release hangs on the left bus. After an electrical failure it is not there."
        }
      }
    }
  }
  do {
    says = "Outflow valve selector: hold"
    set  = outflow_selector
    to   = "hold"
    by   = "PM"
  }
  later {
    when = altitude_3_readout < 10500
    says = "Level at 10,000 ft"
    if   = !seen.on_ground
    do {
      says    = "Spoiler lever: in"
      set     = spoiler_lever
      to      = "in"
      by      = "PF"
      because = "Level with the spoilers out the engines work against them, and the fuel goes twice as fast."
    }
    tell {
      whom = "cabin"
      says = "We are level. Is anybody hurt?"
      if   = !(left_engine_failed && right_engine_failed)
    }
    note {
      says    = "Land at the nearest suitable airfield."
      leg     = "land"
      if      = !seen.on_ground
      because = "The fuel was counted for the cruise level. Down here it takes half as much again for every mile."
    }
  }
  later {
    when = cabin_altitude_needle < 10000 && !cabin_high && altitude_1_readout < 10500 # level at 10,000 ft: common practice
    says = "Down, cabin below 10,000 ft and no warning any more"
    if   = crew_masks == "on"
    do {
      says    = "Our own masks may come off."
      set     = crew_masks
      to      = "stowed"
      by      = "both"
      because = "The aircraft may be level for minutes before the cabin is low: the needle and the warning decide, not the altimeter alone."
    }
    tell {
      whom = "cabin"
      says = "The masks may come off."
      if   = masks_lamp || mask_switch == "drop"
    }
  }
  later {
    when = altitude_1_readout < 6000 && (descent || approach || final)
    says = "Before landing, below 6,000 ft"
    if   = outflow_selector != "open"
    do {
      says    = "Outflow valve selector: open"
      set     = outflow_selector
      to      = "open"
      by      = "PM"
      because = "Held as it is, the cabin is still under pressure on the ground: the doors do not open and the slides are of no use."
    }
  }
  tell {
    whom = "control"
    says = "Mayday, emergency descent: the level that we left, down to 10,000 ft, and where to after that."
    if   = !seen.on_ground && !(left_engine_failed && right_engine_failed)
  }
}

procedure "pack_lost_list" {
  title    = "Pack lost"
  priority = 60 # the air before the pack
  decide {
    that = pack_left_lamp && pack_right_lamp
    says = "Are both packs off?"
    if   = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    by   = "both"
    then {
      do {
        says    = "Left pack switch: off"
        set     = pack_left_switch
        to      = "off"
        by      = "PM"
        because = "Packs that tripped on heat need to cool. One try after five minutes, no second one."
      }
      do {
        says = "Right pack switch: off"
        set  = pack_right_switch
        to   = "off"
        by   = "PM"
      }
      note {
        says    = "No air goes in any more: down to 10,000 ft while the cabin still holds."
        leg     = "descend"
        leg_ft  = 10000
        if      = altitude_1_readout > 10500 && !(left_engine_failed && right_engine_failed)
        by      = "PF"
        because = "A sealed cabin leaks. Who goes down at once may need no masks."
      }
      later {
        when = held(pack_left_switch == "off" && pack_right_switch == "off", 300)
        says = "Five minutes later: one try"
        if   = !seen.on_ground
        note {
          says    = "One after the other, pack switch on for as long as its lamp takes to go out; one that trips again stays off."
          because = "What tripped on heat has cooled by now; what is broken has not mended itself."
        }
      }
      later {
        when = altitude_1_readout < 10500
        says = "At 10,000 ft or below"
        if   = !seen.on_ground
        do {
          says    = "Ram air inlet switch: open"
          set     = fresh_air_inlet_switch
          to      = "open"
          if      = pack_left_lamp && pack_right_lamp
          by      = "PM"
          because = "Air to breathe without packs; it holds no pressure, and down here none is needed."
        }
        note {
          says    = "No higher than 10,000 ft, and land at the nearest suitable airfield."
          leg     = "land"
          if      = !seen.on_ground
          by      = "PF"
          because = "The fuel was counted for the cruise level, and there is no air for it any more."
        }
      }
      check {
        that    = bay_flow_shown
        says    = "Air flow in the electronics bay; screens that nobody needs dimmed"
        by      = "PM"
        because = "Bay and screens are cooled with air from the cabin, which grows warm without packs."
      }
      tell {
        whom = "control"
        says = "No air for the cabin: 10,000 ft and no higher, and where we land."
        if   = !seen.on_ground
      }
    }
    else {
      do {
        says    = "One reset. Left pack switch: off"
        set     = pack_left_switch
        to      = "off"
        if      = pack_left_lamp && pack_left_switch == "on"
        by      = "PM"
        because = "A pack that tripped on heat has to cool. One try, no second one."
      }
      do {
        says    = "One reset. Right pack switch: off"
        set     = pack_right_switch
        to      = "off"
        if      = pack_right_lamp && pack_right_switch == "on"
        by      = "PM"
        because = "A pack that tripped on heat has to cool. One try, no second one."
      }
      do {
        says   = "Left pack switch: on"
        set    = pack_left_switch
        to     = "on"
        if     = pack_left_switch == "off" && engine_left_switch == "run"
        by     = "PM"
        wait_s = 20
      }
      do {
        says = "Right pack switch: on"
        set  = pack_right_switch
        to   = "on"
        if   = pack_right_switch == "off" && engine_right_switch == "run"
        by   = "PM"
      }
      do {
        says = "Its lamp is still lit. Left pack switch: off"
        set  = pack_left_switch
        to   = "off"
        if   = pack_left_lamp
        by   = "PM"
      }
      do {
        says = "Its lamp is still lit. Right pack switch: off"
        set  = pack_right_switch
        to   = "off"
        if   = pack_right_lamp
        by   = "PM"
      }
      later {
        when = altitude_1_readout > 31000
        says = "With one pack, above 31,000 ft"
        note {
          says    = "No higher than 31,000 ft, and out of ice: its bleed has the wings to warm as well."
          leg     = "descend"
          leg_ft  = 31000
          if      = (pack_left_lamp || pack_right_lamp) && !seen.on_ground
          because = "One pack holds 8,000 ft in the cabin up to there, and what is left over feeds a small leak."
        }
      }
    }
    unknown {
      note {
        says    = "The lamps are dark: leave both switches on, and watch the cabin altitude needle."
        because = "The needle needs no power. Which pack it is the lamps would say, and a good one that is put off is lost as well."
      }
    }
  }
}

procedure "cabin_climbs_list" {
  title    = "Cabin climbs, outflow valve shut"
  priority = 20
  do {
    says    = "Outflow valve selector: hold"
    set     = outflow_selector
    to      = "hold"
    by      = "PM"
    sensed  = true
    because = "By hand it stays shut, whatever a controller thinks."
  }
  check {
    that = !pack_left_lamp && !pack_right_lamp
    says = "Both packs blow"
    by   = "PM"
  }
  note {
    says    = "Masks within reach; down to 16,000 ft, and lower while the cabin climbs."
    leg     = "descend"
    leg_ft  = 16000
    if      = altitude_1_readout > 16500 && crew_masks == "stowed"
    by      = "PF"
    because = "Up high the hole lets out the same at every level; only below 18,000 ft does it grow less."
  }
  tell {
    whom = "control"
    says = "Our cabin leaks: a lower level."
    if   = !(left_engine_failed && right_engine_failed)
  }
  later {
    in   = approach
    says = "Before landing"
    if   = outflow_selector != "open"
    do {
      says    = "Outflow valve selector: open"
      set     = outflow_selector
      to      = "open"
      by      = "PM"
      because = "Held shut, the doors do not open and the slides are of no use."
    }
  }
}

procedure "cabin_auto_list" {
  title   = "Cabin pressure not controlled"
  do {
    says    = "Outflow valve selector: hold"
    set     = outflow_selector
    to      = "hold"
    by      = "PM"
    sensed  = true
    because = "Two automatic controllers have failed. A third try of the same idea is not a plan."
  }
  note { says = "Watch the needle every five minutes; it needs no power." }
  later {
    in   = approach
    says = "Before landing"
    if   = outflow_selector != "open"
    do {
      says    = "Outflow valve selector: open"
      set     = outflow_selector
      to      = "open"
      by      = "PM"
      because = "By hand, before the ground: nobody empties the cabin for you. Left shut, the doors do not open and the slides are of no use."
    }
  }
}

procedure "bay_cooling_list" {
  title   = "Electronics bay not cooled"
  # Nor after the list for smoke in the bay: the fan blows what smokes to where people are (common practice).
  do {
    says    = "Electronics bay fan switch: off, then on, once"
    if      = !bay_smokes && bay_supply_switch == "both"
    set     = bay_fan_switch
    to      = "off"
    by      = "PM"
    because = "The lamp only repeats the switch: after this it will look the same, whatever the fan does."
  }
  do {
    says = "Electronics bay fan switch: on"
    if   = !bay_smokes && bay_supply_switch == "both"
    set  = bay_fan_switch
    to   = "on"
    by   = "PM"
  }
  decide {
    that = bay_flow_shown
    says = "Is there air flow on the air picture?"
    by   = "both"
    then {
      note { says = "Note the time; look again every ten minutes." }
    }
    else {
      note {
        says    = "Half an hour, then boxes begin to fail in no order. Switch off what is not needed, land within that time."
        leg     = "land"
        because = "What fails first cannot be foretold."
      }
    }
  }
}

procedure "cabin_not_empty_list" {
  title   = "Cabin still under pressure"
  do {
    says    = "Outflow valve selector: open"
    set     = outflow_selector
    to      = "open"
    by      = "PM"
    sensed  = true
    because = "A hand-driven motor of its own, on the vital bus."
  }
  do {
    says    = "Left pack switch: off"
    set     = pack_left_switch
    to      = "off"
    by      = "PM"
    because = "No air in, no pressure."
  }
  do {
    says = "Right pack switch: off"
    set  = pack_right_switch
    to   = "off"
    by   = "PM"
  }
  note { says = "Cabin crew: no door before the cabin depressurised lamp." }
}
