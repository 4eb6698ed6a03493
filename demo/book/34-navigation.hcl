# ATA 34, navigation: route computers, receivers, terrain and traffic warning.

unit "satnav_1" {
  title         = "Satellite receiver 1"
  chapter       = 34
  needs         = dc_vital
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "satnav_2" {
  title         = "Satellite receiver 2"
  chapter       = 34
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "route_computer_1" {
  title         = "Route computer 1"
  chapter       = 34
  needs         = dc_left
  rate_per_hour = 5e-5
  place         = "electronics bay, left rack"
}

unit "route_computer_2" {
  title         = "Route computer 2"
  chapter       = 34
  needs         = dc_right
  rate_per_hour = 5e-5
  place         = "electronics bay, right rack"
}

# The landing receivers take their beam from the ground. They have no panel of their
# own: the route computers tune them.
unit "landing_receiver_1" {
  title         = "Landing receiver 1"
  chapter       = 34
  needs         = dc_vital
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "landing_receiver_2" {
  title         = "Landing receiver 2"
  chapter       = 34
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "beacon_receiver_1" {
  title         = "Beacon receiver 1"
  chapter       = 34
  needs         = dc_vital
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "beacon_receiver_2" {
  title         = "Beacon receiver 2"
  chapter       = 34
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "distance_unit" {
  title         = "Distance measuring unit"
  chapter       = 34
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "transponder_1" {
  title         = "Transponder 1"
  chapter       = 34
  needs         = dc_vital
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "transponder_2" {
  title         = "Transponder 2"
  chapter       = 34
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

control "transponder_selector" {
  title     = "Transponder selector"
  chapter   = 34
  positions = ["1", "2"]
  initial   = "2"
  place     = "centre pedestal"
}

unit "traffic_computer" {
  title         = "Traffic warning computer"
  chapter       = 34
  needs         = dc_right
  rate_per_hour = 4e-5
  place         = "electronics bay, right rack"
}

unit "terrain_computer" {
  title         = "Terrain warning computer"
  chapter       = 34
  needs         = ac_left
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

unit "weather_radar" {
  title         = "Weather radar"
  chapter       = 34
  needs         = ac_right
  rate_per_hour = 8e-5
  place         = "nose"
}

control "terrain_switch" {
  title     = "Terrain warning switch"
  chapter   = 34
  positions = ["normal", "silent"]
  initial   = "normal"
  place     = "centre pedestal"
}

signal "transponder_answers" {
  title   = "The selected transponder answers"
  chapter = 34
  value   = transponder_selector == "1" ? transponder_1 : transponder_2
}

signal "position_known" {
  title   = "The route computers know where the aircraft is"
  chapter = 34
  value   = any(satnav_1, satnav_2, inertial_1, inertial_2)
}

signal "route_computed" {
  title   = "A route computer works"
  chapter = 34
  value   = route_computer_1 || route_computer_2
}

# ------------------------------------------------------------ the approach aid

# A route computer tunes the receivers and keeps them tuned while the approach is
# armed. On the beam they lock their frequency and remember it without help.
signal "receivers_tuned" {
  title   = "The landing receivers are tuned"
  chapter = 34
  set     = approach_button == "armed" && route_computed
  reset   = approach_button == "off" || (!landing_receiver_1 && !landing_receiver_2) || (!route_computed && !beam_captured)
}

signal "beam_received" {
  title   = "A landing receiver gives the beam"
  chapter = 34
  value   = receivers_tuned && (landing_receiver_1 || landing_receiver_2)
}

# ----------------------------------------------------------------- functions

function "route_guidance" {
  title    = "Route guidance"
  chapter  = 34
  works    = route_computed && position_known
  wanted   = climb || cruise || descent || approach
  severity = "major"
}

function "second_route_computer" {
  title    = "A second route computer"
  chapter  = 34
  works    = route_computer_1 && route_computer_2
  wanted   = climb || cruise || descent || approach
  severity = "minor"
}

function "satellite_position" {
  title    = "Satellite position"
  chapter  = 34
  works    = satnav_1 || satnav_2
  severity = "minor"
}

function "beacon_navigation" {
  title    = "Navigation by ground beacons"
  chapter  = 34
  works    = beacon_receiver_1 || beacon_receiver_2
  severity = "minor"
}

function "distance_to_beacon" {
  title    = "Distance to the beacon"
  chapter  = 34
  works    = distance_unit
  wanted   = descent || approach
  severity = "minor"
}

function "transponder_reply" {
  title    = "Replies to radar and to other aircraft"
  chapter  = 34
  works    = transponder_answers
  wanted   = !taxi_out && !taxi_in
  severity = "major"
}

function "traffic_warning" {
  title    = "Traffic warning"
  chapter  = 34
  works    = traffic_computer && transponder_answers && (radio_alt_1 || radio_alt_2)
  wanted   = first_climb || climb || cruise || descent || approach
  severity = "major"
}

function "terrain_warning" {
  title    = "Terrain warning"
  chapter  = 34
  works    = terrain_computer && position_known && height_for_boxes_good && terrain_switch == "normal"
  wanted   = lift_off || first_climb || climb || descent || approach || final
  severity = "hazardous"
}

function "weather_picture" {
  title    = "Weather picture"
  chapter  = 34
  works    = weather_radar && route_display
  wanted   = climb || cruise || descent || approach
  severity = "minor"
}

# ------------------------------------------------------------------- alerts

alert "route_computers_off" {
  title     = "Route computers off"
  chapter   = 34
  level     = "caution"
  message   = "Both route computers off"
  when      = !route_computer_1 && !route_computer_2
  given_by  = alert_computer_1
  quiet_in  = [take_off_roll, take_off_fast, lift_off, first_climb, final, landing_roll]
  tells     = [route_guidance, second_route_computer]
  procedure = route_computers_off_drill
}

alert "route_computer_off" {
  title    = "One route computer off"
  chapter  = 34
  level    = "advisory"
  message  = "One route computer off"
  when     = held(route_computer_1 != route_computer_2, 30)
  quiet_in = [take_off_roll, take_off_fast, lift_off, first_climb, final, landing_roll]
  tells    = [second_route_computer]
}

alert "terrain_off" {
  title     = "Terrain warning off"
  chapter   = 34
  level     = "caution"
  message   = "No terrain warning"
  when      = !terrain_computer
  given_by  = alerting && data_unit_1
  quiet_in  = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells     = [terrain_warning]
  procedure = terrain_off_drill
}

# What the terrain computer shouts when it believes that the aircraft is below
# 400 ft of radio height, fast, and not set up to land. It believes what the
# radio altimeter says.
signal "too_low_believed" {
  title   = "The terrain computer believes that the aircraft is too low"
  chapter = 34
  value = (terrain_computer && airborne_believed && radio_height_trusted && height_for_boxes_ft < 400
  && flap_lever != "3" && airspeed_for_boxes_kt > 170)
}

# It calls itself airborne from the speed: it has no wire to the wheels.
signal "airborne_believed" {
  title   = "The terrain computer believes that the aircraft flies"
  chapter = 34
  value   = held(airspeed_for_boxes_kt > 150, 30)
}

alert "too_low" {
  title     = "Too low"
  chapter   = 34
  level     = "warning"
  message   = "Too low"
  when      = held(too_low_believed, 1)
  true_when = real.height_ft < 400 && !real.on_ground
  until     = terrain_switch == "silent"
  repeats_s = 3
  procedure = too_low_drill
}

alert "traffic_off" {
  title    = "Traffic warning off"
  chapter  = 34
  level    = "advisory"
  message  = "No traffic warning"
  when     = held(!traffic_computer || !transponder_answers, 10)
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [traffic_warning]
}

alert "transponder_off" {
  title     = "Transponder off"
  chapter   = 34
  level     = "caution"
  message   = "Selected transponder off"
  when      = held(!transponder_answers, 5)
  quiet_in  = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells     = [transponder_reply, traffic_warning]
  procedure = transponder_off_drill
}

alert "satellite_off" {
  title    = "Satellite position off"
  chapter  = 34
  level    = "advisory"
  message  = "No satellite position"
  when     = held(!satnav_1 && !satnav_2, 20)
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [satellite_position]
}

# -------------------------------------------------------------- indications

indication "position_quality" {
  title   = "Position quality label"
  chapter = 34
  shows   = satnav_1 || satnav_2 ? "satellite" : position_known ? "inertial" : "none"
  means   = satnav_1 || satnav_2 ? "satellite" : position_known ? "inertial" : "none"
  lit_by  = route_display && route_computed
  place   = "route picture"
  tells   = [satellite_position]
}

indication "route_line" {
  title   = "Route line"
  chapter = 34
  shows   = route_computed && position_known
  means   = route_guidance
  lit_by  = route_display
  place   = "route picture"
}

indication "distance_readout" {
  title   = "Distance to the beacon"
  chapter = 34
  shows   = real.to_go_nm
  means   = real.to_go_nm
  within  = 1
  lit_by  = right_flight_picture && distance_unit
  place   = "screen 5"
  tells   = [distance_to_beacon]
}

indication "beacon_pointer" {
  title   = "Beacon pointer"
  chapter = 34
  shows   = beacon_receiver_1
  means   = beacon_receiver_1
  lit_by  = left_flight_picture
  place   = "screen 1"
  tells   = [beacon_navigation]
}

indication "beam_left" {
  title   = "Landing beam deviation, left"
  chapter = 34
  shows   = receivers_tuned && landing_receiver_1
  means   = receivers_tuned && landing_receiver_1
  lit_by  = left_flight_picture
  place   = "screen 1"
  tells   = [approach_guidance]
}

indication "beam_right" {
  title   = "Landing beam deviation, right"
  chapter = 34
  shows   = receivers_tuned && landing_receiver_2
  means   = receivers_tuned && landing_receiver_2
  lit_by  = right_flight_picture
  place   = "screen 5"
  tells   = [approach_guidance]
}

# The lamp follows the interrogations that arrive, not the replies that leave.
indication "transponder_lamp" {
  title   = "Transponder reply lamp"
  chapter = 34
  shows   = transponder_answers
  means   = transponder_reply
  lit_by  = dc_vital
  place   = "centre pedestal"
}

indication "terrain_silent_lamp" {
  title   = "Terrain warning switch: silent lamp"
  chapter = 34
  shows   = terrain_switch == "silent"
  means   = terrain_switch == "silent"
  lit_by  = lamp_power_left
  place   = "centre pedestal"
}

indication "radar_label" {
  title   = "Weather radar label"
  chapter = 34
  shows   = weather_radar
  means   = weather_radar
  lit_by  = route_display
  place   = "route picture"
  tells   = [weather_picture]
}

indication "traffic_label" {
  title   = "Traffic label"
  chapter = 34
  shows   = traffic_computer
  means   = traffic_warning
  lit_by  = route_display
  place   = "route picture"
}
