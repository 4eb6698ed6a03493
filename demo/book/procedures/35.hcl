# Procedures of chapter 35.

procedure "crew_oxygen_list" {
  title   = "Crew oxygen low"
  chapter = 35
  check {
    that = cabin_altitude_needle < 9000
    says = "Cabin altitude: normal"
    by   = "PM"
  }
  note {
    says    = "No higher than 25,000 ft from now on, and no pilot leaves the seat."
    because = "Nothing is lost as long as the cabin holds. If it does not, there is no second bottle."
  }
}
