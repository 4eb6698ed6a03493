# ATA 30, told: ice protection as the crew see it. The lamps in the switches light only
# when what they stand for is warm on both sides.

chapter = 30

function "wing_ice_protection" {
  title    = "Ice protection of the wing"
  works    = wing_heat_valve_left && bleed_left && wing_heat_valve_right && bleed_right
  wanted   = real.icing
  severity = "minor"
}

function "clean_wing" {
  title    = "Wing free of ice"
  works    = !wing_iced
  severity = "major"
  severity_if_hidden = "catastrophic"
}

function "engine_ice_left" {
  mirror   = true
  title    = "Ice protection of the left engine"
  works    = engine_ice_valve_left
  wanted   = real.icing
  severity = "major"
}

function "pitot_heat_left" {
  title    = "Heat for the left pitot tube"
  works    = probe_heat_1
  wanted   = real.icing
  severity = "minor"
}

function "pitot_heat_right" {
  title    = "Heat for the right pitot tube"
  works    = probe_heat_2
  wanted   = real.icing
  severity = "minor"
}

function "pitot_heat_standby" {
  title    = "Heat for the standby pitot tube"
  works    = probe_heat_3
  wanted   = real.icing
  severity = "minor"
}

function "vane_heat" {
  title    = "Heat for both stall vanes"
  works    = vane_heat_left && vane_heat_right
  wanted   = real.icing
  severity = "minor"
}

function "window_left" {
  mirror   = true
  title    = "Clear left window"
  works    = window_heat_left
  wanted   = real.icing || final || landing_roll
  severity = "minor"
  noticed_when   = held(real.icing && !window_heat_left, 60) # a pane stays warm for a while, and in dry air nothing shows
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "window_any" {
  title    = "A clear window for at least one pilot"
  works    = window_heat_left || window_heat_right
  wanted   = final || landing_roll
  severity = "major"
  noticed_when   = held(real.icing && !window_any, 60)
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "wipers" {
  title    = "Wipers on both sides"
  works    = wiper_left && wiper_right
  wanted   = (final || landing_roll) && real.runway_wet
  severity = "minor"
  noticed_when   = (final || landing_roll) && real.runway_wet && !wipers
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "ice_detection" {
  title    = "Ice detected without looking out"
  works    = (ice_detector_1 && news_left) || (ice_detector_2 && news_right)
  wanted   = climb || cruise || descent || approach
  severity = "minor"
}

alert "ice_met" {
  title   = "Ice outside, and nothing heated"
  level   = "caution"
  message = "Ice outside, and nothing heated"
  when = (((ice_detector_1 && news_left) || (ice_detector_2 && news_right))
  && held(real.icing && (engine_ice_switch == "off" || wing_ice_switch == "off"), 15))
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [clean_wing]
  procedure = ice_met_list
}

alert "wing_heat_lost" {
  title     = "Wing ice protection lost"
  level     = "caution"
  message   = "Wing ice protection lost"
  when      = held(wing_ice_switch == "on" && !(left_wing_warm && right_wing_warm), 5)
  given_by  = news_either || warning_unit # both data units may have died with their valves
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [wing_ice_protection, clean_wing]
  procedure = wing_heat_list
}

alert "engine_ice_lost" {
  title     = "Engine ice protection lost"
  level     = "caution"
  message   = "Engine inlet heat lost"
  when      = engine_ice_switch == "on" && (!engine_ice_valve_left || !engine_ice_valve_right)
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [engine_ice_left, engine_ice_right]
  procedure = engine_ice_list
}

alert "left_pitot_cold" {
  title     = "Left pitot tube not heated"
  level     = "caution"
  message   = "Left pitot tube not heated"
  when      = heat_watch_left && !probe_heat_1
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [pitot_heat_left]
  procedure = pitot_left_cold_list
}

alert "right_pitot_cold" {
  title     = "Right pitot tube not heated"
  level     = "caution"
  message   = "Right pitot tube not heated"
  when      = heat_watch_right && !probe_heat_2
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [pitot_heat_right]
  procedure = pitot_right_cold_list
}

alert "standby_pitot_cold" {
  title    = "Standby pitot tube not heated"
  level    = "advisory"
  message  = "Standby pitot tube not heated"
  when     = heat_watch_left && !probe_heat_3
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [pitot_heat_standby]
}

# The vanes' heaters are watched only from the second series on. Before that, a cold
# vane is found by the next mechanic, or by the next ice.
alert "vane_cold" {
  title    = "Stall vane not heated"
  level    = "advisory"
  message  = "A stall vane is not heated"
  when     = (heat_watch_left && !vane_heat_left) || (heat_watch_right && !vane_heat_right)
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [vane_heat, stall_warning, stall_guard]
  only     = [second_series, island_kit]
}

alert "window_cold" {
  title    = "Window not heated"
  level    = "advisory"
  message  = "A window is not heated"
  when     = !window_heat_left || !window_heat_right
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [window_left, window_right, window_any]
}

alert "ice_detectors_lost" {
  title    = "Ice detectors lost"
  level    = "caution"
  message  = "Ice detectors lost"
  when     = !ice_detector_1 && !ice_detector_2
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [ice_detection]
  procedure = ice_unseen_list
}
indication "wing_ice_lamp" {
  title   = "Wing heat lamp, both sides"
  shows   = left_wing_warm && right_wing_warm
  means   = left_wing_warm && right_wing_warm
  tells   = [wing_ice_protection]
  lit_by  = lamp_power_left
  place   = "overhead panel"
}
indication "engine_ice_lamp" {
  title   = "Inlet heat lamp, both sides"
  shows   = engine_ice_switch == "on" && engine_ice_valve_left && engine_ice_valve_right
  means   = engine_ice_switch == "on" && engine_ice_left && engine_ice_right
  lit_by  = lamp_power_left
  place   = "overhead panel"
}
indication "wing_heat_left_shown" {
  mirror  = true
  title   = "Left wing heat line"
  shows   = left_wing_warm
  means   = left_wing_warm
  lit_by  = systems_left_drawn
  tells   = [wing_ice_protection]
  place   = "air picture"
}
indication "heaters_left_shown" {
  title   = "Left heaters line"
  shows   = probe_heat_1 && probe_heat_3
  means   = probe_heat_1 && probe_heat_3
  lit_by  = systems_left_drawn && heat_watch_left
  tells   = [pitot_heat_left, pitot_heat_standby]
  place   = "air picture"
}
indication "heaters_right_shown" {
  title   = "Right heaters line"
  shows   = probe_heat_2
  means   = pitot_heat_right
  lit_by  = systems_right_drawn && heat_watch_right
  place   = "air picture"
}
indication "window_left_lamp" {
  mirror  = true
  title   = "Left window heat lamp"
  shows   = window_heat_left
  means   = window_left
  lit_by  = lamp_power_left
  place   = "overhead panel"
}

# No lamp at all: one looks at the window.
indication "wiper_arms" {
  title   = "Wiper arms"
  shows   = wiper_left && wiper_right
  means   = wipers
  place   = "front windows"
}
