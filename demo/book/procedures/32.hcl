# Procedures of chapter 32.

chapter = 32

procedure "gear_not_down_list" {
  title   = "Landing, and the wheels are not out"
  decide {
    that = approach || final
    says = "Are we about to land?"
    if   = !seen.on_ground
    by   = "both"
    then {
      decide {
        that    = nose_gear_lamp && left_gear_lamp && right_gear_lamp && nose_gear_mark && left_gear_mark && right_gear_mark || gear_pins || alternate_gear_handle == "pulled"
        says    = "Six lamps, or three pins seen from the cabin, or all tries made?"
        by      = "both"
        because = "One row alone may lie, or be dark over a dead box. Both rows agree, or a rod without a wire shows it."
        then {
          note { says = "Land; where the gear is not all down, as prepared." }
        }
        else {
          note {
            says    = "Go around."
            leg     = "go_around"
            if      = !(left_engine_failed && right_engine_failed)
            by      = "PF"
            because = "Time is worth more than a fifth look at lamps near the ground."
          }
          do {
            says = "Gear lever: down again"
            set  = gear_lever
            to   = "down"
            by   = "PM"
          }
          note {
            says  = "Then the list for gear that does not follow its lever."
            go_to = gear_not_followed_list
          }
        }
      }
    }
    else {
      do {
        says    = "Gear warning silence button: pressed"
        set     = gear_horn_button
        to      = "pressed"
        by      = "PM"
        because = "High up it can only be a radio altimeter that reads a few feet. The noise hides other sounds."
      }
      note {
        says    = "From now on nothing will warn of a landing with the gear up before the flaps are set for it. Say so, and brief a gear check at 1,200 ft."
        because = "The silence lasts until the gear is seen down. Silencing a false warning silences the true one."
      }
    }
  }
}

# A second try by the lever, then the cable, then the landing with what is there.
procedure "gear_not_followed_list" {
  title    = "Gear does not follow its lever"
  priority = 45
  decide {
    that = gear_lever == "down"
    says = "Is the lever down?"
    if   = !seen.on_ground
    by   = "both"
    then {
      note {
        says    = "Go around, and stay in the circuit for the list."
        leg     = "go_around"
        if      = (final || approach && pressure_right_shown > 2000) && !(left_engine_failed && right_engine_failed)
        by      = "PF"
        because = "The tries take five minutes, and a landing on two legs cannot be taken back."
      }
      check {
        that = pressure_right_shown > 2000
        says = "Right hydraulic pressure"
        by   = "PM"
      }
      tell {
        whom = "control"
        says = "Gear not safe; we fly the circuit for a quarter of an hour, and ask for a look at it from the ground."
        if   = pressure_right_shown > 2000
      }
      tell {
        whom = "cabin"
        says = "One leg may not be down. We try again; look at the three pins, nose and wings, and tell us."
      }
      do {
        says    = "Second try, below 240 kt. Gear lever: up"
        set     = gear_lever
        to      = "up"
        if      = pressure_right_shown > 2000
        by      = "PM"
        because = "A hook that stuck once may let go of the weight of the leg at the second try. Without pressure there is none."
      }
      do {
        says   = "Gear lever: down"
        set    = gear_lever
        to     = "down"
        if     = pressure_right_shown > 2000
        wait_s = 12
        by     = "PM"
      }
      check {
        that   = nose_gear_lamp && left_gear_lamp && right_gear_lamp && nose_gear_mark && left_gear_mark && right_gear_mark
        says   = "After twenty seconds: six lamps. If not, does the cabin see three pins?"
        if     = pressure_right_shown > 2000
        wait_s = 20
        by     = "both"
      }
      do {
        says    = "Alternate gear handle: pulled"
        set     = alternate_gear_handle
        to      = "pulled"
        if      = !gear_pins
        by      = "PM"
        because = "Opens uplocks and doors by cable, with hooks of its own. It needs neither pressure nor power nor a box. It cannot be undone: the doors hang open and the gear stays down, at twice the fuel."
      }
      decide {
        that   = nose_gear_lamp && left_gear_lamp && right_gear_lamp && nose_gear_mark && left_gear_mark && right_gear_mark || gear_pins
        says   = "After twenty seconds: six lamps, or three pins?"
        wait_s = 20
        by     = "both"
        then {
          note { says = "Land. A dark lamp over a dead box is no news about the gear." }
        }
        else {
          tell {
            whom = "cabin"
            says = "We land without all wheels down; how many minutes are left: prepare the cabin, brace at the call, doors on the side that stays high."
            else {
              note { says = "Nothing answers: tell it at the door." }
            }
          }
          tell {
            whom = "control"
            says = "Landing with the gear not down: fire services, the longest runway."
          }
          do {
            says = "Gear warning silence button: pressed"
            set  = gear_horn_button
            to   = "pressed"
            by   = "PM"
          }
          note {
            says    = "Burn the fuel down to what two approaches take. Flaps full, the least speed, no automatic brake; hold the wing off that side, reverse only if it stays straight. Run switches and fire handles as it comes to rest."
            because = "Less fuel is less speed and less to burn."
          }
          do {
            says        = "To the cabin, by announcement and aloud: brace, brace."
            wait_for    = radio_height_1_readout < 500
            by          = "PM"
            from_memory = true
          }
        }
      }
    }
    else {
      note {
        says    = "Stay below 240 kt. Leave the lever alone; a second try may leave one leg half way."
        because = "Gear that will not go up costs fuel. Gear that stops half way costs the landing."
      }
      # With the gear out the northern link takes 5,300 kg in 402 NM, hands off: 12 kg a mile, and a quarter more for
      # wind. The 900 kg are for an approach, a go-around and a wait; an assumption.
      decide {
        that    = fuel_total_shown > 15 * distance_readout + 900
        says    = "Fuel: more than 15 kg for each mile to go, and 900 kg over?"
        by      = "both"
        because = "With the gear out the cruise takes twice its fuel. What is left at the other end decides, not the height or the hour."
        then {
          note { says = "Go on, low and slow; count again every ten minutes." }
        }
        else {
          note {
            says    = "Not enough: land at the nearest suitable airfield."
            leg     = "land"
            because = "Every mile flown away from it costs two on the way back."
          }
        }
      }
    }
  }
  note {
    says    = "On the ground leave lever and handle alone: stand still, and have the locks looked at before anybody moves it."
    if      = seen.on_ground
    because = "The handle opens the uplocks and the doors; on the ground it frees nothing and may hurt whoever stands there."
  }
}

