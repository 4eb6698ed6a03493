# Procedures of chapter 23.

chapter = 23

procedure "radio_sends_drill" {
  title   = "Radio 1 stuck transmitting"
  do {
    says    = "Transmitter selector: radio 2"
    set     = send_selector
    to      = "radio_2"
    by      = "PM"
    sensed  = false
    because = "It takes the microphones off radio 1, so the frequency is free. The alert watches the radio, not the selector: it stays."
  }
  check {
    that = radio_2_panel && !sending_lamp
    says = "Call on radio 2: does anybody answer?"
    by   = "PM"
  }
  note { says = "If only radio 1 has power, switch its panel to a frequency that nobody uses and listen on the emergency frequency." }
}

procedure "radio_lost_drill" {
  title    = "Selected radio off"
  priority = 66
  do {
    says = "Radio 2 has a panel that is lit: transmitter selector: radio 2"
    set  = send_selector
    to   = "radio_2"
    if   = radio_2_panel
    by   = "PM"
  }
  do {
    says = "Else radio 3"
    set  = send_selector
    to   = "radio_3"
    if   = radio_3_panel && send_selector != "radio_2"
    by   = "PM"
  }
  do {
    says = "Else radio 1"
    set  = send_selector
    to   = "radio_1"
    if   = radio_1_panel && send_selector != "radio_2" && send_selector != "radio_3"
    by   = "PM"
  }
  tell {
    whom = "control"
    says = "Call on the radio that is left; on the emergency frequency if nobody answers."
    by   = "PM"
  }
  note {
    says    = "No answer on any: transponder to the code for a lost radio; fly the last clearance to its end, and land."
    because = "Others clear the way for what they expect."
  }
}
