# Procedures of chapter 30.

chapter = 30

procedure "ice_met_list" {
  title   = "Ice outside, and nothing heated"
  do {
    says    = "Engine ice protection switch: on"
    set     = engine_ice_switch
    to      = "on"
    by      = "PM"
    sensed  = true
    because = "Engines first: ice that has gathered on an inlet goes through the fan when it comes off."
  }
  do {
    says   = "Wing ice protection switch: on"
    set    = wing_ice_switch
    to     = "on"
    by     = "PM"
    sensed = true
  }
}

procedure "ice_unseen_list" {
  title    = "Ice detectors lost"
  priority = 70
  note {
    says    = "By eye from now on: cloud or rain below 10 degrees, or ice on the wipers. Ice protection is set by hand, before it, not after."
    because = "Nothing warns of ice met with the switches off, and the stall warning reckons with ice only behind a switch that is on."
  }
  later {
    when = seen.icing
    says = "In cloud or rain below 10 degrees"
    do {
      says    = "Engine ice protection switch: on"
      set     = engine_ice_switch
      to      = "on"
      because = "Engines first: their ice goes through the fan."
    }
    do {
      says = "Wing ice protection switch: on"
      set  = wing_ice_switch
      to   = "on"
    }
  }
}

procedure "wing_heat_list" {
  title   = "Wing ice protection lost"
  note {
    says    = "Leave the ice the quickest way, up or down."
    because = "In cloud two millimetres a minute gather on a cold edge; three are a wing that stalls early."
    if      = seen.icing
    by      = "PF"
  }
  do {
    says    = "Spoiler lever: full, down through it and no level-off in the layer"
    set     = spoiler_lever
    to      = "full"
    leg     = "descend"
    leg_ft  = 5000
    if      = seen.icing && !(left_engine_failed && right_engine_failed) && (descent || approach && altitude_1_readout > 5500)
    by      = "PF"
    because = "On the way down the shortest way out is on down: 5,000 ft or the lowest safe height, whichever is higher. Without engines height is the field, and is kept."
  }
  tell {
    whom = "control"
    says = "No ice protection: no level and no holding in cloud."
    if   = !seen.on_ground
  }
  later {
    when = !seen.icing
    says = "Out of the ice"
    do {
      says = "Spoiler lever: in"
      set  = spoiler_lever
      to   = "in"
      if   = spoiler_lever == "full" && !seen.on_ground
      by   = "PF"
    }
  }
  later {
    when = altitude_1_readout < 6000 && (descent || approach)
    says = "For landing, if there is ice on the wing"
    do {
      says    = "Landing speed: 20 kt more; mind the longer landing distance"
      set     = landing_speed
      to      = "20 kt more"
      if      = (descent || approach) && landing_speed != "20 kt more"
      because = "An iced wing stalls early. What came in two minutes stays on all the way down in cold air."
    }
    note {
      says = "So fast, is the runway long enough? If not: one that is, around from the approach if need be."
      leg  = "long_enough"
    }
  }
}

procedure "engine_ice_list" {
  title   = "Engine inlet heat lost"
  note {
    says    = "Leave the ice. If that takes more than three minutes, run that engine up every minute for some seconds."
    because = "Small pieces shed often do less harm than one large piece later."
  }
}

procedure "pitot_left_cold_list" {
  title    = "Left pitot tube not heated"
  priority = 45
  decide {
    that = vital_ac_volts > 100
    says = "Is the vital AC bus alive?"
    by   = "PM"
    then {
      note { says = "The heater itself has failed: stay out of ice, compare the three airspeeds." }
    }
    else {
      do {
        says    = "Vital AC bus source switch: right"
        set     = vital_side_switch
        to      = "right"
        by      = "PM"
        sensed  = true
        because = "The heater lives on the vital bus. With the bus comes its heat."
      }
    }
  }
  note {
    says    = "An airspeed that grows as we climb and falls as we descend is a closed tube."
    because = "The pressure trapped in it makes an altimeter out of an airspeed indicator."
  }
  note {
    says    = "If the speeds differ: stay level by the others, and land at the nearest suitable airfield. The too-fast warning sounds on, and is not followed."
    leg     = "land"
    if      = !seen.on_ground && size(airspeed_1_readout - airspeed_3_readout) > 20
    because = "A closed tube lies as long as the ice is in it, and longer."
  }
}

procedure "pitot_right_cold_list" {
  title    = "Right pitot tube not heated"
  priority = 45
  note { says = "Stay out of ice. The left side and the standby tube are heated by other buses: fly by those." }
  check {
    that = size(airspeed_1_readout - airspeed_3_readout) < 10
    says = "Left and standby airspeed agree"
    by   = "both"
  }
}