procedure "gear_rows_list" {
  title   = "Gear position sensors differ"
  note {
    says    = "With the gear up: the row that is lit is wrong, and is not to be believed on the approach. With the gear down: one row is dark, and the pins decide."
    because = "Two rows of sensors, two boxes, two supplies. The warning leaves out the row that was lit with the gear up."
  }
  later {
    when = final
    says = "Below 1,200 ft"
    if   = !seen.on_ground
    check {
      that = gear_pins
      says = "Gear pins, seen from the cabin: three"
      by   = "both"
    }
  }
}

procedure "gear_sense_lost_list" {
  title   = "No gear sensing"
  note {
    says    = "The aircraft now believes that it flies, also on the ground: no ground spoilers, no reverse, no automatic brakes, no emptying of the cabin."
    because = "Dead boxes say \"in the air\"."
  }
  later {
    in   = approach
    says = "Before the approach"
    do {
      says    = "Alternate gear handle: pulled"
      set     = alternate_gear_handle
      to      = "pulled"
      by      = "PM"
      because = "The lever needs a box to time the doors. Only the cable works."
    }
    check {
      that = gear_pins
      says = "Gear pins, seen from the cabin: three"
      by   = "both"
    }
    do {
      says    = "Gear warning silence button: pressed"
      set     = gear_horn_button
      to      = "pressed"
      by      = "PM"
      because = "The warning will come with flaps for landing and cannot know better. With the handle pulled the button stops it."
    }
    note { says = "Landing distance without spoilers and reversers." }
  }
  later {
    in   = taxi_in
    says = "Before the doors are opened"
    do {
      says    = "Outflow valve selector: open"
      set     = outflow_selector
      to      = "open"
      by      = "PM"
      because = "The controllers think that we fly and keep a little pressure. A door opened against it throws whoever holds the handle."
    }
  }
}

procedure "brakes_normal_lost_list" {
  title    = "Normal brakes lost"
  priority = 52 # the fluid before the brakes
  check {
    that = pressure_left_shown > 2000 || accumulator_gauge > 0
    says = "Alternate brakes: pressure"
    by   = "PM"
  }
  decide {
    that = pressure_left_shown > 2000
    says = "Is there left hydraulic pressure?"
    by   = "both"
    then {
      decide {
        that    = antiskid_shown
        says    = "Anti-skid line on the gear picture: is it there?"
        by      = "PM"
        because = "Both control channels gone is anti-skid gone as well."
        then {
          note { says = "Alternate brakes with anti-skid: brake by feel, no automatic brakes." }
        }
        else {
          note {
            says    = "Alternate brakes without anti-skid: late, lightly and evenly, no automatic brakes."
            because = "A locked wheel holds and steers less than a turning one, and its tyre is gone in seconds."
          }
        }
      }
    }
    else {
      note {
        says    = "Six applications with anti-skid where a channel lives, six more without. After touchdown press once, evenly, and hold. Do not pump."
        because = "Each press takes a stroke out of the accumulator. Nothing fills it again."
      }
    }
  }
  do {
    says = "Automatic brake selector: off"
    set  = autobrake_selector
    to   = "off"
  }
  note {
    says = "Landing distance by the manual, now: 1.95 times, and times the factor of flaps that stand short. Is the runway that long? If not: one that is."
    leg  = "long_enough"
    if   = !seen.on_ground
  }
}

