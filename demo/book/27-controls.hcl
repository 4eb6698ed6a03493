# Flight controls: skeleton of the shared ids; the whole chapter follows.
unit "control_computer_1" {
  title   = "Flight control computer 1"
  chapter = 27
  needs   = dc_vital
}
unit "control_computer_2" {
  title   = "Flight control computer 2"
  chapter = 27
  needs   = dc_right
}
control "flap_lever" {
  title     = "Flap lever"
  chapter   = 27
  positions = ["0", "1", "2", "3"]
  initial   = "1"
}
control "spoiler_lever" {
  title     = "Spoiler lever"
  chapter   = 27
  positions = ["in", "armed", "half", "full"]
  initial   = "in"
}
signal "flaps_move" {
  title   = "The flaps follow their lever"
  chapter = 27
  value   = hyd_left || hyd_right
}
signal "slats_move" {
  title   = "The slats follow their lever"
  chapter = 27
  value   = hyd_left || hyd_right
}
