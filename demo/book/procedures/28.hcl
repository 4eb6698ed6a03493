# Procedures of chapter 28. A leak, a valve and a gauge that stands still look alike at
# first: what is left and what is used, against what was there, tells them apart.

chapter = 28

procedure "fuel_pumps_list" {
  title    = "Fuel pump pressure low"
  priority = 35
  note {
    says    = "Both sides: down to 20,000 ft, below it the engines suck their own fuel. Until then the emergency pumps feed them, from the vital bus."
    if      = fuel_pumps_left && fuel_pumps_right && !(left_engine_failed && right_engine_failed) && !seen.on_ground && altitude_1_readout > aircraft.suction_ceiling_ft
    leg     = "descend"
    leg_ft  = 20000
    because = "The emergency pumps live as long as the vital bus."
  }
  decide {
    that = size(fuel_left_shown + fuel_right_shown + fuel_used_shown - flight.fuel_kg) < 150
    compares = true
    says = "One side: do fuel left and fuel used make the fuel at departure?"
    by   = "both"
    if   = !(fuel_pumps_left && fuel_pumps_right)
    then {
      do {
        says    = "Crossfeed switch: open"
        set     = crossfeed_switch
        to      = "open"
        by      = "PM"
        sensed  = true
        because = "The pumps of the other side now feed both engines; until then the emergency pump does."
      }
      later {
        when = altitude_1_readout < aircraft.suction_ceiling_ft
        says = "Below 20,000 ft"
        do {
          says    = "Crossfeed switch: shut"
          set     = crossfeed_switch
          to      = "shut"
          by      = "PM"
          because = "Both engines drink from one tank while it is open; below 20,000 ft each sucks from its own."
        }
      }
    }
    else {
      note {
        says    = "Leave the crossfeed shut: this may be a leak. Descend to 20,000 ft instead; below that the engine sucks its own fuel."
        leg     = "descend"
        leg_ft  = 20000
        if      = !seen.on_ground && altitude_1_readout > aircraft.suction_ceiling_ft
        because = "An open crossfeed would give the leak the other tank."
      }
    }
  }
  do {
    says = "Left fuel pumps switch: off"
    set  = boost_left_switch
    to   = "off"
    if   = called_by(fuel_pumps_left) && !(fuel_pumps_left && fuel_pumps_right)
    by   = "PM"
  }
  do {
    says = "Right fuel pumps switch: off"
    set  = boost_right_switch
    to   = "off"
    if   = called_by(fuel_pumps_right) && !(fuel_pumps_left && fuel_pumps_right)
    by   = "PM"
  }
}

procedure "fuel_low_list" {
  title   = "Fuel low in one tank"
  note {
    says    = "Land at the nearest suitable airfield: fuel for half an hour is left in that tank."
    leg     = "land"
    if      = !seen.on_ground
    because = "The float does not know the gauge: whichever is lower is believed."
  }
  decide {
    that    = (fuel_low_left && fuel_low_right ? 1000 : 500 + (fuel_low_left ? fuel_right_shown : fuel_left_shown)) + fuel_used_shown < flight.fuel_kg - 200
    says    = "500 kg in each tank whose float warns, the other gauge, and fuel used: less than the fuel at departure?"
    by      = "both"
    because = "A float says 500 kg. The gauge beside it may be why the tank is low."
    then {
      note {
        says  = "It leaks: the list Fuel leak."
        go_to = fuel_leak_list
      }
    }
    else {
      do {
        says    = "Only if the other tank's float is silent and its gauge shows more than 800 kg: crossfeed switch open"
        set     = crossfeed_switch
        to      = "open"
        if      = !(fuel_low_left && fuel_low_right) && (fuel_low_left ? fuel_right_shown : fuel_left_shown) > 800 && (fuel_low_left ? fuel_right_shown : fuel_left_shown) + fuel_used_shown < flight.fuel_kg - 350
        by      = "PM"
        sensed  = true
        because = "With both low, or with a gauge that stands still, it moves only the worry."
      }
    }
  }
  decide {
    that = fuel_left_shown + fuel_right_shown > 750 + 7 * distance_readout && !(fuel_low_left && fuel_low_right && distance_readout > 35)
    says = "Will the final reserve, 750 kg, be left at landing: 7 kg a mile, and 1,000 kg at most where both floats warn?"
    if   = !seen.on_ground
    by   = "both"
    then {
      tell {
        whom = "control"
        says = "Minimum fuel: where we land, and that no delay can be taken."
      }
    }
    else {
      tell {
        whom = "control"
        says = "Mayday, mayday, mayday, fuel: less than the final reserve will be left at landing." # ICAO Annex 6, part I, 4.3.7
      }
    }
  }
}

