# The Corvane 71 does not exist. Every system, number, message and procedure in this book is invented for teaching how
# failures travel through an aircraft. Nothing here may be used in flight; an operator's approved manuals prevail.
#
# It is drawn as a 88-seat regional jet with two engines under the wing, flown by the (also invented) island airline of
# the Sarnel Islands between short wet runways and one long northern link.

aircraft "corvane_88" {
  title = "Corvane 71"
  note  = "Invented for study. Two engines, two main electrical sides, two hydraulic systems, one battery that keeps the vital buses alive for a set time."

  # Either alerting computer can give every alert. An alert whose data come through only one data unit says so itself.
  alerts_given_by = alert_computer_1 || alert_computer_2

  # In the air it is lost without both, or without a wing; with a surface that is driven over, trim beyond the elevator,
  # or rolled over by a false attitude. On the ground it still rolls, brakes and is steered.
  flyable = (pitch_control && roll_control && surfaces_obey && trim_in_reach && level_kept && !wing_root_lost && (pilots_awake || climb || cruise)) || taxi_out || take_off_roll || take_off_fast || landing_roll || taxi_in
  # Trimmed and level it stays so for a while: time for what is done from memory. An assumption.
  flyable_again_s = 15
  crew_able       = pilots_awake

  # What the crew say is heard over what works; far from land control hears the far radio and the data link as well.
  cabin_hears   = passenger_address || cabin_call
  control_hears = radio_contact || (cruise && far_contact)

  # How an alert reaches people: words on a screen, a light in front of each pilot, a sound. Red and amber have all
  # three; what is only for awareness has the words alone (14 CFR 25.1322(c): two senses for warnings and cautions).
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
  empty_mass_kg         = 23500
  max_zero_fuel_mass_kg = 34200
  max_landing_mass_kg   = 36600
  max_takeoff_mass_kg   = 41000
  fuel_capacity_kg      = 9600
  wing_area_m2          = 84
  wing_span_m           = 28.4
  seats_count           = 88

  # Lift and drag, of the wing area. With the gear out the drag of the cruise about doubles.
  setting "up" {
    zero_lift_drag_ratio = 0.022
    induced_drag_ratio   = 0.043
    most_lift_ratio      = 1.45
    ground_lift_ratio    = 0.15
  }
  setting "slight" {
    zero_lift_drag_ratio = 0.033
    induced_drag_ratio   = 0.043
    most_lift_ratio      = 2.0
    ground_lift_ratio    = 0.35
  }
  setting "middle" {
    zero_lift_drag_ratio = 0.048
    induced_drag_ratio   = 0.044
    most_lift_ratio      = 2.35
    ground_lift_ratio    = 0.5
  }
  setting "full" {
    zero_lift_drag_ratio = 0.075
    induced_drag_ratio   = 0.045
    most_lift_ratio      = 2.65
    ground_lift_ratio    = 0.65
  }
  gear_drag_ratio           = 0.04
  speed_brake_drag_ratio    = 0.03
  ground_spoiler_drag_ratio = 0.06
  ground_spoiler_lift_ratio = 0.6
  engine_out_drag_ratio     = 0.0025
  iced_drag_ratio           = 0.012
  iced_lift_ratio           = 0.7

  # Engines.
  engines_count             = 2
  takeoff_thrust_kn         = 69
  thrust_density_ratio      = 0.8
  thrust_mach_ratio         = 0.3
  climb_thrust_ratio        = 0.9
  cruise_thrust_ratio       = 0.82
  idle_thrust_ratio         = 0.05
  approach_idle_ratio       = 0.09
  reverse_thrust_ratio      = 0.35
  specific_fuel_kg_per_kn_h = 50
  specific_fuel_mach_ratio  = 0.9
  idle_fuel_kg_per_h        = 250
  apu_fuel_kg_per_h         = 80
  cruise_fuel_kg_per_h      = 2000
  holding_fuel_kg_per_h     = 1600

  # Wheels and brakes.
  tyre_pressure_psi  = 165
  tyre_width_m       = 0.3
  tyre_deflection_m  = 0.04
  tyres_alike_count  = 6
  braked_load_ratio  = 0.9
  rolling_drag_ratio = 0.015
  brake_force_kn     = 160
  dry_grip_ratio     = 0.45
  wheel_spin_up_s    = 0.8
  reverse_out_kt     = 60

  # A take-off rejected without reverse at the greatest mass: the decision speed there is 126 kt x root(41,000 / 39,300)
  # = 129 kt, 139 kt over the ground with the greatest tailwind. 41,000 kg / 2 x (71.5 m/s)^2 = 105 MJ. The air and the
  # rolling take a third of that, most of it before the brakes bite: 68 MJ are left, and a tenth for error.
  max_brake_energy_mj = 75

  # Speeds and limits.
  holding_kt           = 210
  max_operating_kt     = 315
  max_mach             = 0.80
  max_gear_kt          = 240
  max_gear_altitude_ft = 20000
  max_flap_slight_kt        = 220
  max_flap_middle_kt        = 190
  max_flap_full_kt        = 165
  max_altitude_ft      = 37000
  max_hand_pressure_altitude_ft = 10000
  max_crosswind_kt     = 34
  max_tailwind_kt      = 10
  least_ram_turbine_kt = 120
  apu_light_up_ft      = 25000
  suction_ceiling_ft   = 20000
  relight_ceiling_ft   = 25000
  relight_windmill_kt  = 200
  relight_starter_ft   = 20000
  apu_air_ft           = 17000
}

# First as delivered, then with what the operators asked for, then with what the islands needed.
variant "first_series" { title = "First series, as first delivered" }

variant "second_series" { title = "Second series: more is monitored, more is told" }

variant "island_kit" { title = "Island kit: second series with the larger battery and the steep-approach kit" }
