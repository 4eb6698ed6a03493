# Procedures of chapter 52.

chapter = 52

procedure "door_list" {
  title   = "A door is not latched"
  decide {
    that = seen.on_ground
    says = "Are we on the ground?"
    by   = "both"
    then {
      tell {
        whom = "cabin"
        says = "A door is not latched: we stay here. Nobody leans on a door."
        if   = !landing_roll && !taxi_in
      }
      tell {
        whom = "control"
        says = "We do not take off, and come back to the stand."
        if   = !landing_roll && !taxi_in
      }
      note {
        says    = "Have the door looked at, not just the lamp."
        because = "The door may be shut and a sensor wrong. Nobody finds that out by taking off."
      }
    }
    else {
      check {
        that = cabin_altitude_needle < 9000
        says = "Cabin pressure holds"
        by   = "PM"
      }
      tell {
        whom = "cabin"
        says = "Nobody near the doors, everybody strapped in."
      }
      decide {
        that    = door_lanes_differ
        says    = "Do the two lanes of sensors differ?"
        by      = "PM"
        because = "A door that has moved is seen by both."
        then {
          note { says = "A sensor: go on, with the belts fastened, and have the door looked at after the landing." }
        }
        else {
          note {
            says    = "No climb, and land at the nearest suitable airfield."
            leg     = "land"
            if      = !seen.on_ground
            because = "A cabin that holds says that the door is still there. Nobody ought to find out for how long."
          }
          tell {
            whom = "control"
            says = "A door is not latched; where we land."
          }
        }
      }
    }
  }
}
