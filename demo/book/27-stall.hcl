# ATA 27, stall warning: two lanes that share nothing but the news of the slats and flaps, the mass and the ice. Each
# has a vane, a computer and a shaker of its own and needs neither a screen nor an alerting computer.

chapter = 27

unit "stall_vane_left" {
  mirror        = true
  title         = "Left stall vane"
  rate_per_hour = 1e-5
  place         = "nose, left"
  fault "reads_high" {
    title         = "bent: it sees a stall in any air"
    rate_per_hour = 3e-6
  }
}

unit "stall_lane_left" {
  title         = "Left stall computer and shaker"
  needs         = core_fed
  rate_per_hour = 1e-5
  place         = "electronics bay, left rack"
}

unit "stall_lane_right" {
  title         = "Right stall computer and shaker"
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "electronics bay, right rack"
}

# Takes out one lane, never both.
control "stall_cut_switch" {
  title     = "Stall lane switch"
  positions = ["normal", "left_off", "right_off"]
  initial   = "normal"
  place     = "overhead panel"
}

# The greatest lift of the setting that stands, as in 00-aircraft.hcl. Ice takes three
# tenths of it: an assumption, within what AC 20-73A tells of (from memory).
signal "most_lift_clean_ratio" {
  title   = "Greatest lift of the clean wing in the setting that stands"
  value   = flaps_at == "up" ? 1.45 : flaps_at == "slight" ? 2 : flaps_at == "middle" ? 2.35 : 2.65
}

# The speed at which that lift holds the mass in level flight, a load of 1 g.
signal "stall_speed_clean_kt" {
  title   = "Stall speed of the clean wing"
  value   = airspeed_held(real.mass_kg * 9.80665 / (aircraft.wing_area_m2 * most_lift_clean_ratio) / 100, static_pressure(real.altitude_ft))
}

signal "ice_on_speed_ratio" {
  title   = "By how much the ice on the wing raises the stall speed"
  value   = wing_iced ? 1.195 : 1 # one by the root of 0.7
}

signal "stalls" {
  title   = "The wing is within 7 % of its stall speed"
  value   = !real.on_ground && real.airspeed_kt < 1.07 * ice_on_speed_ratio * stall_speed_clean_kt
}

# With ice gathered, the lanes warn earlier: they take it from the ice detectors, or from
# the switch, and from a wing that is not warm, and remember it (14 CFR 25.207(e)).
signal "stall_ice_bias" {
  title   = "The stall lanes reckon with ice on the wing"
  set     = held(real.icing && (ice_detector_1 || ice_detector_2 || wing_ice_switch == "on") && !(left_wing_warm && right_wing_warm), 60)
  reset   = real.on_ground || held(left_wing_warm && right_wing_warm, 300)
}

signal "angle_warns" {
  title   = "The angle of the air is that of a stall warning"
  value   = !real.on_ground && real.airspeed_kt < (stall_ice_bias ? 1.28 : 1.07) * stall_speed_clean_kt
}

signal "stall_left_ready" {
  mirror  = true
  title   = "The left stall lane is in use"
  value   = stall_lane_left && stall_vane_left && stall_cut_switch != "left_off"
}

signal "left_vane_sees_stall" {
  mirror  = true
  title   = "The left lane sees a stall"
  value   = !real.on_ground && stall_left_ready && (stall_vane_left.reads_high || (!vane_left_iced && angle_warns))
}

# The first series believes either lane. After some false alarms the second series
# wants both, unless one is out or its vane is not heated.
signal "stall_believed" {
  title   = "The lanes believe in a stall"
  value   = (left_vane_sees_stall && (right_vane_sees_stall || !stall_right_ready || !vane_heat_right)) || (right_vane_sees_stall && (!stall_left_ready || !vane_heat_left))
  variant "first_series" { value = left_vane_sees_stall || right_vane_sees_stall }
}

function "stall_guard" {
  title    = "Guard against the stall"
  works    = control_shaped && ((stall_vane_left && !vane_left_iced) || (stall_vane_right && !vane_right_iced))
  wanted   = !real.on_ground
  severity = "major"
}

function "stall_warning" {
  title    = "Stall warning"
  works    = (stall_left_ready && !vane_left_iced) || (stall_right_ready && !vane_right_iced)
  wanted   = !real.on_ground
  severity = "hazardous"
}

alert "stall" {
  title     = "Stall"
  level     = "warning"
  message   = "Stall"
  when      = stall_believed
  true_when = stalls
  given_by  = stall_left_ready || stall_right_ready
  text      = engine_picture
  light     = warning_unit
  sound     = stall_left_ready || stall_right_ready
  repeats_s = 5
  procedure = stall_list
}

alert "stall_lane_off" {
  title      = "One stall warning lane off"
  level      = "caution"
  message    = "Stall warning from one side only"
  when       = held((stall_lane_left && stall_vane_left) != (stall_lane_right && stall_vane_right), 2)
  quiet_in   = [take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost && stall_lane_left && stall_vane_left
  procedure  = stall_lane_list
}

alert "stall_warning_off" {
  title     = "Stall warning off"
  level     = "caution"
  message   = "No stall warning"
  when      = held(!(stall_lane_left && stall_vane_left) && !(stall_lane_right && stall_vane_right), 2)
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [stall_warning, stall_guard]
  procedure = stall_warning_off_list
}
indication "stall_left_lamp" {
  mirror  = true
  title   = "Left stall lane: warns"
  shows   = left_vane_sees_stall
  means   = left_vane_sees_stall
  lit_by  = stall_lane_left
  place   = "glare shield, left"
}

# Two vanes against false alarms help only as long as one stone does not meet both.
event "hail" {
  title         = "Hail bends both stall vanes"
  rate_per_hour = 2e-8
  fails         = [stall_vane_left.reads_high, stall_vane_right.reads_high]
}
