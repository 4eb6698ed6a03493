# ATA 27, flight controls.
#
# The sticks talk to two flight control computers, and these move the surfaces through hydraulic servos, one half of
# each surface from each hydraulic system. As long as one computer works and knows turn rates and airspeed, control is
# *shaped*: the aircraft feels the same at any speed, will not be stalled, and damps its own yaw. Without that, a small
# reserve control unit on the hot battery bus sends the stick's movement straight to the servos: *plain* control, which
# always flies and guards nothing. Each surface that steers has a third servo, electric and sealed, for the day without
# pressure: slow, enough to fly and to flare, and plain always.

chapter = 27

control "flap_lever" {
  title     = "Flap lever"
  positions = ["up", "slight", "middle", "full"]
  initial   = "slight"
  place     = "centre pedestal"
}

# What the crew fly the final approach at, beside the reference speed of the setting.
control "landing_speed" {
  title     = "Landing speed"
  positions = ["reference", "10 kt more", "20 kt more"]
  initial   = "reference"
  place     = "flight pictures"
}

# For a servo that drives by itself and is not cut: all surfaces of one pressure let go.
control "surfaces_left_switch" {
  mirror    = true
  title     = "Left pressure to the surfaces"
  positions = ["on", "cut"]
  initial   = "on"
  place     = "overhead panel"
}

signal "surface_pressure_left" {
  mirror  = true
  title   = "The left system presses on the surfaces"
  value   = hyd_left && surfaces_left_switch == "on"
}

control "spoiler_lever" {
  title     = "Spoiler lever"
  positions = ["in", "armed", "half", "full"]
  initial   = "in"
  place     = "centre pedestal"
}

