# Procedures of the stall warning.

chapter = 27

procedure "stall_list" {
  title    = "Stall"
  priority = 1
  note {
    says        = "Nose down until it stops, wings level, then thrust."
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "Thrust first raises the nose of an aircraft with its engines under the wing."
  }
  do {
    says        = "Thrust levers: by hand, as needed; spoilers in"
    set         = thrust_levers
    to          = "moved by hand"
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "Levers that something else has closed open again under a hand."
  }
  do {
    says = "Autothrottle switch: off"
    set  = autothrottle_switch
    to   = "off"
    if   = !seen.on_ground && (approach || final)
    by   = "PM"
  }
  note {
    says    = "Go around."
    leg     = "go_around"
    if      = !seen.on_ground && (approach || final)
    because = "An approach that has come to a stall warning is not one to be mended."
  }
  decide {
    that = airspeed_1_readout > 170 && airspeed_2_readout > 170 && airspeed_3_readout > 170 && size(airspeed_1_readout - airspeed_3_readout) < 20 && size(airspeed_2_readout - airspeed_3_readout) < 20
    says = "All three airspeeds agree, far above the stall, nose and thrust as known?"
    by   = "both"
    then {
      do {
        says    = "Left lane alone warns: stall warning cut-out switch: left off"
        set     = stall_cut_switch
        to      = "left_off"
        if      = stall_left_lamp && !stall_right_lamp
        by      = "PM"
        because = "A bent vane shouts for the rest of the flight. The other lane goes on warning."
      }
      do {
        says = "Right lane alone warns: stall warning cut-out switch: right off"
        set  = stall_cut_switch
        to   = "right_off"
        if   = stall_right_lamp && !stall_left_lamp
        by   = "PM"
      }
    }
    else {
      note {
        says = "Believe it. Recover and stay 20 kt faster."
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
  note {
    says = "Not to be put off: it is mended before the next flight."
  }
}

procedure "stall_warning_off_list" {
  title    = "No stall warning"
  priority = 60
  note {
    says    = "Stay out of ice; no bank above 25 degrees below 200 kt."
    because = "Nothing warns and nothing guards: speed, attitude and thrust are what is left."
  }
  later {
    in   = approach
    says = "For landing"
    do {
      says = "Landing speed: 10 kt more. PM calls each speed below it"
      set  = landing_speed
      to   = "10 kt more"
    }
    check {
      that = size(airspeed_1_readout - airspeed_2_readout) < 10
      says = "Airspeeds: agree"
      by   = "both"
    }
  }
}