procedure "fuel_leak_list" {
  title   = "Fuel leak"
  do {
    says    = "Crossfeed switch: shut, and left to stay shut"
    set     = crossfeed_switch
    to      = "shut"
    by      = "PM"
    because = "The leak is behind the engine valve. What the crossfeed sends there goes overboard."
  }
  do {
    says    = "The left side loses, both say it aloud. Left engine switch: off"
    set     = engine_left_switch
    to      = "off"
    if      = fuel_low_left == fuel_low_right ? fuel_left_shown + 50 < fuel_right_shown : fuel_low_left
    by      = "both"
    because = "One engine with fuel is better than two without. A float comes before a gauge."
  }
  do {
    says    = "Left engine fire handle: pulled"
    set     = fire_handle_left
    to      = "pulled"
    if      = fuel_low_left == fuel_low_right ? fuel_left_shown + 50 < fuel_right_shown : fuel_low_left
    by      = "PM"
    because = "Shuts the valve in front of the leak."
  }
  do {
    says    = "The right side loses, both say it aloud. Right engine switch: off"
    set     = engine_right_switch
    to      = "off"
    if      = fuel_low_left == fuel_low_right ? fuel_right_shown + 50 < fuel_left_shown : fuel_low_right
    by      = "both"
    because = "One engine with fuel is better than two without."
  }
  do {
    says    = "Right engine fire handle: pulled"
    set     = fire_handle_right
    to      = "pulled"
    if      = fuel_low_left == fuel_low_right ? fuel_right_shown + 50 < fuel_left_shown : fuel_low_right
    by      = "PM"
    because = "Shuts the valve in front of the leak."
  }
  note {
    says    = "Land at the nearest suitable airfield."
    leg     = "land"
    if      = !seen.on_ground
    because = "The fuel of one tank is left, and one engine."
  }
  tell {
    whom = "control"
    says = "A fuel leak, one engine shut down; where we land, and how much fuel is left."
  }
  tell {
    whom = "cabin"
    says = "One engine is shut down; when we land."
    if   = !seen.on_ground && (engine_left_switch == "off" || engine_right_switch == "off")
  }
}

procedure "fuel_unbalanced_list" {
  title   = "Fuel unbalanced, or goes faster than it is burnt"
  note {
    says    = "First ask where it went. Do not open the crossfeed to make the numbers even."
    because = "The fuel that is missing on one side may be in the sea, and balancing sends more after it."
  }
  decide {
    that = fuel_left_shown + fuel_right_shown + fuel_used_shown < flight.fuel_kg - 150
    says = "Do fuel left and fuel used make less than the fuel at departure?"
    by   = "both"
    then {
      note {
        says    = "It leaks: the list Fuel leak, before it is low."
        go_to   = fuel_leak_list
        because = "What leaks does not wait for the lamp."
      }
    }
    else {
      decide {
        that = fuel_left_shown + fuel_right_shown + fuel_used_shown > flight.fuel_kg + 150
        compares = true
        says = "Do they make more?"
        by   = "both"
        then {
          note {
            says    = "A gauge stands still: move nothing. From here on fuel used, the other gauge and the floats count."
            because = "Fuel moved by a false gauge makes one tank truly low."
          }
        }
        else {
          do {
            says    = "The sum agrees: nothing leaks. Crossfeed switch: open"
            set     = crossfeed_switch
            to      = "open"
            by      = "PM"
            sensed  = true
            because = "Both engines drink from the fuller tank until the two are even."
          }
          do {
            says = "Left fuel pumps switch: off, the emptier side, if the others press"
            set  = boost_left_switch
            to   = "off"
            if   = fuel_left_shown < fuel_right_shown && !fuel_pumps_right_lamp
            by   = "PM"
          }
          do {
            says = "Right fuel pumps switch: off, the emptier side, if the others press"
            set  = boost_right_switch
            to   = "off"
            if   = fuel_right_shown < fuel_left_shown && !fuel_pumps_left_lamp
            by   = "PM"
          }
          later {
            when = size(fuel_left_shown - fuel_right_shown) < 200
            says = "Watched until they are even"
            if   = crossfeed_switch == "open"
            do {
              says = "Left fuel pumps switch: on"
              set  = boost_left_switch
              to   = "on"
              by   = "PM"
            }
            do {
              says = "Right fuel pumps switch: on"
              set  = boost_right_switch
              to   = "on"
              by   = "PM"
            }
            do {
              says = "Crossfeed switch: shut"
              set  = crossfeed_switch
              to   = "shut"
              by   = "PM"
            }
          }
        }
      }
    }
    unknown {
      note {
        says = "A gauge is dark: leave the crossfeed, land at the nearest suitable airfield."
        leg  = "land"
        if   = !seen.on_ground
      }
    }
  }
}
