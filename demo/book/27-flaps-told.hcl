# ATA 27, told: slats and flaps as the crew see them.

chapter = 27

function "flaps" {
  title    = "Flap movement"
  works    = flaps_move
  wanted   = approach || final || (first_climb || climb || descent) && flap_lever != "up"
  severity = "major"
  noticed_when   = held(flap_lever != flaps_at, 15)
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "slats" {
  title    = "Slat movement"
  works    = slats_move
  wanted   = approach || final || (first_climb || climb || descent) && flap_lever != "up"
  severity = "major"
  noticed_when   = held(flap_lever != slats_at, 15)
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "flap_symmetry" {
  title    = "Flaps held together if the shaft breaks"
  works    = flap_asymmetry_brakes || flap_jacks
  wanted   = lift_off || first_climb || approach || final
  severity = "major"
}

function "flap_position" {
  title    = "Flap position known on the flight deck"
  works    = flap_sender_1 || flap_sender_2
  wanted   = approach || final
  severity = "minor"
}

# On the first series the crew learn of a dead drive when they move the lever, and at once of two dead computers; it
# stays so until something drives again. The second series looks at the drive itself.
signal "flaps_found_stuck" {
  title   = "The flaps have not followed their lever"
  set     = !(flap_computer_1 || flap_computer_2) || flap_lever != flaps_at
  reset   = flaps_move
}

signal "slats_found_stuck" {
  title   = "The slats have not followed their lever"
  set     = !(flap_computer_1 || flap_computer_2) || flap_lever != slats_at
  reset   = slats_move
}

alert "flaps_stopped" {
  title   = "Flaps do not move"
  level   = "caution"
  message = "Flaps do not move"
  when    = !flaps_move
  variant "first_series" { when = flaps_found_stuck }
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [flaps]
  procedure = flaps_stopped_list
}

alert "slats_stopped" {
  title   = "Slats do not move"
  level   = "caution"
  message = "Slats do not move"
  when    = !slats_move
  variant "first_series" { when = slats_found_stuck }
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [slats]
  procedure = flaps_stopped_list
}

alert "flap_lane_lost" {
  title    = "One flap lane lost"
  level    = "advisory"
  message  = "Flaps will move at half speed"
  when     = flaps_move && !(flap_computer_1 && flap_motor_left && flap_computer_2 && flap_motor_right)
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, landing_roll]
}

alert "asymmetry_brakes_lost" {
  title    = "Flap asymmetry brakes lost"
  level    = "advisory"
  message  = "Flap asymmetry brakes lost"
  when     = !flap_asymmetry_brakes
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [flap_symmetry]
}

# ------------------------------------------------------ take-off configuration
# As thrust is set, until it is set right (14 CFR 25.703). Spoilers and parking brake have theirs in their chapters.

# A switch or a sender that is dead says nothing: the test before the first flight of the day finds it.
unit "lever_switch_left" {
  mirror        = true
  title         = "Switch of the left thrust lever, forward"
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "centre pedestal"
}

unit "spoiler_lever_switch" {
  title         = "Switch of the spoiler lever, in"
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "centre pedestal"
}

unit "brake_lever_switch" {
  title         = "Switch of the parking brake lever, off"
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "centre pedestal"
}

unit "trim_sender" {
  title         = "Stabiliser position sender"
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "tail"
}

signal "levers_forward" {
  title   = "The warning unit sees a thrust lever set for take-off"
  value   = real.thrust_pct > 60 && (lever_switch_left || lever_switch_right)
}

function "take_off_guard" {
  title    = "Warning of a wrong setting for the take-off"
  works    = warned_direct && (lever_switch_left || lever_switch_right) && (flap_sender_1 || flap_sender_2) && all(trim_sender, spoiler_lever_switch, brake_lever_switch)
  wanted   = taxi_out || take_off_roll
  severity = "major"
}

alert "flaps_not_set" {
  title     = "Take-off without flaps"
  level     = "warning"
  message   = "Flaps not set for take-off"
  when      = real.on_ground && levers_forward && (flap_sender_1 || flap_sender_2) && (flaps_at == "up" || flaps_at == "full")
  given_by  = warned_direct
  quiet_in  = [landing_roll, taxi_in]
  procedure = take_off_setting_list
}

alert "trim_not_set" {
  title     = "Take-off with the pitch trim out of its band"
  level     = "warning"
  message   = "Pitch trim not set for take-off"
  when      = real.on_ground && levers_forward && trim_sender && (pitch_trim_wheel != "take-off band" || trim_far)
  given_by  = warned_direct
  quiet_in  = [landing_roll, taxi_in]
  procedure = take_off_setting_list
}

alert "door_at_take_off" {
  title     = "Take-off with a door not latched"
  chapter   = 52
  level     = "warning"
  message   = "Door not latched for take-off"
  when      = real.on_ground && levers_forward && doors_believed_open
  true_when = real.on_ground && real.thrust_pct > 60 && !doors_latched
  given_by  = warned_direct
  quiet_in  = [take_off_fast, landing_roll, taxi_in]
  tells     = [doors_shut]
  procedure = take_off_setting_list
}
indication "flap_position_shown" {
  title   = "Flap position"
  shows   = flaps_at
  means   = flaps_at
  lit_by  = engine_picture && (flap_sender_1 || flap_sender_2)
  tells   = [flap_position, flaps]
  place   = "engine picture"
}
indication "slat_position_shown" {
  title   = "Slat position"
  shows   = slats_at
  means   = slats_at
  lit_by  = engine_picture && (flap_sender_1 || flap_sender_2)
  tells   = [flap_position, slats]
  place   = "engine picture"
}

limit "flap_slight_speed" {
  title    = "Speed with slight flap"
  quantity = real.airspeed_kt
  most     = aircraft.max_flap_slight_kt
  applies  = flaps_at == "slight"
}

limit "flap_middle_speed" {
  title    = "Speed with middle flap"
  quantity = real.airspeed_kt
  most     = aircraft.max_flap_middle_kt
  applies  = flaps_at == "middle"
}

limit "flap_full_speed" {
  title    = "Speed with full flap"
  quantity = real.airspeed_kt
  most     = aircraft.max_flap_full_kt
  applies  = flaps_at == "full"
}
