# Procedures of chapter 31.

procedure "data_unit_silent" {
  title   = "Data unit silent"
  chapter = 31
  note {
    says    = "The systems behind this unit are not dead. They only cannot report: an empty alert list says nothing about them."
    because = "The dangerous failure here is to believe the silence."
  }
  decide {
    that = data_unit_1
    says = "Does data unit 1 work?"
    by   = "PM"
    then {
      note {
        says = "Unit 2 silent: go through the right-hand systems on their lamps and on the system pages every ten minutes."
      }
    }
    else {
      note {
        says = "Unit 1 silent: go through the left-hand systems on their lamps every ten minutes."
      }
    }
  }
  check {
    that = lamp_power_left || lamp_power_right
    says = "Lamp test of the overhead panel: both halves light"
    by   = "PM"
  }
}

procedure "picture_unit_off" {
  title   = "Picture unit off"
  chapter = 31
  decide {
    that = !left_picture_flag
    says = "Is the left flight picture there?"
    by   = "both"
    then {
      do {
        says    = "Picture selector: spare for the right side"
        set     = picture_selector
        to      = "spare_right"
        by      = "PM"
        sensed  = true
        because = "The spare unit can make the pictures of one side."
      }
    }
    else {
      do {
        says    = "Picture selector: spare for the left side"
        set     = picture_selector
        to      = "spare_left"
        by      = "PM"
        sensed  = true
        because = "The left side carries the vital screens."
      }
    }
  }
  note {
    says = "The pilot whose picture is there flies."
  }
}
