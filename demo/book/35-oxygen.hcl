# ATA 35, oxygen.
#
# The pilots breathe from a bottle of 2,700 litres: both at 100 per cent for the two hours of 14 CFR 121.333. The cabin
# breathes from small generators above the seats, which start when a mask is pulled, last thirteen minutes, and cannot
# be stopped or filled again. The lids over the masks are opened by a circuit of their own at a cabin altitude of 14,000
# ft, or by hand.

chapter = 35

control "mask_switch" {
  title     = "Cabin mask switch"
  positions = ["auto", "drop"]
  initial   = "auto"
  place     = "overhead panel"
}

# Hung beside each pilot, on with one hand.
control "crew_masks" {
  title     = "Pilots' oxygen masks"
  positions = ["stowed", "on"]
  initial   = "stowed"
  place     = "flight deck, both sides"
}

unit "crew_oxygen_bottle" {
  title         = "Crew oxygen bottle"
  rate_per_hour = 1e-6
  place         = "under the flight deck floor"
  fault "leaks" {
    title         = "loses 90 litres a minute"
    rate_per_hour = 3e-6
  }
}

unit "crew_oxygen_valve" {
  title         = "Crew oxygen valve"
  rate_per_hour = 3e-6
  place         = "under the flight deck floor"
}

unit "crew_mask_left" {
  mirror        = true
  title         = "Left pilot's mask"
  rate_per_hour = 1e-6
  checked_every_h = 10
  place         = "flight deck, left"
}

# The automatic circuit was put on the left bus, with the other cabin loads, and
# nothing watches it. By hand it is the vital bus.
unit "mask_release_auto" {
  title         = "Automatic mask release"
  needs         = dc_left
  rate_per_hour = 1e-5
  checked_every_h = 500
  place         = "cabin ceiling"
}

unit "mask_release_hand" {
  title         = "Mask release by hand"
  needs         = dc_vital
  rate_per_hour = 5e-6
  checked_every_h = 500
  place         = "cabin ceiling"
}

unit "oxygen_sender" {
  title         = "Crew oxygen pressure sender"
  needs         = dc_vital
  rate_per_hour = 1e-5
  place         = "under the flight deck floor"
}

signal "masks_out" {
  title   = "The cabin masks are out"
  set = ((mask_release_auto && mask_switch == "auto" && cabin_altitude_ft > 14000)
  || (mask_release_hand && mask_switch == "drop"))
  reset = false
}

signal "mask_min" {
  title   = "Oxygen left in the cabin generators, in minutes"
  value   = total(masks_out ? 0 - 1 / 60 : 0, 13, 0, 13)
}

# What two pilots breathe at 100 per cent, litres a minute at sea level: 11 each at
# 10,000 ft in the cabin, 7 at 20,000, 3 at 35,000 (20 litres a minute in the lungs).
signal "crew_oxygen_l" {
  title   = "Oxygen in the crew's bottle"
  value = total((crew_oxygen_bottle.leaks ? -1.5 : 0)
    - (crew_masks == "stowed" ? 0 : cabin_altitude_ft < 15000 ? 0.37 : cabin_altitude_ft < 28000 ? 0.23 : 0.13),
  2700, 0, 2700)
}

signal "crew_oxygen_flows" {
  title   = "The crew's bottle gives oxygen"
  value   = crew_oxygen_bottle && crew_oxygen_valve && crew_oxygen_l > 50
}

# Useful consciousness after a rapid loss, AC 61-107B: 12 min at 18,000 ft, 5 at 22,000,
# 2.5 at 25,000, 45 s at 30,000, 22 s at 35,000.
signal "hypoxia_ratio" {
  title   = "Share of the useful consciousness that the pilots have used up"
  value = total(cabin_altitude_ft < 15000 || (crew_masks == "on" && crew_oxygen_flows && crew_mask_left && crew_mask_right) ? -0.02
    : cabin_altitude_ft < 20000 ? 0.0014 : cabin_altitude_ft < 23500 ? 0.0033 : cabin_altitude_ft < 27500 ? 0.0067
  : cabin_altitude_ft < 32500 ? 0.022 : 0.045, 0, 0, 1)
}

function "pilots_awake" {
  title    = "Pilots who can think"
  works    = hypoxia_ratio < 1
  wanted   = !real.on_ground
  severity = "catastrophic"
  over_on_purpose = "Hands off nobody puts a mask on; by the list both have one within ten seconds of the warning."
}

function "crew_oxygen" {
  title    = "Oxygen for both pilots"
  works    = crew_oxygen_flows && crew_mask_left && crew_mask_right
  wanted   = climb || cruise || descent
  severity = "major" # harms only with a cabin that climbs
}

function "mask_drop" {
  title    = "Cabin masks fall by themselves"
  works    = mask_release_auto
  wanted   = climb || cruise || descent
  severity = "major"
}

function "cabin_breath" {
  title    = "Passengers can breathe"
  works    = cabin_altitude_ft < 14500 || (masks_out && mask_min > 0)
  severity = "catastrophic"
  survivable_s = 30 # of useful consciousness at 35,000 ft, 15 to 30 s after a rapid loss (AC 61-107B, table): harm comes later
  over_on_purpose = "Hands off nobody goes down, and the oxygen ends; by the list they are down before."
}

alert "crew_oxygen_low" {
  title     = "Pilots' oxygen runs short"
  level     = "caution"
  message   = "Pilots' oxygen runs short"
  when      = oxygen_sender && (!crew_oxygen_bottle || !crew_oxygen_valve || crew_oxygen_l < 1300)
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [crew_oxygen]
  procedure = crew_oxygen_list
}

alert "masks_are_out" {
  title     = "Cabin masks are out"
  level     = "caution"
  message   = "Cabin masks are out"
  when      = masks_out
  given_by  = news_left
  procedure = masks_out_list
}
indication "crew_oxygen_shown" {
  title   = "Crew oxygen quantity"
  shows   = crew_oxygen_bottle && crew_oxygen_valve ? crew_oxygen_l : 0
  means   = crew_oxygen_bottle && crew_oxygen_valve ? crew_oxygen_l : 0
  within  = 100
  lit_by  = systems_either_drawn && oxygen_sender
  tells   = [crew_oxygen]
  place   = "cabin picture"
}

# Lights when the lids were told to open.
indication "masks_lamp" {
  title   = "Cabin masks lamp"
  shows   = masks_out
  means   = masks_out
  lit_by  = lamp_power_left
  tells   = [cabin_breath]
  place   = "overhead panel"
}
