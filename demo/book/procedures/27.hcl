# Procedures of chapter 27.

chapter = 27

procedure "controls_plain_list" {
  title   = "Controls plain"
  note {
    says    = "Small movements, no more than 280 kt. Nothing guards against stall or bank any more."
    because = "What the hands do now goes straight to the surface, and at high speed a little is a lot."
  }
  check {
    says = "Control follows in pitch, roll and yaw"
    by   = "PF"
  }
  note {
    says    = "By hand. Land at the nearest suitable airfield, by the longest runway: without spoilers 1.3 times the distance, and times the factor of flaps that stand short."
    leg     = "land"
    if      = !seen.on_ground
    because = "What is left is one small box, and one pilot who may not let go."
  }
  tell {
    whom = "control"
    says = "Flight control trouble: gentle turns only, where we land."
    if   = !seen.on_ground
  }
  later {
    when = altitude_1_readout < 6000 && (descent || approach)
    says = "For landing, before the approach"
    do {
      says    = "Landing speed: 10 kt more, middle flap if it moves"
      set     = landing_speed
      to      = "10 kt more"
      if      = (descent || approach) && landing_speed == "reference"
      because = "The nose is heavier without the computers' help in the flare."
    }
  }
}

procedure "control_computer_list" {
  title    = "A flight control computer lost"
  priority = 48
  do {
    says    = "Flight control computer 1 switch: off, then on, once. Both lost: one after the other"
    set     = control_computer_1_switch
    to      = "off"
    if      = called_by(control_computer_1_lost)
    by      = "PM"
    because = "A computer that only tripped comes back. Each has a switch of its own: none stops both."
  }
  do {
    says = "Flight control computer 1 switch: on"
    set  = control_computer_1_switch
    to   = "on"
    if   = called_by(control_computer_1_lost)
    by   = "PM"
  }
  do {
    says = "Flight control computer 2 switch: off, then on, once"
    set  = control_computer_2_switch
    to   = "off"
    if   = called_by(control_computer_2_lost)
    by   = "PM"
  }
  do {
    says = "Flight control computer 2 switch: on"
    set  = control_computer_2_switch
    to   = "on"
    if   = called_by(control_computer_2_lost)
    by   = "PM"
  }
  note {
    says    = "Control stays shaped: nothing to feel. One pair of spoilers is gone with the computer."
    if      = !controls_plain && (control_computer_1_lost || control_computer_2_lost)
    because = "Computer 1 moves the inner pair, computer 2 the outer pair, and neither can take over the other's."
  }
  later {
    in   = approach
    says = "For landing"
    if   = !controls_plain && (control_computer_1_lost || control_computer_2_lost)
    note {
      says    = "Landing distance with one pair of spoilers."
      if      = !controls_plain
      because = "The line still says that the spoilers are armed. It follows the lever."
    }
  }
}

procedure "flaps_stopped_list" {
  title   = "Flaps or slats do not move"
  note {
    says    = "Go around: no landing before this list is done."
    leg     = "go_around"
    if      = final && !(left_engine_failed && right_engine_failed) && !vital_battery && !hyd_both_low
    by      = "PF"
    because = "Speed, distance and perhaps the field are other ones now, and none of them is worked out on final. On the battery alone they land all the same: its clock runs on in the circuit; with no hydraulic pressure it was known before."
  }
  tell {
    whom = "control"
    says = "Flap trouble; we need ten minutes, and the longest runway with the least wind across."
    if   = (descent || approach || first_climb) && !vital_battery && !hyd_both_low
  }
  note {
    says = "Break off the approach, fly the circuit."
    leg  = "go_around"
    if   = approach && !(left_engine_failed && right_engine_failed) && !vital_battery && !hyd_both_low
    by   = "PF"
  }
  decide {
    that = flap_position_shown == "up" && slat_position_shown == "up"
    says = "Are flaps and slats still in?"
    by   = "both"
    then {
      do {
        says    = "Flap lever: up"
        set     = flap_lever
        to      = "up"
        by      = "PM"
        because = "So that nothing starts to move late on final when pressure comes back."
      }
    }
    else {
      note { says = "Put the lever where the flaps are, and leave it there." }
    }
  }
  check {
    that = flap_position_shown == flap_lever
    says = "Lever and surfaces agree"
    by   = "both"
  }
  note {
    says    = "Approach speed: add 12 kt for each step that is missing, in place of less by another list. The stall warning knows what stands."
    because = "With no flaps at all the aircraft lands at about 165 kt, near what the tyres are made for."
  }
  note {
    says    = "Landing distance, by the manual: times 1.2 with one step missing, 1.4 with two, 1.7 with none out; and times the factor of brakes or spoilers, if another list has one. Is this runway long enough? If not: one that is."
    leg     = "long_enough"
    if      = !seen.on_ground
    because = "The distance goes with the square of the speed. Clean, the brakes take up more than after any other landing: no second take-off before they are cold."
  }
}

