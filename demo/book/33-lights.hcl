# ATA 33, lights. Small, but a dark flight deck makes every other failure worse.

chapter = 33

unit "deck_lights" {
  title         = "Flight deck lighting"
  needs         = dc_left || deck_lights_vital
  rate_per_hour = 5e-6
  place         = "flight deck"
}

# One flood light over the centre panel belongs to the core.
signal "deck_lights_vital" {
  title   = "The centre flood light is fed"
  value   = core_fed
}

unit "panel_lights" {
  title         = "Lettering lights of the panels"
  needs         = ac_left
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "flight deck"
}

unit "landing_light_left" {
  mirror        = true
  title         = "Left landing light"
  needs         = ac_left
  rate_per_hour = 1e-4
  checked_every_h = 10
  place         = "left wing root"
}

unit "position_lights" {
  title         = "Position lights"
  needs         = dc_vital && position_lights_switch == "on"
  rate_per_hour = 2e-5
  checked_every_h = 10
  place         = "wing tips and tail"
}

control "position_lights_switch" {
  title     = "Position lights switch"
  positions = ["off", "on"]
  initial   = "on"
  place     = "overhead panel"
}

unit "beacon_lights" {
  title         = "Anti-collision lights"
  needs         = ac_right
  rate_per_hour = 3e-5
  checked_every_h = 10
  place         = "top and belly"
}

# The cabin emergency lights have their own packs, kept charged from the right DC bus. When that dies with the switch at
# "armed" they light by themselves, and the packs last twelve minutes.
unit "emergency_light_packs" {
  title         = "Emergency light packs"
  rate_per_hour = 1e-5
  checked_every_h = 60
  place         = "cabin ceiling"
}

control "emergency_lights_switch" {
  title     = "Emergency lights switch"
  positions = ["off", "armed", "on"]
  initial   = "armed"
  place     = "overhead panel"
}

signal "emergency_lights_lit" {
  title   = "The cabin emergency lights are lit"
  value   = emergency_light_packs && packs_left_min > 0 && (emergency_lights_switch == "on" || (emergency_lights_switch == "armed" && !dc_right))
}

signal "packs_left_min" {
  title   = "Minutes left in the emergency light packs"
  value   = total(packs_flow_ratio, 12, 0, 12)
}

signal "packs_flow_ratio" {
  title   = "Change of the packs' charge"
  value   = (emergency_lights_switch == "on" || (emergency_lights_switch == "armed" && !dc_right) ? -1 : dc_right ? 0.5 : 0) / 60
}

function "deck_lighting" {
  title    = "Light on the flight deck"
  works    = deck_lights
  severity = "major"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "landing_lighting" {
  title    = "Landing lights"
  works    = landing_light_left || landing_light_right
  wanted   = take_off_roll || take_off_fast || final || landing_roll
  severity = "minor"
  noticed_when   = (take_off_roll || landing_roll || final && real.height_ft < 200) && !landing_lighting # by night
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "seen_by_others" {
  title    = "Lights to be seen by"
  works    = position_lights || beacon_lights
  severity = "minor"
}

# What counts is that there is light left for an evacuation after landing.
function "evacuation_light" {
  title    = "Emergency light for an evacuation"
  works    = emergency_light_packs && packs_left_min > 3 && emergency_lights_switch != "off"
  wanted   = take_off_roll || take_off_fast || landing_roll || taxi_in
  severity = "major"
}

alert "emergency_lights_off" {
  title    = "Emergency lights would stay dark"
  level    = "advisory"
  message  = "Emergency lights would stay dark"
  when     = emergency_lights_switch == "off"
  given_by = alerting && data_unit_2
  quiet_in = [take_off_roll, take_off_fast, lift_off, landing_roll]
  tells    = [evacuation_light]
}
indication "panels_in_light" {
  title   = "Light on the panels"
  shows   = deck_lights
  means   = deck_lighting
  place   = "flight deck"
}

# The lamp follows the switch. Whether anything burns at the wing tips, only others see.
indication "position_lights_lamp" {
  title   = "Position lights switch lamp"
  shows   = position_lights_switch == "on"
  means   = position_lights
  lit_by  = lamp_power_right
  place   = "overhead panel, right half"
  tells   = [seen_by_others]
}
indication "emergency_lights_lamp" {
  title   = "Emergency lights switch: disarmed lamp"
  shows   = emergency_lights_switch == "off"
  means   = !evacuation_light
  lit_by  = lamp_power_right
  place   = "overhead panel, right half"
}
indication "landing_light_lamps" {
  title   = "Landing light beam on the ground ahead"
  shows   = landing_light_left || landing_light_right
  means   = landing_lighting
  lit_by  = real.height_ft < 200
  place   = "outside"
}
indication "panel_lettering" {
  title   = "Lettering of the panels"
  shows   = panel_lights
  means   = panel_lights
  lit_by  = deck_lights || panel_lights
  place   = "flight deck"
}
