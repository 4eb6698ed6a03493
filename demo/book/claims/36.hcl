# Dispatched with, harmless until the second one.
claim "leak_behind_a_dead_wire" {
  says   = "With the leak detector dead nothing shuts the duct and nothing tells: ten minutes later the wing is damaged. The crew can shut it, if they know."
  source = "Corvane 71 dispatch guide 36-02 (fictional)"
  given "nobody knows" {
    inoperative = [leak_wire_left]
    fail        = [duct_left.bursts]
    at          = "cruise"
    expect      = [lost(sound_wing), not_told(sound_wing), never_given(leak_left), first(!sound_wing) > 595, first(!sound_wing) < 605]
  }
  given "bleed switched off in time" {
    inoperative = [leak_wire_left]
    fail        = [duct_left.bursts]
    at          = "cruise"
    act "Bleed off" {
      set  = bleed_left_switch
      to   = "off"
      when = held(cruise, 300)
    }
    act "Cross-bleed shut" {
      set  = cross_bleed_selector
      to   = "shut"
      when = held(cruise, 300)
    }
    expect = [!lost(sound_wing)]
  }
  given "switched off, but the cross-bleed left in auto" {
    inoperative = [leak_wire_left]
    fail        = [duct_left.bursts]
    at          = "cruise"
    act "Bleed off" {
      set  = bleed_left_switch
      to   = "off"
      when = held(cruise, 300)
    }
    expect = [lost(sound_wing)]
  }
}

claim "burst_that_takes_its_witness" {
  says   = "A duct that bursts through its own leak detector is told by nobody on the first series. The second series at least says that the wire is dead."
  source = "Corvane 71 safety summary 36-A (fictional)"
  given "first series" {
    fail   = [duct_burst]
    at     = "cruise"
    expect = [not_told(sound_wing), not_told(leak_watch_left), never_given(leak_left)]
  }
  given "second series" {
    variant = second_series
    fail    = [duct_burst]
    at      = "cruise"
    expect  = [told(leak_watch_left), given(leak_wire_fault), not_told(sound_wing)]
  }
}

claim "cross_bleed_fills_in" {
  says   = "A shut bleed valve is made good by the other side through the cross-bleed valve within three seconds. With that valve dead one pack and one wing are left."
  source = "Corvane 71 systems manual 36-14 (fictional)"
  given "cross-bleed works" {
    fail   = [bleed_valve_left]
    at     = "climb"
    expect = [seconds(!bleed_left) < 3, given(bleed_left_lost), !lost(clean_wing)]
  }
  given "cross-bleed dead" {
    inoperative = [cross_bleed_valve]
    fail        = [bleed_valve_left]
    at          = "climb"
    expect      = [lost(air_left), told(air_left), lost(clean_wing), !lost(cabin_air)]
  }
  given "and nobody to report it but the pack" {
    inoperative = [cross_bleed_valve, bleed_controller_left]
    fail        = [bleed_valve_left]
    at          = "climb"
    expect      = [given(pack_left_lost), never_given(bleed_left_lost), noticed(air_left)]
  }
}
