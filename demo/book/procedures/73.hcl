# Procedures of chapters 73, 77 and 79: the engines.

procedure "engine_failed" {
  title    = "Engine has failed"
  chapter  = 73
  priority = 20
  decide {
    that        = (take_off_roll || take_off_fast) && airspeed_1_readout < 126
    says        = "On the take-off roll, below 126 kt?"
    by          = "PF"
    from_memory = true
    then {
      note {
        says        = "Stop."
        leg         = "reject"
        by          = "PF"
        from_memory = true
        because     = "Below the decision speed the runway that is left is enough to stop on, and not to fly away from."
      }
    }
    else {
      do {
        says        = "Thrust levers: by hand, full thrust as needed"
        set         = thrust_levers
        to          = "moved by hand"
        by          = "PF"
        from_memory = true
        because     = "The autothrottle gives each engine half of what the flight needs: with one engine that is half."
      }
    }
  }
  decide {
    that = called_by(right_engine_failed)
    says = "Which engine has failed? Both say the side aloud. The right one?"
    by   = "both"
    then {
      do {
        says    = "Right engine run switch: off, confirmed by both"
        set     = engine_right_switch
        to      = "off"
        by      = "PM"
        sensed  = true
        because = "It shuts the fuel off. The wrong switch makes a glider."
      }
    }
    else {
      do {
        says    = "Left engine run switch: off, confirmed by both"
        set     = engine_left_switch
        to      = "off"
        by      = "PM"
        sensed  = true
        because = "It shuts the fuel off. The wrong switch makes a glider."
      }
    }
  }
  decide {
    that = altitude_1_readout < aircraft.apu_light_up_ft
    says = "Below 25,000 ft?"
    by   = "PM"
    then {
      do {
        says    = "APU switch: run"
        set     = apu_switch
        to      = "run"
        by      = "PM"
        because = "The failed engine took its generator with it."
      }
    }
    else {
      later {
        when = altitude_1_readout < aircraft.apu_light_up_ft
        says = "Below 25,000 ft, not before"
        do {
          says    = "APU switch: run"
          set     = apu_switch
          to      = "run"
          by      = "PM"
          because = "It does not light in thin air: started too early it only brings a caution, and a hot starter."
        }
      }
    }
  }
  check {
    that = at_least(2, !gen_left_lamp, !gen_right_lamp, apu_gen_lamp)
    says = "Two AC sources on line"
    by   = "PM"
  }
  note {
    says    = "Land at the nearest airfield that suits."
    leg     = "land"
    because = "With one engine left the next failure may be the last (as 14 CFR 121.565 has it: the nearest in point of time)."
  }
  note {
    says    = "A relight needs its igniters: they hang on the backup AC bus, and nothing says when they are dead."
    because = "After a double failure the crew may wait for a relight that cannot come."
  }
}

procedure "engine_surge" {
  title    = "Engine surges"
  chapter  = 73
  priority = 30
  do {
    says        = "Thrust levers: by hand, back until the surging stops"
    set         = thrust_levers
    to          = "moved by hand"
    by          = "PF"
    from_memory = true
    because     = "Less fuel gives the compressor room to recover."
  }
  do {
    says    = "Ignition switch: continuous"
    set     = ignition_switch
    to      = "continuous"
    by      = "PM"
    because = "So that a flame that is blown out is lit again."
  }
  check {
    that = thrust_left && thrust_right
    says = "Gas temperature normal, thrust follows the lever"
    by   = "both"
  }
}

procedure "oil_pressure_low" {
  title   = "Engine oil pressure low"
  chapter = 79
  check {
    that = oil_left && oil_right
    says = "Is it true? A falling oil pressure brings a rising oil temperature within a minute; a chafed wire does not"
    by   = "both"
  }
  decide {
    that = oil_left && oil_right
    says = "Are temperature and fan steady?"
    by   = "both"
    then {
      note {
        says    = "Believe the engine, not the sender: keep it running and watch it."
        because = "An engine stopped for a broken wire is a real failure made by hand."
      }
    }
    else {
      decide {
        that = called_by(right_oil_low)
        says = "Which side? Both say it aloud. The right one?"
        by   = "both"
        then {
          do {
            says    = "Right engine run switch: off, confirmed by both, within three minutes"
            set     = engine_right_switch
            to      = "off"
            by      = "PM"
            sensed  = true
            because = "A running engine without oil seizes after three minutes and is then of no use even windmilling."
          }
          note {
            says = "Land at the nearest airfield that suits."
            leg  = "land"
          }
        }
        else {
          do {
            says    = "Left engine run switch: off, confirmed by both, within three minutes"
            set     = engine_left_switch
            to      = "off"
            by      = "PM"
            sensed  = true
            because = "A running engine without oil seizes after three minutes and is then of no use even windmilling."
          }
          note {
            says = "Land at the nearest airfield that suits."
            leg  = "land"
          }
        }
      }
    }
  }
}
