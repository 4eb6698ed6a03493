# Procedures of chapter 30.

procedure "ice_met_list" {
  title   = "Ice, protection is off"
  chapter = 30
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

procedure "wing_heat_list" {
  title   = "Wing ice protection lost"
  chapter = 30
  check {
    that = bleed_left_shown && bleed_right_shown
    says = "Bleed air on both sides"
    by   = "PM"
  }
  note {
    says    = "Leave the ice: up, down or back, the quickest way."
    because = "Two minutes are enough for a wing that stalls 25 kt early, and no instrument shows it."
  }
  later {
    in   = approach
    says = "For landing, if there is ice on the wing"
    note {
      says    = "20 kt more, no flaps 3."
      because = "An iced wing stalls 25 kt early, and the stall warning does not know it. What came in two minutes takes ten to go."
    }
  }
}

procedure "engine_ice_list" {
  title   = "Engine inlet heat lost"
  chapter = 30
  note {
    says    = "Leave the ice. If that takes more than three minutes, run that engine up every minute for some seconds."
    because = "Small pieces shed often do less harm than one large piece later."
  }
}

procedure "pitot_left_cold_list" {
  title    = "Left pitot tube not heated"
  chapter  = 30
  priority = 45
  decide {
    that = vital_ac_volts > 100
    says = "Is the vital AC bus alive?"
    by   = "PM"
    then {
      note {
        says = "The heater itself has failed: stay out of ice, compare the three airspeeds."
      }
    }
    else {
      do {
        says    = "Vital AC feed selector: right"
        set     = vital_feed_selector
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
}

procedure "pitot_right_cold_list" {
  title    = "Right pitot tube not heated"
  chapter  = 30
  priority = 45
  note {
    says = "Stay out of ice. The left side and the standby tube are heated by other buses: fly by those."
  }
  check {
    that = size(airspeed_1_readout - airspeed_3_readout) < 10
    says = "Left and standby airspeed agree"
    by   = "both"
  }
}