procedure "trim_lost_list" {
  title   = "Pilots' trim lost"
  note {
    says    = "Keep the speed at which the forces are light. Slow down in steps, flaps early."
    because = "Every change of speed now stays in the pilot's arm."
  }
  check {
    says = "Elevator has travel left both ways"
    by   = "PF"
  }
}

procedure "rudder_limiter_list" {
  title   = "Rudder stop stands still"
  note {
    says    = "Above 160 kt use the pedals with the tips of the toes."
    because = "If it stopped at low speed there is more rudder than the fin is built for."
  }
  later {
    in   = approach
    says = "For landing"
    check {
      that = rudder_travel_shown > 14
      says = "Rudder travel shown: enough for a crosswind?"
      by   = "both"
    }
    note {
      says    = "If it stopped at high speed: crosswind no more than 12 kt, and no landing on one engine if it can be helped."
      because = "Six degrees of rudder hold neither a crosswind nor an engine."
    }
  }
}

procedure "spoilers_lost_list" {
  title   = "Spoilers"
  do {
    says    = "Spoiler lever: in"
    set     = spoiler_lever
    to      = "in"
    by      = "PF"
    because = "A lever left half out would raise whatever comes back to life."
  }
  note { says = "Start down earlier: there is nothing but the gear to lose height with." }
  later {
    in   = approach
    says = "For landing"
    note {
      says = "Landing distance without ground spoilers, 1.3 times: is the runway that long? Put the nose down at once, the wheels carry little weight."
      leg  = "long_enough"
    }
  }
}

procedure "surface_list" {
  title    = "A control surface does not follow"
  priority = 12
  do {
    says        = "Autopilot button: off. Pull through with the stick that is free: the coupling parts"
    set         = autopilot_button
    to          = "off"
    if          = !seen.on_ground
    by          = "PF"
    from_memory = true
    because     = "Each stick then moves the half of its own side, and half is enough. A servo that drove by itself is cut."
  }
  note {
    says    = "Gentle turns, no more than 280 kt. Land at the nearest suitable airfield, by the longest runway."
    leg     = "land"
    if      = !seen.on_ground
    because = "What is left moves with half the force, and nothing stands behind it."
  }
  tell {
    whom = "control"
    says = "Flight control trouble: gentle turns only, where we land."
    if   = !seen.on_ground
  }
  later {
    when = altitude_1_readout < 6000 && (descent || approach)
    says = "For landing, before the approach"
    do {
      says    = "Landing speed: 10 kt more"
      set     = landing_speed
      to      = "10 kt more"
      if      = (descent || approach) && landing_speed == "reference"
      because = "Half an elevator flares the slower."
    }
  }
}

procedure "surface_drives_list" {
  title    = "A surface is driven over"
  priority = 3
  do {
    says        = "Hold against it. Left pressure to the surfaces: cut"
    set         = surfaces_left_switch
    to          = "cut"
    if          = surface_drives_left
    by          = "PM"
    from_memory = true
    because     = "The half that is driven lets go and trails, and the halves of the other pressure fly."
  }
  do {
    says        = "Right pressure to the surfaces: cut"
    set         = surfaces_right_switch
    to          = "cut"
    if          = surface_drives_right
    by          = "PM"
    from_memory = true
  }
  check {
    that = !surface_drives_left && !surface_drives_right
    says = "Nothing pulls any more"
    by   = "PF"
  }
}

procedure "trim_runs_list" {
  title    = "Trim runs on its own"
  priority = 4
  do {
    says        = "Hold the stick. Trim motor 1 stop switch: stopped"
    set         = trim_cut_switch
    to          = "stopped"
    by          = "both"
    from_memory = true
    because     = "Ten seconds more, and it takes both hands. The switch is within reach of both."
  }
  check {
    that = !trim_runs_away
    says = "The trim stands"
    by   = "both"
  }
  note {
    says    = "Trim back by motor 2. The autopilot stays off until the stick is light."
    because = "It would take the load, and give it back in one piece."
  }
}
