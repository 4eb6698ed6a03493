# Procedures of chapter 52.

procedure "door_list" {
  title   = "A door is not latched"
  chapter = 52
  check {
    that = cabin_altitude_needle < 9000
    says = "Cabin pressure holds"
    by   = "PM"
  }
  decide {
    that = seen.on_ground
    says = "Are we on the ground?"
    by   = "both"
    then {
      note {
        says = "Do not take off. Have the door looked at, not just the lamp."
      }
    }
    else {
      note {
        says    = "Nobody goes near the door. Seat belts, no climb, land at the nearest airfield."
        leg     = "land"
        if      = !seen.on_ground
        because = "It may be a sensor; a cabin that holds says so. But nobody ought to find out by leaning on the handle."
      }
    }
  }
}
