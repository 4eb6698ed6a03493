# ATA 21, air conditioning, cabin pressure, cooling of the electronics bay.
#
# Two packs make breathable air out of hot bleed air; either is enough for the whole cabin. What goes in must get out by
# the outflow valve, and the valve's opening is the cabin's pressure. Two automatic controllers take turns; when both
# are gone the valve stays where it is and the crew move it by hand.

chapter = 21

control "pack_left_switch" {
  mirror    = true
  title     = "Left pack switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "outflow_selector" {
  title     = "Outflow valve selector"
  positions = ["auto", "hold", "open"]
  initial   = "auto"
  place     = "overhead panel"
}

control "fresh_air_inlet_switch" {
  title     = "Ram air inlet switch"
  positions = ["shut", "open"]
  initial   = "shut"
  place     = "overhead panel"
}

control "bay_fan_switch" {
  title     = "Electronics bay fan switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

unit "pack_left" {
  mirror        = true
  title         = "Left pack"
  needs         = bleed_left && pack_left_switch == "on"
  rate_per_hour = 5e-5
  place         = "belly, left"
  reset_by      = pack_left_switch == "off"
  reset_tries   = 2 # one, and off again where it trips
}

# Without its controller a pack goes on with what it was doing: air comes, at a temperature that nobody chooses.
unit "pack_controller_left" {
  mirror        = true
  title         = "Left pack controller"
  needs         = dc_left
  rate_per_hour = 2e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

unit "fresh_air_inlet" {
  title         = "Ram air inlet"
  needs         = dc_vital
  rate_per_hour = 1e-5
  checked_every_h = 50
  place         = "belly"
}

unit "cabin_controller_1" {
  title         = "Cabin pressure controller 1"
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "cabin_controller_2" {
  title         = "Cabin pressure controller 2"
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "outflow_valve" {
  title         = "Outflow valve"
  rate_per_hour = 5e-6
  place         = "rear fuselage"
  fault "runs_open" {
    title         = "runs fully open"
    rate_per_hour = 1e-6
  }
}

# A capsule on the valve: it shuts it before the cabin is at 15,000 ft (14 CFR 25.841(a)).
unit "outflow_limiter" {
  title           = "Limiter of the outflow valve"
  rate_per_hour   = 1e-6
  checked_every_h = 500
  place           = "rear fuselage"
}

unit "outflow_motor" {
  title         = "Manual control motor of the outflow valve"
  needs         = dc_vital
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "rear fuselage"
}

unit "cabin_wall" {
  title         = "Pressure cabin"
  rate_per_hour = 1e-8
  place         = "fuselage"
  fault "leaks" {
    title         = "a seal lets go: a hole of 100 cm2"
    rate_per_hour = 1e-7
  }
  fault "seeps" {
    title         = "leaks through 34 cm2, a little more than the packs can feed up high"
    rate_per_hour = 1e-6
  }
}

unit "cabin_sender_1" {
  title         = "Cabin altitude sender 1"
  needs         = dc_vital
  rate_per_hour = 1e-5
  checked_every_h = 1.3
  place         = "flight deck"
}

unit "cabin_sender_2" {
  title         = "Cabin altitude sender 2"
  needs         = dc_right
  rate_per_hour = 1e-5
  checked_every_h = 1.3
  place         = "flight deck"
}

# Fresh air through the open inlet keeps the air breathable, not the pressure.
signal "packs_blow" {
  title   = "At least one pack blows air into the cabin"
  value   = pack_left || pack_right
}

signal "cabin_steered" {
  title   = "Something steers the outflow valve"
  value   = outflow_valve && outflow_selector == "auto" && (cabin_controller_1 || cabin_controller_2)
}

# The automatic schedule: about 7,500 ft in the cabin at 34,000 ft. Unsteered, the cabin stays where it was.
signal "cabin_set_ft" {
  title   = "Cabin altitude that the outflow valve is set for"
  value   = frozen(real.altitude_ft * 0.22, !cabin_steered)
}

# What two packs give, 92 people and a reserve; one gives seven tenths of it, which is
# still 0.25 kg a minute for each (14 CFR 25.831(a)).
signal "inflow_kg_per_s" {
  title   = "Air that the packs blow into the cabin"
  value   = pack_left && pack_right ? 0.6 : packs_blow ? 0.42 : 0
}

# A closed cabin leaks through 5 cm2 all told, a door whose latch lets go in flight through 34 more. A valve that runs open is stopped by its
# limiter, which feels the cabin itself.
signal "cabin_hole_m2" {
  title   = "Area through which the cabin loses air"
  value = (0.0005 + (cabin_wall.leaks || !cabin_wall ? 0.01 : !doors_latched && !pressure_kept_off ? 0.0034 : 0) + (cabin_wall.seeps ? 0.0034 : 0)
  + (outflow_runs_open && !outflow_limited ? 0.02 : 0))
}

signal "outflow_runs_open" {
  title   = "The outflow valve is driven open in flight"
  value   = !real.on_ground && (outflow_valve.runs_open || outflow_selector == "open" && outflow_motor)
}

signal "outflow_limited" {
  title   = "The limiter holds the outflow valve shut"
  set     = outflow_limiter && cabin_altitude_ft > 13000
  reset   = real.on_ground
}

signal "cabin_loses" {
  title   = "More air leaves the cabin than the outflow valve lets out"
  value   = !real.on_ground && (!packs_blow || cabin_hole_m2 > 0.001)
}

signal "cabin_set_hpa" {
  title   = "Cabin pressure that the outflow valve is set for"
  value   = static_pressure(cabin_set_ft)
}

# While it loses, and until it is full again, the cabin follows the law of the hole:
# 200 cubic metres; 843.94 is 287.05 * 294 / 100. The valve lets out what is too much.
signal "cabin_off" {
  title   = "The cabin is not at the pressure that is set"
  set     = cabin_loses
  reset   = !cabin_loses && cabin_hpa > cabin_set_hpa - 0.5
}

signal "cabin_filled_hpa" {
  title   = "Pressure that the cabin has gained by what goes in and what leaves"
  value = total(cabin_off ? least_of(843.94 / 200 * (inflow_kg_per_s - cabin_hole_m2 * air_through(cabin_hpa, static_pressure(real.altitude_ft))),
  0.1 * (cabin_set_hpa - cabin_hpa)) : 0)
}

signal "cabin_start_hpa" {
  title   = "What the cabin's pressure is counted from"
  value   = frozen(cabin_set_hpa - cabin_filled_hpa, cabin_off)
}

signal "cabin_hpa" {
  title   = "Cabin pressure"
  value   = cabin_off ? cabin_start_hpa + cabin_filled_hpa : cabin_set_hpa
}

signal "cabin_altitude_ft" {
  title   = "Cabin altitude"
  value   = pressure_kept_off ? real.altitude_ft : least_of(real.altitude_ft, cabin_off ? altitude_of(cabin_hpa) : cabin_set_ft)
}

# After touchdown the controllers open the valve, each when the sensing box of its own side says "on the ground" and the
# air data of that side say "slow": a switch that errs in flight must not let the air out. Air that goes on coming in
# through a shut cabin holds the doors shut.
signal "cabin_open_to_air" {
  title   = "The cabin is open to the outside air"
  value = ((cabin_steered
    && ((cabin_controller_1 && sensed_on_ground_a && airspeed_1_kt < 90) || (cabin_controller_2 && sensed_on_ground_b && airspeed_2_kt < 90)))
  || (outflow_selector == "open" && outflow_motor) || outflow_valve.runs_open || pressure_kept_off || !packs_blow)
}

# The fan draws more than the battery can spare. When the left bus dies, a relay moves the fan to the vital bus for ten
# minutes, time enough to find the checklist, and then drops it. The lamp in its switch never knew more than the switch.
unit "bay_fan" {
  title         = "Electronics bay fan"
  needs         = bay_fan_switch == "on" && (dc_left || bay_fan_on_reserve)
  rate_per_hour = 4e-5
  place         = "electronics bay"
}

unit "bay_fan_relay" {
  title         = "Ten-minute relay of the bay fan"
  rate_per_hour = 1e-5
  checked_every_h = 500
  place         = "electronics bay"
}

unit "bay_flow_sensor" {
  title         = "Bay air flow sensor"
  needs         = dc_vital
  rate_per_hour = 2e-5
  place         = "electronics bay"
  variant "first_series" { needs = dc_left }
}

signal "bay_fan_on_reserve" {
  title   = "The ten-minute relay feeds the bay fan from the vital bus"
  value   = bay_fan_relay && dc_vital && !dc_left && !held(!dc_left, 600)
}

# Half an hour without air, and the boxes in the bay are hotter than they like.
signal "bay_too_hot" {
  title   = "The electronics bay is too hot"
  value   = held(!bay_fan, 1800)
}
