# Landing gear: skeleton of the shared ids; the whole chapter follows.
control "gear_lever" {
  title     = "Gear lever"
  chapter   = 32
  positions = ["up", "down"]
  initial   = "down"
}
control "autobrake_selector" {
  title     = "Automatic brake selector"
  chapter   = 32
  positions = ["off", "stop", "low", "medium"]
  initial   = "stop"
}
control "parking_brake_lever" {
  title     = "Parking brake lever"
  chapter   = 32
  positions = ["off", "set"]
  initial   = "off"
}
unit "gear_sense_a" {
  title   = "Gear sensing box A"
  chapter = 32
  needs   = dc_left
}
unit "gear_sense_b" {
  title   = "Gear sensing box B"
  chapter = 32
  needs   = dc_right
}
signal "gear_down" {
  title   = "Gear down and locked"
  chapter = 32
  initial = true
  set     = held(gear_lever == "down" && hyd_right, 9)
  reset   = held(gear_lever == "up" && hyd_right, 2)
}
# What each box believes. A box without power says "in the air".
signal "sensed_on_ground_a" {
  title   = "Sensing box A believes the aircraft is on the ground"
  chapter = 32
  value   = gear_sense_a && real.on_ground
}
signal "sensed_on_ground_b" {
  title   = "Sensing box B believes the aircraft is on the ground"
  chapter = 32
  value   = gear_sense_b && real.on_ground
}
