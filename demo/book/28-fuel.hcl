# ATA 28, fuel.
#
# One tank in each wing. Two electric pumps in each tank push the fuel to the engine of that side, each pump from
# another AC bus; when both have stopped a small pump on the vital DC bus comes on by itself. Without any pump an engine
# sucks its fuel, up to 20,000 ft; above, it starves half a minute after the last pump has stopped. A crossfeed valve
# joins the two sides; a valve for filling joins the tanks.
#
# The flight burns both tanks evenly, whatever the engines do; what the model adds is what leaks, what goes through the
# filling valve, and what the crossfeed takes while one side's pumps are off.

chapter = 28

control "boost_left_switch" {
  mirror    = true
  title     = "Left fuel pumps switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "crossfeed_switch" {
  title     = "Fuel crossfeed switch"
  positions = ["shut", "open"]
  initial   = "shut"
  place     = "overhead panel"
}

unit "boost_left_1" {
  title         = "Left tank, fuel pump 1"
  needs         = ac_left && boost_left_switch == "on"
  rate_per_hour = 3e-5
  checked_every_h = 10
  place         = "left tank"
}

unit "boost_left_2" {
  title         = "Left tank, fuel pump 2"
  needs         = ac_right && boost_left_switch == "on"
  rate_per_hour = 3e-5
  checked_every_h = 10
  place         = "left tank"
}

unit "boost_right_1" {
  title         = "Right tank, fuel pump 1"
  needs         = ac_left && boost_right_switch == "on"
  rate_per_hour = 3e-5
  checked_every_h = 10
  place         = "right tank"
}

unit "boost_right_2" {
  title         = "Right tank, fuel pump 2"
  needs         = ac_right && boost_right_switch == "on"
  rate_per_hour = 3e-5
  checked_every_h = 10
  place         = "right tank"
}

unit "emergency_pump_left" {
  mirror          = true
  title           = "Left tank, emergency DC fuel pump"
  needs           = dc_vital
  rate_per_hour   = 3e-5
  checked_every_h = 8
  place           = "left tank"
}

unit "suction_valve_left" {
  mirror  = true
  title   = "Left engine suction valve"
  place   = "left tank"
  fault "stays_shut" {
    title           = "does not open: no suction"
    rate_per_hour   = 1e-6
    checked_every_h = 600
  }
}

unit "feed_line_left" {
  mirror        = true
  title         = "Left engine fuel line"
  rate_per_hour = 1e-7
  place         = "left pylon"
  fault "leaks" {
    title         = "leaks 0.8 kg a second behind the engine fuel valve"
    rate_per_hour = 1e-6
  }
}

# The fire handle shuts this valve. Without the hot battery bus it stays where it is, and that is open.
unit "feed_valve_left" {
  mirror        = true
  title         = "Left engine fuel valve"
  rate_per_hour = 1e-6
  place         = "left pylon"
  fault "stays_open" {
    title           = "does not shut"
    rate_per_hour   = 3e-6
    checked_every_h = 600
  }
}

unit "crossfeed_valve" {
  title           = "Fuel crossfeed valve"
  needs           = dc_vital
  rate_per_hour   = 1e-5
  checked_every_h = 60
  place           = "centre fuselage"
}

# Only for filling and emptying on the ground.
unit "filling_valve" {
  title   = "Valve between the tanks, for filling"
  place   = "centre fuselage"
  fault "stays_open" {
    title         = "stands open: fuel runs from the right tank into the left one"
    rate_per_hour = 1e-6
    checked_every_h = 50
  }
}

unit "apu_fuel_pump" {
  title         = "APU fuel pump"
  needs         = dc_direct
  rate_per_hour = 3e-5
  place         = "left tank"
}

signal "crossfeed_open" {
  title   = "The crossfeed is open"
  value   = frozen(crossfeed_switch == "open", !crossfeed_valve)
}

signal "feed_shut_left" {
  mirror  = true
  title   = "The left engine fuel valve is shut by the fire handle"
  value   = frozen(fire_handle_left == "pulled" && !feed_valve_left.stays_open, !dc_direct)
}

# A leaking line drinks from its own tank first. When that is empty and the
# crossfeed is open, it drinks from the other one.
signal "leak_left_kg_per_s" {
  mirror  = true
  title   = "What leaks out of the left tank"
  value = ((feed_line_left.leaks && !feed_shut_left && !tank_left_empty ? 0.8 : 0)
  + (feed_line_right.leaks && !feed_shut_right && crossfeed_open && tank_right_empty && !tank_left_empty ? 0.8 : 0))
}

