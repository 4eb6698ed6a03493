# What the systems do to the flight. Nothing else does: the flight feels a pump, a bus or a sensor only through one of
# these lines. Coefficients are in 00-aircraft.hcl.

# ---------------------------------------------------------------------- thrust
effect "engine_left_ratio" {
  mirror = true
  value = engine_left ? (reverse_left_idles ? aircraft.idle_thrust_ratio : engine_left.surges ? 0.5 : 1) : 0
}
# Locked thrust stays until somebody moves the levers, and a slipping motor holds them as well as a lock does.
effect "thrust_frozen" {
  value = thrust_unmoved || (autothrottle_on && lever_motor.slips && thrust_levers != "moved by hand")
}

# An autothrottle that believes in the flare closes the levers, wherever it is.
effect "thrust_closed" {
  value = flare_believed && !real.on_ground && (approach || final) # who goes around opens them
}

# Air for the wing costs thrust at idle, so the engines idle higher.
effect "high_idle" {
  value = wing_ice_switch == "on" || engine_ice_switch == "on"
}

# ------------------------------------------------------------------------ drag
effect "gear_out" {
  value = !gear_stowed
}
effect "gear_locked" {
  value = gear_down
}
effect "flap_setting" {
  value = flaps_at
}
effect "speed_brakes_ratio" {
  value = (real.on_ground || spoiler_lever == "in" || spoiler_lever == "armed"
    ? 0 : ((spoilers_inner ? 0.5 : 0) + (spoilers_outer ? 0.5 : 0)) * (spoiler_lever == "half" ? 0.5 : 1))
}
effect "extra_drag_ratio" {
  value = (doors_latched ? 0 : 0.004) + (!surface_monitor && ((spoilers_inner.rise && surface_pressure_left) || (spoilers_outer.rise && surface_pressure_right)) ? 0.015 : 0) + (!real.on_ground && (reverse_left_open || reverse_right_open) ? 0.04 : 0)
}
effect "wing_iced" {
  value = wing_iced
}

effect "landing_speed_adds_kt" {
  value = landing_speed == "20 kt more" ? 20 : landing_speed == "10 kt more" ? 10 : 0
}

# -------------------------------------------------------------------- stopping
effect "ground_spoilers_ratio" {
  value = ground_spoilers_out ? ground_spoiler_pairs_count / 2 : 0
}
effect "brakes_ratio" {
  value = (brakes_normal_ok || brakes_stored_ok ? 1 : brakes_alternate_ok ? (hyd_left ? 1 : 0.8) : 0) * ((brake_left ? 0.5 : 0) + (brake_right ? 0.5 : 0))
}
effect "anti_skid" {
  value = antiskid_ok
}
effect "autobrake" {
  value = autobrake && autobrake_selector != "off"
}
effect "reverse_left" {
  mirror = true
  value = reverse_left
}
effect "steering" {
  value = nose_steering
}

# What the (fictional) manual says of the landing distance: its own factors on the
# distance with nothing failed: speed times what stops it. It is laid beside what the forces give, and the larger decides.
effect "manual_landing_ratio" {
  value = (flaps_move || flaps_at == "full") && brakes_normal && antiskid && ground_spoilers && reverse_left && reverse_right ? 0 : (flaps_move || flaps_at == "full" ? 1 : flaps_at == "middle" ? 1.2 : flaps_at == "slight" ? 1.4 : 1.7) * (
  !brakes_normal ? 1.95 : !antiskid ? 1.7 : !ground_spoilers ? 1.3 : reverse_left && reverse_right ? 1 : 1.15)
}

# ---------------------------------------------------------------------- limits
effect "most_airspeed_kt" {
  value = least_of(aircraft.max_operating_kt, gear_stowed ? 999 : aircraft.max_gear_kt, flaps_at == "up" ? 999 : flaps_at == "slight" ? aircraft.max_flap_slight_kt : flaps_at == "middle" ? aircraft.max_flap_middle_kt : aircraft.max_flap_full_kt)
}

# Without air from the packs, or with a wall that lets it out, the cabin cannot be held above 10,000 ft; without yaw
# dampers the limit of the chapter on automatic flight holds. Gear doors flutter in
# thin air at high true airspeed, so the gear has a limit too. With the outflow valve
# moved by hand the crew keep to a level from which everyone can breathe in time.
effect "most_altitude_ft" {
  value = packs_blow && cabin_wall && !cabin_wall.leaks && !cabin_wall.seeps ? least_of(aircraft.max_altitude_ft, pack_left && pack_right ? 99000 : 31000, gear_stowed ? 99000 : aircraft.max_gear_altitude_ft, yaw_damper_1 || yaw_damper_2 ? 99000 : 26000, cabin_auto ? 99000 : aircraft.max_hand_pressure_altitude_ft) : 10000
}

# Little rudder holds little crosswind; a nose wheel that cannot be steered leaves it alone to hold the runway. Invented, as in the list.
effect "most_crosswind_kt" {
  value = !rudder_travel ? 12 : nose_steering ? aircraft.max_crosswind_kt : 20
}

# How low the cloud may be for the approach that is left; with none, the crew must see the ground.
effect "least_ceiling_ft" {
  value = approach_low ? 100 : approach_standard ? 250 : approach_basic ? 550 : 1500
}
effect "least_visibility_m" {
  value = approach_low ? 300 : approach_standard ? 800 : approach_basic ? 2000 : 5000
}

# ------------------------------------------------------------------------ fuel
effect "fuel_leak_kg_per_h" {
  value = 3600 * (leak_left_kg_per_s + leak_right_kg_per_s)
}
