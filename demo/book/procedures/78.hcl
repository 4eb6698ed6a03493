# Procedures of chapter 78.

chapter = 78

procedure "reverser_list" {
  title   = "A reverser hook has let go"
  do {
    says    = "Levers by hand; the thrust lever of that engine: idle"
    set     = thrust_levers
    to      = "moved by hand"
    by      = "PF"
    because = "Two locks are left. Should they go too it opens by itself, and only less thrust helps: the engine's control takes it back, and the hand makes sure."
  }
  decide {
    that = called_by(reverser_right_unlocked) ? reverse_right_mark : reverse_left_mark
    says = "Does it shake, does the aircraft pull to one side, or is the open mark on?"
    by   = "both"
    then {
      decide {
        that = called_by(reverser_right_unlocked)
        says = "Both say the side aloud. Is it the right-hand engine?"
        by   = "both"
        then {
          do {
            says    = "Right engine switch: off, confirmed by both"
            set     = engine_right_switch
            to      = "off"
            by      = "PM"
            because = "An open reverser with thrust behind it cannot be held by the rudder."
          }
        }
        else {
          do {
            says    = "Left engine switch: off, confirmed by both"
            set     = engine_left_switch
            to      = "off"
            by      = "PM"
            because = "An open reverser with thrust behind it cannot be held by the rudder."
          }
        }
      }
      note {
        says    = "Land at the nearest suitable airfield; one engine, and its reverser may hang open."
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
  tell {
    whom = "control"
    says = "A reverser that is not locked; where we land."
    if   = !seen.on_ground
  }
  tell {
    whom = "cabin"
    says = "We land soon; when."
    if   = !seen.on_ground
  }
}
