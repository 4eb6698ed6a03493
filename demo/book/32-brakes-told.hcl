# ATA 32, told: brakes, tyres and steering as the crew see them.

chapter = 32

function "brakes" {
  title    = "Wheel brakes by any means"
  works    = (brakes_normal_ok || brakes_alternate_ok || brakes_stored_ok) && (brake_left || brake_right)
  wanted   = taxi_out || take_off_roll || take_off_fast || landing_roll || taxi_in
  severity = "hazardous"
  severity_if_hidden = "catastrophic"
  noticed_when   = (landing_roll || taxi_out || taxi_in) && !brakes
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "brakes_normal" {
  title    = "Normal brakes"
  works    = brakes_normal_ok && brake_left && brake_right
  wanted   = taxi_out || take_off_roll || take_off_fast || landing_roll || taxi_in
  severity = "minor"
  # The first pressure on the pedals swings the nose.
  noticed_when   = (landing_roll || taxi_out || taxi_in) && ((brake_left && !brake_right) || (brake_right && !brake_left))
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "antiskid" {
  title    = "Anti-skid"
  works    = antiskid_ok
  wanted   = take_off_roll || take_off_fast || landing_roll
  severity = "major"
}

function "autobrake" {
  title    = "Automatic braking"
  works    = autobrake_box && brakes_normal_ok && antiskid_ok && (!real.on_ground || believed_on_ground)
  wanted   = take_off_fast || landing_roll
  severity = "minor"
  noticed_when   = landing_roll && !autobrake
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "parking_brake" {
  title    = "Parking brake"
  works    = brake_valve_alternate && accumulator_holds
  wanted   = taxi_in
  severity = "minor"
  noticed_when   = parking_brake_lever == "set" && !brakes_alternate_ok # while a pump presses it holds
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "nose_steering" {
  title    = "Nose wheel steering"
  works    = steering_box && steering_motor && (!real.on_ground || sensed_on_ground_a)
  wanted   = taxi_out || landing_roll || taxi_in
  severity = "minor"
  noticed_when   = (taxi_out || taxi_in) && !nose_steering
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "tyres" {
  title    = "Tyres that hold"
  works    = tyre_left && tyre_right
  wanted   = take_off_roll || take_off_fast || landing_roll
  severity = "major"
  noticed_when   = real.on_ground && !tyres # it pulls and rumbles
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "free_wheels" {
  title    = "Wheels that roll until they are braked"
  works    = !(brake_valve_normal.presses && hyd_right)
  wanted   = take_off_roll || take_off_fast || landing_roll
  severity = "major"
  noticed_when   = real.on_ground && !free_wheels
  noticed_by     = "felt"
  noticed_source = "common practice"
}

function "cool_brakes" {
  title    = "Brakes cool enough to stop the aircraft"
  works    = brake_heat_c < 400
  wanted   = take_off_fast || landing_roll
  severity = "major"
}

function "brake_heat_watch" {
  title    = "Brake temperature watched"
  works    = brake_heat_box
  wanted   = taxi_out || taxi_in
  severity = "minor"
}

alert "brakes_normal_lost" {
  title     = "Normal brakes lost"
  level     = "caution"
  message   = "Normal brakes lost"
  when      = held(!brakes_normal_ok, 2)
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, first_climb, landing_roll]
  tells     = [brakes_normal, autobrake]
  procedure = brakes_normal_lost_list
}

alert "antiskid_lost" {
  title     = "Anti-skid lost"
  level     = "caution"
  message   = "Anti-skid lost"
  when      = held(!antiskid_ok, 2)
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, first_climb]
  tells     = [antiskid, autobrake]
  procedure = antiskid_lost_list
}

alert "brakes_pressed" {
  title     = "Uncommanded braking"
  level     = "caution"
  message   = "Uncommanded braking"
  when      = held(brake_valve_normal.presses && hyd_right && !real.braking, 2)
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [free_wheels]
  procedure = brakes_pressed_list
}

alert "autobrake_lost" {
  title    = "Automatic brakes lost"
  level    = "advisory"
  message  = "Automatic brakes lost"
  when     = autobrake_selector != "off" && !(autobrake_box && brakes_normal_ok && antiskid_ok)
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, first_climb]
  tells    = [autobrake]
}

alert "brakes_hot" {
  title     = "Brakes too hot"
  level     = "caution"
  message   = "Brakes too hot"
  when      = brake_heat_box && brake_heat_c > 400
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [cool_brakes]
  procedure = brakes_hot_list
}

alert "steering_lost" {
  title     = "Nose wheel steering lost"
  level     = "caution"
  message   = "Nose wheel steering lost"
  when      = !steering_box || !steering_motor
  given_by  = news_left
  quiet_in  = [take_off_roll, take_off_fast, lift_off, first_climb, climb, cruise, descent, landing_roll]
  tells     = [nose_steering]
  procedure = steering_lost_list
}

alert "tyre_low" {
  title     = "A tyre is going flat"
  level     = "caution"
  message   = "A tyre is going flat"
  when      = tyre_pressure_box && (!tyre_left || !tyre_right)
  given_by  = news_right
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [tyres]
  procedure = tyre_low_list
  only      = [second_series, island_kit]
}

alert "accumulator_low" {
  title    = "Brake accumulator low"
  level    = "advisory"
  message  = "Brake accumulator low"
  when     = !brake_accumulator || !brake_accumulator_normal || strokes_left_count < 3
  given_by = news_left
  quiet_in = [take_off_fast, lift_off, landing_roll]
  tells    = [parking_brake, brakes]
  only     = [second_series, island_kit]
}

alert "parking_brake_on" {
  title     = "Take-off with the parking brake set"
  level     = "warning"
  message   = "Parking brake holds the wheels"
  when      = parking_brake_lever == "set" && brake_lever_switch && levers_forward
  given_by  = warned_direct
  quiet_in  = [lift_off, first_climb, climb, cruise, descent, approach, final, landing_roll, taxi_in]
  procedure = take_off_setting_list
}
indication "brake_heat_shown" {
  title   = "Brake temperature readout"
  shows   = brake_heat_c
  means   = brake_heat_c
  within  = 30
  lit_by  = systems_right_drawn && brake_heat_box
  tells   = [cool_brakes, brake_heat_watch]
  place   = "gear picture"
}

# A needle on a pressure line of its own: it needs no power at all.
indication "accumulator_gauge" {
  title   = "Brake accumulator gauge"
  shows   = brake_accumulator ? strokes_left_count : 0
  means   = brake_accumulator ? strokes_left_count : 0
  within  = 0.5
  tells   = [parking_brake]
  place   = "centre panel"
}
indication "normal_accumulator_gauge" {
  title   = "Brake accumulator gauge, normal brakes"
  shows   = brake_accumulator_normal ? normal_strokes_left_count : 0
  means   = brake_accumulator_normal ? normal_strokes_left_count : 0
  within  = 0.5
  tells   = [brakes]
  place   = "centre panel"
}

# Says what was selected, not what the brakes will do.
indication "autobrake_lamp" {
  title   = "Automatic brake lamp"
  shows   = autobrake_selector != "off" && autobrake_box && brakes_normal_ok && antiskid_ok
  means   = autobrake_selector != "off" && autobrake
  lit_by  = lamp_power_left
  place   = "centre panel"
}
indication "antiskid_shown" {
  title   = "Anti-skid line"
  shows   = antiskid_ok
  means   = antiskid
  lit_by  = systems_either_drawn
  place   = "gear picture"
}
indication "steering_shown" {
  title   = "Steering line"
  shows   = steering_box && steering_motor
  means   = steering_box && steering_motor
  lit_by  = systems_left_drawn
  tells   = [nose_steering]
  place   = "gear picture"
}
indication "parking_brake_lamp" {
  title   = "Parking brake lamp"
  shows   = parking_brake_lever == "set"
  means   = parking_brake_lever == "set" && parking_brake
  lit_by  = dc_direct
  place   = "centre panel"
}
indication "tyre_pressure_shown" {
  title   = "Tyre pressures"
  shows   = tyre_left && tyre_right
  means   = tyres
  lit_by  = systems_right_drawn && tyre_pressure_box
  place   = "gear picture"
  only    = [second_series, island_kit]
}

limit "brake_heat_for_take_off" {
  title    = "Brake temperature before take-off"
  quantity = brake_heat_c
  most     = 250
  applies  = taxi_out
}

# A tread that comes off whips what is near: the wheel's sender, the weight-on-wheels switch, a brake line.
event "tyre_burst" {
  title         = "Tyre burst on the left main gear"
  rate_per_hour = 5e-7
  fails         = [tyre_left, wheel_sender_left, weight_switch_left.stays_air, reservoir_left.leaks]
}
