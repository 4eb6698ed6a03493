# Procedures of chapter 78.

procedure "reverser_left_creeps_list" {
  title   = "Left reverser not locked"
  chapter = 78
  note {
    says    = "Left thrust lever: idle. Hand near the run switch."
    because = "One lock is left. If it goes too, the reverser opens by itself, and only less thrust helps."
  }
  decide {
    that = reverse_left_mark
    says = "Does the aircraft pull to one side, or is the open mark on?"
    by   = "both"
    then {
      do {
        says        = "Left engine run switch: off"
        set         = engine_left_switch
        to          = "off"
        by          = "PF"
        from_memory = true
        because     = "An open reverser with thrust behind it cannot be held by the rudder."
      }
      note {
        says    = "Land at the nearest airfield that suits; one engine, and its reverser may hang open."
        leg     = "land"
        if      = !seen.on_ground
        because = "With one engine left the next failure may be the last, and the open reverser costs climb all the way."
      }
    }
    else {
      note {
        says = "Land at the nearest suitable airfield with this engine at idle; no reverse on this side."
        leg  = "land"
        if   = !seen.on_ground
      }
    }
  }
}

procedure "reverser_right_creeps_list" {
  title   = "Right reverser not locked"
  chapter = 78
  note {
    says    = "Right thrust lever: idle. Hand near the run switch."
    because = "One lock is left. If it goes too, the reverser opens by itself, and only less thrust helps."
  }
  decide {
    that = reverse_right_mark
    says = "Does the aircraft pull to one side, or is the open mark on?"
    by   = "both"
    then {
      do {
        says        = "Right engine run switch: off"
        set         = engine_right_switch
        to          = "off"
        by          = "PF"
        from_memory = true
        because     = "An open reverser with thrust behind it cannot be held by the rudder."
      }
      note {
        says    = "Land at the nearest airfield that suits; one engine, and its reverser may hang open."
        leg     = "land"
        if      = !seen.on_ground
        because = "With one engine left the next failure may be the last, and the open reverser costs climb all the way."
      }
    }
    else {
      note {
        says = "Land at the nearest suitable airfield with this engine at idle; no reverse on this side."
        leg  = "land"
        if   = !seen.on_ground
      }
    }
  }
}
