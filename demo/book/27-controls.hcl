# ATA 27, flight controls.
#
# The sticks talk to two flight control computers, and these move the surfaces
# through hydraulic servos, one half of each surface from each hydraulic system.
# As long as one computer works and knows turn rates and airspeed, control is
# *shaped*: the aircraft feels the same at any speed, will not be stalled, and damps
# its own yaw. Without that, a small backup module on the battery-direct bus sends
# the stick's movement straight to the servos: *plain* control, which always flies
# and guards nothing.

# ------------------------------------------------------------------ controls

control "flap_lever" {
  title     = "Flap lever"
  chapter   = 27
  positions = ["0", "1", "2", "3"]
  initial   = "1"
  place     = "centre pedestal"
}

control "spoiler_lever" {
  title     = "Spoiler lever"
  chapter   = 27
  positions = ["in", "armed", "half", "full"]
  initial   = "in"
  place     = "centre pedestal"
}

control "stall_cut_switch" {
  title     = "Stall warning cut-out switch"
  chapter   = 27
  positions = ["normal", "cut"]
  initial   = "normal"
  place     = "overhead panel"
}

# -------------------------------------------------------- sticks, computers

unit "stick_sensors_left" {
  title         = "Left stick and pedal sensors"
  chapter       = 27
  rate_per_hour = 5e-6
  place         = "under the flight deck floor"
}

unit "stick_sensors_right" {
  title         = "Right stick and pedal sensors"
  chapter       = 27
  rate_per_hour = 5e-6
  place         = "under the flight deck floor"
}

unit "rate_gyros_1" {
  title         = "Rate gyros 1"
  chapter       = 27
  needs         = dc_vital
  rate_per_hour = 2e-5
  place         = "centre fuselage"
}

unit "rate_gyros_2" {
  title         = "Rate gyros 2"
  chapter       = 27
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "centre fuselage"
}

