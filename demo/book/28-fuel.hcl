# ATA 28, fuel.
#
# One tank in each wing. Two electric pumps in each tank push the fuel to the
# engine of that side, each pump from another AC bus. A crossfeed valve joins the
# two sides. Below 25,000 ft an engine can also suck its fuel by itself; above, it
# starves half a minute after the last pump has stopped.
#
# The flight burns both tanks evenly, whatever the engines do; what the model adds
# is what leaks and what the crossfeed takes.

control "boost_left_switch" {
  title     = "Left fuel pumps switch"
  chapter   = 28
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "boost_right_switch" {
  title     = "Right fuel pumps switch"
  chapter   = 28
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "crossfeed_switch" {
  title     = "Fuel crossfeed switch"
  chapter   = 28
  positions = ["shut", "open"]
  initial   = "shut"
  place     = "overhead panel"
}

# --------------------------------------------------------- tanks, pumps, valves

unit "boost_left_1" {
  title         = "Left tank, fuel pump 1"
  chapter       = 28
  needs         = ac_left && boost_left_switch == "on"
  rate_per_hour = 3e-5
  place         = "left tank"
}

unit "boost_left_2" {
  title         = "Left tank, fuel pump 2"
  chapter       = 28
  needs         = ac_right && boost_left_switch == "on"
  rate_per_hour = 3e-5
  place         = "left tank"
}

unit "boost_right_1" {
  title         = "Right tank, fuel pump 1"
  chapter       = 28
  needs         = ac_left && boost_right_switch == "on"
  rate_per_hour = 3e-5
  place         = "right tank"
}

unit "boost_right_2" {
  title         = "Right tank, fuel pump 2"
  chapter       = 28
  needs         = ac_right && boost_right_switch == "on"
  rate_per_hour = 3e-5
  place         = "right tank"
}

unit "feed_line_left" {
  title         = "Left engine fuel line"
  chapter       = 28
  rate_per_hour = 1e-7
  place         = "left pylon"
  fault "leaks" {
    title         = "leaks a kilogram a second behind the engine fuel valve"
    rate_per_hour = 2e-6
  }
}

unit "feed_line_right" {
  title         = "Right engine fuel line"
  chapter       = 28
  rate_per_hour = 1e-7
  place         = "right pylon"
  fault "leaks" {
    title         = "leaks a kilogram a second behind the engine fuel valve"
    rate_per_hour = 2e-6
  }
}

# The fire handle shuts this valve. Without the battery-direct bus it stays where it
# is, and that is open.
unit "feed_valve_left" {
  title         = "Left engine fuel valve"
  chapter       = 28
  rate_per_hour = 1e-6
  place         = "left pylon"
  fault "stays_open" {
    title         = "does not shut"
    rate_per_hour = 3e-6
  }
}

unit "feed_valve_right" {
  title         = "Right engine fuel valve"
  chapter       = 28
  rate_per_hour = 1e-6
  place         = "right pylon"
  fault "stays_open" {
    title         = "does not shut"
    rate_per_hour = 3e-6
  }
}

unit "crossfeed_valve" {
  title         = "Fuel crossfeed valve"
  chapter       = 28
  needs         = dc_vital
  rate_per_hour = 1e-5
  place         = "centre fuselage"
}

unit "apu_fuel_pump" {
  title         = "APU fuel pump"
  chapter       = 28
  needs         = dc_direct
  rate_per_hour = 3e-5
  place         = "left tank"
}

# --------------------------------------------------------------- what is where

signal "crossfeed_open" {
  title   = "The crossfeed is open"
  chapter = 28
  value   = frozen(crossfeed_switch == "open", !crossfeed_valve)
}

signal "feed_shut_left" {
  title   = "The left engine fuel valve is shut by the fire handle"
  chapter = 28
  value   = fire_handle_left == "pulled" && !feed_valve_left.stays_open
}

signal "feed_shut_right" {
  title   = "The right engine fuel valve is shut by the fire handle"
  chapter = 28
  value   = fire_handle_right == "pulled" && !feed_valve_right.stays_open
}

# A leaking line drinks from its own tank first. When that is empty and the
# crossfeed is open, it drinks from the other one.
signal "lost_left_kg" {
  title   = "Fuel lost from the left tank"
  chapter = 28
  value = total((feed_line_left.leaks && !feed_shut_left && tank_left_kg > 0 ? 1 : 0)
  + (feed_line_right.leaks && !feed_shut_right && crossfeed_open && tank_right_kg <= 0 ? 1 : 0))
}

signal "lost_right_kg" {
  title   = "Fuel lost from the right tank"
  chapter = 28
  value = total((feed_line_right.leaks && !feed_shut_right && tank_right_kg > 0 ? 1 : 0)
  + (feed_line_left.leaks && !feed_shut_left && crossfeed_open && tank_left_kg <= 0 ? 1 : 0))
}

signal "tank_left_kg" {
  title   = "Fuel in the left tank"
  chapter = 28
  value   = most_of(0, real.fuel_kg / 2 - lost_left_kg)
}

signal "tank_right_kg" {
  title   = "Fuel in the right tank"
  chapter = 28
  value   = most_of(0, real.fuel_kg / 2 - lost_right_kg)
}

signal "boosted_left" {
  title   = "A pump pushes fuel out of the left tank"
  chapter = 28
  value   = (boost_left_1 || boost_left_2) && tank_left_kg > 0
}

signal "boosted_right" {
  title   = "A pump pushes fuel out of the right tank"
  chapter = 28
  value   = (boost_right_1 || boost_right_2) && tank_right_kg > 0
}

signal "pressed_left" {
  title   = "Fuel under pressure at the left engine"
  chapter = 28
  value   = boosted_left || (crossfeed_open && boosted_right)
}

signal "pressed_right" {
  title   = "Fuel under pressure at the right engine"
  chapter = 28
  value   = boosted_right || (crossfeed_open && boosted_left)
}

# Starved: half a minute without pump pressure above 25,000 ft, or five seconds with
# nothing in the tank. The delays are what is left in the lines.
signal "starved_left" {
  title   = "The left engine gets no fuel"
  chapter = 28
  value   = held(!pressed_left && real.altitude_ft > 25000, 30) || held(tank_left_kg <= 0 && !pressed_left, 5)
}

signal "starved_right" {
  title   = "The right engine gets no fuel"
  chapter = 28
  value   = held(!pressed_right && real.altitude_ft > 25000, 30) || held(tank_right_kg <= 0 && !pressed_right, 5)
}

signal "fuel_feed_left" {
  title   = "Fuel reaches the left engine"
  chapter = 28
  value   = feed_line_left && feed_valve_left && !feed_shut_left && !starved_left
}

signal "fuel_feed_right" {
  title   = "Fuel reaches the right engine"
  chapter = 28
  value   = feed_line_right && feed_valve_right && !feed_shut_right && !starved_right
}

signal "fuel_feed_apu" {
  title   = "Fuel reaches the APU"
  chapter = 28
  value   = apu_fuel_pump && fire_handle_apu == "in" && tank_left_kg > 0
}

# ------------------------------------------------------------------- sensing

# One gauging computer for each tank. On the first series a gauge that dies shows a
# line of dashes; nothing calls attention to it.
unit "fuel_gauge_left" {
  title         = "Left fuel gauging computer"
  chapter       = 28
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
  fault "stays_put" {
    title         = "goes on showing the last value"
    rate_per_hour = 3e-6
  }
}

unit "fuel_gauge_right" {
  title         = "Right fuel gauging computer"
  chapter       = 28
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
  fault "stays_put" {
    title         = "goes on showing the last value"
    rate_per_hour = 3e-6
  }
}

# Floats that know nothing of the gauges: a second opinion for the last 400 kg.
unit "low_float_left" {
  title         = "Left low-fuel float"
  chapter       = 28
  needs         = dc_vital
  rate_per_hour = 5e-6
  place         = "left tank"
}

unit "low_float_right" {
  title         = "Right low-fuel float"
  chapter       = 28
  needs         = dc_right
  rate_per_hour = 5e-6
  place         = "right tank"
}

signal "sensed_left_kg" {
  title   = "What the left gauge says"
  chapter = 28
  value   = frozen(tank_left_kg, fuel_gauge_left.stays_put)
}

signal "sensed_right_kg" {
  title   = "What the right gauge says"
  chapter = 28
  value   = frozen(tank_right_kg, fuel_gauge_right.stays_put)
}
