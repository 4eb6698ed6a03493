# Procedures of the stall warning.

chapter = 27

procedure "stall_list" {
  title    = "Stall"
  priority = 1
  note {
    says        = "Low: full thrust, 10 degrees nose up, wings level; no nose down while no speed says the same."
    if          = lift_off || first_climb || final
    by          = "PF"
    from_memory = true
    because     = "Below 1,000 ft there is no height to give for a vane that may be bent. At that pitch and thrust it flies, whatever is true."
  }
  decide {
    that        = (size(airspeed_1_readout - airspeed_3_readout) < 15 && size(airspeed_2_readout - airspeed_3_readout) < 15 && airspeed_3_readout > (flap_lever == "up" ? 190 : flight.approach_kt + 20)
      && size(airspeed_3_readout * (1 + altitude_3_readout / 60000) - ground_speed_readout) < 60 && (!seen.icing || wing_ice_lamp) && !wing_heat_lost && !ice_met && landing_speed == "reference")
    says        = "One look: all airspeeds far above it, the ground speed with them, nose as always, no ice?"
    if          = !(seen.on_ground || lift_off || first_climb || final)
    by          = "PF"
    from_memory = true
    because     = "A bent vane never stops: who puts the nose down until it does, goes on down. The look costs three seconds."
    then {
      note {
        says        = "Perhaps false: hold nose and thrust, and ask."
        by          = "PF"
        from_memory = true
      }
    }
    else {
      note {
        says        = "Nose down until it stops, wings level, then thrust."
        by          = "PF"
        from_memory = true
        because     = "Thrust first raises the nose of an aircraft with its engines under the wing."
      }
    }
  }
  do {
    says        = "Thrust levers: by hand, as needed, low down full; spoilers in"
    set         = thrust_levers
    to          = "moved by hand"
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "Levers that something else has closed open again under a hand."
  }
  decide {
    that        = (!wing_heat_lost && !ice_met && landing_speed == "reference" && size(airspeed_1_readout - airspeed_3_readout) < 15 && size(airspeed_2_readout - airspeed_3_readout) < 15
      && (stall_left_lamp != stall_right_lamp ? airspeed_3_readout > (flap_lever == "up" ? 190 : flap_lever == "full" ? flight.approach_kt - 5 : flap_lever == "middle" ? flight.approach_kt + 5 : flight.rotate_kt + 8)
      : (!seen.icing || wing_ice_lamp) && airspeed_3_readout > (flap_lever == "up" ? 190 : flight.approach_kt + 20) && size(airspeed_3_readout * (1 + altitude_3_readout / 60000) - ground_speed_readout) < 60))
    says        = "Three airspeeds agree, enough for these flaps, and no ice; one lane alone warns, or both, and the speeds are far above it and fit the ground speed: is it false?"
    if          = !seen.on_ground
    by          = "both"
    from_memory = true
    because     = "Asked before any go-around. What is dark, or does not agree, is a stall."
    then {
      note { says = "Not believed: fly on by speed, pitch and thrust; it is asked again when clean." }
    }
    else {
      do {
        says = "Believe it: recover and stay 20 kt faster. Autothrottle switch: off"
        set  = autothrottle_switch
        to   = "off"
        if   = approach || final
        by   = "PM"
      }
      note {
        says    = "Go around."
        leg     = "go_around"
        if      = (approach || final) && !(left_engine_failed && right_engine_failed)
        because = "An approach that has come to a stall warning is not one to be mended."
      }
    }
  }
  later {
    when = flap_lever == "up" && airspeed_3_readout > 190 && (stall_left_lamp || stall_right_lamp)
    says = "Clean, above 190 kt, and it still warns"
    decide {
      that = size(airspeed_1_readout - airspeed_3_readout) < 15 && size(airspeed_2_readout - airspeed_3_readout) < 15 && airspeed_3_readout > 190 && size(airspeed_3_readout * (1 + altitude_3_readout / 60000) - ground_speed_readout) < 60 && !wing_heat_lost && !ice_met
      says = "Asked again: all three airspeeds agree, the ground speed with them, nose and thrust as known, no ice?"
      by   = "both"
      then {
        do {
          says    = "Left lane alone warns: stall lane switch: left off"
          set     = stall_cut_switch
          to      = "left_off"
          if      = stall_left_lamp && !stall_right_lamp
          by      = "PM"
          because = "A bent vane shouts for the rest of the flight. The other lane goes on warning."
        }
        do {
          says = "Right lane alone warns: stall lane switch: right off"
          set  = stall_cut_switch
          to   = "right_off"
          if   = stall_right_lamp && !stall_left_lamp
          by   = "PM"
        }
        note {
          says    = "Both lanes: land at the nearest suitable airfield. The cut-out takes one lane, never both."
          leg     = "land"
          if      = stall_left_lamp && stall_right_lamp && !seen.on_ground
          by      = "PF"
          because = "Two bent vanes shout to the end of the flight, and nothing warns of a true stall any more."
        }
      }
      else {
        note { says = "Believe it. Recover and stay 20 kt faster." }
      }
    }
  }
}

procedure "stall_lane_list" {
  title    = "Stall warning from one side only"
  priority = 85
  note {
    says    = "Stay out of ice where it can be done."
    because = "One vane is left, and ice may hold it."
  }
  note { says = "Not to be put off: it is mended before the next flight." }
}

procedure "stall_warning_off_list" {
  title    = "No stall warning"
  priority = 60
  note {
    says    = "Stay out of ice; no bank above 25 degrees below 200 kt."
    because = "Nothing warns and nothing guards: speed, attitude and thrust are what is left."
  }
  later {
    when = altitude_1_readout < 6000 && (descent || approach)
    says = "For landing, before the approach"
    do {
      says = "Landing speed: 10 kt more. PM calls each speed below it"
      set  = landing_speed
      to   = "10 kt more"
      if   = (descent || approach) && landing_speed == "reference"
    }
    check {
      that = size(airspeed_1_readout - airspeed_2_readout) < 10
      says = "Airspeeds: agree"
      by   = "both"
    }
  }
}
