# ATA 31, displays and alerting: what the crew rely on, what they are told, what
# they see. The strange thing about this chapter is that the messenger is the patient.

chapter = 31

function "left_flight_display" {
  mirror   = true
  title    = "Left flight display"
  works    = left_flight_picture
  severity = "minor"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "any_flight_display" {
  title    = "A flight display in front of one pilot at least"
  works    = left_flight_picture || right_flight_picture
  severity = "hazardous"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "engine_display" {
  title    = "Engine picture and alert list"
  works    = !held(!engine_picture, 5)
  severity = "major"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "system_pictures" {
  title    = "System pictures"
  works    = system_picture
  severity = "minor"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "route_display" {
  title    = "Navigation display"
  works    = left_inner_picture || right_inner_picture
  wanted   = climb || cruise || descent || approach
  severity = "minor"
  noticed_at_once = true
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "alert_messages" {
  title    = "Alert messages"
  works    = alerting && !held(!engine_picture, 5)
  severity = "hazardous"
  noticed_when   = !engine_picture
  noticed_by     = "seen"
  noticed_source = "common practice"
}

# The function that nobody sees fail: the systems of one side fall silent, and an
# empty alert list looks the same as a healthy aircraft.
function "left_reports" {
  title    = "Reports of the systems on data unit 1"
  works    = data_unit_1
  severity = "minor"
}

function "right_reports" {
  title    = "Reports of the systems on data unit 2"
  works    = data_unit_2
  severity = "minor"
}

function "warning_sounds" {
  title    = "Warning sounds"
  works    = warning_unit
  severity = "major"
}

function "height_calls" {
  title    = "Height call-outs"
  works    = voice && height_for_boxes_good
  wanted   = final
  severity = "minor"
  noticed_when   = final && real.height_ft < 480 && !height_calls # the call at 500 ft does not come
  noticed_by     = "heard"
  noticed_source = "common practice"
}

function "attention" {
  title    = "Attention lights and sounds on both sides"
  works    = warning_lane_1 && warning_lane_2
  severity = "minor"
}

# A dark lamp looks like a lamp that has nothing to say: no alert tells the two apart.
# Who moves switches and reads lamps before the landing meets a row that should burn.
function "lamps_left" {
  mirror   = true
  title    = "Lamps of the left half of the overhead panel"
  works    = lamp_power_left
  severity = "minor"
  noticed_when   = (approach || final) && gear_down && !lamp_power_left
  noticed_by     = "seen"
  noticed_source = "common practice"
}

# Told at once: from here on an empty list means nothing for one side.
alert "data_unit_1_off" {
  title      = "Data unit 1 silent"
  level      = "caution"
  message    = "Data unit 1 silent: left systems not reported"
  when       = held(!data_unit_1, 2)
  quiet_in   = [take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost
  tells      = [left_reports]
  procedure  = data_unit_silent
}

alert "data_unit_2_off" {
  title      = "Data unit 2 silent"
  level      = "caution"
  message    = "Data unit 2 silent: right systems not reported"
  when       = held(!data_unit_2, 2)
  quiet_in   = [take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost
  tells      = [right_reports]
  procedure  = data_unit_silent
}

alert "alert_computer_1_off" {
  title    = "Alerting computer 1 off"
  level    = "advisory"
  message  = "Alerting computer 1 off"
  when     = !alert_computer_1
  given_by = alert_computer_2
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
}

alert "alert_computer_2_off" {
  title      = "Alerting computer 2 off"
  level      = "advisory"
  message    = "Alerting computer 2 off"
  when       = !alert_computer_2
  given_by   = alert_computer_1
  quiet_in   = [take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost
}

alert "left_pictures_off" {
  mirror     = true
  title      = "Left picture unit off"
  level      = "caution"
  message    = "Left picture unit off"
  when       = !picture_unit_left
  given_by   = alerting
  quiet_in   = [take_off_fast, lift_off]
  quiet_when = main_dc_lost && picture_unit_right # the right one has no power then
  tells      = [left_flight_display]
  procedure  = screen_list
}

alert "voice_off" {
  title    = "Voice unit off"
  except   = [first_series]
  level    = "advisory"
  message  = "No voice calls"
  when     = held(!voice, 5)
  quiet_in = [take_off_fast, lift_off, landing_roll]
  tells    = [height_calls]
}

alert "warning_lane_off" {
  title      = "A lane of the warning unit off"
  level      = "advisory"
  message    = "One side without attention light and sound"
  when       = held(warning_lane_1 != warning_lane_2, 2)
  quiet_in   = [take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost && warning_lane_1
  tells      = [attention]
}

alert "warning_unit_off" {
  title     = "Warning unit off"
  level     = "caution"
  message   = "No attention lights, no sounds"
  when      = !warning_lane_1 && !warning_lane_2
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [warning_sounds, attention, take_off_guard]
  procedure = warning_unit_list
}

# A lamp in the warning unit, lit by the unit itself.
alert "alerting_off" {
  title     = "No alerting computer"
  level     = "caution"
  message   = "No alerting"
  when      = held(!alerting, 2)
  given_by  = warning_unit
  light     = warning_unit
  sound     = warning_unit
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [alert_messages, take_off_guard]
  procedure = alerting_off_list
}

# A picture that has moved by itself asks for no hand, only for a word between two pilots: whose picture is where.
alert "screen_dark" {
  title      = "A screen dark"
  level      = "advisory"
  message    = "A screen is dark: its picture has moved"
  when       = held(!all(screen_1, screen_2, screen_3, screen_4, screen_5), 4)
  quiet_in   = [take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost && screen_1 && screen_3
  tells      = [left_flight_display, right_flight_display, engine_display]
}

# The warning unit sees both flight displays go, and needs no screen to say so.
alert "pictures_gone" {
  title     = "No flight display on either side"
  level     = "warning"
  message   = "No flight display"
  when      = held(!left_flight_picture && !right_flight_picture, 4)
  given_by  = warning_unit
  light     = warning_unit
  sound     = warning_unit
  tells     = [any_flight_display, left_flight_display, right_flight_display]
  procedure = all_screens_list
}

# A lit screen without a picture says so; a dark screen says nothing.
indication "left_picture_flag" {
  title   = "No-picture flag, left outer screen"
  shows   = !left_pictures
  means   = !left_flight_picture
  lit_by  = screen_1
  place   = "left outer screen"
  tells   = [left_flight_display, any_flight_display]
}
indication "right_picture_flag" {
  title   = "No-picture flag, right outer screen"
  shows   = !right_pictures
  means   = !right_flight_picture
  lit_by  = screen_5
  place   = "right outer screen"
  tells   = [right_flight_display, any_flight_display]
}
indication "left_inner_flag" {
  title   = "No-picture flag, left inner screen"
  shows   = !left_pictures
  means   = !left_inner_picture
  lit_by  = screen_2
  place   = "left inner screen"
  tells   = [route_display]
}
indication "right_inner_flag" {
  title   = "No-picture flag, right inner screen"
  shows   = !right_pictures
  means   = !right_inner_picture
  lit_by  = screen_4
  place   = "right inner screen"
  tells   = [route_display]
}
indication "centre_picture_flag" {
  title   = "No-picture flag, middle screen"
  shows   = !left_pictures && !right_pictures
  means   = !engine_picture
  lit_by  = screen_3
  place   = "middle screen"
  tells   = [engine_display, alert_messages]
}

# An empty list means a healthy aircraft only as long as both data units report.
indication "list_complete_mark" {
  title   = "Mark at the foot of the alert list: list complete"
  shows   = data_unit_1 && data_unit_2
  means   = data_unit_1 && data_unit_2
  lit_by  = engine_picture && alerting
  place   = "alert list"
  tells   = [left_reports, right_reports]
}
indication "attention_lamp" {
  title   = "Attention lights"
  shows   = main_dc_lost || vital_battery || all_gens_off || autopilot_off || left_engine_failed || right_engine_failed
  means   = main_dc_lost || vital_battery || all_gens_off || autopilot_off || left_engine_failed || right_engine_failed
  lit_by  = warning_unit
  place   = "glare shield"
  tells   = [attention]
}
indication "clock_readout" {
  title   = "Clock"
  shows   = real.time_s
  means   = real.time_s
  within  = 1
  lit_by  = clock
  place   = "left panel"
}
