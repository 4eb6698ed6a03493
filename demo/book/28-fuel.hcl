# Fuel: skeleton of the shared ids; the whole chapter follows.
# The feed to an engine never reads a bus directly (that would be a loop): the
# loss of pump pressure is felt through a timer.
unit "feed_valve_left" {
  title   = "Left engine fuel valve"
  chapter = 28
}
unit "feed_valve_right" {
  title   = "Right engine fuel valve"
  chapter = 28
}
signal "fuel_feed_left" {
  title   = "Fuel reaches the left engine"
  chapter = 28
  value   = feed_valve_left
}
signal "fuel_feed_right" {
  title   = "Fuel reaches the right engine"
  chapter = 28
  value   = feed_valve_right
}
