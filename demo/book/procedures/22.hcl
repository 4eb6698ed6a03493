# Procedures of chapter 22.

chapter = 22

procedure "autopilot_off_drill" {
  title    = "Autopilot has disengaged"
  priority = 55
  do {
    says        = "Controls: take them; expect a trim change"
    by          = "PF"
    from_memory = true
    because     = "If the trim motor was dead, the load that the autopilot held comes in one piece."
  }
  do {
    says    = "Autopilot button: off"
    set     = autopilot_button
    to      = "off"
    by      = "PF"
    sensed  = true
    because = "It stops the warning, and makes the next press a real one: an autopilot engages on the press, not on the position."
  }
  decide {
    that    = autopilot_ready_label && !airspeeds_differ && !altitudes_differ && !attitudes_differ && !surface_off && !trim_runs_away && size(airspeed_1_readout - airspeed_2_readout) < 12 && size(airspeed_1_readout - airspeed_3_readout) < 15 && size(airspeed_2_readout - airspeed_3_readout) < 15
    compares = true
    says    = "Is there an autopilot to engage, and do all three airspeeds agree?"
    by      = "both"
    because = "It flies by what the probes say. On a blocked one it follows a speed that is none, into the stall or past the limit."
    then {
      do {
        says = "Autopilot button: on"
        set  = autopilot_button
        to   = "on"
        by   = "PF"
      }
    }
    else {
      note { says = "Leave it off and fly by hand; share the tasks accordingly." }
    }
  }
}

procedure "thrust_unmoved_drill" {
  title    = "Thrust no longer controlled"
  priority = 60 # what made the autothrottle let go comes first
  do {
    says        = "Thrust levers: move by hand"
    set         = thrust_levers
    to          = "moved by hand"
    by          = "PF"
    from_memory = true
    sensed      = true
    because     = "The thrust stays where it was when the autothrottle let go: too much for the level-off, too little after the descent. The reminder comes back each half minute until the levers move."
  }
  do {
    says = "Autothrottle switch: off"
    set  = autothrottle_switch
    to   = "off"
    by   = "PM"
  }
  check {
    that = size(airspeed_1_readout - airspeed_2_readout) < 20 || size(airspeed_2_readout - airspeed_3_readout) < 20 || size(airspeed_1_readout - airspeed_3_readout) < 20
    says = "Airspeed: two of three agree"
    by   = "both"
  }
}

procedure "trim_stuck_drill" {
  title   = "Pitch trim does not move"
  do {
    says    = "Hold the controls firmly, then autopilot button: off"
    set     = autopilot_button
    to      = "off"
    by      = "PF"
    because = "The load grows with every minute and every knot. Better to meet it now than when the autopilot gives up."
  }
  note { says = "Keep the speed of the moment; slow down early and in small steps." }
}

procedure "yaw_dampers_off_drill" {
  title   = "Both yaw dampers off"
  note {
    says    = "Descend below 26,000 ft and stay below 250 kt in rough air."
    because = "High and fast, the aircraft rolls from side to side after every gust."
  }
  note { says = "No approach to low minima." }
}

procedure "guidance_off_drill" {
  title   = "No flight director"
  check {
    that = !attitude_1_flag || !attitude_2_flag
    says = "An inertial unit left? Then it is the air data: see Air data off"
    by   = "PM"
  }
  note { says = "Approach by VOR and DME only; ask for the longest final they can give." }
}

procedure "low_minima_lost_drill" {
  title    = "Low minima lost"
  priority = 90 # what it depends on comes first
  check {
    that = minima_label != "none"
    says = "Read the minima label; find out what is missing before the approach, not after"
    by   = "both"
  }
  note {
    says    = "The label knows sensors, receivers and autopilots. It does not know the voice unit or the yaw dampers."
    because = "On the first series it may say Low when there is nobody to call the heights."
  }
  decide {
    that = minima_label == "standard" || minima_label == "low"
    says = "Is the approach to standard minima possible?"
    by   = "both"
    then {
      note { says = "Brief the standard minima." }
    }
    else {
      decide {
        that = beacon_pointer && distance_readout >= 0
        says = "Are VOR and DME there?"
        by   = "both"
        then {
          note { says = "Brief the VOR approach and its minima." }
        }
        else {
          note { says = "Ask for radar guidance, or fly to where it can be done by sight." }
        }
      }
    }
  }
}
