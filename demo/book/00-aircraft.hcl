# The Corvane 76 does not exist. Every system, number, message and procedure in
# this book is invented for teaching how failures travel through an aircraft.
# Nothing here may be used in flight; an operator's approved manuals prevail.
#
# It is drawn as a 76-seat regional jet with two engines under the wing, flown by
# the (also invented) island airline of the Sarnel Islands between short wet
# runways and one long northern link.

aircraft "corvane_76" {
  title = "Corvane 76"
  note  = "Invented for study. Two engines, two main electrical sides, two hydraulic systems, one battery that keeps the vital buses alive for a set time."

  # Either alerting computer can give every alert. An alert whose data come
  # through only one data unit says so itself.
  alerts_given_by = alert_computer_1 || alert_computer_2

  # In the air it is lost without both. On the ground it still rolls, brakes and
  # is steered.
  flyable = (pitch_control && roll_control) || taxi_out || take_off_roll || take_off_fast || landing_roll || taxi_in
  # Trimmed and level it stays so for a while: time for what is done from memory.
  # An assumption.
  flyable_again_s = 15

  # How an alert reaches people: words on a screen, a light in front of
  # each pilot, a sound. Red and amber have all three; what is only for awareness has
  # the words alone (14 CFR 25.1322(c): two senses for warnings and cautions).
  telling "warning" {
    text  = engine_picture
    light = warning_unit
    sound = warning_unit
  }
  telling "caution" {
    text  = engine_picture
    light = warning_unit
    sound = warning_unit
  }
  telling "advisory" {
    text = engine_picture
  }

  told_within_s = 10
  wrong_after_s = 2

  # Masses and size. Round invented figures for a jet of this size.
  empty_mass_kg         = 21800
  max_zero_fuel_mass_kg = 31800
  max_landing_mass_kg   = 34000
  max_takeoff_mass_kg   = 38000
  fuel_capacity_kg      = 8900
  wing_area_m2          = 78
  wing_span_m           = 27.2
  seats_count           = 76

  # Lift and drag, of the wing area. With the gear out the drag of the cruise
  # about doubles.
  setting "0" {
    zero_lift_drag_ratio = 0.022
    induced_drag_ratio   = 0.043
    most_lift_ratio      = 1.45
    ground_lift_ratio    = 0.15
  }
  setting "1" {
    zero_lift_drag_ratio = 0.033
    induced_drag_ratio   = 0.043
    most_lift_ratio      = 2.0
    ground_lift_ratio    = 0.35
  }
  setting "2" {
    zero_lift_drag_ratio = 0.048
    induced_drag_ratio   = 0.044
    most_lift_ratio      = 2.35
    ground_lift_ratio    = 0.5
  }
  setting "3" {
    zero_lift_drag_ratio = 0.075
    induced_drag_ratio   = 0.045
    most_lift_ratio      = 2.65
    ground_lift_ratio    = 0.65
  }
  gear_drag_ratio           = 0.04
  speed_brake_drag_ratio    = 0.03
  ground_spoiler_drag_ratio = 0.06
  ground_spoiler_lift_ratio = 0.6
  engine_out_drag_ratio     = 0.006
  iced_drag_ratio           = 0.012

  # Engines.
  engines_count             = 2
  takeoff_thrust_kn         = 64
  thrust_density_ratio      = 0.8
  thrust_mach_ratio         = 0.3
  climb_thrust_ratio        = 0.9
  cruise_thrust_ratio       = 0.82
  idle_thrust_ratio         = 0.05
  approach_idle_ratio       = 0.09
  reverse_thrust_ratio      = 0.35
  specific_fuel_kg_per_kn_h = 50
  specific_fuel_mach_ratio  = 0.9
  idle_fuel_kg_per_h        = 230
  apu_fuel_kg_per_h         = 75
  cruise_fuel_kg_per_h      = 1850
  holding_fuel_kg_per_h     = 1500

  # Wheels and brakes.
  tyre_pressure_psi  = 165
  tyre_width_m       = 0.3
  tyre_deflection_m  = 0.04
  tyres_alike_count  = 6
  braked_load_ratio  = 0.9
  rolling_drag_ratio = 0.015
  brake_force_kn     = 150
  dry_grip_ratio     = 0.45
  wheel_spin_up_s    = 0.8
  reverse_out_kt     = 60

  # A take-off rejected at the decision speed, at the greatest mass and without
  # reverse, stays below it.
  max_brake_energy_mj = 95

  # Speeds and limits.
  holding_kt           = 210
  max_operating_kt     = 315
  max_mach             = 0.80
  max_gear_kt          = 240
  max_gear_altitude_ft = 20000
  max_flap_1_kt        = 220
  max_flap_2_kt        = 190
  max_flap_3_kt        = 165
  max_altitude_ft      = 37000
  max_hand_pressure_altitude_ft = 10000
  max_crosswind_kt     = 34
  max_tailwind_kt      = 10
  apu_light_up_ft      = 25000
}

# First as delivered, then with what the operators asked for, then with what the
# islands needed.
variant "first_series" {
  title = "First series, as first delivered"
}

variant "second_series" {
  title = "Second series: more is monitored, more is told"
}

variant "island_kit" {
  title = "Island kit: second series with the larger battery and the steep-approach kit"
}
