# ATA 35, oxygen.
#
# The pilots breathe from a bottle. The cabin breathes from small generators above
# the seats, which start when a mask is pulled, last thirteen minutes, and cannot be
# stopped or filled again. The lids over the masks are opened by a circuit of their
# own at a cabin altitude of 14,000 ft, or by hand.

control "mask_switch" {
  title     = "Cabin mask switch"
  chapter   = 35
  positions = ["auto", "drop"]
  initial   = "auto"
  place     = "overhead panel"
}

unit "crew_oxygen_bottle" {
  title         = "Crew oxygen bottle"
  chapter       = 35
  rate_per_hour = 5e-6
  place         = "under the flight deck floor"
}

unit "crew_oxygen_valve" {
  title         = "Crew oxygen valve"
  chapter       = 35
  rate_per_hour = 3e-6
  place         = "under the flight deck floor"
}

unit "crew_mask_left" {
  title         = "Left pilot's mask"
  chapter       = 35
  rate_per_hour = 5e-6
  place         = "flight deck, left"
}

unit "crew_mask_right" {
  title         = "Right pilot's mask"
  chapter       = 35
  rate_per_hour = 5e-6
  place         = "flight deck, right"
}

# The automatic circuit was put on the left bus, with the other cabin loads, and
# nothing watches it. By hand it is the vital bus.
unit "mask_release_auto" {
  title         = "Automatic mask release"
  chapter       = 35
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "cabin ceiling"
}

unit "mask_release_hand" {
  title         = "Mask release by hand"
  chapter       = 35
  needs         = dc_vital
  rate_per_hour = 5e-6
  place         = "cabin ceiling"
}

unit "oxygen_sender" {
  title         = "Crew oxygen pressure sender"
  chapter       = 35
  needs         = dc_vital
  rate_per_hour = 1e-5
  place         = "under the flight deck floor"
}

signal "masks_out" {
  title   = "The cabin masks are out"
  chapter = 35
  set = ((mask_release_auto && mask_switch == "auto" && cabin_altitude_ft > 14000)
  || (mask_release_hand && mask_switch == "drop"))
  reset = false
}

signal "mask_min" {
  title   = "Oxygen left in the cabin generators, in minutes"
  chapter = 35
  value   = total(masks_out ? 0 - 1 / 60 : 0, 13, 0, 13)
}

function "crew_oxygen" {
  title    = "Oxygen for both pilots"
  chapter  = 35
  works    = crew_oxygen_bottle && crew_oxygen_valve && crew_mask_left && crew_mask_right
  wanted   = climb || cruise || descent
  severity = "hazardous"
}

function "mask_drop" {
  title    = "Cabin masks fall by themselves"
  chapter  = 35
  works    = mask_release_auto
  wanted   = climb || cruise || descent
  severity = "major"
}

function "cabin_breath" {
  title    = "Passengers can breathe"
  chapter  = 35
  works    = cabin_altitude_ft < 14500 || (masks_out && mask_min > 0)
  severity = "catastrophic"
}

alert "crew_oxygen_low" {
  title     = "Crew oxygen low"
  chapter   = 35
  level     = "caution"
  message   = "Crew oxygen low"
  when      = oxygen_sender && (!crew_oxygen_bottle || !crew_oxygen_valve)
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [crew_oxygen]
  procedure = crew_oxygen_list
}

alert "masks_are_out" {
  title    = "Cabin masks are out"
  chapter  = 35
  level    = "advisory"
  message  = "Cabin masks are out"
  when     = masks_out
  given_by = news_left
}

indication "crew_oxygen_shown" {
  title   = "Crew oxygen pressure"
  chapter = 35
  shows   = crew_oxygen_bottle && crew_oxygen_valve
  means   = crew_oxygen_bottle && crew_oxygen_valve
  lit_by  = page_either && oxygen_sender
  tells   = [crew_oxygen]
  place   = "doors page"
}

# Lights when the lids were told to open.
indication "masks_lamp" {
  title   = "Cabin masks lamp"
  chapter = 35
  shows   = masks_out
  means   = masks_out
  lit_by  = lamp_power_left
  tells   = [cabin_breath]
  place   = "overhead panel"
}
