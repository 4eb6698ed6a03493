# Procedures of chapter 23.

procedure "radio_sends_drill" {
  title   = "Radio 1 sends without end"
  chapter = 23
  do {
    says    = "Sending radio selector: radio 2"
    set     = send_selector
    to      = "radio_2"
    by      = "PM"
    sensed  = false
    because = "It takes the microphones off radio 1, so the frequency is free. The alert watches the radio, not the selector: it stays."
  }
  check {
    that = radio_contact
    says = "Call on radio 2: does anybody answer?"
    by   = "PM"
  }
  note {
    says = "If only radio 1 has power, switch its panel to a frequency that nobody uses and listen on the emergency frequency."
  }
}
