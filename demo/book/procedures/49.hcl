# Procedures of chapter 49.

chapter = 49

procedure "apu_no_start_drill" {
  title    = "APU did not start"
  priority = 34
  do {
    says    = "APU switch: off"
    set     = apu_switch
    to      = "off"
    by      = "PM"
    sensed  = true
    because = "The starter must cool: two hot starts in a row burn it out."
  }
  decide {
    that    = altitude_1_readout < aircraft.apu_light_up_ft
    says    = "Two minutes later: below 25,000 ft?"
    by      = "both"
    wait_s  = 120
    because = "Above that it does not light. Trying again there tries the starter, not the APU."
    then {
      do {
        says = "APU switch: run, once more"
        set  = apu_switch
        to   = "run"
        by   = "PM"
      }
    }
    else {
      note { says = "Leave it off; try once more in the descent." }
    }
  }
}
