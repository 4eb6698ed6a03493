# A small invented jet whose controls outlive its engines: a turbine falls into the
# wind when the last engine stands, and drives a pump. Nothing here may be used in
# flight.
aircraft "tern" {
  title   = "Tern"
  flyable = controls || parked || take_off_roll || landing_roll

  empty_mass_kg       = 12000
  max_takeoff_mass_kg = 20000
  max_landing_mass_kg = 18500
  fuel_capacity_kg    = 5000
  wing_area_m2        = 50

  setting "up" {
    zero_lift_drag_ratio = 0.021
    induced_drag_ratio   = 0.045
    most_lift_ratio      = 1.4
    ground_lift_ratio    = 0.2
  }
  setting "landing" {
    zero_lift_drag_ratio = 0.07
    induced_drag_ratio   = 0.046
    most_lift_ratio      = 2.4
    ground_lift_ratio    = 0.5
  }
  gear_drag_ratio           = 0.03
  ground_spoiler_drag_ratio = 0.05
  ground_spoiler_lift_ratio = 0.4
  engine_out_drag_ratio     = 0.002

  engines_count             = 2
  takeoff_thrust_kn         = 36
  thrust_density_ratio      = 0.8
  thrust_mach_ratio         = 0.3
  climb_thrust_ratio        = 0.9
  cruise_thrust_ratio       = 0.85
  idle_thrust_ratio         = 0.05
  approach_idle_ratio       = 0.08
  reverse_thrust_ratio      = 0.3
  specific_fuel_kg_per_kn_h = 52
  specific_fuel_mach_ratio  = 0.9
  idle_fuel_kg_per_h        = 150

  tyre_pressure_psi  = 140
  tyre_width_m       = 0.25
  tyre_deflection_m  = 0.04
  tyres_alike_count  = 6
  braked_load_ratio  = 0.9
  rolling_drag_ratio = 0.015
  brake_force_kn     = 90
  dry_grip_ratio     = 0.45
  wheel_spin_up_s    = 0.8
  reverse_out_kt     = 60

  max_operating_kt = 300
  max_mach         = 0.76
  max_altitude_ft  = 36000
  max_gear_kt      = 220
  max_crosswind_kt = 30
  max_tailwind_kt  = 10
}

phase "parked" {}
phase "take_off_roll" { begins = real.on_ground && real.thrust_pct > 60 }
phase "climb" { begins = !real.on_ground }
phase "cruise" { begins = held(size(real.vertical_speed_ft_per_min) < 100, 20) }
phase "descent" {
  begins    = real.vertical_speed_ft_per_min < -300
  after_leg = ["divert"]
}
phase "landing_roll" { begins = real.on_ground }

unit "engine_left" {}
unit "engine_right" {}
unit "pump_left" { needs = engine_left }
unit "pump_right" { needs = engine_right }
unit "turbine" {
  needs = !engine_left && !engine_right && real.airspeed_kt > 90
  title = "Turbine in the wind"
}

function "controls" {
  title    = "Pitch and roll"
  works    = pump_left || pump_right || turbine
  wanted   = !real.on_ground
  severity = "catastrophic"
}

control "gear_lever" {
  positions = ["up", "down"]
  initial   = "down"
}
control "flap_lever" {
  positions = ["up", "landing"]
  initial   = "up"
}

indication "turbine_lamp" {
  shows = turbine
  means = turbine
  tells = [controls]
}
alert "no_engine" {
  level     = "warning"
  message   = "No engine gives thrust"
  when      = !engine_left && !engine_right
  tells     = [controls]
  procedure = no_engine_list
}
procedure "no_engine_list" {
  title = "No engine gives thrust"
  check {
    that   = turbine_lamp
    says   = "Turbine: out, and turning"
    sensed = true
  }
  note {
    says    = "Land at the nearest suitable airfield."
    leg     = "land"
    because = "Every thousand feet are three miles."
  }
}

effect "engine_left_ratio" { value = engine_left ? 1 : 0 }
effect "engine_right_ratio" { value = engine_right ? 1 : 0 }
effect "gear_out" { value = gear_lever == "down" }
effect "flap_setting" { value = flap_lever }
effect "ground_spoilers_ratio" { value = real.on_ground ? 1 : 0 }

flight "crossing" {
  from               = "Ash"
  to                 = "Elm"
  takeoff_mass_kg    = 18000
  fuel_kg            = 4000
  cruise_altitude_ft = 31000
  distance_nm        = 300
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.66
  descent_kt         = 250
  approach_kt        = 118
  act "Gear up" {
    set  = gear_lever
    to   = "up"
    when = climb && real.height_ft > 80
  }
  act "Flaps for landing" {
    set  = flap_lever
    to   = "landing"
    when = descent && real.to_go_nm < 2
  }
  act "Gear down" {
    set  = gear_lever
    to   = "down"
    when = descent && real.to_go_nm < 2
  }
}

claim "glide_to_the_nearest" {
  says   = "With both engines gone in the cruise the turbine keeps the controls, and by the list the aircraft glides to Oak."
  source = "Tern manual 2-01 (fictional)"
  given {
    fail   = [engine_left, engine_right]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [in_order(no_engine, done(no_engine_list, 1), flown("land")), by(60, flown("land")), in_phase(descent, controls), arrives("XOAK"), open("XOAK")]
  }
}

claim "glide_that_is_too_short" {
  says   = "Yew, a few miles farther, is missed by less than three."
  source = "Tern manual 2-01 (fictional)"
  given {
    fail   = [engine_left, engine_right]
    at     = "cruise + 60 s"
    plan   = ["divert XYEW"]
    expect = [never_arrives("cannot_stay_up"), short_of("XYEW") > 0, short_of("XYEW") < 3, closed("XYEW", "arrival")]
  }
}

claim "no_turbine_no_controls" {
  says   = "Without the turbine there is nothing to fly to."
  source = "Tern manual 2-02 (fictional)"
  given {
    inoperative = [turbine]
    fail        = [engine_left, engine_right]
    at          = "cruise + 60 s"
    crew        = "by_the_book"
    expect      = [never_arrives("not_flyable", controls), lost(controls), closed("XOAK", "arrival")]
  }
}
