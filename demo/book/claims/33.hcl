claim "emergency_lights_burn_in_flight" {
  says   = "When the right DC bus dies with the switch at armed, the cabin emergency lights burn from their packs: nine minutes later too little is left for an evacuation, and no lamp says so."
  source = "Corvane 71 systems manual 33-51 (fictional)"
  given "left at armed" {
    fail   = [dc_right]
    at     = "cruise + 300 s"
    expect = [lost(evacuation_light), not_told(evacuation_light), first(!evacuation_light) == 540, last(emergency_lights_lit) == 720]
  }
  given "switched off in time and armed on final" {
    fail = [dc_right]
    at   = "cruise + 300 s"
    act "Emergency lights off" {
      set  = emergency_lights_switch
      to   = "off"
      when = held(!dc_right, 120)
    }
    act "Emergency lights armed" {
      set  = emergency_lights_switch
      to   = "armed"
      when = final
    }
    expect = [in_phase(landing_roll, evacuation_light)]
  }
}