signal "lost_left_kg" {
  mirror  = true
  title   = "Fuel lost from the left tank"
  value   = total(leak_left_kg_per_s)
}

# Through the filling valve by its own weight; and by the crossfeed, while the pumps of
# one side are off and both engines drink from the other.
signal "moved_kg" {
  title   = "Fuel that the right tank gave and the left one kept"
  value = total((filling_valve.stays_open && !tank_right_empty ? 0.12 : 0)
    + (crossfeed_open && !left_pumps && right_pumps && !tank_right_empty ? 0.25 : 0)
  - (crossfeed_open && left_pumps && !right_pumps && !tank_left_empty ? 0.25 : 0))
}

# real.fuel_kg is what is on board: burnt and leaked are gone from it.
signal "left_share_kg" {
  title   = "The left tank's share of the fuel on board"
  value   = real.fuel_kg / 2 + (lost_right_kg - lost_left_kg) / 2 + moved_kg
}

# Dry until some fuel has come in: flows that hang on it would else come and go a thousand times a second.
signal "tank_left_empty" {
  mirror = true
  title  = "The left tank is dry"
  set    = tank_left_kg <= 0
  reset  = tank_left_kg > 20
}

signal "tank_left_kg" {
  title   = "Fuel in the left tank"
  value   = least_of(most_of(0, left_share_kg), real.fuel_kg)
}

signal "tank_right_kg" {
  title   = "Fuel in the right tank"
  value   = real.fuel_kg - tank_left_kg
}

signal "burnt_kg" {
  title   = "Fuel that the engines have burnt"
  value   = frozen(real.fuel_kg, real.time_s > 0) - real.fuel_kg - lost_left_kg - lost_right_kg
}

signal "left_pumps" {
  mirror  = true
  title   = "A main pump of the left tank runs"
  value   = boost_left_1 || boost_left_2
}

signal "boosted_left" {
  mirror  = true
  title   = "A main pump pushes fuel out of the left tank"
  value   = left_pumps && !tank_left_empty
}

signal "main_pressure_left" {
  mirror  = true
  title   = "Main pumps press fuel to the left engine"
  value   = boosted_left || (crossfeed_open && boosted_right)
}

# The emergency pump runs when the main pumps of its tank do not press.
signal "pressed_left" {
  mirror  = true
  title   = "Fuel under pressure at the left engine"
  value   = main_pressure_left || (emergency_pump_left && !tank_left_empty) || (crossfeed_open && emergency_pump_right && !tank_right_empty)
}

# Starved: half a minute without pump pressure above the ceiling of suction, or five
# seconds with nothing in the tank. The delays are what is left in the lines.
signal "starved_left" {
  mirror  = true
  title   = "The left engine gets no fuel"
  value   = held(!pressed_left && (real.altitude_ft > aircraft.suction_ceiling_ft || suction_valve_left.stays_shut), 30) || held(tank_left_empty && !pressed_left, 5)
}

signal "fuel_feed_left" {
  mirror  = true
  title   = "Fuel reaches the left engine"
  value   = feed_line_left && feed_valve_left && !feed_shut_left && !starved_left
}

signal "fuel_feed_apu" {
  title   = "Fuel reaches the APU"
  value   = apu_fuel_pump && fire_handle_apu == "in" && !tank_left_empty
}

# One gauging computer for each tank. On the first series a gauge that dies shows a
# line of dashes; nothing calls attention to it.
unit "fuel_gauge_left" {
  mirror        = true
  title         = "Left fuel gauging computer"
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
  fault "stays_put" {
    title           = "goes on showing the last value"
    rate_per_hour   = 3e-6
    checked_every_h = 60
  }
}

# Floats that know nothing of the gauges, and live from another bus than they: a second
# opinion for the last half hour of the cruise (CS 25.1305(a)(2)).
unit "low_float_left" {
  mirror        = true
  title         = "Left low-fuel float"
  needs         = dc_vital
  rate_per_hour = 5e-6
  place         = "left tank"
}

signal "low_fuel_kg" {
  title   = "Fuel for half an hour of one engine's cruise"
  value   = aircraft.cruise_fuel_kg_per_h / 4
}

signal "sensed_left_kg" {
  mirror  = true
  title   = "What the left gauge says"
  value   = frozen(tank_left_kg, fuel_gauge_left.stays_put)
}
