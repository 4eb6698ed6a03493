# Procedures of chapter 31.

chapter = 31

procedure "data_unit_silent" {
  title   = "Data unit silent"
  note {
    says    = "The systems behind this unit are not dead. They only cannot report: an empty alert list says nothing about them."
    because = "The dangerous failure here is to believe the silence."
  }
  decide {
    that = called_by(data_unit_2_off)
    says = "Unit 2?"
    by   = "PM"
    then {
      note { says = "Go through the right-hand systems on their lamps and on the system pictures every ten minutes." }
    }
    else {
      note { says = "Go through the left-hand systems on their lamps every ten minutes." }
    }
  }
  check {
    says = "Lamp test of the overhead panel: both halves light"
    by   = "PM"
  }
}

procedure "screen_list" {
  title    = "Picture unit off"
  priority = 72
  do {
    says    = "No picture on the left: picture selector: spare for the left side"
    set     = picture_selector
    to      = "spare_left"
    if      = left_picture_flag
    by      = "PM"
    because = "The spare unit comes by itself within three seconds. Where it has not, the hand tries."
  }
  do {
    says = "No picture on the right: picture selector: spare for the right side"
    set  = picture_selector
    to   = "spare_right"
    if   = right_picture_flag && !left_picture_flag
    by   = "PM"
  }
  check {
    that = size(altitude_1_readout - altitude_2_readout) < 250
    says = "Both flight displays are there, and agree"
    by   = "both"
  }
  note { says = "The pilot whose picture is whole flies." }
}

procedure "all_screens_list" {
  title    = "No flight display"
  priority = 5
  note {
    says        = "Fly the standby instrument: attitude and thrust as known for the phase. An autopilot that flies stays on."
    by          = "PF"
    from_memory = true
    because     = "Attitude, speed and height for half an hour and more, on a battery of its own."
  }
  do {
    says    = "Picture selector: spare for the left side"
    set     = picture_selector
    to      = "spare_left"
    by      = "PM"
    sensed  = true
    because = "One try. The left screen and the spare unit have different supplies."
  }
  tell {
    whom = "control"
    says = "All screens lost, flying by the standby instrument; ask for headings and heights."
    by   = "PM"
  }
  decide {
    that = altitude_1_readout > -2000 || altitude_2_readout > -2000
    says = "Is a flight display back?"
    by   = "both"
    then {
      note { says = "The pilot who has it flies." }
    }
    else {
      note {
        says    = "Land at the nearest airfield with weather for a VOR approach."
        leg     = "land"
        if      = !seen.on_ground
        because = "One instrument is left, and nothing to compare it with."
      }
    }
  }
}

procedure "alerting_off_list" {
  title    = "No alerting computer"
  priority = 20
  note {
    says    = "Look through the system pictures and the lamps every five minutes. Land where there is time to look."
    because = "Fire, stall, gear, take-off setting and cabin altitude still warn: they are wired past the computers. Nothing else does."
  }
}

procedure "warning_unit_list" {
  title    = "No attention lights, no sounds"
  priority = 60
  note {
    says    = "PM looks at the alert list every minute and reads out what is new."
    because = "From here on an alert comes in writing only. The stall shakers have supplies of their own."
  }
}
