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

  # Engines.
  thrust_per_engine_kn  = 64
  cruise_fuel_kg_per_h  = 1850
  holding_fuel_kg_per_h = 1500

  # Speeds.
  max_speed_kt           = 315
  max_speed_mach         = 0.80
  max_gear_speed_kt      = 240
  max_flap_full_speed_kt = 165
  max_altitude_ft        = 37000
  apu_light_up_ft        = 25000

  # How a blocked pitot tube misleads: with the pressure trapped in it, the
  # airspeed that it gives grows as the aircraft climbs.
  blocked_pitot_rise_kt  = 6
  blocked_pitot_climb_ft = 1000
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
