# Procedures of chapter 49.

procedure "apu_no_start_drill" {
  title   = "APU did not start"
  chapter = 49
  do {
    says    = "APU switch: off, wait two minutes"
    set     = apu_switch
    to      = "off"
    by      = "PM"
    sensed  = true
    because = "The starter must cool: two hot starts in a row burn it out."
  }
  check {
    that = real.altitude_ft < 25000
    says = "Below 25,000 ft"
    by   = "both"
  }
  do {
    says = "APU switch: run, once more"
    set  = apu_switch
    to   = "run"
    by   = "PM"
  }
}