unit "control_computer_1" {
  title         = "Flight control computer 1"
  chapter       = 27
  needs         = dc_vital
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "control_computer_2" {
  title         = "Flight control computer 2"
  chapter       = 27
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "control_backup" {
  title         = "Control backup module"
  chapter       = 27
  needs         = dc_direct
  rate_per_hour = 5e-6
  place         = "electronics bay, forward"
}

# ------------------------------------------------------------------ surfaces

unit "elevator_left_servo" {
  title         = "Left elevator servo"
  chapter       = 27
  needs         = hyd_left
  rate_per_hour = 5e-6
  place         = "tail"
}

unit "elevator_right_servo" {
  title         = "Right elevator servo"
  chapter       = 27
  needs         = hyd_right
  rate_per_hour = 5e-6
  place         = "tail"
}

unit "aileron_left_servo" {
  title         = "Left aileron servo"
  chapter       = 27
  needs         = hyd_left
  rate_per_hour = 5e-6
  place         = "left wing"
}

unit "aileron_right_servo" {
  title         = "Right aileron servo"
  chapter       = 27
  needs         = hyd_right
  rate_per_hour = 5e-6
  place         = "right wing"
}

unit "rudder_upper_servo" {
  title         = "Upper rudder servo"
  chapter       = 27
  needs         = hyd_left
  rate_per_hour = 5e-6
  place         = "fin"
}

unit "rudder_lower_servo" {
  title         = "Lower rudder servo"
  chapter       = 27
  needs         = hyd_right
  rate_per_hour = 5e-6
  place         = "fin"
}

# Lets the pedals move the rudder less the faster the aircraft flies. When it stops
# it stays where it was: after a failure in the cruise there is little rudder left
# for a landing.
unit "rudder_limiter" {
  title         = "Rudder travel limiter"
  chapter       = 27
  needs         = dc_left || dc_right
  rate_per_hour = 2e-5
  place         = "fin"
}

# The trim that the pilots move with their thumbs. The automatic trim of chapter 22
# has a motor of its own.
unit "trim_motor_1" {
  title         = "Stabiliser trim motor 1, hand trim"
  chapter       = 27
  needs         = ac_left && control_computer_1
  rate_per_hour = 1e-5
  place         = "tail"
}

unit "trim_motor_2" {
  title         = "Stabiliser trim motor 2, hand trim"
  chapter       = 27
  needs         = ac_right && control_computer_2
  rate_per_hour = 1e-5
  place         = "tail"
}

# Two pairs of spoilers, and no crossing over: computer 1 moves the inner pair with
# left pressure, computer 2 the outer pair with right pressure.
unit "spoilers_inner" {
  title         = "Inner spoilers"
  chapter       = 27
  needs         = hyd_left && control_computer_1
  rate_per_hour = 5e-6
  place         = "both wings"
}

unit "spoilers_outer" {
  title         = "Outer spoilers"
  chapter       = 27
  needs         = hyd_right && control_computer_2
  rate_per_hour = 5e-6
  place         = "both wings"
}

# ------------------------------------------------------------ slats and flaps

# One lane is a computer and a motor. The lanes do not cross: computer 1 can only
# drive the motor on left pressure, computer 2 only the one on right pressure. It
# keeps the boxes simple, and it makes an unlucky pair out of a left box and a
# right pump.
unit "flap_computer_1" {
  title         = "Flap computer 1"
  chapter       = 27
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "flap_computer_2" {
  title         = "Flap computer 2"
  chapter       = 27
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
}

unit "flap_motor_left" {
  title         = "Flap motor on left pressure"
  chapter       = 27
  needs         = hyd_left
  rate_per_hour = 1e-5
  place         = "centre fuselage"
}

unit "flap_motor_right" {
  title         = "Flap motor on right pressure"
  chapter       = 27
  needs         = hyd_right
  rate_per_hour = 1e-5
  place         = "centre fuselage"
}

unit "flap_shaft" {
  title         = "Flap drive shaft"
  chapter       = 27
  rate_per_hour = 1e-6
  place         = "both wings"
  fault "breaks" {
    title         = "breaks: one side is driven no longer"
    stops         = true
    rate_per_hour = 1e-7
  }
}

# Brakes at the wing tips that hold the flaps when the two sides come apart. They
# do nothing until that day.
unit "flap_tip_brakes" {
  title         = "Flap tip brakes"
  chapter       = 27
  needs         = dc_left || dc_right
  rate_per_hour = 1e-5
  place         = "wing tips"
}

unit "slat_motor_1" {
  title         = "Slat motor 1"
  chapter       = 27
  needs         = ac_left
  rate_per_hour = 1e-5
  place         = "centre fuselage"
}

unit "slat_motor_2" {
  title         = "Slat motor 2"
  chapter       = 27
  needs         = ac_right
  rate_per_hour = 1e-5
  place         = "centre fuselage"
}

unit "slat_shaft" {
  title         = "Slat drive shaft"
  chapter       = 27
  rate_per_hour = 1e-6
  place         = "both wings"
}

unit "flap_sender_1" {
  title         = "Flap and slat position sender 1"
  chapter       = 27
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "left wing"
}

unit "flap_sender_2" {
  title         = "Flap and slat position sender 2"
  chapter       = 27
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "right wing"
}

signal "flaps_move" {
  title   = "The flaps follow their lever"
  chapter = 27
  value   = flap_shaft && ((flap_computer_1 && flap_motor_left) || (flap_computer_2 && flap_motor_right))
}

signal "slats_move" {
  title   = "The slats follow their lever"
  chapter = 27
  value   = slat_shaft && ((flap_computer_1 && slat_motor_1) || (flap_computer_2 && slat_motor_2))
}

# Travel takes ten seconds in the aircraft; here the surfaces are at once where the
# lever is, as long as something drives them. Otherwise they stay where they were.
signal "flaps_at" {
  title   = "Flap position"
  chapter = 27
  value   = frozen(flap_lever, !flaps_move)
}

signal "slats_at" {
  title   = "Slat position"
  chapter = 27
  value   = frozen(flap_lever, !slats_move)
}

signal "flaps_split" {
  title   = "The flaps of the two wings have come apart"
  chapter = 27
  set     = flap_shaft.breaks && !flap_tip_brakes && flaps_at != "0"
  reset   = false
}

# --------------------------------------------------------------- stall sensing

unit "stall_vane_left" {
  title         = "Left stall vane"
  chapter       = 27
  rate_per_hour = 1e-5
  place         = "nose, left"
  fault "reads_high" {
    title         = "bent: it sees a stall in any air"
    rate_per_hour = 3e-6
  }
}

unit "stall_vane_right" {
  title         = "Right stall vane"
  chapter       = 27
  rate_per_hour = 1e-5
  place         = "nose, right"
  fault "reads_high" {
    title         = "bent: it sees a stall in any air"
    rate_per_hour = 3e-6
  }
}

# Near enough for this book: in flight below 92 kt the wing stalls, and with ice on
# it already below 118 kt.
signal "stalls" {
  title   = "The wing is about to stall"
  chapter = 27
  value   = !real.on_ground && real.height_ft > 100 && real.airspeed_kt < (wing_iced ? 118 : 92)
}

signal "left_vane_sees_stall" {
  title   = "The left vane sees a stall"
  chapter = 27
  value   = !real.on_ground && (stall_vane_left.reads_high || (stall_vane_left && !vane_left_iced && stalls))
}

signal "right_vane_sees_stall" {
  title   = "The right vane sees a stall"
  chapter = 27
  value   = !real.on_ground && (stall_vane_right.reads_high || (stall_vane_right && !vane_right_iced && stalls))
}

# The first series believes either vane. After some false alarms the second series
# wants both, unless one is known to have failed.
signal "stall_believed" {
  title   = "The computers believe in a stall"
  chapter = 27
  value   = left_vane_sees_stall || right_vane_sees_stall
  variant "second_series" {
    value = ((left_vane_sees_stall && (right_vane_sees_stall || !stall_vane_right))
    || (right_vane_sees_stall && !stall_vane_left))
  }
  variant "island_kit" {
    value = ((left_vane_sees_stall && (right_vane_sees_stall || !stall_vane_right))
    || (right_vane_sees_stall && !stall_vane_left))
  }
}

# ------------------------------------------------------------------- control

signal "control_shaped" {
  title   = "Control is shaped"
  chapter = 27
  value   = (control_computer_1 || control_computer_2) && (rate_gyros_1 || rate_gyros_2) && (air_data_1 || air_data_2)
}

signal "control_passes" {
  title   = "What the pilots do reaches the servos"
  chapter = 27
  value   = (stick_sensors_left || stick_sensors_right) && (control_computer_1 || control_computer_2 || control_backup)
}

# Thirty degrees of rudder at low speed, fifteen above 160 kt, six above 220 kt.
signal "rudder_wanted_deg" {
  title   = "Rudder travel that suits the speed"
  chapter = 27
  value   = real.airspeed_kt > 220 ? 6 : real.airspeed_kt > 160 ? 15 : 30
}

signal "rudder_travel_deg" {
  title   = "Rudder travel allowed"
  chapter = 27
  value   = frozen(rudder_wanted_deg, !rudder_limiter)
}

signal "ground_spoiler_pairs_count" {
  title   = "Pairs of spoilers that will rise after touchdown"
  chapter = 27
  value   = (spoilers_inner ? 1 : 0) + (spoilers_outer ? 1 : 0)
}

# What the landing roll is computed with.
signal "ground_spoilers_out" {
  title   = "The ground spoilers are out"
  chapter = 27
  value   = real.on_ground && believed_on_ground && spoiler_lever != "in" && ground_spoiler_pairs_count > 0 && (landing_roll || taxi_in)
}

# ----------------------------------------------------------------- functions

function "pitch_control" {
  title    = "Pitch control"
  chapter  = 27
  works    = control_passes && (elevator_left_servo || elevator_right_servo)
  severity = "catastrophic"
}

function "roll_control" {
  title    = "Roll control"
  chapter  = 27
  works    = control_passes && (aileron_left_servo || aileron_right_servo) && !flaps_split
  severity = "catastrophic"
}

function "yaw_control" {
  title    = "Rudder control"
  chapter  = 27
  works    = control_passes && (rudder_upper_servo || rudder_lower_servo)
  severity = "hazardous"
}

function "shaped_control" {
  title    = "Shaped control"
  chapter  = 27
  works    = control_shaped
  severity = "major"
}

function "stall_guard" {
  title    = "Guard against the stall"
  chapter  = 27
  works    = control_shaped && ((stall_vane_left && !vane_left_iced) || (stall_vane_right && !vane_right_iced))
  wanted   = !real.on_ground
  severity = "major"
}

function "stall_warning" {
  title    = "Stall warning"
  chapter  = 27
  works    = ((stall_vane_left && !vane_left_iced) || (stall_vane_right && !vane_right_iced)) && alerting && stall_cut_switch == "normal"
  wanted   = !real.on_ground
  severity = "hazardous"
}

function "pitch_trim" {
  title    = "Stabiliser trim by hand"
  chapter  = 27
  works    = trim_motor_1 || trim_motor_2
  severity = "major"
}

function "rudder_travel" {
  title    = "Enough rudder for the speed"
  chapter  = 27
  works    = rudder_travel_deg >= rudder_wanted_deg
  wanted   = lift_off || approach || final || landing_roll
  severity = "major"
}

function "rudder_limit" {
  title    = "Not too much rudder for the speed"
  chapter  = 27
  works    = rudder_travel_deg <= rudder_wanted_deg
  wanted   = climb || cruise || descent
  severity = "major"
}

function "speed_brakes" {
  title    = "Speed brakes"
  chapter  = 27
  works    = spoilers_inner || spoilers_outer
  wanted   = descent || approach
  severity = "minor"
}

function "ground_spoilers" {
  title    = "Ground spoilers, at least one pair"
  chapter  = 27
  works    = (spoilers_inner || spoilers_outer) && (!real.on_ground || believed_on_ground)
  wanted   = landing_roll
  severity = "major"
}

function "ground_spoilers_full" {
  title    = "Ground spoilers, both pairs"
  chapter  = 27
  works    = spoilers_inner && spoilers_outer && (!real.on_ground || believed_on_ground)
  wanted   = landing_roll
  severity = "minor"
}

function "flaps" {
  title    = "Flap movement"
  chapter  = 27
  works    = flaps_move
  wanted   = first_climb || climb || approach || final
  severity = "major"
}

function "slats" {
  title    = "Slat movement"
  chapter  = 27
  works    = slats_move
  wanted   = first_climb || climb || approach || final
  severity = "major"
}

function "flap_symmetry" {
  title    = "Flaps held together if the shaft breaks"
  chapter  = 27
  works    = flap_tip_brakes
  wanted   = lift_off || first_climb || approach || final
  severity = "hazardous"
}

function "flap_position" {
  title    = "Flap position known on the flight deck"
  chapter  = 27
  works    = flap_sender_1 || flap_sender_2
  wanted   = approach || final
  severity = "minor"
}

# -------------------------------------------------------------------- alerts

alert "stall" {
  title     = "Stall"
  chapter   = 27
  level     = "warning"
  message   = "Stall"
  when      = stall_believed
  true_when = stalls
  repeats_s = 5
  until     = stall_cut_switch == "cut"
  procedure = stall_list
}

alert "controls_plain" {
  title     = "Controls plain"
  chapter   = 27
  level     = "caution"
  message   = "Controls plain, no guard"
  when      = !control_shaped
  quiet_in  = [take_off_fast, lift_off]
  tells     = [shaped_control, stall_guard]
  procedure = controls_plain_list
}

alert "control_computer_1_lost" {
  title     = "Flight control computer 1 lost"
  chapter   = 27
  level     = "caution"
  message   = "Flight control computer 1 lost"
  when      = !control_computer_1
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [ground_spoilers_full]
  procedure = control_computer_list
}

# The second computer has no wire of its own to the alerting computers. Its loss
# goes by data unit 2, which hangs on the same bus.
alert "control_computer_2_lost" {
  title     = "Flight control computer 2 lost"
  chapter   = 27
  level     = "caution"
  message   = "Flight control computer 2 lost"
  when      = !control_computer_2
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, final, landing_roll]
  tells     = [ground_spoilers_full]
  procedure = control_computer_list
}

# A working flap computer notices when the flaps are not where the lever is. So on
# the first series the crew learn of a dead drive when they move the lever, and of
# two dead computers not at all. The second series looks at once.
alert "flaps_stopped" {
  title   = "Flaps do not move"
  chapter = 27
  level   = "caution"
  message = "Flaps do not move"
  when    = (flap_computer_1 || flap_computer_2) && flap_lever != flaps_at
  variant "second_series" {
    when = !flaps_move
  }
  variant "island_kit" {
    when = !flaps_move
  }
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [flaps]
  procedure = flaps_stopped_list
}

alert "slats_stopped" {
  title   = "Slats do not move"
  chapter = 27
  level   = "caution"
  message = "Slats do not move"
  when    = (flap_computer_1 || flap_computer_2) && flap_lever != slats_at
  variant "second_series" {
    when = !slats_move
  }
  variant "island_kit" {
    when = !slats_move
  }
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [slats]
  procedure = flaps_stopped_list
}

alert "flap_lane_lost" {
  title    = "One flap lane lost"
  chapter  = 27
  level    = "advisory"
  message  = "Flaps will move at half speed"
  when     = flaps_move && !(flap_computer_1 && flap_motor_left && flap_computer_2 && flap_motor_right)
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, landing_roll]
}

# They test themselves before each flight on the second series. On the first series
# a mechanic does, twice a year.
alert "tip_brakes_lost" {
  title    = "Flap tip brakes lost"
  chapter  = 27
  level    = "advisory"
  message  = "Flap tip brakes lost"
  when     = !flap_tip_brakes
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [flap_symmetry]
  only     = [second_series, island_kit]
}

alert "trim_lost" {
  title     = "Stabiliser trim by hand lost"
  chapter   = 27
  level     = "caution"
  message   = "Hand trim lost"
  when      = held(!trim_motor_1 && !trim_motor_2, 2)
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [pitch_trim]
  procedure = trim_lost_list
}

alert "rudder_limiter_lost" {
  title     = "Rudder travel limiter lost"
  chapter   = 27
  level     = "caution"
  message   = "Rudder travel limiter lost"
  when      = !rudder_limiter
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [rudder_travel, rudder_limit]
  procedure = rudder_limiter_list
}

alert "spoilers_lost" {
  title     = "Spoilers lost"
  chapter   = 27
  level     = "caution"
  message   = "No spoilers"
  when      = !spoilers_inner && !spoilers_outer
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [speed_brakes, ground_spoilers, ground_spoilers_full]
  procedure = spoilers_lost_list
}

alert "spoiler_pair_lost" {
  title    = "One pair of spoilers lost"
  chapter  = 27
  level    = "advisory"
  message  = "One pair of spoilers lost"
  when     = (spoilers_inner && !spoilers_outer) || (!spoilers_inner && spoilers_outer)
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [ground_spoilers_full]
  only     = [second_series, island_kit]
}

alert "spoilers_against_thrust" {
  title     = "Speed brakes out against thrust"
  chapter   = 27
  level     = "caution"
  message   = "Speed brakes are out"
  when      = held((spoiler_lever == "half" || spoiler_lever == "full") && real.thrust_pct > 65 && !real.on_ground, 5)
  quiet_in  = [take_off_fast, landing_roll]
  procedure = spoilers_lost_list
}

alert "flaps_not_set" {
  title     = "Take-off without flaps"
  chapter   = 27
  level     = "warning"
  message   = "Flaps not set for take-off"
  when      = real.on_ground && real.thrust_pct > 60 && (flaps_at == "0" || flaps_at == "3")
  quiet_in  = [landing_roll, taxi_in]
  procedure = take_off_setting_list
}

alert "spoilers_not_in" {
  title     = "Take-off with spoilers out"
  chapter   = 27
  level     = "warning"
  message   = "Spoilers are not in"
  when      = real.on_ground && real.thrust_pct > 60 && spoiler_lever != "in"
  quiet_in  = [landing_roll, taxi_in]
  procedure = take_off_setting_list
}

# --------------------------------------------------------------- indications

indication "flap_position_shown" {
  title   = "Flap position"
  chapter = 27
  shows   = flaps_at
  means   = flaps_at
  lit_by  = engine_picture && (flap_sender_1 || flap_sender_2)
  tells   = [flap_position, flaps]
  place   = "engine picture"
}

indication "slat_position_shown" {
  title   = "Slat position"
  chapter = 27
  shows   = slats_at
  means   = slats_at
  lit_by  = engine_picture && (flap_sender_1 || flap_sender_2)
  tells   = [flap_position, slats]
  place   = "engine picture"
}

indication "plain_control_lamp" {
  title   = "Plain control lamp"
  chapter = 27
  shows   = !control_shaped
  means   = !shaped_control
  lit_by  = dc_direct
  place   = "glare shield"
}

indication "control_computer_1_lamp" {
  title   = "Flight control computer 1 lamp"
  chapter = 27
  shows   = !control_computer_1
  means   = !control_computer_1
  lit_by  = lamp_power_left
  tells   = [ground_spoilers_full]
  place   = "overhead panel"
}

indication "control_computer_2_lamp" {
  title   = "Flight control computer 2 lamp"
  chapter = 27
  shows   = !control_computer_2
  means   = !control_computer_2
  lit_by  = lamp_power_right
  tells   = [ground_spoilers_full]
  place   = "overhead panel"
}

indication "elevator_shown" {
  title   = "Elevator servos"
  chapter = 27
  shows   = elevator_left_servo && elevator_right_servo
  means   = elevator_left_servo && elevator_right_servo
  lit_by  = page_either
  tells   = [pitch_control]
  place   = "flight controls page"
}

indication "aileron_shown" {
  title   = "Aileron servos"
  chapter = 27
  shows   = aileron_left_servo && aileron_right_servo
  means   = aileron_left_servo && aileron_right_servo
  lit_by  = page_either
  tells   = [roll_control]
  place   = "flight controls page"
}

indication "rudder_shown" {
  title   = "Rudder servos"
  chapter = 27
  shows   = rudder_upper_servo && rudder_lower_servo
  means   = rudder_upper_servo && rudder_lower_servo
  lit_by  = page_either
  tells   = [yaw_control]
  place   = "flight controls page"
}

indication "rudder_travel_shown" {
  title   = "Rudder travel"
  chapter = 27
  shows   = rudder_travel_deg
  means   = rudder_travel_deg
  within  = 1
  lit_by  = page_either && rudder_limiter
  tells   = [rudder_travel, rudder_limit]
  place   = "flight controls page"
}

indication "trim_shown" {
  title   = "Hand trim line"
  chapter = 27
  shows   = trim_motor_1 || trim_motor_2
  means   = pitch_trim
  lit_by  = page_either
  place   = "flight controls page"
}

indication "spoilers_inner_shown" {
  title   = "Inner spoilers line"
  chapter = 27
  shows   = spoilers_inner
  means   = spoilers_inner
  lit_by  = page_left
  tells   = [speed_brakes, ground_spoilers_full]
  place   = "flight controls page"
}

indication "spoilers_outer_shown" {
  title   = "Outer spoilers line"
  chapter = 27
  shows   = spoilers_outer
  means   = spoilers_outer
  lit_by  = page_right
  tells   = [speed_brakes, ground_spoilers_full]
  place   = "flight controls page"
}

# The memo follows the lever. Whether the spoilers will rise it does not know.
indication "spoilers_armed_memo" {
  title   = "Spoilers armed memo"
  chapter = 27
  shows   = spoiler_lever == "armed"
  means   = spoiler_lever == "armed" && ground_spoilers
  lit_by  = engine_picture
  place   = "engine picture"
}

# -------------------------------------------------------------------- limits

limit "flap_1_speed" {
  title    = "Speed with flaps 1"
  chapter  = 27
  quantity = real.airspeed_kt
  most     = 215
  applies  = flaps_at == "1"
}

limit "flap_2_speed" {
  title    = "Speed with flaps 2"
  chapter  = 27
  quantity = real.airspeed_kt
  most     = 190
  applies  = flaps_at == "2"
}

limit "flap_3_speed" {
  title    = "Speed with flaps 3"
  chapter  = 27
  quantity = real.airspeed_kt
  most     = 165
  applies  = flaps_at == "3"
}

# -------------------------------------------------------------------- events

# Two vanes against false alarms help only as long as one stone does not meet both.
event "hail" {
  title         = "Hail bends both stall vanes"
  chapter       = 27
  rate_per_hour = 2e-8
  fails         = [stall_vane_left.reads_high, stall_vane_right.reads_high]
}
