# Procedures of chapter 36.

chapter = 36

procedure "bleed_left_lost_list" {
  mirror   = true
  title    = "No bleed air from the left engine"
  priority = 35
  do {
    says    = "Left bleed switch: off"
    if      = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    set     = bleed_left_switch
    to      = "off"
    by      = "PM"
    sensed  = true
    because = "A valve that comes back half open is worse than one that stays shut."
  }
  check {
    that = bleed_left_shown
    says = "Pressure on the left side, through the cross-bleed valve"
    if   = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    by   = "PM"
  }
  decide {
    that = bleed_left_shown
    says = "Is there pressure on this side again?"
    if   = !seen.on_ground || engine_left_switch == "run" || engine_right_switch == "run"
    by   = "both"
    then {
      note {
        says = "One bleed for both packs and both wings: no higher than 31,000 ft in ice."
        if   = !seen.on_ground && !(left_engine_failed && right_engine_failed)
      }
    }
    else {
      note {
        says    = "The wing on this side stays cold: leave ice, or stay out of it."
        if      = !seen.on_ground
        because = "One warm wing and one iced wing is not half a problem."
      }
    }
  }
}

procedure "leak_left_list" {
  mirror   = true
  title    = "Left bleed duct leaks"
  priority = 34
  check {
    that = bleed_left_lamp
    says = "Left bleed valve: shut by itself"
    by   = "PM"
  }
  do {
    says    = "Left bleed switch: off"
    set     = bleed_left_switch
    to      = "off"
    by      = "PM"
    sensed  = true
    because = "With the controller dead nothing has shut the valve. The switch does."
  }
  do {
    says    = "Cross-bleed valve switch: shut"
    set     = cross_bleed_selector
    to      = "shut"
    by      = "PM"
    because = "Air from the other side would blow out of the same hole."
  }
  note {
    says    = "Leave ice: this wing has no heat for the rest of the flight."
    because = "Air of 250 degrees on the wing's structure for ten minutes is a broken wing, so the duct stays shut."
  }
}