procedure "antiskid_lost_list" {
  title    = "Anti-skid lost"
  priority = 53 # the pressure before what lets go of it
  note {
    says        = "Slow in the roll: stop."
    leg         = "reject"
    if          = take_off_roll || (take_off_fast && ground_speed_readout < 100)
    by          = "PF"
    from_memory = true
    because     = "A bang and no anti-skid is a tyre, and what it has cut is not known yet."
  }
  do {
    says    = "Automatic brake selector: off"
    set     = autobrake_selector
    to      = "off"
    because = "Automatic brakes rely on anti-skid; they drop out by themselves at the first skid."
  }
  note {
    says    = "Landing distance by the manual, now: 1.7 times, and times the factor of flaps that stand short. Is the runway that long? If not: one that is, around from the approach if need be."
    leg     = "long_enough"
    if      = !seen.on_ground
    because = "A runway that is too short does not grow on final."
  }
  later {
    in   = approach
    says = "For landing"
    if   = antiskid_lost || !antiskid_shown
    note {
      says    = "Brake late and lightly, below 90 kt more."
      because = "A locked wheel on water carries nothing and steers nothing, and a flat tyre brakes even less."
    }
  }
}

procedure "brakes_hot_list" {
  title   = "Brakes too hot"
  decide {
    that = seen.on_ground
    says = "Are we on the ground?"
    by   = "both"
    then {
      note {
        says    = "Do not set the parking brake longer than needed, keep people away from the wheels, no take-off above 250 degrees."
        because = "A hot brake has no room left for a stop, and a wheel may let go when someone stands next to it."
      }
    }
    else {
      do {
        says    = "Gear lever: down, below 240 kt"
        set     = gear_lever
        to      = "down"
        by      = "PF"
        because = "Air cools it; the gear bay does not. Ten minutes is a fair guess."
      }
    }
  }
}

procedure "steering_lost_list" {
  title   = "Nose wheel steering lost"
  note {
    says    = "Steer with rudder above 60 kt, with the brakes below. Ask for a tug."
    because = "The nose wheel follows freely; it does not steer, and it does not hold."
  }
  check {
    that = !brakes_normal_lost
    says = "Normal brakes: no message"
    by   = "PM"
  }
}

procedure "tyre_low_list" {
  title    = "A tyre is going flat"
  priority = 40 # what a tyre broke waits for it
  note {
    says    = "In flight: leave the gear where it is until a look from outside is possible."
    because = "Rubber in the gear bay may have cut what lies next to it. Watch the left fluid."
  }
  later {
    in   = approach
    says = "For landing"
    do {
      says = "Automatic brake selector: off"
      set  = autobrake_selector
      to   = "off"
      by   = "PM"
    }
    note { says = "Land on the side of the good tyre, use all of the runway, little brake on the bad side." }
  }
}

procedure "take_off_setting_list" {
  title   = "Not set for take-off"
  note {
    says        = "Stop: thrust back, brakes."
    leg         = "reject"
    if          = taxi_out || take_off_roll || take_off_fast
    by          = "PF"
    from_memory = true
    because     = "Below 75 kt there is time and runway for it. The warning is never false enough to be ignored on the roll."
  }
  tell {
    whom = "control"
    says = "Stopping."
  }
  check {
    that = flap_position_shown == "slight" || flap_position_shown == "middle"
    says = "Slight or middle flap"
    by   = "PM"
  }
  check {
    that = spoiler_lever == "in"
    says = "Spoilers in"
    by   = "PM"
  }
  check {
    that = pitch_trim_wheel == "take-off band"
    says = "Pitch trim in the take-off band"
    by   = "PM"
  }
  check {
    that = parking_brake_lever == "off"
    says = "Parking brake off"
    by   = "PM"
  }
  check {
    that = doors_shown
    says = "Doors latched"
    by   = "PM"
  }
  note {
    says    = "Set what was wrong, look at the brake temperature, and begin again from the start of the runway."
    because = "The numbers of the take-off hold for the whole runway and for cold brakes."
  }
}

procedure "brakes_pressed_list" {
  title = "Uncommanded braking"
  note {
    says = "On the roll: stop."
    leg  = "reject"
    if   = take_off_roll
    by   = "PF"
  }
  note {
    says    = "In flight: the longest runway with the least wind across, touch down firmly at its beginning."
    if      = !seen.on_ground
    because = "The anti-skid lets the wheels turn first. After that they brake, one side perhaps before the other."
  }
}
