# Procedures of chapter 35.

chapter = 35

procedure "crew_oxygen_list" {
  title   = "Pilots' oxygen runs short"
  check {
    that = cabin_altitude_needle < 9000
    says = "Cabin altitude: normal"
    by   = "PM"
  }
  note {
    says    = "No higher than 25,000 ft from now on, and no pilot leaves the seat."
    leg     = "descend"
    leg_ft  = 25000
    if      = altitude_1_readout > 25500
    because = "Nothing is lost as long as the cabin holds. If it does not, there are minutes at 25,000 ft and no second bottle."
  }
  note {
    says = "Oxygen for less than an hour: land within it if the masks are in use."
    if   = crew_masks == "on"
  }
}

procedure "masks_out_list" {
  title    = "Cabin masks are out"
  priority = 80
  check {
    that = cabin_altitude_needle < 13500
    says = "Cabin altitude: below 13,500 ft. If not, the list Cabin too high"
    by   = "PM"
  }
  tell {
    whom = "cabin"
    says = "The masks are out: thirteen minutes, and no more. Where we go down to."
    if   = cabin_altitude_needle > 10000 || altitude_1_readout > 10500
  }
}