# One switch for each: no button stops both.
control "control_computer_1_switch" {
  title     = "Flight control computer 1 switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

control "control_computer_2_switch" {
  title     = "Flight control computer 2 switch"
  positions = ["on", "off"]
  initial   = "on"
  place     = "overhead panel"
}

unit "stick_sensors_left" {
  mirror        = true
  title         = "Sensors of the left pilot's controls"
  rate_per_hour = 5e-6
  checked_every_h = 2
  place         = "under the flight deck floor"
}

unit "rate_gyros_1" {
  title         = "Rate gyros 1"
  needs         = dc_vital
  rate_per_hour = 2e-5
  checked_every_h = 1.3
  place         = "centre fuselage"
}

unit "rate_gyros_2" {
  title         = "Rate gyros 2"
  needs         = dc_right
  rate_per_hour = 2e-5
  checked_every_h = 1.3
  place         = "centre fuselage"
}

unit "control_computer_1" {
  title         = "Flight control computer 1"
  needs         = dc_vital && !left_rack_burnt && control_computer_1_switch == "on"
  rate_per_hour = 3e-5
  reset_by      = control_computer_1_switch == "off"
  reset_tries   = 1
  place         = "electronics bay, left rack"
}

unit "control_computer_2" {
  title         = "Flight control computer 2"
  needs         = dc_right && !right_rack_burnt && control_computer_2_switch == "on"
  rate_per_hour = 3e-5
  reset_by      = control_computer_2_switch == "off"
  reset_tries   = 1
  place         = "electronics bay, right rack"
}

unit "control_backup" {
  title         = "Reserve control unit"
  needs         = dc_direct
  rate_per_hour = 1e-5
  checked_every_h = 150
  place         = "electronics bay, forward"
}

unit "elevator_left_servo" {
  mirror        = true
  title         = "Left elevator servo"
  not_modelled  = "Where a surface jams is not worked out: it counts as jammed near neutral, so that the other half is enough. Jammed far over it takes more, and perhaps all that the other half has."
  needs         = surface_pressure_left
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "tail"
  fault "jams" {
    title         = "jams with its half of the surface"
    stops         = true
    rate_per_hour = 1e-7
  }
  fault "drives" {
    title         = "drives its half hard over"
    stops         = true
    rate_per_hour = 1e-7
  }
}

unit "aileron_left_servo" {
  mirror        = true
  title         = "Left aileron servo"
  not_modelled  = "Where a surface jams is not worked out: it counts as jammed near neutral, so that the other half is enough. Jammed far over it takes more, and perhaps all that the other half has."
  needs         = surface_pressure_left
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "left wing"
  fault "jams" {
    title         = "jams with its half of the surface"
    stops         = true
    rate_per_hour = 1e-7
  }
  fault "drives" {
    title         = "drives its half hard over"
    stops         = true
    rate_per_hour = 1e-7
  }
}

unit "rudder_upper_servo" {
  title         = "Upper rudder servo"
  needs         = surface_pressure_left
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "fin"
  fault "drives" {
    title         = "drives its half hard over"
    stops         = true
    rate_per_hour = 1e-7
  }
}

unit "rudder_lower_servo" {
  title         = "Lower rudder servo"
  needs         = surface_pressure_right
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "fin"
  fault "drives" {
    title         = "drives its half hard over"
    stops         = true
    rate_per_hour = 1e-7
  }
}

# Fed by the backup AC bus, which any generator, the one in the wind and for some minutes the battery can feed.
unit "elevator_electric_servo" {
  title           = "Electric elevator servo"
  needs           = ac_backup
  rate_per_hour   = 5e-6
  checked_every_h = 150
  place           = "tail"
}

unit "aileron_electric_servo" {
  title           = "Electric aileron servo"
  needs           = ac_backup
  rate_per_hour   = 5e-6
  checked_every_h = 150
  place           = "left wing"
}

unit "rudder_electric_servo" {
  title           = "Electric rudder servo"
  needs           = ac_backup
  rate_per_hour   = 5e-6
  checked_every_h = 150
  place           = "fin"
}

# Lets the pedals move the rudder less the faster the aircraft flies. When it stops it stays where it was: after a
# failure in the cruise there is little rudder left for a landing.
unit "rudder_limiter" {
  title         = "Rudder limiter"
  needs         = dc_left || dc_right
  rate_per_hour = 2e-5
  place         = "fin"
}

# The trim that the pilots move with their thumbs. The automatic trim of chapter 22 has a motor of its own.
unit "trim_motor_1" {
  title         = "Stabiliser trim motor 1, hand trim"
  needs         = ac_left && control_computer_1 && trim_cut_switch == "running"
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "tail"
  fault "runs" {
    title         = "runs by itself until it is cut"
    rate_per_hour = 1e-6
  }
}

unit "trim_motor_2" {
  title         = "Stabiliser trim motor 2, hand trim"
  needs         = ac_right && control_computer_2
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "tail"
}

# Two pairs of spoilers, and no crossing over: computer 1 moves the inner pair with
# left pressure, computer 2 the outer pair with right pressure.
unit "spoilers_inner" {
  title         = "Inner spoilers"
  needs         = surface_pressure_left && control_computer_1
  rate_per_hour = 5e-6
  place         = "both wings"
  fault "rise" {
    title         = "rise by themselves in flight"
    stops         = true
    rate_per_hour = 1e-7
  }
}

unit "spoilers_outer" {
  title         = "Outer spoilers"
  needs         = surface_pressure_right && control_computer_2
  rate_per_hour = 5e-6
  place         = "both wings"
  fault "rise" {
    title         = "rise by themselves in flight"
    stops         = true
    rate_per_hour = 1e-7
  }
}

signal "control_shaped" {
  title   = "Control is shaped"
  value   = (control_computer_1 || control_computer_2) && (rate_gyros_1 || rate_gyros_2) && (air_data_1 || air_data_2) && (hyd_left || hyd_right)
}

signal "control_passes" {
  title   = "What the pilots do reaches the servos"
  value   = (stick_sensors_left || stick_sensors_right) && !(stick_left.jams && stick_right.jams) && (control_computer_1 || control_computer_2 || control_backup)
}

# Thirty degrees of rudder at low speed, fifteen above 160 kt, six above 220 kt.
signal "rudder_wanted_deg" {
  title   = "Rudder travel that suits the speed"
  value   = real.airspeed_kt > 220 ? 6 : real.airspeed_kt > 160 ? 15 : 30
}

signal "rudder_travel_deg" {
  title   = "Rudder travel allowed"
  value   = frozen(rudder_wanted_deg, !rudder_limiter)
}

signal "ground_spoiler_pairs_count" {
  title   = "Pairs of spoilers that will rise after touchdown"
  value   = (spoilers_inner ? 1 : 0) + (spoilers_outer ? 1 : 0)
}

# What the landing roll is computed with. A switch that says "on the ground" in the
# air raises nothing. The second series is more careful: with one leg alone that says
# so it waits until the wheels have turned, which on standing water can take a while.
signal "ground_spoilers_out" {
  title   = "The ground spoilers are out"
  value   = real.on_ground && ((sensed_on_ground_a && sensed_on_ground_b) || (believed_on_ground && wheels_have_turned)) && spoiler_lever != "in" && ground_spoiler_pairs_count > 0 && (landing_roll || taxi_in)
  variant "first_series" { value = real.on_ground && believed_on_ground && spoiler_lever != "in" && ground_spoiler_pairs_count > 0 && (landing_roll || taxi_in) }
}

signal "wheels_have_turned" {
  title   = "The wheels have turned faster than 55 kt since touchdown"
  except  = [first_series]
  set     = real.on_ground && wheel_sender_left && wheel_sender_right && real.wheel_speed_kt > 55
  reset   = !real.on_ground
}
