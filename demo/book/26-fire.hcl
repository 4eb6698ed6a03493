# Fire protection: skeleton of the shared ids; the whole chapter follows.
control "fire_handle_left" {
  title     = "Left engine fire handle"
  chapter   = 26
  positions = ["in", "pulled"]
  initial   = "in"
}
control "fire_handle_right" {
  title     = "Right engine fire handle"
  chapter   = 26
  positions = ["in", "pulled"]
  initial   = "in"
}
control "fire_handle_apu" {
  title     = "Auxiliary power unit fire handle"
  chapter   = 26
  positions = ["in", "pulled"]
  initial   = "in"
}
