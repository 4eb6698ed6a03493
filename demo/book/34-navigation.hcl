# ATA 34, navigation: flight management computers, receivers, terrain and traffic warning.

chapter = 34

unit "satnav_1" {
  title         = "Satellite navigation receiver 1"
  needs         = dc_vital
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

unit "satnav_2" {
  title         = "Satellite navigation receiver 2"
  needs         = dc_right
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, right rack"
}

unit "route_computer_1" {
  title         = "Flight management computer 1"
  needs         = dc_left
  rate_per_hour = 5e-5
  place         = "electronics bay, left rack"
}

unit "route_computer_2" {
  title         = "Flight management computer 2"
  needs         = dc_right
  rate_per_hour = 5e-5
  place         = "electronics bay, right rack"
}

# The ILS receivers take their beam from the ground. They have no panel of their
# own: the flight management computers tune them.
unit "landing_receiver_1" {
  title         = "ILS receiver 1"
  needs         = dc_vital
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

unit "landing_receiver_2" {
  title         = "ILS receiver 2"
  needs         = dc_right
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, right rack"
}

unit "beacon_receiver_1" {
  title         = "VOR receiver 1"
  needs         = dc_vital
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

unit "beacon_receiver_2" {
  title         = "VOR receiver 2"
  needs         = dc_right
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, right rack"
}

unit "distance_unit" {
  title         = "Distance measuring equipment (DME)"
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "transponder_1" {
  title         = "Transponder 1"
  needs         = dc_vital
  rate_per_hour = 3e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

unit "transponder_2" {
  title         = "Transponder 2"
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

control "transponder_selector" {
  title     = "Transponder selector"
  positions = ["1", "2"]
  initial   = "2"
  place     = "centre pedestal"
}

unit "traffic_computer" {
  title         = "Collision avoidance computer (ACAS)"
  needs         = dc_right
  rate_per_hour = 4e-5
  place         = "electronics bay, right rack"
}

unit "terrain_computer" {
  title         = "Terrain awareness and warning computer (TAWS)"
  needs         = ac_left
  rate_per_hour = 4e-5
  place         = "electronics bay, left rack"
}

unit "weather_radar" {
  title         = "Weather radar"
  needs         = ac_right
  rate_per_hour = 8e-5
  place         = "nose"
}

control "terrain_switch" {
  title     = "Terrain warning switch"
  positions = ["normal", "silent"]
  initial   = "normal"
  place     = "centre pedestal"
}

signal "transponder_answers" {
  title   = "The selected transponder answers"
  value   = transponder_selector == "1" ? transponder_1 : transponder_2
}

signal "position_known" {
  title   = "The flight management computers know where the aircraft is"
  value   = any(satnav_1, satnav_2, inertial_1, inertial_2)
}

signal "route_computed" {
  title   = "A flight management computer works"
  value   = route_computer_1 || route_computer_2
}

# A flight management computer tunes the receivers and keeps them tuned while the approach is
# armed. On the beam they lock their frequency and remember it without help.
signal "receivers_tuned" {
  title   = "The ILS receivers are tuned"
  set     = approach_button == "armed" && route_computed
  reset   = approach_button == "off" || (!landing_receiver_1 && !landing_receiver_2) || (!route_computed && !beam_captured)
}

signal "beam_received" {
  title   = "An ILS receiver gives the beam"
  value   = receivers_tuned && (landing_receiver_1 || landing_receiver_2)
}

# The terrain computer shouts when it believes that the aircraft is below 450 ft of radio height, fast, and not set up
# to land. It believes what the radio altimeter says.
signal "too_low_believed" {
  title   = "The terrain computer believes that the aircraft is too low"
  value = (terrain_computer && airborne_believed && radio_height_trusted && height_for_boxes_ft < 450
  && flap_lever != "full" && airspeed_for_boxes_kt > 170)
}

# It calls itself airborne from the speed: it has no wire to the wheels.
signal "airborne_believed" {
  title   = "The terrain computer believes that the aircraft flies"
  value   = held(airspeed_for_boxes_kt > 150, 30)
}
