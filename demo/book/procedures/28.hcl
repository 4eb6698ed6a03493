# Procedures of chapter 28.

procedure "fuel_pumps_left_list" {
  title    = "Left fuel pump pressure low"
  chapter  = 28
  priority = 35
  decide {
    that = size(fuel_left_shown - fuel_right_shown) < 300
    says = "Do the tanks agree, and does the fuel on board agree with what was burnt?"
    by   = "both"
    then {
      do {
        says    = "Crossfeed switch: open"
        set     = crossfeed_switch
        to      = "open"
        by      = "PM"
        sensed  = true
        because = "The right pumps now feed both engines. Above 25,000 ft there is half a minute for this."
      }
    }
    else {
      note {
        says    = "Leave the crossfeed shut: this may be a leak. Descend below 25,000 ft instead."
        because = "Below that the engine sucks its own fuel. An open crossfeed would give the leak the other tank."
      }
    }
  }
  do {
    says = "Left fuel pumps switch: off"
    set  = boost_left_switch
    to   = "off"
    by   = "PM"
  }
}

procedure "fuel_pumps_right_list" {
  title    = "Right fuel pump pressure low"
  chapter  = 28
  priority = 35
  decide {
    that = size(fuel_left_shown - fuel_right_shown) < 300
    says = "Do the tanks agree, and does the fuel on board agree with what was burnt?"
    by   = "both"
    then {
      do {
        says    = "Crossfeed switch: open"
        set     = crossfeed_switch
        to      = "open"
        by      = "PM"
        sensed  = true
        because = "The left pumps now feed both engines. Above 25,000 ft there is half a minute for this."
      }
    }
    else {
      note {
        says    = "Leave the crossfeed shut: this may be a leak. Descend below 25,000 ft instead."
        because = "Below that the engine sucks its own fuel. An open crossfeed would give the leak the other tank."
      }
    }
  }
  do {
    says = "Right fuel pumps switch: off"
    set  = boost_right_switch
    to   = "off"
    by   = "PM"
  }
}

procedure "fuel_low_left_list" {
  title   = "Left fuel low"
  chapter = 28
  check {
    that = fuel_right_shown > 400
    says = "Right tank: above 400 kg"
    by   = "PM"
  }
  decide {
    that = feed_line_left.leaks
    says = "Is a leak possible? Look along the wing, compare flow and quantity"
    by   = "both"
    then {
      do {
        says    = "Crossfeed switch: shut, and left to stay shut"
        set     = crossfeed_switch
        to      = "shut"
        by      = "PM"
        because = "The leak is behind the engine valve. What the crossfeed sends there goes overboard."
      }
      do {
        says    = "Left engine fire handle: pulled"
        set     = fire_handle_left
        to      = "pulled"
        by      = "PM"
        because = "Shuts the valve in front of the leak. One engine with fuel is better than two without."
      }
    }
    else {
      do {
        says   = "Crossfeed switch: open"
        set    = crossfeed_switch
        to     = "open"
        by     = "PM"
        sensed = true
      }
    }
  }
  note {
    says = "Land at the nearest runway that is long enough."
    leg  = "land"
    if   = !seen.on_ground
  }
}

procedure "fuel_low_right_list" {
  title   = "Right fuel low"
  chapter = 28
  check {
    that = fuel_left_shown > 400
    says = "Left tank: above 400 kg"
    by   = "PM"
  }
  decide {
    that = feed_line_right.leaks
    says = "Is a leak possible? Look along the wing, compare flow and quantity"
    by   = "both"
    then {
      do {
        says    = "Crossfeed switch: shut, and left to stay shut"
        set     = crossfeed_switch
        to      = "shut"
        by      = "PM"
        because = "The leak is behind the engine valve. What the crossfeed sends there goes overboard."
      }
      do {
        says    = "Right engine fire handle: pulled"
        set     = fire_handle_right
        to      = "pulled"
        by      = "PM"
        because = "Shuts the valve in front of the leak. One engine with fuel is better than two without."
      }
    }
    else {
      do {
        says   = "Crossfeed switch: open"
        set    = crossfeed_switch
        to     = "open"
        by     = "PM"
        sensed = true
      }
    }
  }
  note {
    says = "Land at the nearest runway that is long enough."
    leg  = "land"
    if   = !seen.on_ground
  }
}

procedure "fuel_unbalanced_list" {
  title   = "Fuel unbalanced, or fuel disappears"
  chapter = 28
  note {
    says    = "First ask where it went. Do not open the crossfeed to make the numbers even."
    because = "The fuel that is missing on one side may be in the sea, and balancing sends more after it."
  }
  check {
    that = tank_left_kg + tank_right_kg > real.fuel_kg - 100
    says = "Fuel on board plus fuel burnt makes the fuel at departure"
    by   = "both"
  }
  decide {
    that = tank_left_kg + tank_right_kg > real.fuel_kg - 100
    says = "Does the sum agree?"
    by   = "both"
    then {
      do {
        says   = "Crossfeed switch: open until balanced"
        set    = crossfeed_switch
        to     = "open"
        by     = "PM"
        sensed = true
      }
    }
    else {
      do {
        says    = "Crossfeed switch: shut"
        set     = crossfeed_switch
        to      = "shut"
        by      = "PM"
        because = "Keep the good tank for the good engine."
      }
      decide {
        that = fuel_left_shown < fuel_right_shown
        says = "Which side loses? The left one?"
        by   = "both"
        then {
          note {
            says    = "It leaks. Go to the list Left fuel low, before it is low."
            go_to   = fuel_low_left_list
            because = "What leaks does not wait for the lamp at 400 kg."
          }
        }
        else {
          note {
            says  = "It leaks. Go to the list Right fuel low, before it is low."
            go_to = fuel_low_right_list
          }
        }
        unknown {
          note {
            says = "The gauges are dark: land at the nearest airfield that suits."
            leg  = "land"
            if   = !seen.on_ground
          }
        }
      }
    }
  }
}
