# ATA 34, navigation: what the crew rely on, what they are told, what they see.

chapter = 34

function "route_guidance" {
  title    = "Route guidance"
  works    = route_computed && position_known
  wanted   = climb || cruise || descent || approach
  severity = "major"
}

function "second_route_computer" {
  title    = "A second flight management computer"
  works    = route_computer_1 && route_computer_2
  wanted   = climb || cruise || descent || approach
  severity = "minor"
}

function "satellite_position" {
  title    = "Satellite position"
  works    = satnav_1 || satnav_2
  severity = "minor"
}

function "beacon_navigation" {
  title    = "Navigation by VOR"
  works    = beacon_receiver_1 || beacon_receiver_2
  severity = "minor"
}

function "distance_to_beacon" {
  title    = "DME distance"
  works    = distance_unit
  wanted   = descent || approach
  severity = "minor"
  noticed_when   = (descent || approach) && held(right_flight_picture && !distance_unit, 60)
  noticed_by     = "seen"
  noticed_source = "common practice"
}

function "transponder_reply" {
  title    = "Replies to radar and to other aircraft"
  works    = transponder_answers
  wanted   = !taxi_out && !taxi_in
  severity = "minor"
  noticed_when   = radio_contact && held(!real.on_ground && !transponder_answers, 120) # control asks
  noticed_by     = "heard"
  noticed_source = "common practice"
}

function "traffic_warning" {
  title    = "Collision avoidance (ACAS)"
  works    = traffic_computer && transponder_answers && (radio_alt_1 || radio_alt_2)
  wanted   = first_climb || climb || cruise || descent || approach
  severity = "minor"
}

function "terrain_warning" {
  title    = "Terrain warning"
  works    = terrain_computer && position_known && height_for_boxes_good && terrain_switch == "normal"
  wanted   = lift_off || first_climb || climb || descent || approach || final
  severity = "minor"
}

function "weather_picture" {
  title    = "Weather picture"
  works    = weather_radar && route_display
  wanted   = climb || cruise || descent || approach
  severity = "minor"
  noticed_when   = !route_display || held(!weather_radar, 60)
  noticed_by     = "seen"
  noticed_source = "common practice"
}

alert "route_computers_off" {
  title      = "Flight management computers off"
  level      = "caution"
  message    = "Both flight management computers off"
  when       = !route_computer_1 && !route_computer_2
  given_by   = alert_computer_1
  quiet_in   = [take_off_roll, take_off_fast, lift_off, first_climb, final, landing_roll]
  quiet_when = main_dc_lost
  tells      = [route_guidance, second_route_computer]
  procedure  = route_computers_off_drill
}

alert "route_computer_off" {
  title    = "One flight management computer off"
  level    = "advisory"
  message  = "One flight management computer off"
  when     = held(route_computer_1 != route_computer_2, 30)
  quiet_in = [take_off_roll, take_off_fast, lift_off, first_climb, final, landing_roll]
  tells    = [second_route_computer]
}

alert "terrain_off" {
  title     = "Terrain warning off"
  level     = "caution"
  message   = "No terrain warning"
  when      = !terrain_computer
  given_by  = alerting && data_unit_1
  quiet_in  = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells     = [terrain_warning]
  procedure = terrain_off_drill
}

alert "too_low" {
  title     = "Too low"
  level     = "warning"
  message   = "Too low"
  when      = held(too_low_believed, 1)
  true_when = real.height_ft < 450 && !real.on_ground
  until     = terrain_switch == "silent"
  repeats_s = 3
  procedure = too_low_drill
}

alert "traffic_off" {
  title      = "Collision avoidance off"
  level      = "advisory"
  message    = "No collision avoidance"
  when       = held(!traffic_computer || !transponder_answers, 10)
  quiet_in   = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost
  tells      = [traffic_warning]
}

alert "transponder_off" {
  title      = "Transponder off"
  level      = "caution"
  message    = "Selected transponder off"
  when       = held(!transponder_answers, 5)
  quiet_in   = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  quiet_when = main_dc_lost
  tells      = [transponder_reply, traffic_warning]
  procedure  = transponder_off_drill
}

alert "satellite_off" {
  title    = "Satellite position off"
  level    = "advisory"
  message  = "No satellite position"
  when     = held(!satnav_1 && !satnav_2, 20)
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [satellite_position]
}
indication "position_quality" {
  title   = "Position quality label"
  shows   = satnav_1 || satnav_2 ? "satellite" : position_known ? "inertial" : "none"
  means   = satnav_1 || satnav_2 ? "satellite" : position_known ? "inertial" : "none"
  lit_by  = route_display && route_computed
  place   = "navigation display"
  tells   = [satellite_position]
}
indication "route_line" {
  title   = "Route line"
  shows   = route_computed && position_known
  means   = route_guidance
  lit_by  = route_display
  place   = "navigation display"
}
indication "distance_readout" {
  title   = "DME distance"
  shows   = real.to_go_nm
  means   = real.to_go_nm
  within  = 1
  lit_by  = right_flight_picture && distance_unit
  place   = "right outer screen"
  tells   = [distance_to_beacon]
}
indication "beacon_pointer" {
  title   = "VOR pointer"
  shows   = beacon_receiver_1
  means   = beacon_receiver_1
  lit_by  = left_flight_picture
  place   = "left outer screen"
  tells   = [beacon_navigation]
}
indication "beam_left" {
  title   = "Localiser and glide path deviation, left"
  shows   = receivers_tuned && landing_receiver_1
  means   = receivers_tuned && landing_receiver_1
  lit_by  = left_flight_picture
  place   = "left outer screen"
  tells   = [approach_guidance]
}
indication "beam_right" {
  title   = "Localiser and glide path deviation, right"
  shows   = receivers_tuned && landing_receiver_2
  means   = receivers_tuned && landing_receiver_2
  lit_by  = right_flight_picture
  place   = "right outer screen"
  tells   = [approach_guidance]
}

# The lamp follows the interrogations that arrive, not the replies that leave.
indication "transponder_lamp" {
  title   = "Transponder reply lamp"
  shows   = transponder_answers
  means   = transponder_reply
  lit_by  = dc_vital
  place   = "centre pedestal"
}
indication "terrain_silent_lamp" {
  title   = "Terrain warning switch: silent lamp"
  shows   = terrain_switch == "silent"
  means   = terrain_switch == "silent"
  lit_by  = lamp_power_left
  place   = "centre pedestal"
}
indication "radar_label" {
  title   = "Weather radar label"
  shows   = weather_radar
  means   = weather_radar
  lit_by  = route_display
  place   = "navigation display"
  tells   = [weather_picture]
}
indication "traffic_label" {
  title   = "Traffic label"
  shows   = traffic_computer
  means   = traffic_warning
  lit_by  = route_display
  place   = "navigation display"
}
